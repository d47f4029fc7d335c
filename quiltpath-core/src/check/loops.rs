//! Loops that are too small to stitch: a line that comes back to itself within a few stitches.
//!
//! Problem: where does a line come back to a place s at t, with no more than a given length of it
//! between them? A hairpin comes back too, without leaving a loop. Method: of the pairs of places
//! (s, t) within a tolerance of each other and within the length along the line, each connected
//! set (`runs`) is one coming back; the set that holds the pairs (s, s), with all stems and tips of
//! hairpins, is none. The loop's length is the least t − s of the set.
//! Guarantee: exactly these sets, for the lines moved by no more than the tolerance of thinning. A
//! crossing gives one loop, shorter than from passage to passage by the tolerance / cos(φ / 2), φ
//! the angle between the two directions of travel. Failure: where more than 512 segments lie
//! within the length, which thinning excludes for a length of fewer of its tolerances, the
//! rest of them is not looked at, and the spot is reported.

use super::found::{Found, LinePart};
use super::runs::{Component, Rule, runs};
use crate::error::Error;
use crate::geom::Point;
use crate::geom::lines::{Lines, positive};
use crate::geom::measure::squared_distance;
use crate::geom::near::Crowded;

/// As many segments are looked at after each.
const WINDOW: u32 = 512;

/// How small loops may be.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct LoopLimit {
    /// Loops up to this length are reported.
    pub length: f64,
    /// A line that comes back within this distance of itself closes a loop.
    pub tolerance: f64,
}

impl LoopLimit {
    /// Loops up to this length, closed within this tolerance, both in the unit of the lines.
    ///
    /// The numbers are checked where the limit is used.
    #[must_use]
    pub fn new(length: f64, tolerance: f64) -> Self {
        Self { length, tolerance }
    }
}

impl Default for LoopLimit {
    /// Two stitches at 10 stitches per inch, closed within 0.1 mm, for lines in millimetres.
    ///
    /// Our own choice: a loop of two stitches can only be sewn there and back. 10 stitches per
    /// inch is common practice, 0.1 mm the default join tolerance.
    fn default() -> Self {
        Self::new(2.0 * 2.54, 0.1)
    }
}

/// A small loop.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Loop {
    /// The part of the line that forms the loop.
    pub part: LinePart,
    /// Its length along the line.
    pub length: f64,
    /// Where it closes, which is where it starts.
    pub at: Point,
}

/// Finds loops of one line with itself that are no longer than a limit, the smallest first.
///
/// In the unit of the lines.
///
/// ```
/// use quiltpath_core::{check::{Lines, LoopLimit, loops}, geom::Point};
///
/// let curl = [(0.0, 0.0), (9.0, 0.0), (9.0, -1.0), (8.0, -1.0), (8.0, 9.0)].map(|(x, y)| Point::new(x, y));
/// let lines = Lines::new(&[&curl], Lines::TOLERANCE_MM)?;
/// let found = loops(&lines, &LoopLimit::default())?;
/// assert_eq!(found.places.len(), 1);
/// assert!((found.places[0].length - 4.0).abs() < 0.3);
/// assert!((found.places[0].at - Point::new(8.0, 0.0)).norm() < 0.2);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when the length or the tolerance is below 1e-6 or not finite.
///
/// # Complexity
///
/// O(points × segments within the length), the latter at most 512 and a few for drawn lines.
pub fn loops(lines: &Lines, limit: &LoopLimit) -> Result<Found<Loop>, Error> {
    positive("the length of a loop", limit.length)?;
    positive("the tolerance of a loop", limit.tolerance)?;
    let (pairs, crowded) = returns(lines, limit);
    let rule = Rule {
        distance: limit.tolerance,
        gap: [0.0, limit.length],
        taken: &[],
    };
    let closed = |run: Component| {
        let (length, from) = run.gap;
        let [first, last] = run.gap_segments;
        let part = LinePart::new(lines, [first, last], [from, from + length]);
        let at = part.start;
        (!run.diagonal).then_some(Loop { part, length, at })
    };
    let places = runs(lines, &pairs, &rule).into_iter().filter_map(closed);
    let small = |place: &Loop| -place.length;
    Ok(Found::worst_first(places.collect(), small, crowded))
}

/// The pairs of segments, not next to each other, that come near within the length.
fn returns(lines: &Lines, limit: &LoopLimit) -> (Vec<(u32, u32)>, Vec<Crowded>) {
    let square = limit.tolerance * limit.tolerance * (1.0 + 1e-9);
    let (mut pairs, mut crowded) = (Vec::new(), Vec::<Crowded>::new());
    let mut reported_up_to = 0;
    for first in lines.segments() {
        let ends = lines.ends(first);
        let after = lines.reach(first)[1];
        let (low, high) = (ends[0].inf(&ends[1]), ends[0].sup(&ends[1]));
        for second in first + 2.. {
            if !lines.has_segment(second) || !lines.same_line(first, second) {
                break;
            }
            if lines.reach(second)[0] - after > limit.length {
                break;
            }
            if second - first > WINDOW {
                if first >= reported_up_to {
                    let segments = WINDOW as usize;
                    crowded.push(Crowded {
                        at: ends[0],
                        segments,
                    });
                    reported_up_to = second;
                }
                break;
            }
            let other = lines.ends(second);
            let beyond = |axis: usize| {
                let [from, to] = other.map(|end| end[axis]);
                from.min(to) > high[axis] + limit.tolerance
                    || from.max(to) < low[axis] - limit.tolerance
            };
            if !beyond(0) && !beyond(1) && squared_distance(ends, other) <= square {
                pairs.push((first, second));
            }
        }
    }
    (pairs, crowded)
}

#[cfg(test)]
mod tests;
