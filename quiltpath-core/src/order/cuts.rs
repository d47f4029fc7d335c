//! Which pass each atom is stitched in, so that the thread is cut as seldom as possible.
//!
//! Problem: atoms are edges of a multigraph whose vertices are the places where ends are joined;
//! each may be put into any of the windows that reach it. The atoms of one window fall into
//! connected parts, and a part with o odd vertices takes max(1, o/2) runs (Euler), each of them one
//! thread cut. Wanted are windows with the fewest runs in all.
//! Method: a run passes joins, so atoms next to each other in it share a window. Pair the ends at
//! each place where two meet; a chain is then cut by going along it as far as one window reaches
//! (greedy); on a ring some cut lies within the first stretch that no window reaches, so greedy
//! starts at each place of that stretch. Windows are intervals of numbers, so a stretch has a
//! common window exactly when its greatest first number is not above its least last one.
//! Guarantee: exact on chains and rings, which is all that borders have. Where three or more ends
//! meet, see `search`: exact within a budget, else with a lower bound.
//! Failure: none.

mod search;

#[cfg(test)]
mod tests;

use std::collections::BinaryHeap;
use std::ops::Range;

use super::passes::Reach;
use crate::graph::{root, unite};
use search::Component;

pub use search::SEARCH_BUDGET;

/// No end is joined to this one.
const NONE: usize = usize::MAX;

/// The window of each atom.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Assigned {
    pub(super) window: Vec<usize>,
    /// No choice of windows takes fewer runs.
    pub(super) least: usize,
}

/// Atoms in the order in which they are joined.
#[derive(Debug, Clone, PartialEq)]
struct Trail {
    atoms: Vec<usize>,
    closed: bool,
}

/// Gives each atom a window that reaches it, so that few runs are needed.
///
/// `ends` are the vertices at the start and the end of each atom, numbered below `vertices`.
///
/// # Complexity
///
/// O(n log n) for chains; on a ring times the atoms in one window; up to [`SEARCH_BUDGET`] steps
/// for each part where more than two ends meet.
pub(super) fn assign(ends: &[[usize; 2]], vertices: usize, reach: &[Reach]) -> Assigned {
    let mut around: Vec<Vec<usize>> = vec![Vec::new(); vertices];
    let mut part: Vec<usize> = (0..vertices).collect();
    for (atom, pair) in ends.iter().enumerate() {
        around[pair[0]].push(2 * atom);
        around[pair[1]].push(2 * atom + 1);
        unite(&mut part, *pair);
    }
    let mut branches: Vec<Vec<Vec<usize>>> = vec![Vec::new(); vertices];
    let mut mates = vec![NONE; 2 * ends.len()];
    for (at, around) in around.into_iter().enumerate() {
        match *around.as_slice() {
            [a, b] => (mates[a], mates[b]) = (b, a),
            [_, _, _, ..] => {
                let place = root(&mut part, at);
                branches[place].push(around);
            }
            _ => {}
        }
    }
    let mut strands: Vec<Vec<Trail>> = vec![Vec::new(); vertices];
    for trail in trails(&mates) {
        let place = root(&mut part, ends[trail.atoms[0]][0]);
        strands[place].push(trail);
    }
    // Ends that meet in threes or more are paired as well as can be for a first choice.
    for ends in branches.iter().flatten() {
        pairs(ends, reach, |a, b| (mates[a], mates[b]) = (b, a));
    }
    let mut window = vec![0; ends.len()];
    let mut least = 0;
    for trail in trails(&mates) {
        let runs = spread(&trail, reach, &mut window);
        if branches[root(&mut part, ends[trail.atoms[0]][0])].is_empty() {
            least += runs;
        }
    }
    for (strands, branches) in strands.into_iter().zip(branches) {
        if !branches.is_empty() {
            least += Component::new(ends, strands, branches).improve(reach, &mut window);
        }
    }
    Assigned { window, least }
}

/// The atoms that follow each other where each end goes on at its mate: open ones, then rings.
fn trails(mates: &[usize]) -> Vec<Trail> {
    let mut seen = vec![false; mates.len() / 2];
    let mut trails = Vec::new();
    let heads = (0..mates.len()).filter(|&end| mates[end] == NONE);
    for head in heads.chain(0..mates.len()) {
        if seen[head / 2] {
            continue;
        }
        let mut atoms = Vec::new();
        let mut end = head;
        while end != NONE && !seen[end / 2] {
            seen[end / 2] = true;
            atoms.push(end / 2);
            end = mates[end ^ 1];
        }
        let closed = end != NONE;
        trails.push(Trail { atoms, closed });
    }
    trails
}

/// The most disjoint pairs of ends whose atoms share a window.
///
/// Of the atoms left, the one that goes out of reach first is paired with the one that does so
/// next among those that share a window with it. All of these share its last window, so any of
/// them can take another's place in a pairing (which makes this exact).
fn pairs(ends: &[usize], reach: &[Reach], mut each: impl FnMut(usize, usize)) -> usize {
    let of = |end: usize| reach[end / 2];
    let mut by_last = ends.to_vec();
    by_last.sort_by_key(|&end| of(end).last);
    let mut by_first = ends.to_vec();
    by_first.sort_by_key(|&end| of(end).first);
    let mut coming = by_first.into_iter().peekable();
    let mut open = BinaryHeap::new();
    let mut count = 0;
    for end in by_last {
        let last = of(end).last;
        while let Some(next) = coming.next_if(|&next| of(next).first <= last) {
            open.push(std::cmp::Reverse((of(next).last, next)));
        }
        // An atom that was paired before has left; the first one left goes out of reach no sooner.
        match open.peek() {
            Some(std::cmp::Reverse(first)) if first.0 == last => {}
            _ => continue,
        }
        if let (Some(first), Some(second)) = (open.pop(), open.pop()) {
            each(first.0.1, second.0.1);
            count += 1;
        }
    }
    count
}

/// Cuts atoms into as few stretches as possible, each with a common window: their number. Sees
/// the positions of each and its first common window.
fn stretches(
    atoms: impl Iterator<Item = usize>,
    reach: &[Reach],
    mut see: impl FnMut(Range<usize>, usize),
) -> usize {
    let mut count = 0;
    let mut from = 0;
    let mut common: Option<Reach> = None;
    let mut to = 0;
    for atom in atoms {
        let both = common.map_or(reach[atom], |common| common.and(reach[atom]));
        if let Some(common) = common
            && both.is_none()
        {
            see(from..to, common.first);
            count += 1;
            from = to;
        }
        common = Some(if both.is_none() { reach[atom] } else { both });
        to += 1;
    }
    if let Some(common) = common {
        see(from..to, common.first);
        count += 1;
    }
    count
}

/// Gives the atoms of a trail their windows; returns the number of runs that it falls into.
fn spread(trail: &Trail, reach: &[Reach], window: &mut [usize]) -> usize {
    let atoms = &trail.atoms;
    let turned = |by: usize| atoms[by..].iter().chain(&atoms[..by]).copied();
    let mut opening = 0;
    if trail.closed {
        let mut first = 0;
        stretches(turned(0), reach, |stretch, _| {
            if stretch.start == 0 {
                first = stretch.end;
            }
        });
        if first < atoms.len() {
            let runs = |by: &usize| stretches(turned(*by), reach, |_, _| {});
            opening = (1..=first).min_by_key(runs).unwrap_or(0);
        }
    }
    stretches(turned(opening), reach, |stretch, common| {
        for atom in turned(opening).skip(stretch.start).take(stretch.len()) {
            window[atom] = common;
        }
    })
}
