//! The pairs of segments that come within a distance of each other.
//!
//! Method: a grid of squares, each listing the segments that pass within half the distance of it,
//! so that a pair within the distance shares a square; then the pairs of each square. Squares are
//! not smaller than three times the distance, nor than what rounding makes of coordinates, and
//! about as many as segments. A square that many segments share is divided by a grid of its own, so
//! that one far point does not spoil it for the others. Guarantee: all pairs within the distance
//! are named once, in order, but for those of crowded squares: more than 256 segments that no finer
//! grid separates, after a budget for such squares is spent; and squares that are left when 4
//! million pairs and 16 for each point are found. They are named instead. Time is O(n + pairs) for
//! drawn lines; for all lines, an entry in the grid takes at most 128 tests beside the budget.
//! Failure: none; long slanted segments side by side in one square draw on the budget.

use super::bounds::Bounds;
use super::lines::Lines;
use super::measure::squared_distance;
use super::point::{Point, Vector};

/// A square of this many segments or fewer is always gone through pair by pair.
const CROWDED: usize = 256;

/// A square of this many segments or fewer is not divided further.
const FEW: usize = 32;

/// The most pairs that are kept: so many, and so many more for each point.
const MAX_PAIRS: (u64, u64) = (1 << 22, 16);

/// Up to so many tests, and so many more for each point, crowded squares are gone through, too.
const BUDGET: (u64, u64) = (1 << 25, 64);

/// A spot that holds too many segments to go through all their pairs.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Crowded {
    /// The middle of the spot.
    pub at: Point,
    /// The number of segments in it.
    pub segments: usize,
}

/// Pairs of segments, the smaller number first, in order.
pub(crate) struct Near {
    pub(crate) pairs: Vec<(u32, u32)>,
    pub(crate) crowded: Vec<Crowded>,
}

/// All pairs of segments within the distance of each other, but for two of one line such that no
/// place of one is farther than `least_gap` along the line from a place of the other.
///
/// # Complexity
///
/// O(n + pairs) for drawn lines; 8 bytes a segment for the grid, 4 for each square that it passes
/// through and 8 for each pair.
pub(crate) fn near_pairs(lines: &Lines, distance: f64, least_gap: f64) -> Near {
    Search::new(lines, distance, least_gap).run()
}

struct Search<'a> {
    lines: &'a Lines,
    distance: f64,
    least_gap: f64,
    /// Pairs gone through so far, and up to how many crowded squares are, too.
    tests: u64,
    budget: u64,
    /// How many pairs may be kept; `full` once they are: nothing more is searched.
    most: u64,
    full: bool,
    found: Near,
}

impl<'a> Search<'a> {
    fn new(lines: &'a Lines, distance: f64, least_gap: f64) -> Self {
        let points = lines.points().len() as u64;
        Self {
            lines,
            distance,
            least_gap,
            tests: 0,
            budget: BUDGET.0 + BUDGET.1 * points,
            most: MAX_PAIRS.0 + MAX_PAIRS.1 * points,
            full: false,
            found: Near {
                pairs: Vec::new(),
                crowded: Vec::new(),
            },
        }
    }

    fn run(&mut self) -> Near {
        if let Some(bounds) = self.lines.bounds() {
            // What lies on the edge of the grid must not fall off it by rounding.
            let margin = Vector::repeat(self.distance);
            let area = Bounds {
                min: bounds.min - margin,
                max: bounds.max + margin,
            };
            let all: Vec<u32> = self.lines.segments().collect();
            self.area(area, f64::INFINITY, &all);
        }
        let (pairs, crowded) = (&mut self.found.pairs, &mut self.found.crowded);
        pairs.sort_unstable();
        pairs.dedup();
        Near {
            pairs: std::mem::take(pairs),
            crowded: std::mem::take(crowded),
        }
    }

    /// Goes through the segments that pass near an area, which is a square of this size.
    fn area(&mut self, area: Bounds, size: f64, segments: &[u32]) {
        if segments.len() <= FEW {
            return self.each_pair(area, segments);
        }
        let grid = Grid::new(self.lines, self.distance, area, segments);
        if grid.size > size / 2.0 || grid.across * grid.down == 1 {
            return self.each_pair(area, segments);
        }
        let (starts, entries) = grid.fill(self.lines, segments);
        for square in 0..grid.across * grid.down {
            let listed = &entries[starts[square] as usize..starts[square + 1] as usize];
            if listed.len() > FEW {
                self.area(grid.square(square), grid.size, listed);
            } else if listed.len() > 1 {
                self.each_pair(area, listed);
            }
        }
    }

    fn each_pair(&mut self, area: Bounds, segments: &[u32]) {
        let tests = (segments.len() as u64).pow(2) / 2;
        if segments.len() > CROWDED && self.tests + tests > self.budget {
            return self.crowded(area, segments.len());
        }
        self.tests += tests;
        let square = self.distance * self.distance * (1.0 + 1e-9);
        let margin = Vector::repeat(self.distance);
        for (index, &first) in segments.iter().enumerate() {
            if self.is_full() {
                return self.crowded(area, segments.len());
            }
            let ends = self.lines.ends(first);
            let line = self.lines.line(first);
            let (low, high) = (
                ends[0].inf(&ends[1]) - margin,
                ends[0].sup(&ends[1]) + margin,
            );
            for &second in &segments[index + 1..] {
                let other = self.lines.ends(second);
                let beyond = |axis: usize| {
                    let [from, to] = other.map(|end| end[axis]);
                    from.min(to) > high[axis] || from.max(to) < low[axis]
                };
                if beyond(0) || beyond(1) {
                    continue;
                }
                let same = self.lines.line(second) == line;
                let neighbours = same && self.goes_on(first, second);
                if !neighbours && squared_distance(ends, other) <= square {
                    self.found.pairs.push((first, second));
                }
            }
        }
    }

    /// True when two segments of one line are too near along it to hold a pair of places that
    /// counts, or when the line goes on from one to the other: when it gains on its way from start
    /// to end so fast everywhere that places farther apart along it than the least gap are
    /// farther from each other than the distance. That spares most pairs of a drawn line.
    fn goes_on(&self, first: u32, second: u32) -> bool {
        let ([start, left], [met, end]) = (self.lines.reach(first), self.lines.reach(second));
        if end - start < self.least_gap {
            return true;
        }
        let ([a, b], [c, d]) = (self.lines.ends(first), self.lines.ends(second));
        let way = d - a;
        let pace = self.distance / self.least_gap * (1.0 + 1e-9) * way.norm();
        let gains = |step: Vector, along: f64| step.dot(&way) > pace * along || along == 0.0;
        gains(b - a, left - start) && gains(c - b, met - left) && gains(d - c, end - met)
    }

    /// True when no more pairs can be kept, even after those named twice are taken out.
    fn is_full(&mut self) -> bool {
        let pairs = &mut self.found.pairs;
        if !self.full && pairs.len() as u64 >= self.most {
            pairs.sort_unstable();
            pairs.dedup();
            self.full = pairs.len() as u64 > self.most / 2;
        }
        self.full
    }

    fn crowded(&mut self, area: Bounds, segments: usize) {
        let at = area.centre();
        self.found.crowded.push(Crowded { at, segments });
    }
}

/// Squares that cover an area, row after row from its top left.
struct Grid {
    corner: Point,
    size: f64,
    /// Squares for each unit of length.
    scale: f64,
    across: usize,
    down: usize,
    /// How near a segment has to pass to be listed in a square.
    reach: f64,
}

impl Grid {
    fn new(lines: &Lines, distance: f64, area: Bounds, segments: &[u32]) -> Self {
        let (size, count) = (area.size(), segments.len() as f64);
        let around = size.x + size.y;
        let length = |&segment: &u32| {
            let [from, to] = lines.ends(segment);
            (to - from).lp_norm(1).min(around)
        };
        let length: f64 = segments.iter().map(length).sum();
        // About one square and a few entries for each segment at most.
        let least = (size.x * size.y / count).sqrt().max(around / count);
        let largest = area.min.coords.amax().max(area.max.coords.amax());
        let reach = 0.5 * distance + 8.0 * f64::EPSILON * largest;
        // In squares smaller than the reach a segment would be listed in many.
        let side = least
            .max(length / count)
            .max(3.0 * distance)
            .max(4.0 * reach);
        let squares = |length: f64| (length / side).ceil().max(1.0) as usize;
        Self {
            corner: area.min,
            size: side,
            scale: 1.0 / side,
            across: squares(size.x),
            down: squares(size.y),
            reach,
        }
    }

    fn square(&self, index: usize) -> Bounds {
        let place = Vector::new((index % self.across) as f64, (index / self.across) as f64);
        let min = self.corner + place * self.size;
        let max = min + Vector::repeat(self.size);
        Bounds { min, max }
    }

    /// Where the list of each square starts, with the end of the last, and all lists in one.
    fn fill(&self, lines: &Lines, segments: &[u32]) -> (Vec<u32>, Vec<u32>) {
        // Each count goes one square further on, so that filling moves it to where its list ends,
        // which is where the next one starts.
        let mut starts = vec![0u32; self.across * self.down + 2];
        for &segment in segments {
            self.squares_of(lines.ends(segment), |square| starts[square + 2] += 1);
        }
        for square in 2..starts.len() {
            starts[square] += starts[square - 1];
        }
        let mut entries = vec![0u32; starts[starts.len() - 1] as usize];
        for &segment in segments {
            self.squares_of(lines.ends(segment), |square| {
                let next = &mut starts[square + 1];
                entries[*next as usize] = segment;
                *next += 1;
            });
        }
        (starts, entries)
    }

    /// Calls for each square that a segment passes near, or near enough to be taken for it.
    fn squares_of(&self, ends: [Point; 2], mut call: impl FnMut(usize)) {
        let [a, b] = ends.map(|end| end - self.corner);
        let range = |low: f64, high: f64, count: usize| {
            let (from, to) = (
                (low - self.reach) * self.scale,
                (high + self.reach) * self.scale,
            );
            // Casting saturates at 0, and a range outside the grid comes out empty.
            (from as usize)..((to + 1.0) as usize).min(count)
        };
        let (upper, lower) = if a.y <= b.y { (a, b) } else { (b, a) };
        let (left, right) = (a.x.min(b.x), a.x.max(b.x));
        let rows = range(upper.y, lower.y, self.down);
        if rows.len() <= 1 || right - left + 2.0 * self.reach < self.size {
            let columns = range(left, right, self.across);
            for row in rows {
                for column in columns.clone() {
                    call(row * self.across + column);
                }
            }
            return;
        }
        let slope = (lower.x - upper.x) / (lower.y - upper.y);
        let at = |y: f64| {
            let part = (y.clamp(upper.y, lower.y) - upper.y) * slope;
            // Level segments have no slope, and steep rounding must not leave the segment.
            if part.is_finite() {
                (upper.x + part).clamp(left, right)
            } else {
                upper.x
            }
        };
        for row in rows {
            let top = row as f64 * self.size - self.reach;
            let bottom = top + self.size + 2.0 * self.reach;
            let (one, other) = match upper.y < lower.y {
                true => (at(top), at(bottom)),
                false => (left, right),
            };
            for column in range(one.min(other), one.max(other), self.across) {
                call(row * self.across + column);
            }
        }
    }
}

#[cfg(test)]
mod tests;
