//! Plans from JSON, plans to JSON, and the JSON Schema of a plan.

use super::fault;
use super::kind::{self, Kind};
use crate::error::Error;
use crate::plan::PlanSpec;

/// What a plan's file should hold.
const A_PLAN: &str = "a plan such as {\"unit\":\"in\",\"quilt\":{…},\"borders\":[…]}";

/// Reads a plan from JSON.
///
/// ```
/// let plan = quiltpath_core::io::json::read_plan(br#"{
///     "unit": "in",
///     "quilt": { "width": "64 1/4", "height": 80 },
///     "borders": [{
///         "width": 6,
///         "corner": { "style": "leg", "motif": "corner.svg" },
///         "side": { "motif": "border.svg" }
///     }]
/// }"#)?;
/// assert_eq!(plan.borders[0].drawings().collect::<Vec<_>>(), ["corner.svg", "border.svg"]);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A data error with row, column and key path; an unknown key or value names the nearest
/// accepted one.
pub fn read_plan(bytes: &[u8]) -> Result<PlanSpec, Error> {
    let text = fault::utf8(bytes, A_PLAN)?;
    fault::from_str(text).map_err(|error| kind::instead(text, Kind::Plan).unwrap_or(error))
}

/// Writes a plan as JSON, indented, with a line end; read again it is the same plan.
///
/// ```
/// use quiltpath_core::io::json::{read_plan, write_plan};
/// use quiltpath_core::plan::PlanSpec;
/// use quiltpath_core::plan::spec::{QuiltSpec, UnitSpec};
///
/// let plan = PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(40.0, 60.0)).with_title("Baby quilt");
/// assert_eq!(read_plan(write_plan(&plan).as_bytes())?, plan);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[must_use]
pub fn write_plan(plan: &PlanSpec) -> String {
    // Plain structs with string keys can't fail to serialise into memory.
    let mut text = serde_json::to_string_pretty(plan).unwrap_or_default();
    text.push('\n');
    text
}

/// The JSON Schema (draft 2020-12) of a plan, made from the types that read it, indented.
///
/// ```
/// let schema: serde_json::Value = serde_json::from_str(&quiltpath_core::io::json::plan_schema()).unwrap();
/// assert_eq!(schema["properties"]["title"]["type"][0], "string");
/// ```
#[cfg(feature = "schema")]
#[must_use]
pub fn plan_schema() -> String {
    let schema = schemars::schema_for!(PlanSpec);
    let mut text = serde_json::to_string_pretty(&schema).unwrap_or_default();
    text.push('\n');
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::Value;

    const PLAN: &str = r#"{
  "unit": "in",
  "quilt": {
    "width": "64 1/4",
    "height": 80
  },
  "borders": [
    {
      "width": "6 in",
      "corner": {
        "style": "open"
      },
      "side": {
        "motif": "border.svg",
        "repeats": {
          "top": 8
        }
      }
    }
  ]
}
"#;

    #[test]
    fn a_plan_is_read_and_written_again() {
        let plan = read_plan(PLAN.as_bytes()).expect("a plan");
        assert_eq!(
            read_plan(write_plan(&plan).as_bytes()).expect("own output"),
            plan
        );
    }

    #[test]
    fn a_fault_has_its_place_and_what_is_accepted() {
        for (from, to, message) in [
            (
                "\"width\": \"6 in\"",
                "\"widht\": \"6 in\"",
                "9:13: borders[0].widht: unknown key \"widht\"; did you mean \"width\"?; accepted here: name, width, seam_gap",
            ),
            (
                "\"open\"",
                "\"opne\"",
                "borders[0].corner.style: unknown value \"opne\"; did you mean \"open\"?; accepted here: leg, open, butted",
            ),
            (
                "\"64 1/4\"",
                "\"64 1/4 furlong\"",
                "4:29: quilt.width: \"64 1/4 furlong\" has the unknown unit \"furlong\"",
            ),
            (
                "\"64 1/4\"",
                "true",
                "4:17: quilt.width: give a length: a number, or a text such as \"4 1/2 in\" or \"114 mm\", not true",
            ),
            (
                "{\n        \"style\": \"open\"\n      }",
                "\"open\"",
                "borders[0].corner: give keys and values in braces, as in {\"key\": \"value\"}, not the text \"open\"",
            ),
            (
                "{\n        \"style\": \"open\"\n      }",
                "[\"open\"]",
                "10:16: borders[0].corner: give keys and values in braces, as in {\"key\": \"value\"}, not a list",
            ),
            (
                "{\n    \"width\": \"64 1/4\",\n    \"height\": 80\n  }",
                "[64, 80]",
                "quilt: give keys and values in braces",
            ),
            ("\"open\"", "5", "corner.style: expected a word in quotes"),
            (
                "\"open\"",
                "open",
                "corner.style: expected a value, such as a number, a text in quotes",
            ),
            (
                "\"top\": 8",
                "\"top\": -8",
                "repeats.top: give a whole number, 0 or more, not -8",
            ),
            (
                "\"top\": 8",
                "top: 8",
                "a key has to stand in double quotes",
            ),
            (
                "\"top\": 8",
                "\"top\": 8,",
                "nothing follows this comma; remove it",
            ),
            ("\"64 1/4\"", "NaN", "NaN is not a JSON number"),
            (
                "  \"unit\": \"in\",\n",
                "",
                "the key \"unit\" is missing; add it",
            ),
        ] {
            let text = PLAN.replace(from, to);
            assert_ne!(text, PLAN);
            let error = read_plan(text.as_bytes()).expect_err(to).to_string();
            assert!(error.contains(message), "{to}: {error}");
        }
        let empty = read_plan(b" ").expect_err("empty").to_string();
        assert!(
            empty.starts_with("the file is empty; give a plan such as"),
            "{empty}"
        );
        let svg = read_plan(b" <svg/>").expect_err("no JSON").to_string();
        assert!(
            svg.starts_with("1:1: this is SVG or other XML, no JSON; give a plan such as"),
            "{svg}"
        );
        let cut = &PLAN[..PLAN.len() / 2];
        let cut = read_plan(cut.as_bytes()).expect_err("cut off").to_string();
        assert!(
            cut.contains("the text ends too soon") && !cut.contains('?'),
            "{cut}"
        );
    }

    #[test]
    fn no_list_stands_for_an_object_anywhere() {
        let plan: Value = serde_json::from_str(
            r#"{
            "unit": "in",
            "quilt": {"width": 60, "height": 80},
            "borders": [{
                "width": {"top": 6, "right": 6, "bottom": 6, "left": 6},
                "stations": [{"side": "top", "at": 10, "edge": 0.1, "seam": 0}],
                "corner": {"style": "leg", "motif": "a", "leg": {"elbow": "top_left"}, "trim": {"leg_depth": 1}},
                "side": {"motif": "b", "repeats": {"top": 4}}
            }],
            "stitching": {"tie_off": 4},
            "machine": {"throat": 20},
            "thread": {"tail": 1},
            "checks": {"closest": 1}
        }"#,
        )
        .expect("JSON");
        let read = |plan: &Value| read_plan(plan.to_string().as_bytes());
        assert!(read(&plan).is_ok(), "{:?}", read(&plan));
        let places = objects(&plan, "");
        assert_eq!(places.len(), 14, "{places:?}");
        for place in places {
            let mut spoilt = plan.clone();
            let object = spoilt.pointer_mut(&place).expect("an object");
            let values = object.as_object().expect("an object").values();
            *object = values.cloned().collect();
            // What is given by side may be a list in the order of the sides.
            let by_side = ["/width", "/repeats"]
                .iter()
                .any(|end| place.ends_with(end));
            if by_side {
                assert!(read(&spoilt).is_ok(), "{place}");
                continue;
            }
            let error = read(&spoilt).expect_err("a list").to_string();
            let path = place.replace("/0", "[0]").replace('/', ".");
            let wanted = format!(
                "{}: give keys and values in braces, as in {{\"key\": \"value\"}}, not a list",
                path.trim_start_matches('.')
            );
            assert!(
                error.ends_with(wanted.trim_start_matches(": ")),
                "{place}: {error}"
            );
        }
    }

    fn objects(value: &Value, place: &str) -> Vec<String> {
        let inside: Vec<(String, &Value)> = match value {
            Value::Object(map) => map
                .iter()
                .map(|(key, value)| (key.clone(), value))
                .collect(),
            Value::Array(list) => list
                .iter()
                .enumerate()
                .map(|(at, value)| (at.to_string(), value))
                .collect(),
            _ => Vec::new(),
        };
        let own = value.is_object().then(|| place.to_owned());
        let below = inside
            .into_iter()
            .flat_map(|(key, value)| objects(value, &format!("{place}/{key}")));
        own.into_iter().chain(below).collect()
    }

    #[cfg(feature = "schema")]
    #[test]
    fn the_schema_names_every_key_of_a_plan() {
        let schema = plan_schema();
        let whole: Value = serde_json::from_str(&schema).expect("JSON");
        assert_eq!(whole["required"], serde_json::json!(["unit", "quilt"]));
        for key in [
            "seam_gap",
            "arrangement",
            "max_stretch_percent",
            "top_bottom",
            "2020-12",
        ] {
            assert!(schema.contains(key), "{key}");
        }
    }
}
