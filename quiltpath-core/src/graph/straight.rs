//! Walks over all edges that go straight on where lines cross.
//!
//! Problem: of all walks that use every edge once, the one that turns least where edges meet.
//! Method: at each vertex the ends of edges are paired so that the turns add up to the least (a
//! matching); the closed walks that this leaves apart are joined at shared vertices, the cheapest
//! exchange of two pairs first. Guarantee: every edge is used once, in as few walks as their ends
//! allow; at each vertex no pairing turns less, before the exchanges, which are needed for one walk
//! and chosen greedily. At a vertex with more than 200 ends, lines of like slope are paired.
//! Failure cases: none.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use super::euler::Step;
use super::matching::least_pairs;
use super::sets::{root, unite};
use crate::geom::Vector;

/// An edge with its two vertices, and the unit vectors by which it leaves them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Strand {
    pub(crate) ends: [usize; 2],
    pub(crate) out: [Vector; 2],
}

/// Up to so many ends at a vertex are paired by matching.
const MATCHED: usize = 200;

/// Up to so many pairs at a vertex are exchanged with all others there, not only with the next.
const EXCHANGED: usize = 32;

/// No partner: a walk starts or ends here.
const END: usize = usize::MAX;

/// Walks over all strands, in the order of the first strand in each; walks start and end at `ends`,
/// which has a vertex twice where a walk starts where it ends.
///
/// # Complexity
///
/// O(strands log strands) for up to a few strands at each vertex.
pub(crate) fn straight_walks(
    strands: &[Strand],
    vertices: usize,
    ends: &[usize],
) -> Vec<Vec<Step>> {
    let mut work = Work {
        strands,
        mate: vec![END; 2 * strands.len()],
        around: vec![Vec::new(); vertices],
    };
    for (at, strand) in strands.iter().enumerate() {
        for side in 0..2 {
            work.around[strand.ends[side]].push(2 * at + side);
        }
    }
    let mut open = vec![0_usize; vertices];
    ends.iter().for_each(|&end| open[end] += 1);
    for (vertex, &open) in open.iter().enumerate() {
        work.pair(vertex, open);
    }
    work.join();
    work.walks()
}

struct Work<'a> {
    strands: &'a [Strand],
    /// The end that each end of a strand goes on to.
    mate: Vec<usize>,
    /// The ends of strands at each vertex: twice the strand's number, and one more for its second.
    around: Vec<Vec<usize>>,
}

impl Work<'_> {
    fn out(&self, stub: usize) -> Vector {
        self.strands[stub / 2].out[stub % 2]
    }

    /// How much a line turns that comes by one end and goes on by the other, in radians.
    fn turn(&self, one: usize, other: usize) -> f64 {
        if one == END || other == END {
            return 0.0;
        }
        let (a, b) = (-self.out(one), self.out(other));
        a.perp(&b).atan2(a.dot(&b)).abs()
    }

    fn pair(&mut self, vertex: usize, open: usize) {
        let stubs = self.around[vertex].clone();
        if stubs.is_empty() {
            return;
        }
        // Walks can't both start and end in nothing, nor can an odd number of ends go on.
        let mut open = open.min(stubs.len());
        if (stubs.len() + open) % 2 == 1 {
            open += 1;
        }
        if stubs.len() > MATCHED {
            let mut sorted = stubs;
            let slope = |stub: &usize| {
                self.out(*stub)
                    .y
                    .atan2(self.out(*stub).x)
                    .rem_euclid(std::f64::consts::PI)
            };
            sorted.sort_by(|a, b| slope(a).total_cmp(&slope(b)));
            let last = sorted.len() - open.min(sorted.len());
            for pair in sorted[..last].chunks_exact(2) {
                (self.mate[pair[0]], self.mate[pair[1]]) = (pair[1], pair[0]);
            }
            return;
        }
        let never = 1e3 * (stubs.len() + open) as f64;
        let pairs = least_pairs(stubs.len() + open, |one, other| {
            match (stubs.get(one), stubs.get(other)) {
                (Some(&one), Some(&other)) => self.turn(one, other),
                (None, None) => never,
                _ => 0.0,
            }
        });
        for (one, &stub) in stubs.iter().enumerate() {
            self.mate[stub] = stubs.get(pairs[one]).copied().unwrap_or(END);
        }
    }

    /// Joins closed walks to others that they meet, the cheapest exchange first.
    fn join(&mut self) {
        let mut walk: Vec<usize> = (0..self.strands.len()).collect();
        for (stub, &mate) in self.mate.iter().enumerate() {
            if mate != END {
                unite(&mut walk, [stub / 2, mate / 2]);
            }
        }
        let mut open = vec![false; walk.len()];
        for (stub, &mate) in self.mate.iter().enumerate() {
            if mate == END {
                open[root(&mut walk, stub / 2)] = true;
            }
        }
        let mut version = vec![0_u32; self.around.len()];
        let mut heap = BinaryHeap::new();
        for vertex in 0..self.around.len() {
            self.exchanges(vertex, 0, &mut walk, &mut heap);
        }
        while let Some(Exchange {
            vertex,
            version: of,
            pairs: [[a, b], [c, d]],
            ..
        }) = heap.pop()
        {
            let walks = [a, c].map(|stub| root(&mut walk, stub / 2));
            if of != version[vertex] || walks[0] == walks[1] || (open[walks[0]] && open[walks[1]]) {
                continue;
            }
            for (one, other) in [(a, c), (b, d)] {
                for (from, to) in [(one, other), (other, one)] {
                    if from != END {
                        self.mate[from] = to;
                    }
                }
            }
            let both = open[walks[0]] || open[walks[1]];
            unite(&mut walk, walks);
            open[root(&mut walk, walks[0])] = both;
            version[vertex] += 1;
            self.exchanges(vertex, version[vertex], &mut walk, &mut heap);
        }
    }

    /// All exchanges of pairs of different walks at a vertex.
    fn exchanges(
        &self,
        vertex: usize,
        version: u32,
        walk: &mut [usize],
        heap: &mut BinaryHeap<Exchange>,
    ) {
        let pairs: Vec<[usize; 2]> = self.around[vertex]
            .iter()
            .map(|&stub| [stub, self.mate[stub]])
            .filter(|pair| pair[1] == END || pair[0] < pair[1])
            .collect();
        for (at, &[a, b]) in pairs.iter().enumerate() {
            let others = match pairs.len() {
                ..=EXCHANGED => &pairs[at + 1..],
                _ => &pairs[(at + 1).min(pairs.len())..(at + 2).min(pairs.len())],
            };
            for &[c, d] in others {
                if root(walk, a / 2) == root(walk, c / 2) {
                    continue;
                }
                let before = self.turn(a, b) + self.turn(c, d);
                for [c, d] in [[c, d], [d, c]] {
                    // The second pair keeps a stub in front, by which its walk is known.
                    let pairs = match c == END {
                        true => [[b, a], [d, c]],
                        false => [[a, b], [c, d]],
                    };
                    if pairs[0][0] == END {
                        continue;
                    }
                    let cost = self.turn(pairs[0][0], pairs[1][0])
                        + self.turn(pairs[0][1], pairs[1][1])
                        - before;
                    heap.push(Exchange {
                        cost,
                        vertex,
                        version,
                        pairs,
                    });
                }
            }
        }
    }

    fn walks(&self) -> Vec<Vec<Step>> {
        let mut used = vec![false; self.strands.len()];
        let mut walks: Vec<Vec<Step>> = Vec::new();
        let starts = (0..self.mate.len()).filter(|&stub| self.mate[stub] == END);
        for start in starts.chain((0..self.strands.len()).map(|strand| 2 * strand)) {
            let (mut stub, mut walk) = (start, Vec::new());
            while stub != END && !std::mem::replace(&mut used[stub / 2], true) {
                walk.push(Step {
                    index: stub / 2,
                    reversed: stub % 2 == 1,
                });
                stub = self.mate[stub ^ 1];
            }
            if !walk.is_empty() {
                walks.push(walk);
            }
        }
        walks.sort_by_cached_key(|walk| walk.iter().map(|step| step.index).min());
        walks
    }
}

/// Two pairs at a vertex that change partners: first with first, second with second.
struct Exchange {
    cost: f64,
    vertex: usize,
    version: u32,
    pairs: [[usize; 2]; 2],
}

impl PartialEq for Exchange {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Exchange {}

impl PartialOrd for Exchange {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Exchange {
    fn cmp(&self, other: &Self) -> Ordering {
        let cost = other.cost.total_cmp(&self.cost);
        cost.then_with(|| (other.vertex, other.pairs).cmp(&(self.vertex, self.pairs)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn strand(a: usize, b: usize, out: [(f64, f64); 2]) -> Strand {
        Strand {
            ends: [a, b],
            out: out.map(|(x, y)| Vector::new(x, y).normalize()),
        }
    }

    #[test]
    fn a_cross_is_gone_through_straight() {
        // A line from 0 to 1 and on to 2, one from 3 to 1 and on to 4 at right angles, 2 and 3
        // joined.
        let strands = [
            strand(0, 1, [(1.0, 0.0), (-1.0, 0.0)]),
            strand(3, 1, [(0.0, 1.0), (0.0, -1.0)]),
            strand(1, 2, [(1.0, 0.0), (-1.0, 0.0)]),
            strand(1, 4, [(0.0, 1.0), (0.0, -1.0)]),
            strand(2, 3, [(1.0, -1.0), (1.0, -1.0)]),
        ];
        let walks = straight_walks(&strands, 5, &[0, 4]);
        let order: Vec<usize> = walks[0].iter().map(|step| step.index).collect();
        assert_eq!((walks.len(), order), (1, vec![0, 2, 4, 1, 3]));
    }

    proptest! {
        #[test]
        fn every_strand_is_used_once_in_the_fewest_walks(
            lines in prop::collection::vec((0..5usize, 0..5usize, 0.0..7.0f64, 0.0..7.0f64), 1..14),
        ) {
            let unit = |angle: f64| (angle.cos(), angle.sin());
            let strands: Vec<Strand> =
                lines.iter().map(|&(a, b, one, other)| strand(a, b, [unit(one), unit(other)])).collect();
            let mut degree = [0; 5];
            let mut sets: Vec<usize> = (0..5).collect();
            for strand in &strands {
                strand.ends.iter().for_each(|&end| degree[end] += 1);
                unite(&mut sets, strand.ends);
            }
            let mut ends: Vec<usize> = (0..5).filter(|&v| degree[v] % 2 == 1).collect();
            for (v, &degree) in degree.iter().enumerate() {
                let set = root(&mut sets, v);
                if degree > 0 && (0..5).all(|e| !ends.contains(&e) || root(&mut sets, e) != set) {
                    ends.extend([v; 2]);
                }
            }
            let walks = straight_walks(&strands, 5, &ends);
            prop_assert_eq!(walks.len(), ends.len() / 2);
            let mut used = vec![0; strands.len()];
            for walk in &walks {
                for pair in walk.windows(2) {
                    let to = strands[pair[0].index].ends[usize::from(!pair[0].reversed)];
                    let from = strands[pair[1].index].ends[usize::from(pair[1].reversed)];
                    prop_assert_eq!(to, from);
                }
                walk.iter().for_each(|step| used[step.index] += 1);
            }
            prop_assert!(used.iter().all(|&times| times == 1));
        }
    }
}
