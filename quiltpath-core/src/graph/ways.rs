//! Shortest ways from one vertex to all others.
//!
//! Method: Dijkstra's, with a heap of what is reached. Guarantee: exact for lengths that are not
//! below 0. Failure cases: none; a vertex out of reach is infinitely far.
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

/// What is known of the ways from one vertex.
#[derive(Debug, Clone, Default)]
pub(super) struct Ways {
    /// How far each vertex is.
    pub(super) length: Vec<f64>,
    /// The vertex before it, and the line from there.
    before: Vec<(u32, u32)>,
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

    fn from(&self, at: usize) -> &[(u32, u32, f64)] {
        &self.to[self.first[at] as usize..self.first[at + 1] as usize]
    }

    /// The shortest ways from a vertex.
    ///
    /// # Complexity
    ///
    /// O(lines log lines).
    pub(super) fn ways(&self, from: usize) -> Ways {
        let vertices = self.first.len() - 1;
        let mut ways = Ways {
            length: vec![f64::INFINITY; vertices],
            before: vec![(u32::MAX, u32::MAX); vertices],
        };
        let mut heap = BinaryHeap::new();
        ways.length[from] = 0.0;
        heap.push(Reached(0.0, from as u32));
        while let Some(Reached(length, at)) = heap.pop() {
            if length > ways.length[at as usize] {
                continue;
            }
            for &(to, line, far) in self.from(at as usize) {
                let length = length + far;
                if length < ways.length[to as usize] {
                    ways.length[to as usize] = length;
                    ways.before[to as usize] = (at, line);
                    heap.push(Reached(length, to));
                }
            }
        }
        ways
    }
}

impl Ways {
    /// The lines on the way to a vertex, the last one first; none where it is out of reach.
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
            for (from, far) in far.iter().enumerate() {
                let ways = roads.ways(from);
                for (to, &far) in far.iter().enumerate() {
                    let sum: f64 = ways.lines(to).map(|line| lines[line].1).sum();
                    if far.is_finite() {
                        prop_assert!((ways.length[to] - far).abs() < 1e-9);
                        prop_assert!((sum - far).abs() < 1e-9);
                    } else {
                        prop_assert_eq!((ways.length[to], sum), (f64::INFINITY, 0.0));
                    }
                }
            }
        }
    }
}
