//! Borders in part: two sides, corners alone, plain borders, designs that differ by side.

use super::*;
use proptest::prelude::*;

/// Drawings for the sides that have one, by the names of the four sides.
fn named(sides: [Option<&str>; 4]) -> SideSpec {
    let [top, right, bottom, left] = sides.map(|side| side.map(str::to_owned));
    SideSpec::new(BySide::Named(NamedSides {
        top,
        right,
        bottom,
        left,
    }))
}

fn with_sides(style: CornerStyle, sides: [bool; 4]) -> PlanSpec {
    let mut plan = spec(style);
    plan.borders[0].side = named(sides.map(|side| side.then_some("side")));
    plan
}

fn solved(plan: &PlanSpec) -> Solved {
    solve_with(plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved")
}

fn names(solved: &Solved) -> Vec<&str> {
    solved.pieces.iter().map(|p| p.name.as_str()).collect()
}

#[test]
fn two_sides_run_from_edge_to_edge() {
    let mut plan = with_sides(CornerStyle::Open, [true, false, true, false]);
    let wide = solved(&plan);
    assert_eq!(names(&wide), ["border-side-top", "border-side-bottom"]);
    assert_eq!((wide.joins.len(), wide.thread_cuts()), (0, 2));
    let (top, detail) = side_of(&wide, Side::TOP);
    // Half an inch from either raw edge of 60 in.
    assert!((detail.span - 59.0 * INCH).abs() < 1e-9);
    assert!((top.start().point.x - 0.5 * INCH).abs() < 1e-9);
    // Where the others have no border at all it is the same.
    plan.borders[0].width = BySide::Named(NamedSides {
        top: Some(inches(6.0)),
        bottom: Some(inches(6.0)),
        ..NamedSides::default()
    });
    for gap in [0.125, 0.5] {
        plan.borders[0].edge_gap = Some(inches(gap));
        solved(&plan);
    }
    let narrow = solved(&plan);
    assert_eq!(names(&narrow), names(&wide));
    let tops = [&narrow, &wide].map(|of| side_of(of, Side::TOP).0.points());
    for (point, there) in tops[0].clone().zip(tops[1].clone()) {
        assert!((point - there).norm() < 1e-9);
    }
    let seam = narrow.layouts[0].band.seam.corners();
    assert_eq!((seam[0].x, seam[1].x), (0.0, 60.0 * INCH));
    assert!((seam[0].y - 6.0 * INCH).abs() < 1e-9);
}

#[test]
fn three_sides_join_two_corners_and_end_at_the_edge() {
    for style in [CornerStyle::Leg, CornerStyle::Mitred] {
        let solved = solved(&with_sides(style, [true, true, false, true]));
        assert_eq!(
            names(&solved),
            [
                "border-corner-top-left",
                "border-side-top",
                "border-corner-top-right",
                "border-side-right",
                "border-side-left"
            ]
        );
        assert_eq!((solved.joins.len(), solved.paths.len()), (4, 1));
        assert!(solved.joins.iter().all(|join| join.gap < 1e-9));
        assert!(!solved.paths[0].closed);
        let (right, _) = side_of(&solved, Side::RIGHT);
        assert!((right.end().point.y - 79.5 * INCH).abs() < 1e-9);
        let (left, _) = side_of(&solved, Side::LEFT);
        assert!((left.start().point.y - 79.5 * INCH).abs() < 1e-9);
    }
}

#[test]
fn corners_alone_are_stitched_in_every_corner() {
    let mut plan = spec(CornerStyle::Leg);
    plan.borders[0].side = SideSpec::default();
    let solved = solved(&plan);
    let all = self::solved(&spec(CornerStyle::Leg));
    let corners: Vec<&Piece> = all
        .pieces
        .iter()
        .filter(|piece| matches!(piece.kind, PieceKind::Corner(_)))
        .collect();
    assert_eq!(solved.pieces.iter().collect::<Vec<_>>(), corners);
    assert_eq!((solved.joins.len(), solved.thread_cuts()), (0, 4));
}

#[test]
fn a_plain_border_counts_with_those_inside_it() {
    let mut plan = spec(CornerStyle::Leg);
    let plain = BorderSpec::new(3.0, CornerSpec::default(), SideSpec::default());
    plan.borders.insert(0, plain);
    let nested = solved(&plan);
    assert_eq!(nested.pieces.len(), 8);
    assert!(nested.pieces.iter().all(|piece| piece.border == 1));
    // What is inside a plain border of 3 in is a quilt that much smaller, its edge a seam.
    let mut inner = spec(CornerStyle::Leg);
    inner.quilt = QuiltSpec::rectangle(inches(54.0), inches(74.0));
    inner.borders[0].edge_gap = Some(inches(0.25));
    let alone = solved(&inner);
    for (piece, other) in nested.pieces.iter().zip(&alone.pieces) {
        for (point, there) in piece.points().zip(other.points()) {
            assert!((point - there - Vector::new(3.0, 3.0) * INCH).norm() < 1e-9);
        }
    }
    plan.shared_depth = true;
    assert_eq!(solved(&plan).pieces.len(), 8);
}

#[test]
fn sides_may_have_designs_of_their_own() {
    let mut plan = spec(CornerStyle::Leg);
    plan.borders[0].side = named([Some("side"), Some("other"), Some("side"), Some("other")]);
    let long: Vec<Point> = wave(0.5)
        .points()
        .iter()
        .map(|point| Point::new(point.x * 2.0, point.y))
        .collect();
    let other = Motif::from_points("long", long).expect("a motif");
    let solved = solve(&plan, |request| {
        Ok(match request.name.as_str() {
            "corner" => corner(0.5, 0.5),
            "side" => wave(0.5),
            _ => other.clone(),
        }
        .into())
    })
    .expect("solved");
    assert!(solved.paths[0].closed);
    let plain = self::solved(&spec(CornerStyle::Leg));
    assert_eq!(side_of(&solved, Side::TOP), side_of(&plain, Side::TOP));
    // Twice as long, so half as often: 52.75 / 21 = 2.51, 3 repeats by sqrt(2 x 3) = 2.45.
    let (_, right) = side_of(&solved, Side::RIGHT);
    assert_eq!(right.fit.chosen.repeats, 3);
    assert!((right.fit.chosen.stretch - 52.75 / 63.0).abs() < 1e-12);
}

#[test]
fn what_has_nowhere_to_go_is_refused_with_its_key() {
    let two = [true, false, true, false];
    let mut mixed = spec(CornerStyle::Mitred);
    mixed.borders[0].side = named([Some("side"), Some("corner"), Some("side"), Some("corner")]);
    let mut bare = spec(CornerStyle::Mitred);
    bare.borders[0].side = SideSpec::default();
    let mut empty = spec(CornerStyle::Open);
    empty.borders[0].side = SideSpec::default();
    let mut keys = spec(CornerStyle::Open);
    keys.borders[0].side = SideSpec::default().with_ease(true);
    let mut narrow = spec(CornerStyle::Open);
    narrow.borders[0].width = BySide::Named(NamedSides {
        top: Some(inches(6.0)),
        ..NamedSides::default()
    });
    for (plan, says) in [
        (
            with_sides(CornerStyle::Leg, two),
            "borders[0]: corner: leg corners have nowhere to go: no two sides that meet have a drawing",
        ),
        (
            mixed,
            "borders[0]: corner: mitred corners are made from one repeat, and their sides have",
        ),
        (
            bare,
            "borders[0]: corner: mitred corners are made from the repeat of the sides, and these have none",
        ),
        (empty, "borders: no border has a drawing"),
        (
            keys,
            "borders[0]: side: the sides have no drawing; give one",
        ),
        (narrow, "borders[0]: width: the right side has no width"),
    ] {
        let said = refused(&plan);
        assert!(said.starts_with(says), "{said}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn any_choice_of_sides_is_solved_and_stays_in_its_band(
        sides in any::<[bool; 4]>(),
        style in prop::sample::select(vec![
            CornerStyle::Open, CornerStyle::Butted, CornerStyle::Leg, CornerStyle::Mitred,
        ]),
        slack in 0.0..0.8f64,
        alike in any::<bool>(),
    ) {
        let mut plan = with_sides(style, sides);
        plan.borders[0].slack = Some(inches(slack));
        plan.borders[0].side.opposite_alike = alike;
        let meet = (0..4).any(|at| sides[at] && sides[(at + 1) % 4]);
        let result = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5));
        let any = sides.contains(&true);
        let fits = match style {
            CornerStyle::Open | CornerStyle::Butted => any,
            CornerStyle::Leg => meet || !any,
            _ => meet,
        };
        prop_assert_eq!(result.is_ok(), fits, "{:?}", result.err());
        let Ok(solved) = result else { return Ok(()) };
        let stitched = |side: &Side| solved.pieces.iter().any(|piece| {
            matches!(&piece.kind, PieceKind::Side(detail) if detail.side == *side)
        });
        prop_assert_eq!(SIDES.map(|side| stitched(&side)), sides);
        prop_assert!(solved.joins.iter().all(|join| join.gap < 1e-9));
        let bounds = solved.layouts[0].band.outer.corners();
        for point in solved.pieces.iter().flat_map(Piece::points) {
            prop_assert!(point.x > bounds[0].x - 1e-6 && point.x < bounds[2].x + 1e-6);
            prop_assert!(point.y > bounds[0].y - 1e-6 && point.y < bounds[2].y + 1e-6);
        }
        // One border solved anew is the same.
        let load = |request: &MotifRequest| Ok(match request.name.as_str() {
            "corner" => corner(0.5, 0.5),
            _ => wave(0.5),
        }.into());
        let again = solve_anew(&plan, &solved, Part::Border(0), load).expect("solved anew");
        prop_assert_eq!(again, solved);
    }
}
