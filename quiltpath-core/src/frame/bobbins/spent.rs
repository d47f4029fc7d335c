//! The bobbin thread that a run takes, from needle point to needle point.

use crate::geom::Point;
use crate::geom::crossing::self_crossings_within;
use crate::plan::PlannedRun;
use crate::stitch::estimate::ThreadOptions;
use crate::stitch::job::StitchedLine;

/// The most effort on the crossings of a stretch, for each of its points.
const EFFORT: u64 = 200;

/// The bobbin thread that a run takes, counted from the start of the first run.
pub(super) struct Spent<'a> {
    points: &'a [Point],
    /// The length of line up to each of its points.
    reach: Vec<f64>,
    pub(super) line: &'a StitchedLine,
    pub(super) start: f64,
    /// Up to each of the line's own needle points.
    pub(super) needles: Vec<f64>,
    pub(super) end: f64,
    /// The lengths of line at which one piece ends and the next begins.
    pub(super) joins: Vec<f64>,
}

impl<'a> Spent<'a> {
    pub(super) fn of(
        run: &'a PlannedRun,
        line: &'a StitchedLine,
        pieces: &[f64],
        thread: &ThreadOptions,
        start: f64,
    ) -> Self {
        let more = 1.0 + thread.waste;
        let stitches =
            |count: usize, length: f64| count as f64 * (length + thread.thickness) * more;
        let [before, after] = line.ties.lengths;
        let spent = start + thread.tail * more + stitches(line.ties.before.len(), before);
        let steps = line.stitches.points.windows(2);
        let needles = sums(
            spent,
            steps.map(|pair| stitches(1, (pair[1] - pair[0]).norm())),
        );
        let points = run.motif.points();
        let steps = points.windows(2).map(|pair| (pair[1] - pair[0]).norm());
        let parts = run.parts.iter();
        let parts = parts.map(|part| (part.between[1] - part.between[0]) * pieces[part.piece]);
        let mut joins = sums(0.0, parts);
        joins.pop();
        Self {
            points,
            reach: sums(0.0, steps),
            line,
            start,
            end: needles[needles.len() - 1]
                + stitches(line.ties.after.len(), after)
                + thread.tail * more,
            needles,
            joins: joins.split_off(joins.len().min(1)),
        }
    }

    /// The last needle point before which no more thread than this is spent.
    pub(super) fn needle_before(&self, spent: f64) -> usize {
        let after = self.needles.partition_point(|needle| *needle <= spent);
        after.saturating_sub(1)
    }

    /// The last cusp before which no more thread than this is spent, as a needle point.
    pub(super) fn cusp_before(&self, spent: f64) -> Option<usize> {
        let anchors = &self.line.stitches.anchors;
        let after = anchors.partition_point(|&cusp| self.needles[cusp] <= spent);
        after.checked_sub(1).map(|last| anchors[last])
    }

    /// The thread spent up to a length of the line.
    pub(super) fn at_length(&self, length: f64) -> f64 {
        between(&self.line.stitches.along, &self.needles, length)
    }

    /// The thread spent up to a length of the line, the tail at its start only once it has begun
    /// and the one at its end once it is done.
    pub(super) fn up_to(&self, length: f64) -> f64 {
        // What rounding makes of a start or an end is one.
        let (whole, same) = (self.whole(), 1e-9 * self.whole());
        match length {
            none if none <= same => self.start,
            all if all >= whole - same => self.end,
            some => self.at_length(some),
        }
    }

    /// The length of the line.
    pub(super) fn whole(&self) -> f64 {
        self.reach[self.reach.len() - 1]
    }

    /// The length of line up to which so much thread is spent.
    pub(super) fn length_at(&self, spent: f64) -> f64 {
        between(&self.needles, &self.line.stitches.along, spent)
    }

    /// The point after a length of the line.
    pub(super) fn point_at(&self, length: f64) -> Point {
        let after = self.reach.partition_point(|reach| *reach <= length);
        let before = after.saturating_sub(1).min(self.points.len() - 2);
        let ends = [self.points[before], self.points[before + 1]];
        let step = self.reach[before + 1] - self.reach[before];
        let share = ((length - self.reach[before]) / step).clamp(0.0, 1.0);
        ends[0] + (ends[1] - ends[0]) * share
    }

    /// The lengths of the line at which its stretch between two lengths crosses itself.
    pub(super) fn crossings(&self, [from, to]: [f64; 2]) -> Vec<f64> {
        let first = self.reach.partition_point(|reach| *reach <= from);
        let first = first.saturating_sub(1);
        let end = self.reach.partition_point(|reach| *reach < to);
        let stretch = &self.points[first..(end + 1).min(self.points.len())];
        let effort = EFFORT * stretch.len() as u64;
        let crossings = self_crossings_within(stretch, effort).unwrap_or_default();
        let ways = crossings.iter().flat_map(|crossing| {
            [crossing.first, crossing.second].map(|segment| {
                let start = first + segment;
                self.reach[start] + (crossing.point - self.points[start]).norm()
            })
        });
        ways.collect()
    }
}

/// A number, and the sums of it and the steps after it.
fn sums(first: f64, steps: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut sum = first;
    let after = steps.map(|step| {
        sum += step;
        sum
    });
    std::iter::once(first).chain(after).collect()
}

/// Where a value lies among rising ones, in the steps of others; the first or last beyond them.
fn between(from: &[f64], to: &[f64], value: f64) -> f64 {
    let after = from.partition_point(|other| *other <= value);
    match (after.checked_sub(1), from.get(after)) {
        (Some(before), Some(next)) => {
            let share = (value - from[before]) / (next - from[before]);
            to[before] + share * (to[after] - to[before])
        }
        (Some(last), None) => to[last],
        (None, _) => to[0],
    }
}
