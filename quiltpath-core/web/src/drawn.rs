//! What the page asks about drawings and changes: a drawing as the plan takes it, a picture read to
//! lines, a change as edits of the plan.

use quiltpath_core::Error;
use quiltpath_core::error::PlanFault;
use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::json::{check_drawing_name, read_plan, write_plan};
use quiltpath_core::io::overlay::write_overlay;
use quiltpath_core::io::picture_read::read_picture;
use quiltpath_core::io::svg_write::write_strokes;
use quiltpath_core::io::view::view_drawing;
use quiltpath_core::io::words::scanned;
use quiltpath_core::plan::spec::BySide;
use quiltpath_core::plan::{Change, DrawnFor, Severity};
use quiltpath_core::raster::{ScanOptions, scan};
use quiltpath_core::units::Unit;
use quiltpath_core::worksheet::requests;
use serde_json::{Value, json};

use crate::desk::Desk;

/// Pixels an inch where neither marks nor a width say how large a picture is: common practice for
/// scans of drawings.
const GUESSED_DPI: f64 = 200.0;

impl Desk {
    /// The drawing of a border as the plan takes it, as JSON; nothing where the plan names none, or
    /// none of that name is there yet.
    ///
    /// # Errors
    ///
    /// As [`view_drawing`], and for a drawing that can't be read.
    pub fn drawing(&self, border: usize, role: DrawnFor) -> Result<Value, Error> {
        let plan = self.sheet.plan();
        let Some(of) = plan.borders.get(border) else {
            return Err(PlanFault::NotThere {
                what: "border",
                number: border,
                count: plan.borders.len(),
            }
            .into());
        };
        let (name, layers) = match role {
            DrawnFor::Corner => (of.corner.motif.as_ref(), &of.corner.layers),
            DrawnFor::Side => {
                let first = of.side.motif.iter().flat_map(BySide::values).next();
                (first, &of.side.layers)
            }
        };
        let named = requests(plan)
            .into_iter()
            .find(|request| Some(&request.name) == name && request.layers == *layers);
        let Some(request) = named.filter(|one| self.sheet.drawings().contains_key(&one.name))
        else {
            return Ok(Value::Null);
        };
        let drawing = self.sheet.drawing(&request)?;
        let seen = view_drawing(plan, border, role, &drawing)?;
        Ok(serde_json::to_value(seen).unwrap_or_default())
    }
}

/// A picture of a drawing on paper, read to lines, as JSON.
///
/// `drawing` is an SVG of its strokes at true size, `overlay` one of the lines on the picture,
/// `notes` what there is to say, `sized` whether its size is known. `width` is how wide the drawing
/// is in millimetres, where it is known.
///
/// # Errors
///
/// A scan error for what is no picture, is too large, or shows no line.
pub fn scan_picture(
    name: &str,
    bytes: &[u8],
    width: Option<f64>,
    unit: Unit,
) -> Result<Value, Error> {
    let options = match width {
        Some(width) => ScanOptions::default().with_width_mm(width)?,
        None => ScanOptions::default().with_pixel_mm(Unit::In.in_mm() / GUESSED_DPI)?,
    };
    let picture = read_picture(bytes)?;
    let found = scan(name, &picture, &options)?;
    let (mut drawing, mut overlay) = (String::new(), String::new());
    write_strokes(&mut drawing, &found.drawing)?;
    write_overlay(&mut overlay, &picture, &found)?;
    let notes = scanned(&found.report, unit).into_iter().map(|sentence| {
        let look = sentence.severity > Severity::Note;
        json!({ "says": sentence.text, "look": look })
    });
    Ok(json!({
        "drawing": drawing,
        "overlay": overlay,
        "notes": notes.collect::<Vec<Value>>(),
        "sized": width.is_some() || found.report.blank.is_some(),
    }))
}

/// Reads a drawing, and drops it: whether it can be taken beside a plan in this unit.
///
/// # Errors
///
/// As [`LineDrawing::read`], and a data error for a name that no file may have.
pub fn check_drawing(name: &str, bytes: &[u8], unit: Unit) -> Result<(), Error> {
    check_drawing_name(name)?;
    let options = ReadOptions::default().with_unit(Some(unit));
    LineDrawing::read(name, bytes, &options)?.strokes(Unit::Mm)?;
    Ok(())
}

/// A change of a plan, both as JSON, as edits: key paths with the values that they get, null where
/// a key goes. What the change leaves alone stays as it is written.
///
/// # Errors
///
/// As [`read_plan`] and [`Change::apply`]; a data error for what is no change.
pub fn edits_of(plan: &str, change: &Change) -> Result<Vec<(Vec<Value>, Value)>, Error> {
    let before = read_plan(plan.as_bytes())?;
    let after = change.apply(&before)?;
    let value = |plan| serde_json::from_str::<Value>(&write_plan(plan)).unwrap_or_default();
    let mut edits = Vec::new();
    differences(&value(&before), &value(&after), &mut Vec::new(), &mut edits);
    Ok(edits)
}

fn differences(
    old: &Value,
    new: &Value,
    path: &mut Vec<Value>,
    edits: &mut Vec<(Vec<Value>, Value)>,
) {
    match (old, new) {
        (Value::Object(old), Value::Object(new)) => {
            let keys = old
                .keys()
                .chain(new.keys().filter(|key| !old.contains_key(*key)));
            for key in keys {
                let [before, after] = [old, new].map(|map| map.get(key).unwrap_or(&Value::Null));
                path.push(json!(key));
                differences(before, after, path, edits);
                path.pop();
            }
        }
        (Value::Array(old), Value::Array(new)) if old.len() == new.len() => {
            for (at, (before, after)) in old.iter().zip(new).enumerate() {
                path.push(json!(at));
                differences(before, after, path, edits);
                path.pop();
            }
        }
        _ if old != new => edits.push((path.clone(), new.clone())),
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fault::Fault;

    const PLAN: &str = r#"{"unit": "in", "quilt": {"width": "64 1/4", "height": 80},
        "borders": [{"width": 6, "corner": {"style": "leg", "motif": "l.json"},
                     "side": {"motif": "wave.json", "repeats": 7}}]}"#;

    fn desk() -> Desk {
        let quilt = json!({
            "plan": serde_json::from_str::<Value>(PLAN).expect("JSON"),
            "drawings": { "wave.json": r#"{"unit":"in","points":[[0,1],[1,0],[3,2],[4,1]]}"# },
        });
        Desk::open(&quilt.to_string()).expect("a quilt")
    }

    #[test]
    fn a_drawing_is_shown_as_the_plan_takes_it() {
        let mut desk = desk();
        let side = desk.drawing(0, DrawnFor::Side).expect("a repeat");
        assert_eq!(side["width"]["says"], "4 in");
        assert_eq!(side["meets"], "Level: each repeat runs on into the next.");
        // Not there yet.
        assert_eq!(desk.drawing(0, DrawnFor::Corner), Ok(Value::Null));
        desk.set_drawing(
            "l.json",
            br#"{"unit":"in","points":[[0,1],[4,1]]}"#.to_vec(),
        )
        .expect("a name");
        let fault = Fault::from(desk.drawing(0, DrawnFor::Corner).expect_err("no L"));
        assert_eq!(fault.kind, "leg");
        desk.set_drawing("l.json", b"no drawing".to_vec())
            .expect("a name");
        let fault = Fault::from(desk.drawing(0, DrawnFor::Corner).expect_err("no drawing"));
        assert_eq!(fault.file.as_deref(), Some("l.json"));
        assert!(desk.drawing(1, DrawnFor::Side).is_err());
    }

    #[test]
    fn a_change_edits_only_what_it_is_about() {
        let edits = |change: Change| edits_of(PLAN, &change).expect("edits");
        let five = Change::Repeats {
            border: 0,
            sides: vec![0, 2],
            repeats: Some(5),
        };
        let numbers = json!({ "top": 5, "right": 7, "bottom": 5, "left": 7 });
        let path = |path: &[&str]| {
            let start = vec![json!("borders"), json!(0)];
            let rest = path.iter().map(|key| json!(key));
            start.into_iter().chain(rest).collect::<Vec<Value>>()
        };
        assert_eq!(edits(five), [(path(&["side", "repeats"]), numbers)]);
        let open = Change::Style {
            border: 0,
            style: quiltpath_core::plan::spec::CornerStyle::Open,
        };
        let mut all = edits(open);
        all.sort_by_key(|(path, _)| path.len() + path[3].as_str().map_or(0, str::len));
        assert_eq!(
            all,
            [
                (path(&["corner", "motif"]), Value::Null),
                (path(&["corner", "style"]), json!("open"))
            ]
        );
        assert!(
            edits_of(
                "{",
                &Change::Ease {
                    border: 0,
                    ease: true
                }
            )
            .is_err()
        );
    }

    #[test]
    fn what_is_no_drawing_is_refused() {
        let svg = br#"<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm"
            viewBox="0 0 9 9"><path d="M0 0L9 9"/></svg>"#;
        assert_eq!(check_drawing("a.svg", svg, Unit::In), Ok(()));
        for (name, bytes) in [
            ("a.svg", &b""[..]),
            ("a.svg", b"<svg xmlns=\"http://www.w3.org/2000/svg\"/>"),
            ("a.txt", b"a letter"),
            ("../a.svg", svg),
        ] {
            assert!(check_drawing(name, bytes, Unit::In).is_err(), "{name}");
        }

        let refused = scan_picture("page", b"no picture", None, Unit::In).expect_err("none");
        assert_eq!(Fault::from(refused).kind, "scan");
    }
}
