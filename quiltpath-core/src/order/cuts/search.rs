//! Fewest runs where three or more ends meet: a search over windows, with a bound.
//!
//! Problem: as in `cuts`, for one connected part of the atoms in which some places join three or
//! more ends. Method: depth first over the windows of the atoms that have a choice, from a first
//! choice made by pairing; a branch is left when its bound is not below the best found.
//! Bound: cut the part at those places into strands. Runs = atoms − joins passed + closed runs. A
//! strand of k atoms that greedy cuts into s passes at most k − s joins inside; at a place where
//! many ends meet no more joins are passed than disjoint pairs of ends share a window. Hence
//! runs ≥ Σ s − Σ pairs; and also runs ≥ the least number of windows for all atoms.
//! Guarantee: exact when the search ends within its budget, which it does for any part of up to 8
//! atoms with 3 windows each or 14 atoms with 2; exact as well when the bound is met. Otherwise
//! the bound is what is reported. Failure: none.

use std::collections::HashMap;

use super::net::Part;
use super::pairs::pairs;
use super::trail::{NONE, stretches};
use crate::graph::{root, unite};
use crate::order::passes::Reach;

/// How many atoms the search for the fewest cuts looks at in one connected part, counted anew at
/// each step: 1 million.
const SEARCH_BUDGET: usize = 1_000_000;

/// A connected part of the atoms.
pub(super) struct Component<'a> {
    ends: &'a [[usize; 2]],
    atoms: Vec<usize>,
    part: &'a Part,
}

impl<'a> Component<'a> {
    pub(super) fn new(ends: &'a [[usize; 2]], part: &'a Part) -> Self {
        let atoms = part.strands.iter().flat_map(|strand| &strand.atoms);
        Self {
            ends,
            atoms: atoms.copied().collect(),
            part,
        }
    }

    /// Betters the choice of windows; returns what no choice can go below.
    pub(super) fn improve(&self, reach: &[Reach], window: &mut [usize]) -> usize {
        let mut best = self.runs(window);
        let least = self.bound(reach).max(self.windows(reach));
        if best == least {
            return least;
        }
        let free: Vec<usize> = self
            .atoms
            .iter()
            .copied()
            .filter(|&atom| reach[atom].count() > 1)
            .collect();
        let first = window.to_vec();
        let mut narrowed = reach.to_vec();
        let mut tried = vec![0; free.len()];
        let mut trial = first.clone();
        let (mut depth, mut looked_at) = (0, 0);
        loop {
            looked_at += self.atoms.len();
            if looked_at > SEARCH_BUDGET {
                return least;
            }
            if depth == free.len() {
                let runs = self.runs(&trial);
                if runs < best {
                    best = runs;
                    window.copy_from_slice(&trial);
                }
            } else {
                let atom = free[depth];
                if tried[depth] < reach[atom].count() {
                    // The first choice comes first, so that good ones are found early.
                    let rest = reach[atom].first + tried[depth];
                    let chosen = match tried[depth] {
                        0 => first[atom],
                        _ if rest > first[atom] => rest,
                        _ => rest - 1,
                    };
                    tried[depth] += 1;
                    trial[atom] = chosen;
                    narrowed[atom] = Reach {
                        first: chosen,
                        last: chosen,
                    };
                    depth += usize::from(self.bound(&narrowed) < best);
                    continue;
                }
                tried[depth] = 0;
                narrowed[atom] = reach[atom];
            }
            if depth == 0 || best == least {
                return best;
            }
            depth -= 1;
        }
    }

    /// No choice within these windows takes fewer runs.
    fn bound(&self, reach: &[Reach]) -> usize {
        let strands = self.part.strands.iter();
        let cut = strands.map(|strand| stretches(strand.atoms.iter().copied(), reach, |_, _| {}));
        let branches = self.part.branches.iter();
        let joins = branches.map(|ends| pairs(ends, reach, |_, _| {}));
        cut.sum::<usize>().saturating_sub(joins.sum())
    }

    /// The least number of windows that reach all the atoms.
    fn windows(&self, reach: &[Reach]) -> usize {
        let mut by_last = self.atoms.clone();
        by_last.sort_by_key(|&atom| reach[atom].last);
        let (mut count, mut at) = (0, NONE);
        for atom in by_last {
            if at == NONE || reach[atom].first > at {
                at = reach[atom].last;
                count += 1;
            }
        }
        count
    }

    /// The number of runs with these windows.
    fn runs(&self, window: &[usize]) -> usize {
        let mut number: HashMap<(usize, usize), usize> = HashMap::new();
        let mut odd = Vec::new();
        let mut edges = Vec::with_capacity(self.atoms.len());
        for &atom in &self.atoms {
            edges.push(self.ends[atom].map(|vertex| {
                let next = number.len();
                let place = *number.entry((vertex, window[atom])).or_insert(next);
                if place == odd.len() {
                    odd.push(false);
                }
                odd[place] ^= true;
                place
            }));
        }
        let mut parent: Vec<usize> = (0..odd.len()).collect();
        for edge in edges {
            unite(&mut parent, edge);
        }
        let mut odd_in = vec![0usize; odd.len()];
        for place in 0..odd.len() {
            odd_in[root(&mut parent, place)] += usize::from(odd[place]);
        }
        let roots = (0..odd.len()).filter(|&place| parent[place] == place);
        roots.map(|place| (odd_in[place] / 2).max(1)).sum()
    }
}
