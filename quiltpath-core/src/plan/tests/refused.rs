//! What cannot be planned, and the key at fault.

use super::*;
use crate::error::{ErrorKind, PlanFault};

#[test]
fn what_can_not_be_is_refused_with_its_key() {
    type Edit<'a> = &'a dyn Fn(&mut PlanSpec);
    let change = |edit: Edit<'_>| {
        let mut plan = spec(CornerStyle::Leg);
        edit(&mut plan);
        refused(&plan)
    };
    let cases: [(Edit<'_>, &str); 20] = [
        (
            &|p| p.borders[0].width = inches(30.0).into(),
            "borders[0]: width: the border is 30 in wide, but only 30 in is left",
        ),
        (
            &|p| p.borders[0].seam_gap = Some(inches(5.5)),
            "borders[0]: the seam gap and the edge gap take 6 in together, but the border is only 6 in wide",
        ),
        (
            &|p| p.borders[0].edge_gap = Some(inches(-1.0)),
            "borders[0]: edge_gap: the edge gap is -1 in; give 0 or more",
        ),
        (
            &|p| p.quilt.width = inches(26.0).into(),
            "borders[0]: corner: the corners take 26 1/4 in of the top side, but it is only 25 in long",
        ),
        (
            &|p| p.quilt.height = Some(inches(0.0)),
            "quilt.height: the quilt's height is 0 in; give a length above 0",
        ),
        (&|p| p.borders.clear(), "the plan has no border"),
        (
            &|p| p.borders[0].corner.motif = None,
            "borders[0]: corner: the corner style leg needs a drawing",
        ),
        (
            &|p| p.borders[0].corner.gap = Some(inches(1.0)),
            "borders[0]: corner: the corner style leg has no use for the gap; leave it out",
        ),
        (
            &|p| p.borders[0].corner.style = CornerStyle::Open,
            "the corner style open has no use for the motif",
        ),
        (
            &|p| {
                p.borders[0].corner.start = Some(EndSpec::Left);
                p.borders[0].corner.strokes = StrokesSpec::AsDrawn;
            },
            "borders[0]: corner: start and strokes are both given, but a line has a start of one's choice only where strokes become one line, uncut; leave one out",
        ),
        (
            &|p| {
                p.borders[0].corner.end = Some(EndSpec::at(1.0, 2.0));
                p.borders[0].corner.link_gaps = true;
            },
            "borders[0]: corner: end and link gaps are both given",
        ),
        (
            &|p| {
                p.borders[0].corner.start = Some(EndSpec::Top);
                p.borders[0].corner.trim = Some(TrimSpec::new(2.0));
            },
            "borders[0]: corner: start and trim are both given",
        ),
        (
            &|p| {
                p.borders[0].side.end = Some(EndSpec::Right);
                p.borders[0].side.link_gaps = true;
            },
            "borders[0]: side: end and link gaps are both given",
        ),
        (
            &|p| p.borders[0].side.start = Some(EndSpec::at(1.0, 1e300)),
            "borders[0]: side: start: a coordinate of the start of the line",
        ),
        (
            &|p| {
                p.borders[0].corner = CornerSpec::new(CornerStyle::Mitred);
                p.borders[0].corner.start = Some(EndSpec::Left);
            },
            "borders[0]: corner: the corner style mitred has no use for the start; leave it out",
        ),
        (
            &|p| p.borders[0].side.every = Some(0),
            "side, top: repeats in multiples of 0 can't fill a span",
        ),
        (
            &|p| p.max_stretch_percent = Some(-1.0),
            "max_stretch_percent: the greatest stretch is -1; give a percentage above 0",
        ),
        (
            &|p| p.max_stretch_percent = Some(0.0),
            "max_stretch_percent: the greatest stretch is 0; give a percentage above 0",
        ),
        (
            &|p| p.join_tolerance = Some(inches(0.0)),
            "join_tolerance: the join tolerance is 0 in",
        ),
        (
            &|p| {
                p.borders[0].name = Some("a".into());
                let mut second = border(CornerStyle::Open, false);
                second.name = Some("a".into());
                p.borders.push(second);
            },
            "borders[1].name: two borders are named \"a\"",
        ),
    ];
    for (edit, message) in &cases {
        let error = change(*edit);
        assert!(error.contains(message), "{error}");
    }
}

#[test]
fn a_repeat_for_the_corner_and_an_l_for_the_side_are_asked_about() {
    let plan = spec(CornerStyle::Leg);
    let error = solve_with(&plan, &wave(0.4), &corner(0.5, 0.5)).expect_err("swapped");
    assert_eq!(
        error.to_string(),
        "borders[0]: m, given for the corner, runs from end to end like a border repeat, and m, \
         given for the side, is an L; are the two swapped?"
    );
    let ErrorKind::Plan(PlanFault::Swapped { .. }) = error.kind() else {
        panic!("{error:?}");
    };
    // A corner drawing for both is no swap, nor is a repeat in a corner square.
    assert!(solve_with(&plan, &corner(0.5, 0.5), &wave(0.4)).is_ok());
    let mut block = spec(CornerStyle::Block);
    block.borders[0].corner.motif = Some("corner".to_owned());
    let error = solve_with(&block, &wave(0.4), &corner(0.5, 0.5)).map_err(|e| e.to_string());
    assert!(!error.is_err_and(|e| e.contains("swapped")));
}
