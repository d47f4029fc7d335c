//! All lines of a drawing in one walk, with the least that is walked twice, linked or cut.
//!
//! Problem: every edge of a multigraph is to be walked. Edges may be walked again, and links
//! between its vertices may be walked up to twice, at their lengths; the walk may be cut at a
//! price, as often as that pays. Its start and its end are given or free. Wanted is the least cost:
//! the rural postman problem.
//!
//! Method: a vertex with an odd number of ends is paired with another along the shortest way, by a
//! matching of least cost ([`paired`](super::pairs::paired)); a free end of the walk is a vertex
//! more that pairs with any at no cost. A cut is a way through a hub that each vertex is half a
//! cut's price away from. What the matching leaves apart is branched on: one of the links that
//! leave it, or its hub, has to be walked. Each branch is matched anew, and taken in the order of
//! its cost (branch and bound). Before that, all parts are joined by the shortest links and the
//! rest matched, which is at most half as much again as the least where links are the shortest
//! between parts (Frederickson), and so a good walk to start from.
//!
//! Guarantee: exact where all hangs together, in one matching; else exact once the search ends by
//! itself, and otherwise `lower` bounds the least from below. Checked against brute force. Failure
//! cases: no links lead to a part and no cut is allowed.
//!
//! Sources: C. S. Orloff, "A fundamental problem in vehicle routing" (1974); J. Edmonds and E. L.
//! Johnson, "Matching, Euler tours and the Chinese postman" (1973); G. N. Frederickson,
//! "Approximation algorithms for some postman problems" (1979). From memory.

mod route;
mod state;

#[cfg(test)]
mod tests;

use std::cmp::Ordering;
use std::collections::BinaryHeap;

pub(crate) use route::Route;
pub(crate) use state::{Edge, Ends, Net};
use state::{Relaxed, State, Work};

/// The least walk, or the best that is found with the steps that are `left`, which it counts down;
/// none where a part can't be reached.
///
/// # Complexity
///
/// O(o (n log n + o²)) for o odd vertices and n lines where all hangs together; up to `left` steps
/// more where it doesn't.
pub(crate) fn least_route(
    net: &Net,
    ends: Ends,
    cut: Option<f64>,
    left: &mut u64,
) -> Option<Route> {
    let work = Work::new(net, ends, cut);
    let first = work.relaxed(State::default(), left)?;
    let mut best = work.completed(&first);
    if let Some(state) = work.spanning()
        && let Some(joined) = work.relaxed(state, left)
    {
        better(&mut best, work.completed(&joined), work.slack);
    }
    dive(&work, &first, &mut best, left);
    let mut open = BinaryHeap::from([Open(first)]);
    let mut lower = f64::INFINITY;
    while let Some(Open(at)) = open.pop() {
        let least = best.as_ref().map_or(f64::INFINITY, |best| best.cost);
        if at.lower >= least - work.slack {
            break;
        }
        if *left == 0 {
            lower = at.lower;
            break;
        }
        let Some(branches) = work.branches(&at) else {
            continue;
        };
        for state in branches {
            let Some(branch) = work.relaxed(state, left) else {
                continue;
            };
            let completed = work.completed(&branch);
            better(&mut best, completed, work.slack);
            if best
                .as_ref()
                .is_none_or(|best| branch.lower < best.cost - work.slack)
            {
                open.push(Open(branch));
            }
        }
    }
    let mut best = best?;
    best.lower = lower.min(best.cost);
    Some(best)
}

/// The least walk of those that start and end at one of these pairs, with the pair. All pairs share
/// half of the steps that are `left`, and what is left then goes to the one that did best, so that
/// many pairs take no longer than one.
pub(crate) fn least_of(
    net: &Net,
    pairs: &[[Option<usize>; 2]],
    cut: Option<f64>,
    left: &mut u64,
) -> Option<(Route, [Option<usize>; 2])> {
    let mut shared = if pairs.len() > 1 { *left / 2 } else { *left };
    *left -= shared;
    let mut best: Option<(Route, [Option<usize>; 2])> = None;
    for (at, &[start, end]) in pairs.iter().enumerate() {
        let share = shared / (pairs.len() - at) as u64;
        let mut own = share;
        let route = least_route(net, Ends { start, end }, cut, &mut own);
        shared -= share - own;
        if let Some(route) = route
            && best.as_ref().is_none_or(|best| route.cost < best.0.cost)
        {
            best = Some((route, [start, end]));
        }
    }
    *left += shared;
    let (route, [start, end]) = best?;
    let longer = match route.lower < route.cost && pairs.len() > 1 {
        true => least_route(net, Ends { start, end }, cut, left),
        false => None,
    };
    let better = longer.filter(|longer| longer.cost <= route.cost);
    Some((better.unwrap_or(route), [start, end]))
}

/// Follows the best of the first branches down to a walk.
fn dive(work: &Work<'_>, from: &Relaxed, best: &mut Option<Route>, left: &mut u64) {
    /// So many branches are tried at each step.
    const TRIED: usize = 6;
    let mut at = from.clone();
    while let Some(branches) = work.branches(&at) {
        if *left == 0 {
            return;
        }
        let tried = branches.into_iter().take(TRIED);
        let relaxed = tried.filter_map(|state| work.relaxed(state, left));
        let Some(next) = relaxed.min_by(|a, b| a.cost.total_cmp(&b.cost)) else {
            return;
        };
        at = next;
        better(best, work.completed(&at), work.slack);
    }
}

fn better(best: &mut Option<Route>, other: Option<Route>, slack: f64) {
    if let Some(other) = other
        && best
            .as_ref()
            .is_none_or(|best| other.cost < best.cost - slack)
    {
        *best = Some(other);
    }
}

/// Branches that are still to be looked at, the least cost first.
struct Open(Relaxed);

impl PartialEq for Open {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Open {}

impl PartialOrd for Open {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Open {
    fn cmp(&self, other: &Self) -> Ordering {
        other.0.lower.total_cmp(&self.0.lower)
    }
}
