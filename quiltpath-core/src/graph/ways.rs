//! Shortest ways from one vertex to all others.
//!
//! Method: Dijkstra's, with a heap of what is reached, as far as it is asked for. Guarantee: exact
//! for lengths that are not below 0. Failure cases: none; a vertex out of reach is infinitely far.
//!
//! Source: E. W. Dijkstra, "A note on two problems in connexion with graphs" (1959).

use std::cmp::Ordering;
use std::collections::BinaryHeap;

/// From each vertex, the vertices that it leads to: by which line, and how far.
#[derive(Debug, Clone, Default)]
pub(super) struct Roads {
    first: Vec<u32>,
    to: Vec<(u32, u32, f64)>,
}

/// The ways from one vertex after the other, as far as they are looked for.
pub(super) struct Search<'a> {
    roads: &'a Roads,
    /// How far each vertex is.
    length: Vec<f64>,
    /// The vertex before it, and the line from there.
    before: Vec<(u32, u32)>,
    /// What has been reached, to be forgotten for the next start.
    touched: Vec<u32>,
    heap: BinaryHeap<Reached>,
    /// How many lines have been gone along, either way, from all starts.
    steps: usize,
}

#[derive(PartialEq)]
struct Reached(f64, u32);

impl Eq for Reached {}

impl Ord for Reached {
    fn cmp(&self, other: &Self) -> Ordering {
        other.0.total_cmp(&self.0).then(other.1.cmp(&self.1))
    }
}

impl PartialOrd for Reached {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Roads {
    /// Roads both ways along lines, each its two ends and its length, in the order of their names.
    pub(super) fn new(
        vertices: usize,
        lines: impl Iterator<Item = ([usize; 2], f64)> + Clone,
    ) -> Self {
        let mut first = vec![0_u32; vertices + 1];
        for ([a, b], _) in lines.clone() {
            first[a + 1] += 1;
            first[b + 1] += 1;
        }
        for at in 0..vertices {
            first[at + 1] += first[at];
        }
        let mut next = first.clone();
        let mut to = vec![(0, 0, 0.0); first[vertices] as usize];
        for (name, ([a, b], length)) in lines.enumerate() {
            for (from, end) in [(a, b), (b, a)] {
                to[next[from] as usize] = (end as u32, name as u32, length);
                next[from] += 1;
            }
        }
        Self { first, to }
    }

    pub(super) fn lines(&self) -> usize {
        self.to.len() / 2
    }

    pub(super) fn vertices(&self) -> usize {
        self.first.len() - 1
    }

    fn from(&self, at: usize) -> &[(u32, u32, f64)] {
        &self.to[self.first[at] as usize..self.first[at + 1] as usize]
    }
}

impl<'a> Search<'a> {
    pub(super) fn new(roads: &'a Roads) -> Self {
        let vertices = roads.first.len() - 1;
        Self {
            roads,
            length: vec![f64::INFINITY; vertices],
            before: vec![(u32::MAX, u32::MAX); vertices],
            touched: Vec::new(),
            heap: BinaryHeap::new(),
            steps: 0,
        }
    }

    /// Goes from a vertex to others in the order of how far they are, as long as `on` of one and
    /// its length is true.
    ///
    /// # Complexity
    ///
    /// O(lines log lines) of what is gone through.
    pub(super) fn go(&mut self, from: usize, mut on: impl FnMut(usize, f64) -> bool) {
        for at in self.touched.drain(..) {
            self.length[at as usize] = f64::INFINITY;
            self.before[at as usize] = (u32::MAX, u32::MAX);
        }
        self.heap.clear();
        self.reach(from as u32, 0.0, (u32::MAX, u32::MAX));
        while let Some(Reached(length, at)) = self.heap.pop() {
            if length > self.length[at as usize] {
                continue;
            }
            if !on(at as usize, length) {
                return;
            }
            let lines = self.roads.from(at as usize);
            self.steps += lines.len();
            for &(to, line, far) in lines {
                if length + far < self.length[to as usize] {
                    self.reach(to, length + far, (at, line));
                }
            }
        }
    }

    fn reach(&mut self, at: u32, length: f64, before: (u32, u32)) {
        self.length[at as usize] = length;
        self.before[at as usize] = before;
        self.touched.push(at);
        self.heap.push(Reached(length, at));
    }

    /// How many lines have been gone along, either way, from all starts.
    pub(super) fn steps(&self) -> usize {
        self.steps
    }

    /// How far a vertex is that has been gone to.
    pub(super) fn length(&self, to: usize) -> f64 {
        self.length[to]
    }

    /// The lines on the way to a vertex that has been gone to, the last one first; none where it is
    /// out of reach.
    pub(super) fn lines(&self, to: usize) -> impl Iterator<Item = usize> {
        let mut at = to as u32;
        std::iter::from_fn(move || {
            let (before, line) = self.before[at as usize];
            at = before;
            (before != u32::MAX).then_some(line as usize)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Against Floyd's and Warshall's sums over all triples.
        #[test]
        fn no_way_is_shorter(
            lines in prop::collection::vec((0..7usize, 0..7usize, 0.0..9.0f64), 0..14),
        ) {
            let lines: Vec<([usize; 2], f64)> = lines.iter().map(|&(a, b, far)| ([a, b], far)).collect();
            let mut far = vec![[f64::INFINITY; 7]; 7];
            for (at, row) in far.iter_mut().enumerate() {
                row[at] = 0.0;
            }
            for &([a, b], length) in &lines {
                far[a][b] = far[a][b].min(length);
                far[b][a] = far[a][b];
            }
            for via in 0..7 {
                for a in 0..7 {
                    for b in 0..7 {
                        far[a][b] = far[a][b].min(far[a][via] + far[via][b]);
                    }
                }
            }
            let roads = Roads::new(7, lines.iter().copied());
            let mut ways = Search::new(&roads);
            for (from, far) in far.iter().enumerate() {
                let mut before = 0.0;
                ways.go(from, |_, length| {
                    assert!(length >= std::mem::replace(&mut before, length));
                    true
                });
                for (to, &far) in far.iter().enumerate() {
                    let sum: f64 = ways.lines(to).map(|line| lines[line].1).sum();
                    if far.is_finite() {
                        prop_assert!((ways.length(to) - far).abs() < 1e-9);
                        prop_assert!((sum - far).abs() < 1e-9);
                    } else {
                        prop_assert_eq!((ways.length(to), sum), (f64::INFINITY, 0.0));
                    }
                }
            }
        }
    }
}
