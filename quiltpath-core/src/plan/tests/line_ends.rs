//! Where the lines of drawings start and end, where a plan says so.

use super::*;
use crate::strokes::Drawing;

/// A repeat of three strokes 4 in long and 2 in high: two rails and a rung.
fn ladder() -> Drawing {
    let line = |id: &str, points: &[(f64, f64)]| {
        let points = points.iter().map(|&(x, y)| Point::new(x, y) * INCH);
        let line = Motif::from_points(id, points.collect()).expect("a line");
        Drawing::from(line).strokes.remove(0)
    };
    let strokes = vec![
        line("top", &[(0.0, 0.0), (2.0, 0.0), (4.0, 0.0)]),
        line("bottom", &[(0.0, 2.0), (2.0, 2.0), (4.0, 2.0)]),
        line("rung", &[(2.0, 0.0), (2.0, 2.0)]),
    ];
    Drawing::new("ladder", strokes)
}

fn drawn(plan: &PlanSpec, role: DrawnFor, drawing: &Drawing) -> DrawnLines {
    drawn_lines(plan, 0, role, drawing).expect("lines")
}

fn ends(drawn: &DrawnLines) -> [[f64; 2]; 2] {
    let line = &drawn.lines.motifs[0];
    let inches = |point: Point| [point.x, point.y].map(|mm| (mm / INCH * 1e6).round() / 1e6);
    [inches(line.start().point), inches(line.end().point)]
}

#[test]
fn a_repeat_starts_where_it_is_told_and_goes_on_as_high() {
    let mut plan = spec(CornerStyle::Open);
    let ladder = ladder();
    for (start, height) in [(EndSpec::at(0.0, 0.1), 0.0), (EndSpec::at(-3.0, 1.9), 2.0)] {
        plan.borders[0].side = SideSpec::new("side").with_start(start.clone());
        let across = [[0.0, height], [4.0, height]];
        assert_eq!(ends(&drawn(&plan, DrawnFor::Side, &ladder)), across);
        let solved = solve(&plan, |_| Ok(ladder.clone())).expect("solved");
        // The chain begins at that height of its band.
        let (piece, _) = side_of(&solved, Side::TOP);
        let line = &piece.lines()[0].motif;
        let (at, bounds) = (line.start().point, line.bounds());
        let wanted = bounds.min.y + (bounds.max.y - bounds.min.y) * height / 2.0;
        assert!((at.y - wanted).abs() < 1e-9, "{at} of {bounds:?}");
        // The same by its end, which a repeat has on the right whatever is given.
        plan.borders[0].side = SideSpec::new("side").with_end(start);
        let turned = drawn(&plan, DrawnFor::Side, &ladder);
        assert_eq!((ends(&turned), turned.backwards), (across, true));
    }
    // Both ends as they are given, so it is linked or sheared from one repeat to the next.
    plan.borders[0].side = SideSpec::new("side")
        .with_start(EndSpec::at(0.0, 0.0))
        .with_end(EndSpec::at(4.0, 2.0));
    let both = drawn(&plan, DrawnFor::Side, &ladder);
    assert_eq!(ends(&both), [[0.0, 0.0], [4.0, 2.0]]);
}

#[test]
fn an_l_starts_at_its_foot_whichever_end_is_given() {
    let mut plan = spec(CornerStyle::Leg);
    let l = Drawing::from(corner(0.5, 0.5));
    let free = drawn(&plan, DrawnFor::Corner, &l);
    for end in [EndSpec::at(5.0, 1.0), EndSpec::at(1.0, 5.0)] {
        for corner in [
            plan.borders[0].corner.clone().with_start(end.clone()),
            plan.borders[0].corner.clone().with_end(end.clone()),
        ] {
            let mut plan = plan.clone();
            plan.borders[0].corner = corner;
            let given = drawn(&plan, DrawnFor::Corner, &l);
            assert_eq!(given.lines, free.lines);
            let solved = solve_with(&plan, &motif_of(&l), &wave(0.5)).expect("solved");
            let whole = solve_with(&spec(CornerStyle::Leg), &motif_of(&l), &wave(0.5));
            assert_eq!(solved.pieces, whole.expect("solved").pieces);
        }
    }
    // Within the leg: it is met all the same.
    plan.borders[0].corner.start = Some(EndSpec::at(0.0, 4.0));
    assert_eq!(ends(&drawn(&plan, DrawnFor::Corner, &l))[0], [0.0, 4.0]);
}

fn motif_of(drawing: &Drawing) -> Motif {
    drawing.one_line(&Default::default()).expect("a line").motif
}

#[test]
fn a_closed_block_starts_and_ends_where_it_is_told() {
    let square = motif(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (0.0, 0.0)]);
    let mut plan = spec(CornerStyle::Block);
    plan.borders[0].corner.motif = Some("corner".into());
    plan.borders[0].corner.start = Some(EndSpec::at(inches(2.0), 9.0));
    let block = drawn(&plan, DrawnFor::Corner, &Drawing::from(&square));
    assert_eq!(ends(&block), [[2.0, 4.0]; 2]);
    let solved = solve_with(&plan, &square, &wave(0.5)).expect("solved");
    let first = &solved.pieces[0].lines()[0].motif;
    assert!((first.start().point - first.end().point).norm() < 1e-9);
    assert!((first.length() / 4.0 - first.bounds().width()).abs() < 1e-6);
}

#[cfg(feature = "json")]
#[test]
fn ends_are_words_or_places_of_two_lengths() {
    use crate::io::json::{read_plan, write_plan};
    let plan = |end: &str| {
        let text = format!(
            r#"{{"unit": "in", "quilt": {{"width": 40, "height": 60}}, "borders": [{{"width": 6,
                "corner": {{"style": "open"}}, "side": {{"motif": "wave", "start": {end}}}}}]}}"#
        );
        read_plan(text.as_bytes())
    };
    for (text, wanted) in [
        ("\"left\"", EndSpec::Left),
        ("\"right\"", EndSpec::Right),
        ("\"top\"", EndSpec::Top),
        ("\"bottom\"", EndSpec::Bottom),
        ("[1, -2.5]", EndSpec::at(1.0, -2.5)),
        ("[\"1 1/2\", \"4 mm\"]", {
            let length = |text: &str| text.parse::<LengthSpec>().expect("a length");
            EndSpec::at(length("1 1/2"), length("4 mm"))
        }),
    ] {
        let read = plan(text).expect("a plan");
        assert_eq!(read.borders[0].side.start, Some(wanted));
        assert_eq!(
            read_plan(write_plan(&read).as_bytes()).expect("a plan"),
            read
        );
    }
    for text in [
        "\"middle\"",
        "[1]",
        "[1, 2, 3]",
        "[1, \"far\"]",
        "1",
        "{}",
        "[null, 1]",
    ] {
        let error = plan(text).expect_err("no end").to_string();
        assert!(error.contains("start"), "{error}");
        let accepted = error.contains("left, right, top or bottom") || error.contains("length");
        assert!(accepted, "{error}");
    }
}
