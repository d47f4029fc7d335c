//! The best way for the drawings of a border to lie, held against every way tried by hand.

use super::*;
use crate::chain::Alternate;
use proptest::prelude::*;

/// A repeat that starts and ends at other heights, with a hill of this height between.
fn slope(start: f64, end: f64, hill: f64) -> Motif {
    let level = |across: f64| 2.0 * (1.0 - across);
    motif(&[
        (0.0, level(start)),
        (0.8, 2.0),
        (1.6, hill),
        (2.4, 0.0),
        (3.6, level(end)),
    ])
}

fn plan(ends: Ends) -> PlanSpec {
    let mut spec = spec(CornerStyle::Leg);
    // Two or three repeats on a side show all that there is to see, in a fraction of the time.
    spec.quilt = QuiltSpec::rectangle(inches(46.0), inches(52.0));
    spec.borders[0].side.ends = ends;
    spec
}

/// What a border of one solved plan comes to, in steps, counted here.
fn steps(solved: &Solved) -> [usize; 4] {
    let rounded = |value: f64| value.round() as usize;
    let links = |piece: &Piece| match &piece.kind {
        PieceKind::Side(side) => side.links,
        PieceKind::Link(_) => 1,
        _ => 0,
    };
    let sides = SIDES.map(|side| *side_of(solved, side).1);
    let most = |of: &dyn Fn(&SideDetail) -> f64| sides.iter().map(of).fold(0.0, f64::max);
    let is_link = |piece: usize| matches!(solved.pieces[piece].kind, PieceKind::Link(_));
    let joined = solved
        .joins
        .iter()
        .filter(|join| !is_link(join.from) && !is_link(join.to));
    let kink = joined.fold(most(&|side| side.kink_degrees), |worst, join| {
        worst.max(join.kink_degrees)
    });
    [
        solved.pieces.iter().map(links).sum(),
        rounded(most(&|side| side.levelled) * 16.0 / INCH),
        rounded(kink / 5.0),
        rounded(most(&|side| (side.fit.chosen.stretch - 1.0).abs()) * 100.0),
    ]
}

/// Every way, in the order in which they are preferred where they are as good.
fn all() -> Vec<(SideLie, CornerLie, Arrangement, Alternate)> {
    let mut ways = Vec::new();
    for alternate in [Alternate::None, Alternate::LeftRight, Alternate::TopBottom] {
        for arrangement in [Arrangement::Mirrored, Arrangement::Turned] {
            for corner in [CornerLie::AsIs, CornerLie::Mirrored] {
                for side in [
                    SideLie::AsIs,
                    SideLie::Mirrored,
                    SideLie::Flipped,
                    SideLie::Turned,
                ] {
                    ways.push((side, corner, arrangement, alternate));
                }
            }
        }
    }
    ways
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn the_best_way_is_that_of_brute_force(
        repeat in [0.0..1.0f64, 0.0..1.0f64, 0.2..1.8f64],
        ends in [0.0..1.0f64, 0.0..1.0f64],
        linked in any::<bool>(),
    ) {
        let (side, l) = (slope(repeat[0], repeat[1], repeat[2]), corner(ends[0], ends[1]));
        let mut spec = plan(if linked { Ends::Link } else { Ends::Level });
        spec.borders[0].orientation = OrientationSpec::Best;
        let best = solve_with(&spec, &l, &side).expect("solved");
        let mut least: Option<([usize; 4], Solved)> = None;
        let mut drawn = [0; 4];
        for (number, (lie, corner, arrangement, alternate)) in all().into_iter().enumerate() {
            let mut spec = plan(if linked { Ends::Link } else { Ends::Level });
            let border = &mut spec.borders[0];
            (border.side.lie, border.side.alternate) = (lie, alternate);
            (border.corner.lie, border.corner.arrangement) = (corner, Some(arrangement));
            let solved = solve_with(&spec, &l, &side).expect("solved");
            let cost = steps(&solved);
            if number == 0 {
                drawn = cost;
            }
            if least.as_ref().is_none_or(|(least, _)| cost < *least) {
                least = Some((cost, solved));
            }
        }
        let (cost, solved) = least.expect("a way");
        prop_assert_eq!(steps(&best), cost);
        prop_assert!(cost <= drawn);
        // Of ways that are as good it is the first, so as drawn where that is one of them.
        prop_assert_eq!(&best.pieces, &solved.pieces);
        let told = best.findings.iter().any(|one| one.code() == "best_way");
        let as_drawn = cost == drawn;
        prop_assert_eq!(told, !as_drawn);
    }
}

#[test]
fn a_way_with_fewer_links_is_told_of_and_takes_them_away() {
    // The repeat starts and ends high, the corner's legs end low: flipped, they meet.
    let (side, l) = (slope(0.95, 0.95, 1.0), corner(0.05, 0.05));
    let solved = solve_with(&plan(Ends::Level), &l, &side).expect("solved");
    let told = solved
        .findings
        .iter()
        .find(|one| one.code() == "better_way");
    let Some(FindingKind::BetterWay { way, costs }) = told.map(|one| &one.kind) else {
        panic!("{:?}", codes(&solved));
    };
    assert_eq!((costs[0].links, costs[1].links), (8, 0));
    let rooms = border_rooms(&plan(Ends::Level), &solved);
    let sides = side_choices(&plan(Ends::Level), &solved);
    let (Ok(rooms), Ok(sides)) = (rooms, sides) else {
        panic!("rooms and choices");
    };
    let finding = told.expect("a finding");
    let changes = ways_of(finding, &sides, &rooms);
    let [change @ Change::Lie { .. }] = changes.as_slice() else {
        panic!("{changes:?}");
    };
    let after = change.apply(&plan(Ends::Level)).expect("a plan");
    assert_eq!(after.borders[0].side.lie, way.side);
    let after = solve_with(&after, &l, &side).expect("solved");
    assert!(
        after
            .pieces
            .iter()
            .all(|piece| !matches!(piece.kind, PieceKind::Link(_)))
    );
    assert!(!codes(&after).contains(&"better_way"));
}

#[test]
fn what_the_plan_says_is_not_tried_otherwise() {
    let (side, l) = (slope(0.95, 0.95, 1.0), corner(0.05, 0.05));
    let mut spec = plan(Ends::Level);
    let border = &mut spec.borders[0];
    border.orientation = OrientationSpec::Best;
    border.side.lie = SideLie::Mirrored;
    border.side.alternate = Alternate::LeftRight;
    border.corner.arrangement = Some(Arrangement::Turned);
    let best = solve_with(&spec, &l, &side).expect("solved");
    let told = best.findings.iter().find_map(|one| match &one.kind {
        FindingKind::BestWay { way, .. } => Some(*way),
        _ => None,
    });
    if let Some(way) = told {
        assert_eq!(way.side, SideLie::Mirrored);
        assert_eq!(way.alternate, Alternate::LeftRight);
        assert_eq!(way.arrangement, Arrangement::Turned);
    }
    // One side solved anew lies as the others do.
    spec.borders[0].side.lie = SideLie::AsIs;
    spec.borders[0].side.alternate = Alternate::None;
    let load = |request: &MotifRequest| {
        Ok(if request.name == "corner" {
            l.clone()
        } else {
            side.clone()
        }
        .into())
    };
    let best = solve(&spec, load).expect("solved");
    let again = solve_anew(&spec, &best, Part::Side(0, Side::RIGHT), load).expect("solved");
    assert_eq!(again.pieces, best.pieces);
}

#[test]
fn mitred_and_round_borders_take_their_best_way_too() {
    let side = slope(0.3, 0.3, 0.4);
    let round = QuiltSpec::circle(inches(44.0));
    let mut plans = vec![spec(CornerStyle::Mitred), spec(CornerStyle::Open)];
    plans[1].quilt = round;
    for plan in plans {
        let mut least: Option<[usize; 4]> = None;
        for lie in [
            SideLie::AsIs,
            SideLie::Mirrored,
            SideLie::Flipped,
            SideLie::Turned,
        ] {
            for alternate in [Alternate::None, Alternate::LeftRight, Alternate::TopBottom] {
                let mut way = plan.clone();
                let border = &mut way.borders[0];
                (border.side.lie, border.side.alternate) = (lie, alternate);
                let solved = solve_with(&way, &corner(0.5, 0.5), &side).expect("solved");
                let steps = way_cost(&solved, 0).steps();
                least = Some(least.map_or(steps, |least| least.min(steps)));
            }
        }
        let mut best = plan.clone();
        best.borders[0].orientation = OrientationSpec::Best;
        let solved = solve_with(&best, &corner(0.5, 0.5), &side).expect("solved");
        assert_eq!(Some(way_cost(&solved, 0).steps()), least);
    }
}
