//! The search cut short, and its starting pairs, held against brute force.

use super::*;
use crate::geom::region::Region;
use crate::geom::{Point, Polyline};
use crate::trim::{ClippedPiece, EndOn, Terminals, brute};
use proptest::prelude::*;

/// A square, 40 round.
fn square() -> Region {
    crate::leg::rectangle(10.0, 10.0).expect("a region")
}

/// Straight pieces from place to place on the boundary, and the ring that they make.
fn ring(ends: &[(f64, f64)], start: Option<f64>, inset: f64) -> Option<Boundary> {
    let boundary = crate::geom::region::Perimeter::of(&square());
    let piece = |&(a, b): &(f64, f64)| {
        let points: Vec<Point> = [a, b].map(|at| boundary.point_at(at)).to_vec();
        Some(ClippedPiece {
            line: Polyline::new(points).ok()?,
            start: EndOn::Boundary(a),
            end: EndOn::Boundary(b),
        })
    };
    let pieces: Vec<ClippedPiece> = ends.iter().filter_map(piece).collect();
    let terminals = Terminals { start, end: None };
    Boundary::of(&pieces, &square(), terminals, inset).ok()
}

fn ends() -> impl Strategy<Value = Vec<(f64, f64)>> {
    let place = || prop_oneof![3 => 0.0..40.0f64, 1 => (0u8..40).prop_map(f64::from)];
    prop::collection::vec((place(), place()), 1..7)
}

/// The path starts where it has to, or anywhere, and ends wherever is best.
fn cases(ring: &Boundary) -> Vec<Case> {
    let (searched, ends) = match ring.start {
        Some(start) => (1, [End::At(start), End::Searched(0)]),
        None => (2, [End::Searched(0), End::Searched(1)]),
    };
    vec![Case {
        searched,
        ends,
        cuts: Vec::new(),
    }]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(crate::cases(600)) })]

    #[test]
    fn however_early_the_search_stops_the_least_lies_between_its_bound_and_its_best(
        ends in ends(), start in prop::option::of(0.0..40.0f64), tries in 0usize..40, inset in prop_oneof![Just(0.0), Just(0.5)],
    ) {
        let Some(ring) = ring(&ends, start, inset) else { return Ok(()) };
        let mut search = Search::new(&ring, cases(&ring), &[]);
        search.budget = tries * ring.nodes.len();
        search.search(&vec![false; ring.edges.len()]);
        let (_, least) = brute::any_order(&ring, false);
        prop_assert!(search.untried().min(search.best_length()) <= least + 1e-9);
        // At an inset the length found leaves out stubs that are passed twice.
        prop_assert!(inset > 0.0 || search.best_length() >= least - 1e-9);
        // Nothing left untried: the best is the least.
        prop_assert!(search.untried() < search.best_length() || search.best_length() <= least + 1e-9);
    }

    /// Moved one place on or back: climbing goes on while that helps.
    #[test]
    fn climbing_ends_where_no_move_of_one_place_helps(ends in ends(), first in 0usize..12, second in 0usize..12) {
        let Some(ring) = ring(&ends, None, 0.0) else { return Ok(()) };
        let mut search = Search::new(&ring, cases(&ring), &[]);
        let count = search.candidates.len();
        let (first, second) = (first % count, second % count);
        prop_assume!(first != second);
        let doubled = vec![false; ring.edges.len()];
        let pattern = Pattern::of(&ring, &search.odd_vertices(&doubled));
        let scope = Scope { case: 0, doubled: &doubled, pattern: &pattern, over: 0.0, spanning: search.spanning(0) };
        let pair = |search: &Search, [p, q]: [usize; 2]| [p, q].map(|at| Some(search.candidates[at % count]));
        let start = scope.choice(pair(&search, [first, second]), false);
        prop_assert!(search.attempt(&scope, &start));
        search.climb(&scope);
        let Some(Best { length, places: [Some(first), Some(second)], .. }) = search.best else {
            panic!("a best pair");
        };
        let (p, q) = (first.node, second.node);
        for moved in [[p + 1, q], [p + count - 1, q], [p, q + 1], [p, q + count - 1]] {
            if moved[0] % count == moved[1] % count {
                continue;
            }
            for bit in [false, true] {
                let choice = scope.choice(pair(&search, moved), bit);
                search.best = None;
                prop_assert!(search.attempt(&scope, &choice));
                prop_assert!(search.best_length() >= length, "{moved:?}");
            }
        }
    }

    #[test]
    fn the_pairs_to_start_from_ask_for_least_and_their_bound_holds_for_all_pairs(
        ends in ends(), inset in prop_oneof![Just(0.0), Just(0.5)], over in prop::collection::vec(any::<bool>(), 7),
    ) {
        let Some(ring) = ring(&ends, None, inset) else { return Ok(()) };
        let mut search = Search::new(&ring, cases(&ring), &[]);
        prop_assume!(search.candidates.len() > 1);
        let doubled = &over[..ring.edges.len()];
        let pattern = Pattern::of(&ring, &search.odd_vertices(doubled));
        let spanning = search.spanning(0);
        let scope = Scope { case: 0, doubled, pattern: &pattern, over: search.over(doubled), spanning };
        let (seeds, bound) = scope.seeds(&search.candidates);
        let mut least = f64::INFINITY;
        for (k, &a) in search.candidates.iter().enumerate() {
            for &b in &search.candidates[k + 1..] {
                for bit in [false, true] {
                    let choice = scope.choice([Some(a), Some(b)], bit);
                    least = least.min(choice.parity);
                    prop_assert!(bound <= choice.bound + 1e-9 && choice.parity <= choice.bound + 1e-9);
                }
            }
        }
        let seeded = seeds.iter().map(|seed| seed.parity).fold(f64::INFINITY, f64::min);
        prop_assert!((seeded - least).abs() < 1e-9, "{seeded} {least}");
        prop_assert!(bound >= least - 1e-9 && (inset > 0.0 || bound >= spanning - 1e-9));
    }
}
