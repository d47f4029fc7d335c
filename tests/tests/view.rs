//! What a page shows of a plan: the picture's parts are the picture, every finding and every place
//! is in one line, numbers to choose from are those of brute force, and changes do what they say.

use std::collections::{HashMap, HashSet};
use std::path::{Path, PathBuf};

use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::json::{read_plan, write_plan};
use quiltpath_core::io::picture::{picture_parts, write_picture};
use quiltpath_core::io::view::{DrawingView, View, view, view_drawing, write_view};
use quiltpath_core::io::words;
use quiltpath_core::plan::spec::{BySide, EndSpec};
use quiltpath_core::plan::{
    Change, DrawnFor, FindingKind, PieceKind, PlanSpec, Severity, Solved, Stitching, solve,
    stitch_plan,
};
use quiltpath_core::units::Unit;

/// How many letters high the longer side is in the picture.
const LETTERS: f64 = 46.0;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/demo")
}

fn plans() -> Vec<(String, PlanSpec)> {
    let names = std::fs::read_dir(folder()).expect("the folder");
    let names = names.filter_map(|entry| entry.expect("an entry").file_name().into_string().ok());
    let mut names: Vec<String> = names.filter(|name| name.ends_with(".json")).collect();
    names.sort();
    assert!(names.len() >= 13);
    names
        .into_iter()
        .map(|name| (name.clone(), plan(&name)))
        .collect()
}

fn plan(name: &str) -> PlanSpec {
    let bytes = std::fs::read(folder().join(name)).expect("a plan's file");
    read_plan(&bytes).unwrap_or_else(|e| panic!("{name}: {e}"))
}

fn solved(plan: &PlanSpec) -> Solved {
    let solved = solve(plan, |request| {
        let bytes = std::fs::read(folder().join(&request.name)).expect("a motif's file");
        let options = ReadOptions::default().with_unit(Some(plan.unit.into()));
        LineDrawing::read(&request.name, &bytes, &options)?.strokes(Unit::Mm)
    });
    solved.unwrap_or_else(|e| panic!("{:?}: {e}", plan.title))
}

fn seen(plan: &PlanSpec, solved: &Solved, stitching: Option<&Stitching>) -> View {
    view(plan, solved, stitching, LETTERS).expect("a view")
}

#[test]
fn the_parts_of_the_picture_are_the_picture_and_no_key_comes_twice() {
    for (name, plan) in plans() {
        let solved = solved(&plan);
        let stitching = stitch_plan(&plan, &solved).expect("stitched");
        for stitching in [None, Some(&stitching)] {
            let picture = write_picture(&solved, stitching).expect("a picture");
            let parts = picture_parts(&solved, stitching, LETTERS).expect("parts");
            let together: String = parts
                .parts
                .iter()
                .map(|part| part.markup.as_str())
                .collect();
            let (_, drawn) = picture.split_once("</style>").expect("a style");
            assert_eq!(drawn, together + "</svg>\n", "{name}");
            let keys: HashSet<&str> = parts.parts.iter().map(|part| part.key.as_str()).collect();
            assert_eq!(keys.len(), parts.parts.len(), "{name}");
            for piece in &solved.pieces {
                assert!(keys.contains(format!("piece {}", piece.name).as_str()));
            }
        }
    }
}

#[test]
fn only_what_differs_has_other_markup() {
    // Another number of repeats on one side leaves every other piece as it is.
    let plan = plan("plan.json");
    let before = solved(&plan);
    let six = Change::Repeats {
        border: 0,
        sides: vec![0],
        repeats: Some(6),
    };
    let after = solved(&six.apply(&plan).expect("a plan"));
    let parts = |solved| picture_parts(solved, None, LETTERS).expect("parts").parts;
    let before: HashMap<String, String> = (parts(&before).into_iter())
        .map(|part| (part.key, part.markup))
        .collect();
    let changed: Vec<String> = (parts(&after).into_iter())
        .filter(|part| before.get(&part.key) != Some(&part.markup))
        .map(|part| part.key)
        .filter(|key| key.starts_with("piece ") || ["cloth", "measures"].contains(&key.as_str()))
        .collect();
    assert_eq!(changed, ["piece border-side-top"]);
}

#[test]
fn every_finding_is_in_one_line_with_all_its_places() {
    let mut codes = HashSet::new();
    for (name, plan) in plans() {
        let solved = solved(&plan);
        let stitching = stitch_plan(&plan, &solved).expect("stitched");
        let view = seen(&plan, &solved, Some(&stitching));
        let found: Vec<_> = stitching.all_findings(&solved).collect();
        let kinds: Vec<_> = view.look.iter().chain(&view.know).collect();
        let numbers: Vec<usize> = kinds.iter().map(|kind| kind.number).collect();
        assert_eq!(numbers, (1..=kinds.len()).collect::<Vec<_>>(), "{name}");
        for finding in &found {
            codes.insert(finding.code());
            let says = words::finding_brief(finding, &solved);
            let holds = kinds.iter().flat_map(|kind| {
                let same = kind.code == finding.code() && kind.severity == finding.severity.name();
                let lines = kind.lines.iter().filter(move |_| same);
                lines.filter(|line| line.says == says)
            });
            let lines: Vec<_> = holds.collect();
            assert_eq!(lines.len(), 1, "{name}: {says}");
            for place in &finding.places {
                let at = [place.x, place.y].map(|mm| mm / solved.unit.in_mm());
                let there = |&[x, y]: &[f64; 2]| (x - at[0]).hypot(y - at[1]) < 1e-8;
                assert!(lines[0].places.iter().any(there), "{name}: {says}");
            }
            if let Some(about) = words::finding_about(finding, &solved) {
                assert!(lines[0].about.contains(&about), "{name}: {says}");
            }
        }
        let places: usize = kinds
            .iter()
            .flat_map(|kind| &kind.lines)
            .map(|line| line.places.len())
            .sum();
        assert_eq!(
            places,
            found
                .iter()
                .map(|finding| finding.places.len())
                .sum::<usize>()
        );
        let count: usize = kinds.iter().map(|kind| kind.count).sum();
        assert_eq!(
            count,
            found
                .iter()
                .map(|finding| finding.places.len().max(1))
                .sum::<usize>()
        );
        assert!(view.know.iter().all(|kind| kind.severity == "note"));
        assert!(view.look.iter().all(|kind| kind.severity != "note"));
        // A pin for each kind that has a place, with its number.
        for kind in kinds {
            let key = format!("pin {}", kind.number);
            let pin = view.picture.parts.iter().find(|part| part.key == key);
            let placed = kind
                .lines
                .iter()
                .map(|line| line.places.len())
                .sum::<usize>();
            assert_eq!(pin.is_some(), placed > 0, "{name}: {}", kind.title);
            if let Some(pin) = pin {
                assert_eq!(pin.markup.matches("h0").count(), placed, "{name}");
            }
        }
    }
    assert!(codes.len() >= 6, "{codes:?}");
}

#[test]
fn short_sentences_name_no_key_and_end_with_a_full_stop() {
    for (name, plan) in plans() {
        let solved = solved(&plan);
        let stitching = stitch_plan(&plan, &solved).expect("stitched");
        for finding in stitching.all_findings(&solved) {
            let says = words::finding_brief(finding, &solved);
            assert!(says.ends_with('.') && !says.contains('"'), "{name}: {says}");
            assert!(
                says.starts_with(|c: char| c.is_uppercase() || c.is_numeric()),
                "{name}: {says}"
            );
        }
    }
}

#[test]
fn numbers_to_choose_from_are_the_allowed_ones_around_the_best() {
    for (name, plan) in plans() {
        let solved = solved(&plan);
        let view = seen(&plan, &solved, None);
        let sides = solved
            .pieces
            .iter()
            .filter(|piece| matches!(piece.kind, PieceKind::Side(_)));
        assert_eq!(view.sides.len(), sides.count(), "{name}");
        for side in &view.sides {
            let piece = solved.pieces.iter().find(|piece| piece.name == side.piece);
            let Some(PieceKind::Side(detail)) = piece.map(|piece| &piece.kind) else {
                panic!("{name}: no side {}", side.piece);
            };
            let chosen = detail.fit.chosen;
            let repeats: Vec<usize> = side.choices.iter().map(|choice| choice.repeats).collect();
            assert!(
                repeats.is_sorted() && repeats.contains(&side.chosen),
                "{name}"
            );
            for choice in &side.choices {
                // The same room for so many repeats.
                let stretch = chosen.stretch * chosen.repeats as f64 / choice.repeats as f64;
                assert!((choice.stretch - stretch).abs() < 1e-9, "{name}");
                assert_eq!(
                    choice.within,
                    (stretch - 1.0).abs() <= solved.max_stretch,
                    "{name}"
                );
            }
            let neighbours = [detail.fit.fewer, detail.fit.more].into_iter().flatten();
            for other in neighbours {
                assert!(repeats.contains(&other.repeats), "{name}: {repeats:?}");
            }
            // No number of those that are offered is nearer to 1 than the best.
            let cost = |repeats: usize| {
                (chosen.stretch * chosen.repeats as f64 / repeats as f64)
                    .ln()
                    .abs()
            };
            let least = repeats
                .iter()
                .map(|&number| cost(number))
                .fold(f64::INFINITY, f64::min);
            assert!(cost(side.best) <= least + 1e-12, "{name}");
        }
        // Each side is in one group.
        let mut grouped: Vec<usize> = view
            .groups
            .iter()
            .flat_map(|group| group.sides.clone())
            .collect();
        grouped.sort_unstable();
        assert_eq!(grouped, (0..view.sides.len()).collect::<Vec<_>>(), "{name}");
    }
    let plan = plan("plan.json");
    let groups = seen(&plan, &solved(&plan), None).groups;
    let titles: Vec<&str> = groups.iter().map(|group| group.title.as_str()).collect();
    assert_eq!(titles, ["Top and bottom", "Right and left"]);
}

#[test]
fn a_number_that_is_taken_gives_the_stretch_that_was_shown() {
    let plan = plan("plan.json");
    let view = seen(&plan, &solved(&plan), None);
    for side in &view.sides {
        for choice in &side.choices {
            let change = Change::Repeats {
                border: side.border,
                sides: vec![side.side],
                repeats: Some(choice.repeats),
            };
            let taken = change.apply(&plan).expect("a plan");
            let again = solved(&taken);
            let piece = again.pieces.iter().find(|piece| piece.name == side.piece);
            let Some(PieceKind::Side(detail)) = piece.map(|piece| &piece.kind) else {
                panic!("no side");
            };
            assert_eq!(detail.fit.chosen.repeats, choice.repeats);
            assert!((detail.fit.chosen.stretch - choice.stretch).abs() < 1e-9);
            let back = Change::Repeats {
                border: side.border,
                sides: vec![side.side],
                repeats: None,
            };
            assert_eq!(back.apply(&taken).expect("a plan"), plan);
        }
    }
}

#[test]
fn a_depth_that_is_set_is_the_depth_of_the_band() {
    for name in [
        "plan.json",
        "hexagon.json",
        "out-of-square.json",
        "mitred.json",
    ] {
        let plan = plan(name);
        let border = &seen(&plan, &solved(&plan), None).borders[0];
        let unit = Unit::from(plan.unit).in_mm();
        let [least, most] = [border.least.value, border.most.value];
        assert!(
            least <= border.full.value && border.full.value <= most,
            "{name}"
        );
        for share in [0.25, 0.5, 0.9] {
            let depth = (least + share * (most - least)) * unit;
            let change = Change::Depth { border: 0, depth };
            let mut set = change.apply(&plan).expect("a plan");
            set.borders[0].slack = None;
            let there = solved(&set);
            assert!((there.layouts[0].depth() - depth).abs() < 1e-5, "{name}");
        }
        let slack = Change::Slack {
            border: 0,
            slack: border.most_slack.value * unit,
        };
        let slack = slack.apply(&plan).expect("a plan");
        let room = &seen(&slack, &solved(&slack), None).borders[0];
        assert!(
            (room.slack.value - border.most_slack.value).abs() < 1e-8,
            "{name}"
        );
        assert!((room.full.value - border.full.value).abs() < 1e-6, "{name}");
        assert!(room.depth.value <= room.full.value + 1e-9, "{name}");
    }
}

#[test]
fn ways_out_bring_every_side_within_the_limit() {
    // Too few repeats, given, on a quilt whose sides are alike.
    let plan = plan("plan.json");
    let four = Change::Numbers {
        border: 0,
        repeats: vec![4, 7, 4, 7],
    };
    let plan = four.apply(&plan).expect("a plan");
    let view = seen(&plan, &solved(&plan), None);
    let stretch = view
        .look
        .iter()
        .find(|kind| kind.code == "stretch")
        .expect("a warning");
    assert_eq!(stretch.lines.len(), 1);
    assert_eq!(stretch.lines[0].about, ["top side", "bottom side"]);
    assert_eq!(stretch.lines[0].ways.len(), 1);
    let way = &stretch.lines[0].ways[0];
    assert_eq!(way.says, "Take 5 on the top and bottom side");
    let mended = way.change.apply(&plan).expect("a plan");
    assert!(seen(&mended, &solved(&mended), None).look.is_empty());
    // Ways for the whole border, one by one.
    let found = view
        .know
        .iter()
        .find(|kind| kind.code == "ways_out")
        .expect("a note");
    assert!(!found.lines[0].ways.is_empty());
    for way in &found.lines[0].ways {
        let mended = way.change.apply(&plan).expect("a plan");
        let again = solved(&mended);
        let stretched = |finding: &quiltpath_core::plan::Finding| {
            matches!(finding.kind, FindingKind::Stretch { .. })
                && finding.severity >= Severity::Warning
        };
        let eases = matches!(way.change, Change::Ease { .. });
        assert!(
            eases || !again.findings.iter().any(stretched),
            "{}",
            way.says
        );
    }
}

#[test]
fn changes_go_out_and_come_back_as_json() {
    let plan = plan("plan.json");
    for (json, key) in [
        (
            r#"{"change":"repeats","border":0,"sides":[1,3],"repeats":8}"#,
            r#""right":8"#,
        ),
        (
            r#"{"change":"alike","border":0,"alike":true}"#,
            r#""opposite_alike":true"#,
        ),
        (
            r#"{"change":"slack","border":0,"slack":12.7}"#,
            r#""slack":0.5"#,
        ),
        (
            r#"{"change":"ease","border":0,"ease":true}"#,
            r#""ease":true"#,
        ),
        (
            r#"{"change":"alternate","border":0,"alternate":"left_right"}"#,
            r#""alternate":"left_right""#,
        ),
        (
            r#"{"change":"arrange","border":0,"arrangement":"turned"}"#,
            r#""arrangement":"turned""#,
        ),
        (
            r#"{"change":"style","border":0,"style":"bent"}"#,
            r#""corner":{"style":"bent"}"#,
        ),
        (r#"{"change":"more_passes","more":2}"#, r#""more_passes":2"#),
    ] {
        let change: Change = serde_json::from_str(json).expect(json);
        assert_eq!(serde_json::to_string(&change).expect("JSON"), json);
        let changed = write_plan(&change.apply(&plan).expect(json));
        let dense: String = changed.split_whitespace().collect();
        assert!(dense.contains(key), "{json}: {changed}");
    }
    for refused in [
        Change::Ease {
            border: 7,
            ease: true,
        },
        Change::Repeats {
            border: 0,
            sides: vec![4],
            repeats: Some(5),
        },
    ] {
        assert!(refused.apply(&plan).expect_err("nothing there").is_plan());
    }
}

#[test]
fn a_view_is_json_without_a_hole() {
    for (name, plan) in plans() {
        let solved = solved(&plan);
        let stitching = stitch_plan(&plan, &solved).expect("stitched");
        let text = write_view(&seen(&plan, &solved, Some(&stitching))).expect("finite numbers");
        let data: serde_json::Value = serde_json::from_str(&text).expect("JSON");
        let parts = data["picture"]["parts"].as_array().expect("parts");
        assert!(parts.iter().any(|part| part["key"] == "cloth"), "{name}");
        assert!(
            parts
                .iter()
                .all(|part| part["key"] != "legend" && part["key"] != "marks")
        );
        assert!(data["totals"]["stitches"].as_u64() > Some(1000), "{name}");
        assert!(data["thread"][0].is_string(), "{name}");
    }
}

#[test]
fn drawings_are_shown_as_the_plan_takes_them() {
    let plan = plan("plan.json");
    let seen_at = |plan: &PlanSpec, at: usize, role, name: &str| {
        let bytes = std::fs::read(folder().join(name)).expect("a motif's file");
        let options = ReadOptions::default().with_unit(Some(plan.unit.into()));
        let drawing = LineDrawing::read(name, &bytes, &options).expect(name);
        let drawing = drawing.strokes(Unit::Mm).expect(name);
        view_drawing(plan, at, role, &drawing).expect(name)
    };
    let seen = |plan: &PlanSpec, role, name: &str| seen_at(plan, 0, role, name);
    let corner = seen(&plan, DrawnFor::Corner, "corner.svg");
    // The demo's corner is as wide as it is high, and both its legs are equally deep.
    assert_eq!(corner.width.says, corner.height.says);
    let legs = corner.legs.as_deref().expect("legs");
    assert!(
        legs.contains("deep, both. Found in the drawing, no doubt about it."),
        "{legs}"
    );
    assert_eq!(corner.ends[0], "at the foot of the upright leg");
    let side = seen(&plan, DrawnFor::Side, "border.svg");
    assert!(side.level && side.legs.is_none());
    // The picture holds the line, the one after it, start, end and the way, and the L's outline.
    assert_eq!(side.markup.matches("class=\"line side\"").count(), 2);
    for sign in ["first", "last", "way", "band"] {
        assert!(
            corner.markup.contains(&format!("class=\"{sign}\"")),
            "{sign}"
        );
    }
    // The places of both ends lie under their signs.
    let on_picture = |seen: &DrawingView, [x, y]: [f64; 2]| {
        let [a, b, c, d, e, f] = seen.places.as_ref().expect("places").to_picture;
        [a * x + c * y + e, b * x + d * y + f].map(f64::round)
    };
    for seen in [&corner, &side] {
        let places = seen.places.as_ref().expect("places");
        assert_eq!((places.start.key, places.end.key), ("start", "end"));
        assert!(!places.start.given && !places.end.given);
        let [x, y] = on_picture(seen, places.start.at);
        let ring = format!("class=\"first\" cx=\"{x}\" cy=\"{y}\"");
        assert!(seen.markup.contains(&ring), "{ring}: {}", seen.markup);
        // One line: its two ends are where strokes end.
        assert_eq!(places.tips.len(), 2);
        assert!(places.tips.contains(&places.start.at) && places.tips.contains(&places.end.at));
    }
    // The corner is drawn against its way round, so that its start is the end of what is given.
    let mut given = plan.clone();
    given.borders[0].corner.start = Some(EndSpec::Right);
    let turned = seen(&given, DrawnFor::Corner, "corner.svg");
    let places = turned.places.expect("places");
    assert_eq!((places.end.key, places.end.given), ("start", true));
    assert_eq!((places.start.key, places.start.given), ("end", false));
    assert_eq!(turned.ends, ["at the foot of the upright leg", "as given"]);
    given.borders[0].corner.start = None;
    given.borders[0].corner.link_gaps = true;
    assert_eq!(seen(&given, DrawnFor::Corner, "corner.svg").places, None);
    let borders = self::seen(&plan, &solved(&plan), None).borders;
    let meets = borders[0].meets.as_deref().expect("a joint");
    assert!(
        borders[0].met && meets.starts_with("The corner design, exactly. Both lie "),
        "{meets}"
    );
    for name in ["mitred.json", "open.json"] {
        let plan = self::plan(name);
        let borders = self::seen(&plan, &solved(&plan), None).borders;
        assert_eq!((&borders[0].meets, borders[0].met), (&None, true), "{name}");
    }
    // What is no L is refused as a corner, and said to be none.
    let bytes = std::fs::read(folder().join("border.svg")).expect("a motif's file");
    let drawing = LineDrawing::read("border.svg", &bytes, &ReadOptions::default()).expect("read");
    let drawing = drawing.strokes(Unit::Mm).expect("strokes");
    let refusal = view_drawing(&plan, 0, DrawnFor::Corner, &drawing).expect_err("no L");
    assert!(refusal.is_leg(), "{refusal}");
    assert!(
        view_drawing(&plan, 3, DrawnFor::Side, &drawing)
            .expect_err("none")
            .is_plan()
    );
    // Every demo plan's drawings, in whatever style.
    for (name, plan) in plans() {
        for (at, border) in plan.borders.iter().enumerate() {
            let sides = border.side.motif.iter().flat_map(BySide::values);
            let mut named: Vec<(DrawnFor, String)> =
                sides.map(|name| (DrawnFor::Side, name.clone())).collect();
            named.extend(
                border
                    .corner
                    .motif
                    .clone()
                    .map(|motif| (DrawnFor::Corner, motif)),
            );
            for (role, file) in named {
                let seen = seen_at(&plan, at, role, &file);
                assert_eq!((seen.role, seen.border), (role, at), "{name}");
                assert!(seen.lines >= 1 && seen.factor > 0.0 && seen.length.value > 0.0);
            }
        }
    }
}
