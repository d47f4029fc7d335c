//! Lines that leave where they may be stitched: under the binding, off the quilt, over the seam.
//!
//! Problem: a border's line has to stay inside outlines nested from the quilt's edge inwards (the
//! edge, the line the binding covers to, the band's outer line) and outside those that it runs
//! round (the band's inner line, the seam). Which is the most serious outline that it passes, and
//! where is it farthest beyond? Method: outside a convex outline the distance to it is a convex
//! function, so its greatest value on a line is at a point of the line. Inside one, the depth is
//! the least of the distances to the sides, a concave function on a segment, whose greatest value
//! may lie anywhere in it: the lower envelope of the sides' distances is walked to its summit.
//! Guarantee: exact up to rounding, also where a segment cuts across a corner with both its ends
//! where they may be. Failure: outlines that are not nested are refused.

use crate::error::{CheckFault, Error, OutlineNumber};
use crate::geom::convex::{ConvexPolygon, MAX_SIDES};
use crate::geom::lines::positive;
use crate::geom::measure::distance_to_segment;
use crate::geom::polyline::check_points;
use crate::geom::{Point, Vector};

/// The outlines between which lines may be stitched.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Outlines<'a> {
    /// Those that lines stay inside of, the outermost first: for example the quilt's edge, the line
    /// that the binding covers to, the band's outer line.
    pub outer: &'a [ConvexPolygon],
    /// Those that lines stay outside of, the innermost first: for example the border's inner seam,
    /// the band's inner line.
    pub inner: &'a [ConvexPolygon],
}

/// Which way a line leaves where it may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Leaves {
    /// Out through an outer outline.
    Outwards,
    /// In through an inner outline.
    Inwards,
}

/// A line beyond an outline.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Beyond {
    /// The index of the line.
    pub line: usize,
    /// Which way it leaves.
    pub way: Leaves,
    /// The index of the outline among `outer` or `inner`: the most serious one that it passes,
    /// which is the first.
    pub outline: usize,
    /// The index of the segment of the line that reaches farthest beyond it.
    pub segment: usize,
    /// Where it is farthest beyond.
    pub at: Point,
    /// How far.
    pub distance: f64,
}

/// Finds for each line the most serious outline that it passes either way, and where it is
/// farthest beyond it.
///
/// In the unit of the lines; up to `tolerance` beyond is no fault. In the order of the lines, the
/// way outwards first.
///
/// ```
/// use quiltpath_core::check::{Leaves, Outlines, beyond};
/// use quiltpath_core::geom::{ConvexPolygon, Point};
///
/// let square = |half: f64| {
///     let corners = [(-half, -half), (half, -half), (half, half), (-half, half)];
///     ConvexPolygon::new(corners.map(|(x, y)| Point::new(x, y)).to_vec())
/// };
/// let (edge, binding, seam) = (square(100.0)?, square(94.0)?, square(50.0)?);
/// let (outer, inner) = ([edge, binding], [seam]);
/// let outlines = Outlines::new(&outer, &inner);
/// // From one side of a corner of the seam to the other, then under the binding.
/// let line = [(0.0, 52.0), (52.0, 0.0), (96.0, 0.0)].map(|(x, y)| Point::new(x, y));
/// let found = beyond(&[&line], &outlines, 1e-6)?;
/// assert_eq!((found[0].way, found[0].outline, found[0].distance), (Leaves::Outwards, 1, 2.0));
/// assert_eq!((found[1].way, found[1].segment, found[1].at), (Leaves::Inwards, 0, Point::new(26.0, 26.0)));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when the tolerance is below 1e-6 or a coordinate is no geometry; a check error
/// when an outline is not within the one before it by more than the tolerance.
///
/// # Complexity
///
/// O(points × sides); about one side is looked at for each point of a line that stays inside.
pub fn beyond(
    lines: &[impl AsRef<[Point]>],
    outlines: &Outlines<'_>,
    tolerance: f64,
) -> Result<Vec<Beyond>, Error> {
    positive("the tolerance at an outline", tolerance)?;
    outlines.check(tolerance)?;
    let (outer, inner) = (Sides::of_all(outlines.outer), Sides::of_all(outlines.inner));
    let mut found = Vec::new();
    for (number, line) in lines.iter().map(AsRef::as_ref).enumerate() {
        check_points(line).map_err(|error| error.in_element(format!("line {number}")))?;
        let ways = [(Leaves::Outwards, &outer), (Leaves::Inwards, &inner)];
        for (way, nested) in ways {
            let worst = |sides: &Sides| match way {
                Leaves::Outwards => sides.farthest_outside(line, tolerance),
                Leaves::Inwards => sides.deepest_inside(line, tolerance),
            };
            // The last outline is the tightest: what does not pass it passes none.
            if nested.last().and_then(worst).is_none() {
                continue;
            }
            let passed = nested.iter().map(worst).enumerate();
            found.extend(
                passed
                    .filter_map(|(outline, worst)| Some((outline, worst?)))
                    .take(1)
                    .map(|(outline, worst)| Beyond {
                        line: number,
                        way,
                        outline,
                        segment: worst.segment,
                        at: worst.at,
                        distance: worst.distance,
                    }),
            );
        }
    }
    Ok(found)
}

impl<'a> Outlines<'a> {
    /// Lines stay inside of the outer outlines, the outermost first, and outside of the inner ones,
    /// the innermost first.
    #[must_use]
    pub fn new(outer: &'a [ConvexPolygon], inner: &'a [ConvexPolygon]) -> Self {
        Self { outer, inner }
    }

    /// Refuses outlines that are not nested.
    fn check(&self, tolerance: f64) -> Result<(), Error> {
        let outer = self.outer.iter().enumerate();
        let inner = self.inner.iter().enumerate().rev();
        let named = (outer.map(|(index, outline)| (OutlineNumber::Outer(index), outline)))
            .chain(inner.map(|(index, outline)| (OutlineNumber::Inner(index), outline)))
            .collect::<Vec<_>>();
        for pair in named.windows(2) {
            let ((outer, around), (inner, within)) = (pair[0], pair[1]);
            if let Some(worst) = Sides::of(around).farthest_outside(within.corners(), tolerance) {
                let by = worst.distance;
                return Err(CheckFault::NotNested { outer, inner, by }.into());
            }
        }
        Ok(())
    }
}

/// The worst place of a line at one outline.
struct Worst {
    segment: usize,
    at: Point,
    distance: f64,
}

impl Worst {
    fn or(
        found: Option<Self>,
        distance: f64,
        tolerance: f64,
        place: impl FnOnce() -> (usize, Point),
    ) -> Option<Self> {
        if distance <= found.as_ref().map_or(tolerance, |worst| worst.distance) {
            return found;
        }
        let (segment, at) = place();
        Some(Self {
            segment,
            at,
            distance,
        })
    }
}

/// A side of an outline: a corner and the unit vector inwards from the side.
type Side = (Point, Vector);

/// An outline by its sides.
struct Sides<'a> {
    outline: &'a ConvexPolygon,
    sides: Vec<Side>,
}

/// How far inside of a side a point is; below 0 outside.
fn inside((corner, inwards): Side, point: Point) -> f64 {
    inwards.dot(&(point - corner))
}

impl<'a> Sides<'a> {
    fn of(outline: &'a ConvexPolygon) -> Self {
        let side = |index: usize| {
            let along = outline.direction(index);
            (outline.corners()[index], Vector::new(-along.y, along.x))
        };
        let sides = (0..outline.sides()).map(side).collect();
        Self { outline, sides }
    }

    fn of_all(outlines: &'a [ConvexPolygon]) -> Vec<Self> {
        outlines.iter().map(Self::of).collect()
    }

    fn farthest_outside(&self, line: &[Point], tolerance: f64) -> Option<Worst> {
        let corners = self.outline.corners();
        let mut worst = None;
        for (index, &point) in line.iter().enumerate() {
            // At the sharpest corner a point is at most four times as far from it as from a side.
            let near = -tolerance / 4.0;
            if self.sides.iter().all(|&side| inside(side, point) >= near) {
                continue;
            }
            let to_side = |side: usize| {
                distance_to_segment(point, corners[side], corners[self.outline.after(side)])
            };
            let distance = (0..corners.len())
                .map(to_side)
                .fold(f64::INFINITY, f64::min);
            // The last point ends the last segment.
            let segment = index.min(line.len().saturating_sub(2));
            worst = Worst::or(worst, distance, tolerance, || (segment, point));
        }
        worst
    }

    fn deepest_inside(&self, line: &[Point], tolerance: f64) -> Option<Worst> {
        let mut worst = None;
        let mut apart = self.sides[0];
        let alone = line.first().filter(|_| line.len() == 1);
        let pairs = line.windows(2).map(|pair| [pair[0], pair[1]]);
        let segments = pairs.chain(alone.map(|point| [*point; 2]));
        for (segment, ends) in segments.enumerate() {
            let outside = |side: Side| ends.iter().all(|&end| inside(side, end) <= tolerance);
            // The side beyond which the last segment lay mostly serves for this one, too.
            if outside(apart) {
                continue;
            }
            if let Some(&side) = self.sides.iter().find(|&&side| outside(side)) {
                apart = side;
                continue;
            }
            let (depth, part) = self.summit(ends);
            let place = || (segment, ends[0] + (ends[1] - ends[0]) * part);
            worst = Worst::or(worst, depth, tolerance, place);
        }
        worst
    }

    /// The greatest depth on a segment, and the part of it that lies before.
    fn summit(&self, [from, to]: [Point; 2]) -> (f64, f64) {
        // The depth within each side is a + b λ along the segment.
        let mut lines = [(0.0, 0.0); MAX_SIDES];
        for (line, &side) in lines.iter_mut().zip(&self.sides) {
            *line = (inside(side, from), inside(side, to) - inside(side, from));
        }
        let lines = &lines[..self.sides.len().min(MAX_SIDES)];
        // The lowest at the start, the flattest of those; then from one to the next below it.
        let lower =
            |x: &&(f64, f64), y: &&(f64, f64)| x.0.total_cmp(&y.0).then(x.1.total_cmp(&y.1));
        let Some(&(mut a, mut b)) = lines.iter().min_by(lower) else {
            return (0.0, 0.0);
        };
        let mut at = 0.0;
        while b > 0.0 {
            let meet = |&(c, d): &(f64, f64)| (d < b).then(|| (((c - a) / (b - d)).max(at), c, d));
            let first = |x: &(f64, f64, f64), y: &(f64, f64, f64)| {
                x.0.total_cmp(&y.0).then(x.2.total_cmp(&y.2))
            };
            match lines.iter().filter_map(meet).min_by(first) {
                Some((next, c, d)) if next < 1.0 => (at, a, b) = (next, c, d),
                _ => return (a + b, 1.0),
            }
        }
        (a + b * at, at)
    }
}

#[cfg(test)]
mod tests;
