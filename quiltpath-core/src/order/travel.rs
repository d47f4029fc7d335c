//! The order, direction and opening of the runs with the least travel from run to run.
//!
//! Problem: the runs of each pass are stitched in any order, an open one from either end, a closed
//! one from the start of any of its atoms, either way round. Between them the machine moves in a
//! straight line; when the quilt is advanced the machine stays where it is on the frame.
//! Method: dynamic programming over the sets of runs stitched and the way that the last one was
//! stitched (M. Held and R. M. Karp, "A dynamic programming approach to sequencing problems",
//! 1962). A pass starts from every way that the one before may end, at what that cost, so the
//! travel over all passes of a loading together is the least.
//! Guarantee: exact while each pass has at most 14 runs and the table at most 2^24
//! steps. A larger pass is ordered by `nearby`, and a lower bound is reported: that of `bound` for
//! each pass, and the shortest way from pass to pass.
//! Failure: none.

mod bound;
mod nearby;
mod openings;
mod solved;
#[cfg(test)]
mod tests;

use super::ordered::Run;
use crate::geom::{Point, Vector};
use crate::trim::Exactness;
use bound::least_within;
use nearby::any_order;
use openings::{Openings, opened};
use solved::{Before, Finish, Solved, from_before};

/// The travel of a loading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Travel {
    pub(super) length: f64,
    pub(super) exactness: Exactness,
}

impl Default for Travel {
    fn default() -> Self {
        let (length, exactness) = (0.0, Exactness::Exact);
        Self { length, exactness }
    }
}

/// Puts the runs of each pass in order and turns and opens them, so that travel is little.
///
/// `ends` gives an atom's start and end on the cloth as loaded; pass k takes `tops[k]` off their y.
/// Each pass has a run. No travel is counted to the first run of all.
///
/// # Complexity
///
/// Up to 2^24 steps for each pass, or as `nearby` for a larger one.
pub(super) fn order_runs(
    passes: &mut [Vec<Run>],
    tops: &[f64],
    ends: impl Fn(usize) -> [Point; 2],
) -> Travel {
    let openings: Vec<Openings> = passes
        .iter()
        .zip(tops)
        .map(|(runs, &top)| {
            let lifted = Vector::new(0.0, top);
            Openings::of(runs, |atom| ends(atom).map(|point| point - lifted))
        })
        .collect();
    let mut solved: Vec<Solved> = Vec::with_capacity(passes.len());
    for openings in &openings {
        let before = solved.last().map_or(&[][..], |pass| &pass.finishes);
        solved.push(if openings.is_small() {
            subsets(openings, before)
        } else {
            any_order(openings, before)
        });
    }
    let finishes = solved.last().map_or(&[][..], |pass| &pass.finishes);
    let Some(best) = finishes.iter().min_by(|a, b| a.travel.total_cmp(&b.travel)) else {
        return Travel::default();
    };
    let length = best.travel;
    let mut place = best.place;
    for at in (0..passes.len()).rev() {
        let (order, finish) = solved[at].trace(place);
        let chosen = order.iter().map(|&opening| openings[at].all[opening]);
        passes[at] = chosen.map(|opening| opened(&passes[at], opening)).collect();
        if at > 0 {
            place = solved[at - 1].finishes[finish].place;
        }
    }
    let exactness = if solved.iter().all(|pass| pass.exact) {
        Exactness::Exact
    } else {
        bounded(length, &openings)
    };
    Travel { length, exactness }
}

/// How near a travel is to the least, by bounds within passes and shortest ways between them.
fn bounded(length: f64, passes: &[Openings]) -> Exactness {
    let least = |openings: &Openings| least_within(openings, length);
    let within: f64 = passes.iter().map(least).sum();
    let between = |pair: &[Openings]| {
        let ways = pair[0].all.iter().flat_map(|from| {
            let to = pair[1].all.iter();
            to.map(|to| (to.entry - from.exit).norm_squared())
        });
        ways.fold(f64::INFINITY, f64::min).sqrt()
    };
    let lower = within + passes.windows(2).map(between).sum::<f64>();
    // Both are sums of the same lengths, in another order.
    if length <= lower * (1.0 + 1e-12) {
        return Exactness::Exact;
    }
    let ratio = length / lower;
    Exactness::Bound { lower, ratio }
}

/// Exact: the least travel for each set of runs and each way to stitch the last of them.
fn subsets(openings: &Openings, before: &[Finish]) -> Solved {
    let (count, runs) = (openings.all.len(), openings.runs());
    let mut travel = vec![f64::INFINITY; count << runs];
    let mut table = vec![(0, Before::Finish(0)); count << runs];
    for (at, opening) in openings.all.iter().enumerate() {
        let place = (count << opening.run) + at;
        let (length, from) = from_before(before, opening.entry);
        travel[place] = length;
        table[place] = (at, from);
    }
    let all = (1usize << runs) - 1;
    for done in 1..all {
        for (at, last) in openings.all.iter().enumerate() {
            let place = done * count + at;
            let so_far = travel[place];
            if so_far.is_infinite() {
                continue;
            }
            for run in (0..runs).filter(|run| done >> run & 1 == 0) {
                for next in openings.of_run(run) {
                    let length = so_far + (openings.all[next].entry - last.exit).norm();
                    let to = (done | 1 << run) * count + next;
                    if length < travel[to] {
                        travel[to] = length;
                        table[to] = (next, Before::Place(place));
                    }
                }
            }
        }
    }
    let finish = |at: usize| Finish {
        at: openings.all[at].exit,
        travel: travel[all * count + at],
        place: all * count + at,
    };
    Solved {
        finishes: (0..count).map(finish).collect(),
        table,
        exact: true,
    }
}
