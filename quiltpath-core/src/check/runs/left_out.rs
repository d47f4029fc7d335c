//! What is left of pairs of segments when runs that were taken before are cut out.
//!
//! Method: pairs come in order, so that one sweep over the first segments keeps the runs that reach
//! the present one, and a second sweep within it those that reach the present second one, too.
//! Guarantee: a pair loses the places of all runs whose segments it belongs to, on the whole length
//! of its second segment, and nothing else. A place that is lost with two stretches that
//! are stitched twice is still met on the first of them. Failure: none.

use crate::geom::lines::Lines;

/// A run that another check has taken: its pairs of stretches are left out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::check) struct Taken {
    /// The first and the last segment of either part.
    pub(in crate::check) segments: [[u32; 2]; 2],
    /// From where to where along its line the first part goes.
    pub(in crate::check) first: [f64; 2],
}

/// The sweep over the pairs.
pub(super) struct LeftOut<'a> {
    /// Runs that begin after the present first segment, in order.
    taken: &'a [Taken],
    /// Runs that reach the present first segment, in the order of their second segments.
    row: Vec<Taken>,
    /// How many of these begin up to the present second segment.
    begun: usize,
    /// Those that reach it.
    here: Vec<Taken>,
    ranges: Vec<[f64; 2]>,
}

impl<'a> LeftOut<'a> {
    /// Starts with runs in the order of their first segments.
    pub(super) fn new(taken: &'a [Taken]) -> Self {
        Self {
            taken,
            row: Vec::new(),
            begun: 0,
            here: Vec::new(),
            ranges: Vec::new(),
        }
    }

    /// Goes on to another first segment.
    pub(super) fn first(&mut self, first: u32) {
        let begun = self
            .taken
            .partition_point(|run| run.segments[0][0] <= first);
        let (new, later) = self.taken.split_at(begun);
        self.taken = later;
        self.row.extend_from_slice(new);
        self.row.retain(|run| run.segments[0][1] >= first);
        self.row.sort_unstable_by_key(|run| run.segments[1][0]);
        self.begun = 0;
        self.here.clear();
    }

    /// The ranges of the first segment that are left beside a second one, as distances from its
    /// start.
    pub(super) fn ranges(&mut self, lines: &Lines, first: u32, second: u32) -> &[[f64; 2]] {
        while let Some(run) = self
            .row
            .get(self.begun)
            .filter(|run| run.segments[1][0] <= second)
        {
            self.here.push(*run);
            self.begun += 1;
        }
        self.here.retain(|run| run.segments[1][1] >= second);
        self.ranges.clear();
        self.ranges.push([0.0, lines.span(first)]);
        let start = lines.reach(first)[0];
        for run in &self.here {
            let [low, high] = run.first.map(|along| along - start);
            for index in (0..self.ranges.len()).rev() {
                let [from, to] = self.ranges.remove(index);
                let parts = [[from.max(high), to], [from, to.min(low)]];
                for part in parts.into_iter().filter(|[from, to]| from < to) {
                    self.ranges.insert(index, part);
                }
            }
        }
        &self.ranges
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use proptest::prelude::*;

    proptest! {
        /// Against looking at every run for every pair, on a line of segments 1 long.
        #[test]
        fn every_pair_loses_what_its_runs_take(
            runs in prop::collection::vec((0u32..12, 0u32..6, 0u32..12, 0u32..6, 0.0..1.0f64, 0.0..1.0f64), 0..12),
        ) {
            let line: Vec<Point> = (0..=20).map(|k| Point::new(f64::from(k), f64::from(k % 2))).collect();
            let lines = Lines::new(&[&line], 0.0).expect("a line");
            let mut taken: Vec<Taken> = runs
                .iter()
                .map(|&(first, more, second, further, from, to)| Taken {
                    segments: [[first, first + more], [second, second + further]],
                    first: [lines.reach(first)[0] + from, lines.reach(first + more)[0] + to],
                })
                .filter(|run| run.first[0] < run.first[1])
                .collect();
            taken.sort_by_key(|run| run.segments[0][0]);
            let mut left_out = LeftOut::new(&taken);
            // Not every segment is met.
            for first in (0..20).filter(|first| first % 7 != 3) {
                left_out.first(first);
                for second in (first + 1..20).filter(|second| second % 5 != 2) {
                    let ranges = left_out.ranges(&lines, first, second);
                    for step in 0..40 {
                        let x = (f64::from(step) + 0.5) / 40.0 * lines.span(first);
                        let along = lines.reach(first)[0] + x;
                        let lost = taken.iter().any(|run| {
                            let [a, b] = run.segments;
                            (a[0]..=a[1]).contains(&first) && (b[0]..=b[1]).contains(&second)
                                && run.first[0] < along && along < run.first[1]
                        });
                        let left = ranges.iter().any(|[from, to]| *from <= x && x <= *to);
                        prop_assert_eq!(left, !lost);
                    }
                    prop_assert!(ranges.is_sorted_by(|a, b| a[1] <= b[0]));
                }
            }
        }
    }
}
