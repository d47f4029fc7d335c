//! Which of given windows each atom is stitched in, so that the thread is cut as seldom as
//! possible.
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

mod net;
mod pairs;
mod search;
#[cfg(test)]
mod tests;
mod trail;

use super::passes::Reach;
use pairs::pairs;
use search::Component;
use trail::trails;

pub(super) use net::Net;
pub(super) use trail::{Trail, stretches};

/// The window of each atom.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Assigned {
    pub(super) window: Vec<usize>,
    /// No choice among these windows takes fewer runs.
    pub(super) least: usize,
}

/// Gives each atom a window that reaches it, so that few runs are needed.
///
/// # Complexity
///
/// O(n log n) for chains; on a ring times the atoms in one window; up to a million steps
/// for each part where more than two ends meet.
pub(super) fn assign(net: &Net<'_>, reach: &[Reach]) -> Assigned {
    let mut mates = net.mates.clone();
    let mut branching = vec![false; net.parts.len()];
    // Ends that meet in threes or more are paired as well as can be for a first choice.
    for (branching, part) in branching.iter_mut().zip(&net.parts) {
        *branching = !part.branches.is_empty();
        for ends in &part.branches {
            pairs(ends, reach, |a, b| (mates[a], mates[b]) = (b, a));
        }
    }
    let mut window = vec![0; net.ends.len()];
    let mut least = 0;
    for trail in trails(&mates) {
        let runs = spread(&trail, reach, &mut window);
        if !branching[net.part_of[trail.atoms[0]]] {
            least += runs;
        }
    }
    for part in &net.parts {
        if !part.branches.is_empty() {
            least += Component::new(net.ends, part).improve(reach, &mut window);
        }
    }
    Assigned { window, least }
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
