//! Corner styles against hand arithmetic, and rings that close in their bands.

use super::*;
use crate::io::words;
use proptest::prelude::*;

#[test]
fn a_leg_plan_agrees_with_hand_arithmetic() {
    let solved =
        solve_with(&spec(CornerStyle::Leg), &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    let layout = &solved.layouts[0];
    assert!((layout.depth() - 5.25 * INCH).abs() < 1e-9);
    // The L is 5 in long with a depth of 2 in, so 13.125 in long with a depth of 5.25 in.
    // The outer line is 59 in long at the top: 59 - 2 x 13.125 = 32.75 in of span.
    // One repeat leads 10.5 in along: 32.75 / 10.5 = 3.119, so 3 repeats, +4.0 %.
    let (_, top) = side_of(&solved, Side::TOP);
    assert!((top.span - 32.75 * INCH).abs() < 1e-9);
    assert_eq!(top.fit.chosen.repeats, 3);
    assert!((top.fit.chosen.stretch - 32.75 / 31.5).abs() < 1e-12);
    let (_, right) = side_of(&solved, Side::RIGHT);
    assert!((right.span - 52.75 * INCH).abs() < 1e-9);
    assert_eq!(right.fit.chosen.repeats, 5);
    assert_eq!(codes(&solved), [] as [&str; 0]);
    assert_eq!(
        (solved.pieces.len(), solved.joins.len(), solved.paths.len()),
        (8, 8, 1)
    );
    assert!(solved.paths[0].closed);
    assert_eq!(solved.thread_cuts(), 1);
    for join in &solved.joins {
        assert!(join.gap < 1e-9);
    }
    let names: Vec<&str> = solved.pieces.iter().map(|p| p.name.as_str()).collect();
    assert_eq!(names[..2], ["border-corner-top-left", "border-side-top"]);
}

#[test]
fn ends_at_different_heights_are_levelled_or_linked() {
    let leg = spec(CornerStyle::Leg);
    let solved = solve_with(&leg, &corner(0.6, 0.4), &wave(0.5)).expect("solved");
    assert_eq!(codes(&solved), ["levelled"; 4]);
    assert!(solved.paths[0].closed && solved.pieces.len() == 8);
    let mut linking = leg.clone();
    linking.borders[0].side.ends = Ends::Link;
    let solved = solve_with(&linking, &corner(0.6, 0.4), &wave(0.5)).expect("solved");
    assert_eq!(codes(&solved), ["linked"; 8]);
    assert_eq!((solved.pieces.len(), solved.paths.len()), (16, 1));
    assert!(solved.paths[0].closed);
    let links = solved
        .pieces
        .iter()
        .filter(|p| matches!(p.kind, PieceKind::Link(_)));
    for link in links {
        assert!((link.motif().length() - 0.1 * 5.25 * INCH).abs() < 1e-9);
    }
}

#[test]
fn open_and_butted_sides_run_where_they_should() {
    let solved =
        solve_with(&spec(CornerStyle::Open), &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    let (top, _) = side_of(&solved, Side::TOP);
    // The corner square is 6 in wide and the gap is the seam gap of 1/4 in.
    assert!((top.motif().start().point.x - 6.25 * INCH).abs() < 1e-9);
    assert!((top.motif().end().point.x - 53.75 * INCH).abs() < 1e-9);
    assert_eq!((solved.joins.len(), solved.thread_cuts()), (0, 4));
    let mut butted = spec(CornerStyle::Butted);
    butted.borders[0].corner.gap = Some(inches(0.0));
    let solved = solve_with(&butted, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    let (top, _) = side_of(&solved, Side::TOP);
    let (left, _) = side_of(&solved, Side::LEFT);
    assert!((top.motif().start().point.x - 0.5 * INCH).abs() < 1e-9);
    assert!((left.motif().start().point.y - 74.0 * INCH).abs() < 1e-9);
    butted.borders[0].corner.through = Some(ThroughSpec::LeftRight);
    let solved = solve_with(&butted, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    let (top, _) = side_of(&solved, Side::TOP);
    assert!((top.motif().start().point.x - 6.0 * INCH).abs() < 1e-9);
}

#[test]
fn corners_made_from_the_repeat_close_the_ring() {
    for style in [CornerStyle::Mitred, CornerStyle::Bent] {
        let solved = solve_with(&spec(style), &corner(0.5, 0.5), &wave(0.4)).expect("solved");
        assert!(
            solved.worst() < Some(Severity::Error),
            "{:?}",
            solved.findings
        );
        assert_eq!((solved.pieces.len(), solved.thread_cuts()), (8, 1));
        assert!(solved.paths[0].closed);
        for join in &solved.joins {
            assert!(join.gap < 1e-9, "{style:?}: {join:?}");
        }
        let mut long = spec(style);
        long.borders[0].corner.legs = Some(4);
        let error = refused(&long);
        assert!(
            error.starts_with("borders[0]: corner: the corners take"),
            "{error}"
        );
    }
}

#[test]
fn links_within_corners_and_the_turns_at_their_ends_are_reported() {
    // It starts at mid height and ends at a tenth of it, on a short stem.
    let sloped = motif(&[
        (0.0, 1.0),
        (0.5, 1.0),
        (1.5, 0.0),
        (2.5, 2.0),
        (3.5, 1.8),
        (4.0, 1.8),
    ]);
    for (style, legs) in [(CornerStyle::Bent, None), (CornerStyle::Mitred, Some(1))] {
        let mut plan = spec(style);
        plan.borders[0].width = BySide::One(inches(3.0));
        plan.borders[0].corner.legs = legs;
        plan.borders[0].side.ends = Ends::Link;
        let solved = solve_with(&plan, &corner(0.5, 0.5), &sloped).expect("solved");
        let corner = solved.pieces.iter().find_map(|piece| match &piece.kind {
            PieceKind::Corner(detail) => Some(&detail.made),
            _ => None,
        });
        let links = match corner {
            Some(CornerMade::Bent { repeats, .. }) => *repeats,
            // One on either leg.
            _ => 2,
        };
        let found = solved
            .findings
            .iter()
            .filter_map(|finding| match finding.kind {
                FindingKind::RepeatsLinked { links } if finding.corner.is_some() => Some(links),
                _ => None,
            });
        assert_eq!(found.collect::<Vec<_>>(), [links], "{style:?}");
        for join in solved.joins.iter().filter(|_| style == CornerStyle::Bent) {
            let [from, to] = [join.from, join.to].map(|at| solved.pieces[at].motif().points());
            let last = from[from.len() - 1] - from[from.len() - 2];
            let next = to[1] - to[0];
            let drawn = last.perp(&next).abs().atan2(last.dot(&next)).to_degrees();
            // Chords of the corner lie a little off its directions.
            assert!((join.kink_degrees - drawn).abs() < 0.5, "{join:?} {drawn}");
            if let PieceKind::Corner(_) = solved.pieces[join.from].kind {
                // The corner's last link arrives square to the stem with which the side goes on.
                assert!((drawn - 90.0).abs() < 1.0, "{drawn}");
                let reported = |finding: &&Finding| matches!(finding.kind, FindingKind::JoinKink { next, .. } if next == join.to);
                assert_eq!(check::joins(&solved).iter().filter(reported).count(), 1);
            }
        }
    }
}

#[test]
fn a_block_design_is_cut_to_an_l_that_meets_the_repeat() {
    // A zigzag over the whole of a 6 in square, which any L of it crosses many times.
    let block: Vec<(f64, f64)> = (0..13)
        .map(|i| (f64::from(i) / 2.0, if i % 2 == 0 { 0.0 } else { 6.0 }))
        .collect();
    let mut plan = spec(CornerStyle::Leg);
    plan.max_stretch_percent = Some(50.0);
    plan.borders[0].corner.trim = Some(TrimSpec::new(inches(2.0)));
    let solved = solve_with(&plan, &motif(&block), &wave(0.3)).expect("solved");
    assert_eq!(
        codes(&solved),
        [
            "trimmed",
            "repeat_kink",
            "repeat_kink",
            "repeat_kink",
            "repeat_kink"
        ]
    );
    assert!(solved.paths[0].closed && solved.pieces.len() == 8);
    let PieceKind::Corner(detail) = &solved.pieces[0].kind else {
        panic!("a corner comes first");
    };
    let CornerMade::Trimmed {
        added_length,
        least_added,
        links,
        ..
    } = detail.made
    else {
        panic!("a trimmed corner");
    };
    assert!(links > 5 && added_length > 0.0 && Some(added_length) == least_added);
    assert!((detail.scale[0] - 5.25 / 2.0).abs() < 1e-12);
    plan.borders[0]
        .corner
        .trim
        .as_mut()
        .expect("set above")
        .leg_depth = inches(7.0);
    let error = solve_with(&plan, &motif(&block), &wave(0.3)).expect_err("too deep");
    assert!(
        error
            .to_string()
            .starts_with("borders[0]: corner: m: a leg depth of"),
        "{error}"
    );
}

#[test]
fn a_block_fills_the_corner_square_in_proportion() {
    let square = motif(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (0.0, 0.0)]);
    let mut plan = spec(CornerStyle::Block);
    plan.borders[0].corner.motif = Some("corner".to_owned());
    for (on_point, side) in [(false, 5.25), (true, 5.25 / f64::sqrt(2.0))] {
        plan.borders[0].corner.on_point = on_point;
        let solved = solve_with(&plan, &square, &wave(0.5)).expect("solved");
        assert_eq!((solved.pieces.len(), solved.thread_cuts()), (8, 8));
        let block = &solved.pieces[0];
        // A border of 6 in less 1/2 in at the edge and 1/4 in at the seams: 5 1/4 in.
        let bounds = block.motif().bounds();
        assert!((bounds.width() - 5.25 * INCH).abs() < 1e-9);
        assert!((bounds.min - Point::new(0.5, 0.5) * INCH).norm() < 1e-9);
        assert!((block.motif().length() - 4.0 * side * INCH).abs() < 1e-9);
        let PieceKind::Corner(detail) = &block.kind else {
            panic!("a corner comes first");
        };
        assert!((detail.scale[0] - side / 4.0).abs() < 1e-12);
        let last = &solved.pieces[4].motif().bounds();
        assert!((last.max - Point::new(59.5, 79.5) * INCH).norm() < 1e-9);
    }
}

#[test]
fn borders_nest_from_the_edge_inwards() {
    let mut plan = spec(CornerStyle::Leg);
    let mut inner = border(CornerStyle::Open, false);
    inner.width = inches(4.0).into();
    plan.borders.push(inner);
    let solved = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    let layout = &solved.layouts[1];
    assert_eq!(
        (layout.name.as_str(), solved.layouts[0].name.as_str()),
        ("border-2", "border-1")
    );
    // 6 in of the outer border, then 1/4 in at its seam; 4 in wide less 1/4 in at the inner seam.
    assert!((layout.band.outer.corners()[0].x - 6.25 * INCH).abs() < 1e-9);
    assert!((layout.band.inner.corners()[2].y - (80.0 - 9.75) * INCH).abs() < 1e-9);
    assert_eq!(solved.thread_cuts(), 5);
}

#[test]
fn legs_said_outright_go_before_the_analysis() {
    let mut plan = spec(CornerStyle::Leg);
    plan.borders[0].corner.leg = Some(
        LegSpec::default()
            .with_elbow(crate::geom::BoxCorner::TopLeft)
            .with_horizontal_depth(inches(2.5))
            .with_vertical_depth(inches(2.5))
            .with_turn_degrees(0.0),
    );
    let solved = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    let PieceKind::Corner(detail) = &solved.pieces[0].kind else {
        panic!("a corner comes first");
    };
    assert!((detail.scale[0] - 5.25 / 2.5).abs() < 1e-12 && detail.scale[0] == detail.scale[1]);
    plan.borders[0].corner.leg = Some(LegSpec::default().with_horizontal_depth(inches(9.0)));
    let error = refused(&plan);
    assert!(
        error.starts_with("borders[0]: corner: m: a leg depth of"),
        "{error}"
    );
}

#[test]
fn ink_beyond_the_ends_is_found_outside_the_band() {
    let mut plan = spec(CornerStyle::Butted);
    plan.borders[0].corner.gap = Some(inches(0.0));
    let overhanging = motif(&[(0.0, 1.0), (-1.0, 0.0), (3.0, 2.0), (4.0, 1.0)]);
    let solved = solve_with(&plan, &corner(0.5, 0.5), &overhanging).expect("solved");
    let found = &solved.findings[0];
    assert_eq!(
        (found.code(), found.severity),
        ("off_the_quilt", Severity::Error)
    );
    let message = words::finding(found, &solved);
    assert!(message.starts_with("border-side-top: "), "{message}");
    assert!(found.place().expect("a place").x < 0.5 * INCH);
}

proptest! {
    #[test]
    fn every_plan_closes_and_stays_in_its_band(
        width in 40.0..120.0f64, height in 40.0..120.0f64, border_width in 2.0..7.0f64,
        ends in (0.25..0.75f64, 0.25..0.75f64, 0.25..0.75f64),
        turned in any::<bool>(), link in any::<bool>(),
    ) {
        let mut plan = spec(CornerStyle::Leg);
        plan.quilt = QuiltSpec::rectangle(inches(width), inches(height));
        plan.borders[0].width = inches(border_width).into();
        plan.borders[0].corner.arrangement = Some(if turned { Arrangement::Turned } else { Arrangement::Mirrored });
        plan.borders[0].side.ends = if link { Ends::Link } else { Ends::Level };
        let side = wave(ends.2);
        let solved = solve_with(&plan, &corner(ends.0, ends.1), &side).expect("solved");
        prop_assert!(solved.paths.len() == 1 && solved.paths[0].closed);
        let ring = solved.layouts[0].region().expect("a ring");
        for piece in &solved.pieces {
            for &point in piece.motif().points() {
                prop_assert!(ring.distance_outside(point) < 1e-9);
            }
        }
        for join in &solved.joins {
            prop_assert!(join.gap < 1e-9, "{join:?}");
        }
        let total: f64 = solved.pieces.iter().map(|p| p.motif().length()).sum();
        prop_assert!((solved.paths[0].motif.length() - total).abs() < 1e-9 * total);
        for side in SIDES {
            let (piece, detail) = side_of(&solved, side);
            let way: Vector = piece.motif().end().point - piece.motif().start().point;
            let along = way.dot(&solved.layouts[0].strip(side).along());
            let drawn = 2.0 * solved.layouts[0].depth() * detail.fit.chosen.repeats as f64;
            prop_assert!((along / drawn - detail.fit.chosen.stretch).abs() < 1e-12);
        }
    }
}
