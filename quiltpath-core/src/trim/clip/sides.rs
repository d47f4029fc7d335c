//! The sides of a region, laid out in rows so that a segment finds the few that it may meet.
//!
//! Everything within `reach` of the boundary counts as on it: that is where rounding decides.

use crate::geom::measure::distance_to_segment;
use crate::geom::region::{Perimeter, Region};
use crate::geom::{Bounds, Point, Vector};

/// The share of the region's size, and of its farthest coordinate, that counts as on the boundary.
const REACH_OF_SIZE: f64 = 1e-12;
const REACH_OF_COORDINATE: f64 = 4e-15;

/// More rows than this only cost memory.
const MAX_ROWS: usize = 512;

/// A place where a segment meets the boundary.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cut {
    /// The share of the segment before it.
    pub(super) share: f64,
    /// The point, computed along the side, so that it lies on it however long the segment is.
    pub(super) point: Point,
    /// Its position on the boundary.
    pub(super) position: f64,
}

/// What a segment has to do with the boundary.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Meeting {
    /// It stays clear of the boundary, so it is on the same side all along.
    Clear,
    /// It stays outside the region's box.
    Outside,
    /// It meets or comes near the boundary; each part between cuts has to be looked at.
    Near,
}

#[derive(Debug, Clone, Copy)]
struct Side {
    from: Point,
    /// The next side's start to the last bit, which `from + step` need not be: a point between the
    /// two would lie beside both sides or neither.
    to: Point,
    step: Vector,
    /// The unit vector square to the side.
    normal: Vector,
    /// The side's box, grown by the reach.
    min: Point,
    max: Point,
    start: f64,
    length: f64,
}

pub(crate) struct Sides {
    sides: Vec<Side>,
    /// The sides that touch each row, row after row.
    items: Vec<u32>,
    /// Where each row starts in `items`, then the end of the last.
    row_starts: Vec<usize>,
    rows_per_unit: f64,
    bounds: Bounds,
    perimeter: Perimeter,
    reach: f64,
    /// The number of the segment that last looked at each side.
    seen: Vec<usize>,
    looks: usize,
}

impl Sides {
    pub(crate) fn of(region: &Region) -> Self {
        let bounds = region.bounds();
        let farthest = bounds.min.coords.abs().sup(&bounds.max.coords.abs()).max();
        let reach = REACH_OF_SIZE * bounds.size().norm() + REACH_OF_COORDINATE * farthest;
        let grown = Vector::repeat(4.0 * reach);
        let bounds = Bounds {
            min: bounds.min - grown,
            max: bounds.max + grown,
        };
        let perimeter = Perimeter::of(region);
        let count = region.corners().len();
        let sides: Vec<Side> = (0..count)
            .map(|index| {
                let [from, to] = region.side(index);
                let step = to - from;
                let length = step.norm();
                Side {
                    from,
                    to,
                    step,
                    normal: Vector::new(-step.y, step.x) / length,
                    min: from.inf(&to) - grown,
                    max: from.sup(&to) + grown,
                    start: perimeter.start_of(index),
                    length,
                }
            })
            .collect();
        let rows = (count / 4).clamp(1, MAX_ROWS);
        let mut found = Self {
            sides,
            items: Vec::new(),
            row_starts: vec![0],
            rows_per_unit: rows as f64 / bounds.height(),
            bounds,
            perimeter,
            reach,
            seen: vec![0; count],
            looks: 0,
        };
        let spans: Vec<(usize, usize)> = found
            .sides
            .iter()
            .map(|side| {
                (
                    found.row(side.min.y, rows - 1),
                    found.row(side.max.y, rows - 1),
                )
            })
            .collect();
        for row in 0..rows {
            let here =
                |&(_, &(first, last)): &(usize, &(usize, usize))| first <= row && row <= last;
            let touching = spans.iter().enumerate().filter(here);
            found.items.extend(touching.map(|(side, _)| side as u32));
            found.row_starts.push(found.items.len());
        }
        found
    }

    /// The distance within which a point counts as on the boundary.
    pub(super) fn reach(&self) -> f64 {
        self.reach
    }

    /// The position of the point of the boundary nearest to this one.
    pub(super) fn position_of(&self, point: Point) -> f64 {
        self.perimeter.position_of(point)
    }

    /// Finds where the segment meets the boundary: `cuts` in the order of travel, without those
    /// at the ends of the segment.
    #[inline]
    pub(super) fn meet(&mut self, from: Point, to: Point, cuts: &mut Vec<Cut>) -> Meeting {
        cuts.clear();
        let (min, max) = (from.inf(&to), from.sup(&to));
        if apart(min, max, self.bounds.min, self.bounds.max) {
            return Meeting::Outside;
        }
        let last_row = self.row_starts.len() - 2;
        let rows = self.row(min.y, last_row)..=self.row(max.y, last_row);
        self.looks += 1;
        let mut near = false;
        for row in rows {
            for item in self.row_starts[row]..self.row_starts[row + 1] {
                let index = self.items[item] as usize;
                let side = &self.sides[index];
                if !apart(min, max, side.min, side.max) && self.seen[index] != self.looks {
                    self.seen[index] = self.looks;
                    near |= side.meet(from, to, self.reach, cuts);
                }
            }
        }
        if !near {
            return Meeting::Clear;
        }
        // Ends on the boundary stay as they are: a cut beside them would only double them.
        let close = 4.0 * self.reach;
        cuts.retain(|cut| (cut.point - from).norm() > close && (cut.point - to).norm() > close);
        cuts.sort_unstable_by(|a, b| a.share.total_cmp(&b.share));
        for cut in cuts.iter_mut() {
            cut.position = self.perimeter.wrap(cut.position);
        }
        Meeting::Near
    }

    /// True when the point lies inside the region or counts as on the boundary.
    pub(crate) fn hold(&self, point: Point) -> bool {
        let mut inside = false;
        for side in self.beside(point) {
            let (from, to) = (side.from, side.to);
            if (from.y > point.y) != (to.y > point.y)
                && (side.step.perp(&(point - from)) > 0.0) == (side.step.y > 0.0)
            {
                inside = !inside;
            }
        }
        inside || self.touch(point)
    }

    /// True when the point counts as on the boundary.
    pub(super) fn touch(&self, point: Point) -> bool {
        self.beside(point).any(|side| {
            !apart(point, point, side.min, side.max)
                && distance_to_segment(point, side.from, side.to) <= self.reach
        })
    }

    /// The sides in the row of a point.
    fn beside(&self, point: Point) -> impl Iterator<Item = &Side> {
        let row = self.row(point.y, self.row_starts.len() - 2);
        self.items[self.row_starts[row]..self.row_starts[row + 1]]
            .iter()
            .map(|&index| &self.sides[index as usize])
    }

    fn row(&self, y: f64, last: usize) -> usize {
        // The cast saturates: what lies above the region falls into row 0.
        (((y - self.bounds.min.y) * self.rows_per_unit) as usize).min(last)
    }
}

impl Side {
    /// Adds where the segment meets the side or passes its first corner; true when it comes near.
    fn meet(&self, from: Point, to: Point, reach: f64, cuts: &mut Vec<Cut>) -> bool {
        let close = 4.0 * reach;
        let (before, after) = (
            self.normal.dot(&(from - self.from)),
            self.normal.dot(&(to - self.from)),
        );
        if before.min(after) > close || before.max(after) < -close {
            return false;
        }
        let (starts_on, ends_on) = (before.abs() <= close, after.abs() <= close);
        let mut near = starts_on || ends_on;
        let travel = to - from;
        let share_of = |point: Point| (point - from).dot(&travel) / travel.norm_squared();
        // A run along the side has no crossing but one made of rounding; its corners cut it.
        if (before > 0.0) != (after > 0.0) && !(starts_on && ends_on) {
            let along = (from - self.from).perp(&travel) / self.step.perp(&travel);
            if (0.0..=1.0).contains(&along) {
                near = true;
                let point = self.from + self.step * along;
                cuts.push(Cut {
                    // From the point, so that the order of cuts is that of their points.
                    share: share_of(point),
                    point,
                    position: self.start + self.length * along,
                });
            }
        }
        // A corner passed closely is a cut of its own, so that no rounding of the crossings with
        // its two sides can hide it, and a run along a side ends where the side does.
        let share = share_of(self.from);
        if (0.0..=1.0).contains(&share) && (from + travel * share - self.from).norm() <= close {
            near = true;
            cuts.push(Cut {
                share,
                point: self.from,
                position: self.start,
            });
        }
        near
    }
}

/// True when two boxes have no point in common.
#[inline]
fn apart(min: Point, max: Point, other_min: Point, other_max: Point) -> bool {
    // Without branches: the outcome is too irregular to predict.
    (max.x < other_min.x) | (min.x > other_max.x) | (max.y < other_min.y) | (min.y > other_max.y)
}

#[cfg(test)]
mod tests;
