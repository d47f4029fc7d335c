//! The whole job on the demo quilt: what a user gets from `fixtures/demo/plan.json`.

use quiltpath_core::geom::Point;
use quiltpath_core::io::json::result::{PlanResult, write_result};
use quiltpath_core::io::json::{read_plan, read_points};
use quiltpath_core::io::svg_read::read_svg;
use quiltpath_core::plan::spec::{EndSpec, LengthSpec, MachineSpec};
use quiltpath_core::plan::{
    MotifRequest, PieceKind, PlanSpec, Severity, Solved, solve, stitch_plan,
};
use quiltpath_core::strokes::OneLineOptions;
use quiltpath_core::units::Unit;
use serde_json::Value;
use std::path::{Path, PathBuf};

fn fixture(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../fixtures")
        .join(name)
}

fn plan() -> PlanSpec {
    let bytes = std::fs::read(fixture("demo/plan.json")).expect("the plan's file");
    read_plan(&bytes).expect("a plan")
}

fn solved(plan: &PlanSpec) -> Solved {
    solve(plan, |request: &MotifRequest| {
        let bytes = std::fs::read(fixture("demo").join(&request.name)).expect("the motif's file");
        Ok(read_svg(&bytes)?.into_drawing(&request.name))
    })
    .expect("solved")
}

fn demo() -> Solved {
    solved(&plan())
}

fn result() -> Value {
    let result = PlanResult::new(&demo(), None).expect("a whole plan");
    serde_json::from_str(&write_result(&result).expect("finite numbers")).expect("JSON")
}

fn list(value: &Value) -> &Vec<Value> {
    value.as_array().expect("a list")
}

fn pair(value: &Value) -> [f64; 2] {
    let number = |at: usize| value[at].as_f64().expect("a number");
    [number(0), number(1)]
}

fn points(piece: &Value) -> Vec<[f64; 2]> {
    list(&piece["points"]).iter().map(pair).collect()
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// The blocks of the demo with a start: each begins at its own image of that place, and each
/// stitches as much as before, for the rosette is a closed line.
#[test]
fn a_block_begins_where_the_plan_says() {
    let bytes = std::fs::read(fixture("demo/block.json")).expect("the plan's file");
    let mut plan = read_plan(&bytes).expect("a plan");
    let as_drawn = solved(&plan);
    for start in [EndSpec::Left, EndSpec::Bottom, EndSpec::at(0.0, 0.0)] {
        plan.borders[0].corner.start = Some(start.clone());
        let given = solved(&plan);
        assert_eq!(given.pieces.len(), as_drawn.pieces.len());
        for (piece, before) in given.pieces.iter().zip(&as_drawn.pieces) {
            let (line, drawn) = (&piece.lines()[0].motif, &before.lines()[0].motif);
            let share = line.length() / drawn.length();
            assert!((share - 1.0).abs() < 1e-6, "{}: {share}", piece.name);
            let PieceKind::Corner(corner) = &piece.kind else {
                assert_eq!(line.points(), drawn.points(), "{}", piece.name);
                continue;
            };
            assert_eq!(line.start().point, line.end().point, "{}", piece.name);
            // Of the first corner, which lies as it is drawn, the place can be told.
            if corner.position.index() == 0 {
                let least = |way: fn(&Point) -> f64| {
                    let all = line.points().iter().map(way);
                    all.fold(f64::INFINITY, f64::min)
                };
                let at = line.start().point;
                match start {
                    EndSpec::Left => assert!((at.x - least(|p| p.x)).abs() < 0.01),
                    EndSpec::Bottom => assert!((at.y + least(|p| -p.y)).abs() < 0.01),
                    _ => {
                        let corner = line.bounds().min;
                        let near = line.points().iter().map(|p| (p - corner).norm());
                        let near = near.fold(f64::INFINITY, f64::min);
                        assert!((at - corner).norm() < near + 0.2);
                    }
                }
            }
        }
    }
}

#[test]
fn every_point_lies_in_the_band() {
    let result = result();
    let band = &result["bands"][0];
    let bounds = |polygon: &Value| {
        let corners: Vec<_> = list(polygon).iter().map(pair).collect();
        (corners[0], corners[2])
    };
    let (outer, inner) = (bounds(&band["outer"]), bounds(&band["inner"]));
    assert_eq!(outer, ([0.5, 0.5], [63.75, 79.5]));
    let mut seen = 0;
    for piece in list(&result["pieces"]) {
        for [x, y] in points(piece) {
            let rounding = 1e-6;
            let within = |low: f64, value: f64, high: f64| low <= value && value <= high;
            assert!(within(outer.0[0] - rounding, x, outer.1[0] + rounding));
            assert!(within(outer.0[1] - rounding, y, outer.1[1] + rounding));
            let in_hole = inner.0[0] + rounding < x
                && x < inner.1[0] - rounding
                && inner.0[1] + rounding < y
                && y < inner.1[1] - rounding;
            assert!(!in_hole, "({x}, {y}) of {}", piece["name"]);
            seen += 1;
        }
    }
    assert!(seen > 10_000);
}

#[test]
fn every_join_is_closed_and_the_ring_is_one_line() {
    let result = result();
    let joins = list(&result["joins"]);
    assert_eq!(joins.len(), 8);
    let piece = |name: &Value| {
        let pieces = list(&result["pieces"]);
        pieces
            .iter()
            .find(|piece| piece["name"] == *name)
            .expect("a piece")
    };
    for join in joins {
        let (end, start) = (&piece(&join["from"])["end"], &piece(&join["to"])["start"]);
        let gap = distance(pair(end), pair(start));
        assert!(gap <= 1e-6, "{join}");
        assert!((gap - join["gap"].as_f64().expect("a gap")).abs() <= 1e-9);
        assert!(join["kink_degrees"].as_f64().expect("a kink") < 1e-6);
    }
    let paths = list(&result["paths"]);
    assert_eq!((paths.len(), &paths[0]["closed"]), (1, &Value::Bool(true)));
    assert_eq!(paths[0]["start"], paths[0]["end"]);
    assert_eq!(result["totals"]["thread_cuts"], 1);
    assert_eq!(list(&result["findings"]).len(), 0);
}

#[test]
fn the_stretch_reported_is_the_one_measured_on_the_points() {
    let drawing =
        read_svg(&std::fs::read(fixture("demo/border.svg")).expect("a file")).expect("a drawing");
    let drawn = drawing
        .into_drawing("border")
        .one_line(&OneLineOptions::default())
        .expect("a motif")
        .motif;
    let pitch = drawn.end().point.x - drawn.start().point.x;
    let proportion = pitch / drawn.bounds().height();
    let mut sides = 0;
    for piece in list(&result()["pieces"]) {
        let Some(repeats) = piece["repeats"].as_f64() else {
            continue;
        };
        let points = points(piece);
        let upright = matches!(piece["side"].as_str(), Some("left" | "right"));
        let (along, across) = if upright { (1, 0) } else { (0, 1) };
        let span = (points[points.len() - 1][along] - points[0][along]).abs();
        let ink = |axis: usize| points.iter().map(move |p| p[axis]);
        let depth = ink(across).fold(f64::MIN, f64::max) - ink(across).fold(f64::MAX, f64::min);
        let measured = span / (repeats * depth * proportion);
        let reported = piece["stretch"].as_f64().expect("a stretch");
        assert!((measured - reported).abs() < 1e-9, "{measured} {reported}");
        assert!((reported - 1.0).abs() < 0.02);
        sides += 1;
    }
    assert_eq!(sides, 4);
}

#[test]
fn lengths_are_the_sums_of_the_segments() {
    let result = result();
    let mut total = 0.0;
    for piece in list(&result["pieces"]) {
        let points = points(piece);
        let sum: f64 = points.windows(2).map(|p| distance(p[0], p[1])).sum();
        let reported = piece["length"].as_f64().expect("a length");
        assert!((sum - reported).abs() <= 1e-9 * sum);
        assert_eq!(pair(&piece["start"]), points[0]);
        assert_eq!(pair(&piece["end"]), points[points.len() - 1]);
        total += sum;
    }
    let reported = result["totals"]["length"].as_f64().expect("a length");
    assert!((total - reported).abs() <= 1e-9 * total);
}

#[test]
fn a_piece_is_the_same_curve_in_svg_and_in_json() {
    use quiltpath_core::io::json::{PointList, PointPath, write_points};
    use quiltpath_core::io::svg_write::{SvgPath, WriteOptions, write_svg};
    use quiltpath_core::units::Unit;

    let solved = demo();
    for piece in &solved.pieces {
        let inches: Vec<_> = piece.lines()[0]
            .motif
            .points()
            .iter()
            .map(|p| p / 25.4)
            .collect();
        let mut svg = String::new();
        let path = SvgPath::new(&piece.name, &inches);
        write_svg(&mut svg, Unit::In, &[path], &WriteOptions::default()).expect("SVG");
        let back = read_svg(svg.as_bytes()).expect("own SVG");
        let back = back
            .into_drawing("back")
            .one_line(&OneLineOptions::default());
        let back = back.expect("a line").motif;
        let path = PointPath::new(inches).with_name(&piece.name);
        let list = PointList::new(Unit::In, vec![path]);
        let json =
            read_points(write_points(&list).expect("finite").as_bytes(), None).expect("own JSON");
        let (from_svg, from_json) = (back.points(), &json.paths[0].points);
        // Points that fall together on the SVG's grid of 1e-4 are written once.
        let mut along = from_json.iter();
        for point in from_svg {
            let point = point / 25.4;
            assert!(along.any(|other| (other - point).norm() <= 1e-4), "{point}");
        }
        assert!(from_svg.len() * 10 > from_json.len() * 9);
    }
}

#[test]
fn the_demo_motifs_are_those_that_the_script_draws() {
    let pictures = quiltpath_tests::draw::pictures().expect("the pictures");
    for (name, drawn) in quiltpath_tests::draw::files().into_iter().chain(pictures) {
        let committed = std::fs::read_to_string(fixture(name)).expect("a committed drawing");
        // Libraries of mathematics may differ in the last digit of a sine.
        let numbers = |text: &str| -> Vec<f64> {
            text.split(|c: char| !c.is_ascii_digit() && !".-".contains(c))
                .filter_map(|word| word.parse().ok())
                .collect()
        };
        let (a, b) = (numbers(&committed), numbers(&drawn));
        assert_eq!(a.len(), b.len(), "{name}");
        assert!(
            a.iter().zip(&b).all(|(a, b)| (a - b).abs() < 3e-6),
            "{name}: draw the fixtures anew"
        );
    }
}

#[test]
fn the_demo_is_stitched_with_the_fewest_cuts_and_without_a_fault() {
    let solved = demo();
    for throat in [None, Some(14.0), Some(18.0), Some(24.0), Some(30.0)] {
        for turned in [false, true] {
            let mut plan = plan();
            let mut machine = MachineSpec::default().with_turned(turned);
            machine.throat = throat.map(|inches| LengthSpec::with(inches, Unit::In));
            plan.machine = Some(machine);
            let stitching = stitch_plan(&plan, &solved).expect("stitched");
            assert_eq!(
                stitching.runs.len(),
                stitching.least_cuts,
                "{throat:?} {turned}"
            );
            let worst = stitching.findings.iter().map(|found| found.severity).max();
            assert!(worst < Some(Severity::Warning), "{:?}", stitching.findings);
            let length: f64 = stitching.runs.iter().map(|run| run.motif.length()).sum();
            assert!((length - solved.length()).abs() < 1e-6 * length);
        }
    }
}
