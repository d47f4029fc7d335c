//! Depth and numbers of repeats chosen for a whole ring, and what else is possible.

use super::*;
use crate::io::words;
use proptest::prelude::*;

#[test]
fn fixed_numbers_and_parity_are_kept_and_stretch_is_reported() {
    let mut plan = spec(CornerStyle::Leg);
    plan.borders[0].side.repeats = Some(BySide::Named(NamedSides {
        top: Some(2),
        ..NamedSides::default()
    }));
    plan.borders[0].side.parity = Parity::Even;
    let solved = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    assert_eq!(side_of(&solved, Side::TOP).1.fit.chosen.repeats, 2);
    assert_eq!(side_of(&solved, Side::BOTTOM).1.fit.chosen.repeats, 4);
    assert_eq!(side_of(&solved, Side::LEFT).1.fit.chosen.repeats, 6);
    assert!(codes(&solved).contains(&"stretch"));
    assert_eq!(solved.worst(), Some(Severity::Warning));
    let message = words::finding(&solved.findings[0], &solved);
    assert!(
        message.starts_with("border-side-top: 2 repeats are stretched by +56.0 %"),
        "{message}"
    );
    assert!(
        message.contains("4 repeats would be stretched by -22.0 %"),
        "{message}"
    );
}

#[test]
fn slack_lets_the_depth_be_chosen_for_the_whole_ring() {
    // At the full depth top and bottom are squeezed and the other two stretched a little less.
    let mut plan = spec(CornerStyle::Leg);
    plan.quilt.width = inches(57.0).into();
    let tight = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    plan.borders[0].slack = Some(inches(0.5));
    let solved = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    assert!(worst_stretch(&solved) < worst_stretch(&tight) - 1e-3);
    assert_eq!(codes(&solved), ["depth_chosen"]);
    let depth = solved.layouts[0].depth() / INCH;
    assert!((4.75..=5.25).contains(&depth), "{depth}");
    assert!(solved.paths[0].closed);
    let FindingKind::DepthChosen {
        depth: chosen,
        given_up,
        ..
    } = solved.findings[0].kind
    else {
        panic!("{:?}", solved.findings);
    };
    assert!((chosen / INCH - depth).abs() < 1e-9);
    assert!((given_up / INCH - (5.25 - depth)).abs() < 1e-9);
    // Half of what is given up comes from either gap.
    let given = (5.25 - depth) / 2.0;
    assert!((solved.layouts[0].band.outer.corners()[0].x / INCH - 0.5 - given).abs() < 1e-9);
    plan.borders[0].slack = Some(inches(5.25));
    let error = refused(&plan);
    assert!(
        error.contains("slack: the slack is 5 1/4 in, but the band is only 5 1/4 in deep"),
        "{error}"
    );
}

fn worst_stretch(solved: &Solved) -> f64 {
    SIDES
        .into_iter()
        .map(|side| side_of(solved, side).1.fit.chosen.stretch.ln().abs())
        .fold(0.0, f64::max)
}

#[test]
fn opposite_sides_are_alike_where_asked() {
    // Turned corners with legs of unlike length leave opposite sides alike, so other numbers are
    // fixed on one side; being tied, the other follows.
    let mut plan = spec(CornerStyle::Leg);
    plan.borders[0].side.opposite_alike = true;
    plan.borders[0].side.repeats = Some(BySide::Named(NamedSides {
        top: Some(4),
        ..NamedSides::default()
    }));
    let solved = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    let repeats = SIDES.map(|side| side_of(&solved, side).1.fit.chosen.repeats);
    assert_eq!((repeats[0], repeats[2]), (4, 4));
    assert_eq!(repeats[1], repeats[3]);
}

#[test]
fn ways_out_of_too_much_stretch_are_told() {
    let mut plan = spec(CornerStyle::Leg);
    plan.max_stretch_percent = Some(2.0);
    let solved = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
    assert!(codes(&solved).contains(&"stretch"));
    let ways = solved
        .findings
        .iter()
        .find(|f| f.code() == "ways_out")
        .expect("ways out");
    let message = words::finding(ways, &solved);
    assert!(
        message.contains("a band ") && message.contains("corner legs "),
        "{message}"
    );
    assert!(
        message.contains("a plain spacer in the middle: "),
        "{message}"
    );
}

#[test]
fn easing_is_a_way_out_where_stems_take_the_stretch_and_nowhere_else() {
    let ways = |repeats: usize, ease: bool| {
        let mut plan = spec(CornerStyle::Leg);
        plan.max_stretch_percent = Some(2.0);
        plan.borders[0].side.ease = ease;
        plan.borders[0].side.repeats = Some(BySide::Named(NamedSides {
            top: Some(repeats),
            ..NamedSides::default()
        }));
        let solved = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
        let found = solved.findings.iter().find(|f| f.code() == "ways_out");
        words::finding(found.expect("ways out"), &solved)
    };
    assert!(ways(3, false).contains("\"ease\" in \"side\""));
    // Two hundred repeats on the top side are squeezed by -98 %: no stem is left to take that.
    assert!(
        !ways(200, false).contains("on the top side"),
        "{}",
        ways(200, false)
    );
    // Where repeats are eased already, that is no way out.
    assert!(!ways(3, true).contains("\"ease\""));
}

proptest! {
    #[test]
    fn slack_never_makes_the_worst_side_worse(
        width in 40.0..120.0f64, height in 40.0..120.0f64, slack in 0.0..1.0f64, more in 0.0..1.0f64, style in 0usize..4,
    ) {
        let style = [CornerStyle::Leg, CornerStyle::Mitred, CornerStyle::Bent, CornerStyle::Open][style];
        let mut plan = spec(style);
        plan.quilt = QuiltSpec::rectangle(inches(width), inches(height));
        let mut last = (false, f64::INFINITY);
        for slack in [0.0, slack, slack + more] {
            plan.borders[0].slack = Some(inches(slack));
            let solved = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
            // All sides within the limit go before a better worst one.
            let worst = within(&solved);
            let better = worst.0 && !last.0;
            prop_assert!(better || worst.0 == last.0 && worst.1 <= last.1 + 1e-9, "{worst:?} {last:?}");
            last = worst;
            let ring = solved.layouts[0].region().expect("a ring");
            for piece in &solved.pieces {
                prop_assert!(piece.motif().points().iter().all(|&p| ring.distance_outside(p) < 1e-9));
            }
        }
    }
}

/// Whether every side is within the limit, and how far from 1 the worst is.
fn within(solved: &Solved) -> (bool, f64) {
    let stretches = SIDES.map(|side| side_of(solved, side).1.fit.chosen.stretch);
    let all = stretches
        .iter()
        .all(|stretch| (stretch - 1.0).abs() <= solved.max_stretch);
    (all, worst_stretch(solved))
}

#[test]
fn the_limit_holds_for_numbers_chosen_for_a_whole_border_too() {
    // A span of 5.46 repeats: 5 are stretched by +9.2 %, 6 by -9.0 %, which is farther by ratio.
    let mut plan = spec(CornerStyle::Open);
    plan.max_stretch_percent = Some(9.01);
    let size = 2.0 * 6.25 + 5.46 * 10.5;
    plan.quilt = QuiltSpec::rectangle(inches(size), inches(size));
    let repeats = |plan: &PlanSpec| {
        let solved = solve_with(plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
        assert!(within(&solved).0, "{:?}", solved.findings);
        SIDES.map(|side| side_of(&solved, side).1.fit.chosen.repeats)
    };
    assert_eq!(repeats(&plan), [6; 4]);
    plan.borders[0].side.opposite_alike = true;
    assert_eq!(repeats(&plan), [6; 4]);
    plan.borders[0].side.opposite_alike = false;
    plan.shared_depth = true;
    assert_eq!(repeats(&plan), [6; 4]);
    plan.shared_depth = false;
    plan.borders[0].slack = Some(inches(1e-6));
    assert_eq!(repeats(&plan), [6; 4]);
}

#[test]
fn no_depth_of_a_fine_grid_is_better_than_the_one_that_slack_gives() {
    for style in [CornerStyle::Butted, CornerStyle::Open, CornerStyle::Leg] {
        for (width, height, slack) in [(60.0, 80.0, 1.0), (57.0, 83.0, 0.6), (41.3, 66.6, 1.5)] {
            for width_by_side in [[6.0; 4], [6.0, 5.0, 6.0, 5.0]] {
                let mut plan = spec(style);
                plan.quilt = QuiltSpec::rectangle(inches(width), inches(height));
                plan.borders[0].width =
                    BySide::List(width_by_side.map(|width| Some(inches(width))).to_vec());
                plan.borders[0].slack = Some(inches(slack));
                let best = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
                let (seam, edge) = (0.25, 0.5);
                let deepest = 6.0 - seam - edge;
                plan.borders[0].slack = None;
                for step in 0..=100 {
                    // The same depths by wider gaps, which grow in proportion to a side's own
                    // depth.
                    let less = slack * f64::from(step) / 100.0;
                    if width_by_side[1] != 6.0 && step > 0 {
                        break;
                    }
                    plan.borders[0].seam_gap = Some(inches(seam + less / 2.0));
                    plan.borders[0].edge_gap = Some(inches(edge + less / 2.0));
                    plan.borders[0].corner.gap = (style != CornerStyle::Leg).then(|| inches(seam));
                    let tried = solve_with(&plan, &corner(0.5, 0.5), &wave(0.5)).expect("solved");
                    assert!((tried.layouts[0].depth() / INCH - deepest + less).abs() < 1e-9);
                    let (found, here) = (within(&best), within(&tried));
                    let no_better =
                        found.0 && !here.0 || found.0 == here.0 && found.1 <= here.1 + 1e-9;
                    assert!(
                        no_better,
                        "{style:?} {width} x {height}, {width_by_side:?}, {less}: {found:?} {here:?}"
                    );
                }
            }
        }
    }
}
