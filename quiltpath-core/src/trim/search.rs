//! Where the path ends: all choices in the order of a bound, until the bound reaches the best.
//!
//! Problem: with both ends of the path free there are as many choices as pairs of nodes, and the
//! postman takes O(n) for each. Method: what parity asks for and a lower bound take O(1) for each
//! pair (`postman`), by sums along the ring. A route found by climbing from the pairs for which
//! parity asks for least rules out most; the others are worked out in the order of their bounds.
//!
//! Guarantee: exact when the search ends by itself; else the least bound of what wasn't tried.
//! It ends by itself with one free end or none, and with two up to 2000 places, unless the budget
//! of 4 million steps runs out first. Failure cases: none.

mod choice;

pub(super) use choice::{Case, End};

use super::boundary::Boundary;
use super::postman::{Flip, Pattern, Postman};
use choice::{Candidate, Choice, Places, Scope};

/// Up to this many places on the boundary all pairs of free ends are considered.
pub(super) const PAIR_LIMIT: usize = 2000;

/// How many steps the search for free ends may take in all, each one node of one try.
const SEARCH_BUDGET: usize = 4_000_000;

/// How far the places move at first when a pair is improved.
const STRIDE: usize = 64;

/// The best route found.
#[derive(Debug, Clone)]
pub(super) struct Best {
    /// What it adds.
    pub(super) length: f64,
    /// The arcs that it takes once.
    pub(super) chosen: Vec<bool>,
    /// The arcs that it takes twice.
    pub(super) tree: Vec<usize>,
    /// The pieces that it takes twice.
    pub(super) doubled: Vec<bool>,
    /// The vertices on both sides of each thread cut.
    pub(super) joins: Vec<[usize; 2]>,
    pub(super) start: usize,
    case: usize,
    places: Places,
}

pub(super) struct Search<'a> {
    ring: &'a Boundary,
    postman: Postman<'a>,
    cases: Vec<Case>,
    candidates: Vec<Candidate>,
    best: Option<Best>,
    budget: usize,
    untried: f64,
}

impl<'a> Search<'a> {
    /// A search over these cases; where the path ends inside, that piece is not stitched back over.
    pub(super) fn new(
        ring: &'a Boundary,
        cases: Vec<Case>,
        stitched_back: &[(usize, usize)],
    ) -> Self {
        let on_ring = (0..ring.nodes.len()).map(|node| Candidate {
            vertex: node,
            node,
            spared: None,
            adds: 0.0,
        });
        let inside = stitched_back.iter().map(|&(vertex, piece)| Candidate {
            vertex,
            // Nodes come before places inside.
            node: ring.edges[piece].ends[0].min(ring.edges[piece].ends[1]),
            spared: Some(piece),
            adds: -ring.edges[piece].length,
        });
        let mut candidates: Vec<Candidate> = on_ring.chain(inside).collect();
        candidates.sort_by_key(|candidate| candidate.node);
        Self {
            ring,
            postman: Postman::new(ring),
            cases,
            candidates,
            best: None,
            budget: SEARCH_BUDGET,
            untried: f64::INFINITY,
        }
    }

    pub(super) fn ring(&self) -> &'a Boundary {
        self.ring
    }

    pub(super) fn postman(&mut self) -> &mut Postman<'a> {
        &mut self.postman
    }

    /// What the best route found adds.
    pub(super) fn best_length(&self) -> f64 {
        self.best.as_ref().map_or(f64::INFINITY, |best| best.length)
    }

    /// The least bound of what was not tried.
    pub(super) fn untried(&self) -> f64 {
        self.untried
    }

    pub(super) fn into_best(self) -> Best {
        self.best.unwrap_or_else(|| Best {
            length: 0.0,
            chosen: vec![false; self.ring.arcs.len()],
            tree: Vec::new(),
            doubled: vec![false; self.ring.edges.len()],
            joins: Vec::new(),
            start: 0,
            case: 0,
            places: [None, None],
        })
    }

    /// Tries all cases and places with these pieces stitched over, as far as the budget goes.
    pub(super) fn search(&mut self, doubled: &[bool]) {
        let pattern = Pattern::of(self.ring, &self.odd_vertices(doubled));
        for case in 0..self.cases.len() {
            let scope = Scope {
                case,
                doubled,
                pattern: &pattern,
                over: self.over(doubled),
                spanning: self.spanning(case),
            };
            let singles: Vec<Places> = match self.cases[case].searched {
                1 => self.candidates.iter().map(|&c| [Some(c), None]).collect(),
                _ => vec![[None, None]],
            };
            let both_bits = |&places: &Places| [false, true].map(|bit| scope.choice(places, bit));
            let choices: Vec<Choice> = singles.iter().flat_map(both_bits).collect();
            self.try_all(&scope, choices);
            if self.cases[case].searched == 2 {
                self.search_pairs(&scope);
            }
        }
    }

    fn search_pairs(&mut self, scope: &Scope) {
        let (seeds, least) = scope.seeds(&self.candidates);
        let untried = self.untried;
        self.try_all(scope, seeds);
        self.climb(scope);
        let count = self.candidates.len();
        if count > PAIR_LIMIT {
            self.untried = self.untried.min(least);
            return;
        }
        // All pairs, seeds among them, come now.
        self.untried = untried;
        let mut limit = self.best_length();
        // More pairs than the budget allows for needn't be kept.
        let tries = self.budget / self.ring.nodes.len() + 1;
        let mut open: Vec<(f64, [u32; 2], bool)> = Vec::new();
        for (first, &a) in self.candidates.iter().enumerate() {
            for (second, &b) in self.candidates.iter().enumerate().skip(first + 1) {
                for bit in [false, true] {
                    let bound = scope.choice([Some(a), Some(b)], bit).bound;
                    if bound < limit {
                        open.push((bound, [first as u32, second as u32], bit));
                    }
                }
            }
            if open.len() > 2 * tries {
                open.select_nth_unstable_by(tries, |a, b| a.0.total_cmp(&b.0));
                limit = open[tries].0;
                self.untried = self.untried.min(limit);
                open.truncate(tries);
            }
        }
        open.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
        for (bound, pair, bit) in open {
            if bound >= self.best_length() {
                break;
            }
            let places = pair.map(|place| Some(self.candidates[place as usize]));
            if !self.attempt(scope, &scope.choice(places, bit)) {
                self.untried = self.untried.min(bound);
                break;
            }
        }
    }

    fn try_all(&mut self, scope: &Scope, mut choices: Vec<Choice>) {
        choices.sort_unstable_by(|a, b| a.bound.total_cmp(&b.bound));
        for choice in choices {
            if choice.bound >= self.best_length() {
                break;
            }
            if !self.attempt(scope, &choice) {
                self.untried = self.untried.min(choice.bound);
                break;
            }
        }
    }

    /// Works out one choice; false when the budget doesn't allow it.
    fn attempt(&mut self, scope: &Scope, choice: &Choice) -> bool {
        let nodes = self.ring.nodes.len();
        // The first route of all is found whatever it takes.
        if self.budget < nodes && self.best.is_some() {
            return false;
        }
        self.budget = self.budget.saturating_sub(nodes);
        let vertex = |end: End| match end {
            End::At(vertex) => vertex,
            // A closed path starts anywhere.
            End::Searched(which) => choice.places[which].map_or(0, |place| place.vertex),
        };
        let case = &self.cases[scope.case];
        let joins: Vec<[usize; 2]> = case.cuts.iter().map(|cut| cut.map(vertex)).collect();
        let start = vertex(case.ends[0]);
        let limit = (self.best_length() - choice.parity) / 2.0;
        let chosen = |arc| scope.pattern.chosen(arc, choice.flip);
        let mut tree = Vec::new();
        let doubled_arcs = self
            .postman
            .tree(chosen, &joins, limit, |arc| tree.push(arc));
        let length = choice.parity + 2.0 * doubled_arcs;
        if length < self.best_length() {
            let mut doubled = scope.doubled.to_vec();
            let spared = choice
                .places
                .iter()
                .flatten()
                .filter_map(|place| place.spared);
            spared.for_each(|piece| doubled[piece] = false);
            self.best = Some(Best {
                length,
                chosen: (0..nodes).map(chosen).collect(),
                tree,
                doubled,
                joins,
                start,
                case: scope.case,
                places: choice.places,
            });
        }
        true
    }

    /// Moves the places of the best pair along the ring as long as that helps.
    fn climb(&mut self, scope: &Scope) {
        let count = self.candidates.len();
        // Half of the budget is left for what comes after.
        let reserve = self.budget / 2;
        let mut stride = STRIDE;
        while stride > 0 {
            let before = self.best_length();
            let Some([Some(first), Some(second)]) = self.best.as_ref().map(|best| best.places)
            else {
                return;
            };
            let at = |place: Candidate| {
                self.candidates
                    .partition_point(|other| other.node < place.node)
            };
            let (p, q) = (at(first), at(second));
            let back = count - stride % count;
            for (p, q) in [
                ((p + stride) % count, q),
                ((p + back) % count, q),
                (p, (q + stride) % count),
                (p, (q + back) % count),
            ] {
                if p == q {
                    continue;
                }
                let places = [p, q].map(|place| Some(self.candidates[place]));
                for choice in [false, true].map(|bit| scope.choice(places, bit)) {
                    if choice.bound < self.best_length()
                        && (self.budget < reserve || !self.attempt(scope, &choice))
                    {
                        return;
                    }
                }
            }
            if self.best_length() >= before {
                stride /= 2;
            }
        }
    }

    /// Stitches over one more of these units of pieces, or one less, as long as that helps and
    /// the budget allows it; a unit is its pieces and the two nodes that they lead to.
    pub(super) fn vary(&mut self, units: &[(&[usize], [usize; 2])]) {
        while self.vary_once(units) {}
    }

    fn vary_once(&mut self, units: &[(&[usize], [usize; 2])]) -> bool {
        let Some(best) = self.best.clone() else {
            return false;
        };
        let mut odd = self.odd_vertices(&best.doubled);
        for place in best.places.iter().flatten() {
            odd[place.vertex] ^= true;
        }
        let pattern = Pattern::of(self.ring, &odd);
        let mut order: Vec<(f64, usize, Choice)> = Vec::new();
        for (index, (pieces, [a, b])) in units.iter().enumerate() {
            let change = |&piece: &usize| {
                let length = self.ring.edges[piece].length;
                if best.doubled[piece] { -length } else { length }
            };
            let over = self.over(&best.doubled) + pieces.iter().map(change).sum::<f64>();
            let scope = Scope {
                case: best.case,
                doubled: &best.doubled,
                pattern: &pattern,
                over,
                spanning: 0.0,
            };
            for other in [false, true] {
                let (from, to) = (*a.min(b), *a.max(b));
                let rest = over + pattern.toggled(*a) + pattern.toggled(*b);
                let choice = scope.with(best.places, Flip { from, to, other }, rest);
                order.push((choice.bound, index, choice));
            }
        }
        order.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
        for (bound, index, choice) in order {
            if bound >= best.length {
                break;
            }
            let mut doubled = best.doubled.clone();
            units[index]
                .0
                .iter()
                .for_each(|&piece| doubled[piece] ^= true);
            let scope = Scope {
                case: best.case,
                doubled: &doubled,
                pattern: &pattern,
                over: 0.0,
                spanning: 0.0,
            };
            if !self.attempt(&scope, &choice) {
                return false;
            }
            if self.best_length() < best.length {
                return true;
            }
        }
        false
    }

    /// The vertices that are odd where they have to be even, before places are chosen.
    fn odd_vertices(&self, doubled: &[bool]) -> Vec<bool> {
        let mut odd = vec![false; self.ring.vertices];
        for (edge, doubled) in self.ring.edges.iter().zip(doubled) {
            if !doubled {
                edge.ends.iter().for_each(|&end| odd[end] ^= true);
            }
        }
        for end in self.ring.start.into_iter().chain(self.ring.end) {
            odd[end] ^= true;
        }
        odd
    }

    fn over(&self, doubled: &[bool]) -> f64 {
        let lengths = self.ring.edges.iter().zip(doubled);
        lengths
            .filter_map(|(edge, &doubled)| doubled.then_some(edge.length))
            .sum()
    }

    /// The length of the spanning tree of the pieces alone, as far as thread cuts don't save it.
    fn spanning(&mut self, case: usize) -> f64 {
        let mut joins = Vec::new();
        let mut saved = 0;
        for cut in &self.cases[case].cuts {
            match *cut {
                [End::At(a), End::At(b)] => joins.push([a, b]),
                _ => saved += 1,
            }
        }
        let mut arcs = Vec::new();
        let length = self
            .postman
            .tree(|_| false, &joins, f64::INFINITY, |arc| arcs.push(arc));
        // Uniting two parts saves at most the longest arc of the tree; arcs come by length.
        let longest = arcs.iter().rev().take(saved);
        length - longest.map(|&arc| self.ring.arcs[arc]).sum::<f64>()
    }
}

#[cfg(test)]
mod tests;
