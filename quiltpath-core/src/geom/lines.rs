//! Lines made ready for the checks: one list of points, thinned, with the distance along each line.
//!
//! Problem: lines that are sampled far finer than they bend would make every check slow. Method:
//! from each point that is kept, go on while one straight line passes within the tolerance of all
//! that is left out: the directions that do form a wedge, which each point narrows. A point that
//! comes back towards the one that was kept ends the run, so that tips of hairpins stay.
//! Guarantee: every point that is left out lies within the tolerance of the segment in its place;
//! the ends stay; distances along are those of the lines as given; but for the last of a line, no
//! segment is shorter than the tolerance. With a tolerance of 0 only repeated points and points
//! inside straight stretches are left out. Failure: coordinates that are no geometry are refused.

use std::ops::Range;

use super::bounds::Bounds;
use super::point::{Point, Vector};
use super::polyline::check_points;
use crate::error::{CheckFault, Error};

/// The most points that are checked at once: 268 million.
pub(crate) const MAX_POINTS: usize = 1 << 28;

/// The least distance, tolerance or side that a check works with, in the unit of the lines: below
/// it, coordinates of up to 1e9 are too coarse.
pub(crate) const LEAST_LENGTH: f64 = 1e-6;

/// Stitched lines, ready to be checked: see [`Lines::new`].
#[derive(Debug, Clone, PartialEq)]
pub struct Lines {
    points: Vec<Point>,
    /// The distance of each point from the start of its line.
    along: Vec<f64>,
    /// The index of each point in its line as given.
    origin: Vec<u32>,
    /// The line of each point.
    line: Vec<u32>,
}

impl Lines {
    /// The default tolerance of thinning, in millimetres: 0.05 mm.
    ///
    /// Our own choice: a quarter of the 0.2 mm at which lines count as stitched twice, the smallest
    /// limit that is on a thread's thickness; a third of the segments that 0.01 mm would leave.
    pub const TOLERANCE_MM: f64 = 0.05;

    /// Makes lines ready to be checked, each given by its points in the order of stitching.
    ///
    /// Any one unit, x to the right, y down. Points are left out where the line moves by no more
    /// than the tolerance. Lines of no point or of one are no fault: nothing is found on them.
    ///
    /// ```
    /// use quiltpath_core::{check::Lines, geom::Point};
    ///
    /// let dense: Vec<Point> = (0..=1000).map(|k| Point::new(0.001 * f64::from(k), 0.0)).collect();
    /// let lines = Lines::new(&[&dense], Lines::TOLERANCE_MM)?;
    /// assert_eq!(lines.points(), [Point::new(0.0, 0.0), Point::new(1.0, 0.0)]);
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// A geometry error that names the line and the point of a coordinate that is not finite or
    /// beyond [`MAX_COORDINATE`](crate::geom::MAX_COORDINATE), or a tolerance that is not 0 or
    /// more; a check error for more than 268 million points.
    ///
    /// # Complexity
    ///
    /// O(points); 32 bytes for each.
    pub fn new(lines: &[impl AsRef<[Point]>], tolerance: f64) -> Result<Self, Error> {
        if !(tolerance >= 0.0 && tolerance.is_finite()) {
            return Err(Error::bad_number(
                "the tolerance of thinning",
                tolerance,
                "a length of 0 or more",
            ));
        }
        let lengths = lines.iter().map(|line| line.as_ref().len());
        let found = lengths.fold(0, usize::saturating_add);
        let limit = MAX_POINTS;
        if found.max(lines.len()) > limit {
            return Err(CheckFault::TooManyPoints { found, limit }.into());
        }
        let mut kept = Self {
            points: Vec::with_capacity(found),
            along: Vec::with_capacity(found),
            origin: Vec::with_capacity(found),
            line: Vec::with_capacity(found),
        };
        for (number, line) in lines.iter().map(AsRef::as_ref).enumerate() {
            check_points(line).map_err(|error| error.in_element(format!("line {number}")))?;
            kept.thin(number as u32, line, tolerance);
        }
        Ok(kept)
    }

    fn thin(&mut self, number: u32, line: &[Point], tolerance: f64) {
        let Some(&start) = line.first() else {
            return;
        };
        self.keep(number, 0, start, 0.0);
        let mut wedge = Wedge::from(start);
        let mut along = 0.0;
        for (index, pair) in line.windows(2).enumerate() {
            // The point after a run of which it can't be the end: the one before it is kept.
            if !wedge.reaches(pair[1], tolerance) {
                self.keep(number, index, pair[0], along);
                wedge = Wedge::from(pair[0]);
                wedge.reaches(pair[1], tolerance);
            }
            along += (pair[1] - pair[0]).norm();
        }
        self.keep(number, line.len() - 1, line[line.len() - 1], along);
    }

    fn keep(&mut self, line: u32, origin: usize, point: Point, along: f64) {
        // A step that is lost in the rounding of the distance along would be a segment without
        // length.
        if self.line.last() == Some(&line) && self.along.last() >= Some(&along) {
            return;
        }
        self.points.push(point);
        self.along.push(along);
        self.origin.push(origin as u32);
        self.line.push(line);
    }

    /// All points that were kept, line after line.
    #[must_use]
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// The length of all lines, as given.
    ///
    /// ```
    /// use quiltpath_core::{check::Lines, geom::Point};
    ///
    /// let point = Point::new;
    /// let (first, second) = ([point(0.0, 0.0), point(3.0, 4.0)], [point(9.0, 0.0), point(9.0, 2.0)]);
    /// assert_eq!(Lines::new(&[&first, &second], 0.0)?.length(), 7.0);
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    #[must_use]
    pub fn length(&self) -> f64 {
        self.segments().map(|segment| self.span(segment)).sum()
    }

    /// The box of all the points; none without points.
    pub(crate) fn bounds(&self) -> Option<Bounds> {
        Bounds::of(&self.points)
    }

    /// The numbers of all segments; segment k goes from point k to point k + 1 of the same line.
    pub(crate) fn segments(&self) -> impl Iterator<Item = u32> + '_ {
        let same = |pair: (usize, &[u32])| (pair.1[0] == pair.1[1]).then_some(pair.0 as u32);
        self.line.windows(2).enumerate().filter_map(same)
    }

    /// The points of each line that has one, as a range of all points.
    pub(crate) fn ranges(&self) -> Vec<Range<usize>> {
        let mut ranges: Vec<Range<usize>> = Vec::new();
        for (at, line) in self.line.iter().enumerate() {
            match ranges.last_mut() {
                Some(range) if self.line[range.start] == *line => range.end = at + 1,
                _ => ranges.push(at..at + 1),
            }
        }
        ranges
    }

    /// One more than the number of the last line that has a point.
    pub(crate) fn count(&self) -> usize {
        self.line.last().map_or(0, |&line| line as usize + 1)
    }

    /// The distance of a point from the start of its line.
    pub(crate) fn along(&self, point: usize) -> f64 {
        self.along[point]
    }

    /// The distances along its line at which the line of a segment starts and ends.
    pub(crate) fn bounds_along(&self, segment: u32) -> [f64; 2] {
        let line = self.line(segment);
        let end = self.line.partition_point(|&other| other <= line);
        [0.0, self.along[end - 1]]
    }

    /// True when there is a segment of this number.
    pub(crate) fn has_segment(&self, number: u32) -> bool {
        let after = self.line.get(number as usize + 1);
        after.is_some() && after == self.line.get(number as usize)
    }

    /// The number of the line that a segment belongs to.
    pub(crate) fn line(&self, segment: u32) -> u32 {
        self.line[segment as usize]
    }

    /// True when both segments belong to one line.
    pub(crate) fn same_line(&self, one: u32, other: u32) -> bool {
        self.line(one) == self.line(other)
    }

    /// The points at which a segment starts and ends.
    pub(crate) fn ends(&self, segment: u32) -> [Point; 2] {
        let at = segment as usize;
        [self.points[at], self.points[at + 1]]
    }

    /// The distances along the line at which a segment starts and ends.
    pub(crate) fn reach(&self, segment: u32) -> [f64; 2] {
        let at = segment as usize;
        [self.along[at], self.along[at + 1]]
    }

    /// The length along the line of a segment.
    pub(crate) fn span(&self, segment: u32) -> f64 {
        let [from, to] = self.reach(segment);
        to - from
    }

    /// The index, in the line as given, of the point at which a segment starts.
    pub(crate) fn origin(&self, segment: u32) -> usize {
        self.origin[segment as usize] as usize
    }

    /// The point of a segment at a distance along its line, which lies within its reach.
    pub(crate) fn point(&self, segment: u32, along: f64) -> Point {
        let ([a, b], [from, to]) = (self.ends(segment), self.reach(segment));
        a + (b - a) * ((along - from) / (to - from)).clamp(0.0, 1.0)
    }
}

/// The directions from a point in which a straight line passes near all points that followed it.
struct Wedge {
    from: Point,
    /// The squared distance of the farthest of them.
    farthest: f64,
    /// The two legs, clockwise from the first to the second; none while all points are near.
    legs: Option<[Vector; 2]>,
}

impl Wedge {
    fn from(point: Point) -> Self {
        Self {
            from: point,
            farthest: 0.0,
            legs: None,
        }
    }

    /// True, and the wedge narrowed, when a segment to this point can stand for all before it.
    fn reaches(&mut self, point: Point, tolerance: f64) -> bool {
        let step = point - self.from;
        let square = step.norm_squared();
        if self.legs.is_none() && square <= tolerance * tolerance {
            return true;
        }
        let sine = tolerance / square.sqrt();
        let cosine = (1.0 - sine * sine).max(0.0).sqrt();
        let across = Vector::new(-step.y, step.x) * sine;
        let (left, right) = (step * cosine - across, step * cosine + across);
        let legs = match self.legs {
            None => [left, right],
            Some([first, second]) => {
                let within = first.perp(&step) >= 0.0 && step.perp(&second) >= 0.0;
                if square < self.farthest || !within || first.dot(&step) < 0.0 {
                    return false;
                }
                [
                    if first.perp(&left) > 0.0 { left } else { first },
                    if second.perp(&right) < 0.0 {
                        right
                    } else {
                        second
                    },
                ]
            }
        };
        (self.farthest, self.legs) = (square, Some(legs));
        true
    }
}

/// Refuses a length that is below [`LEAST_LENGTH`] or not finite.
pub(crate) fn positive(what: &'static str, value: f64) -> Result<(), Error> {
    if value >= LEAST_LENGTH && value.is_finite() {
        return Ok(());
    }
    Err(Error::bad_number(what, value, "a length of at least 1e-6"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::measure::{distance_to_segment, length};
    use proptest::prelude::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn what_is_no_geometry_is_refused_with_its_line() {
        let (good, bad) = (
            points(&[(0.0, 0.0), (1.0, 0.0)]),
            points(&[(0.0, 0.0), (f64::NAN, 0.0)]),
        );
        let error = Lines::new(&[&good, &bad], 0.0).expect_err("NaN");
        assert_eq!(
            error.to_string(),
            "line 1: point 1 has the coordinate NaN; coordinates must be finite numbers"
        );
        assert!(Lines::new(&[&points(&[(0.0, 2e9)])], 0.0).is_err());
        for tolerance in [-1.0, f64::NAN, f64::INFINITY] {
            assert!(
                Lines::new(&[&good], tolerance)
                    .expect_err("no tolerance")
                    .is_geometry()
            );
        }
    }

    #[test]
    fn lines_without_length_have_no_segments() {
        let one = points(&[(1.0, 1.0)]);
        let same = vec![Point::new(2.0, 2.0); 5];
        let lines = Lines::new(&[vec![], one.clone(), same, vec![], one], 0.01).expect("lines");
        assert_eq!((lines.segments().count(), lines.length()), (0, 0.0));
        let none: [&[Point]; 0] = [];
        assert!(Lines::new(&none, 0.0).expect("none").points().is_empty());
    }

    #[test]
    fn the_tip_of_a_hairpin_stays() {
        let there_and_back = points(&[(0.0, 0.0), (1.0, 0.0), (2.0, 0.0), (1.0, 0.0), (0.0, 0.0)]);
        let lines = Lines::new(&[&there_and_back], 0.01).expect("lines");
        assert_eq!(
            lines.points(),
            points(&[(0.0, 0.0), (2.0, 0.0), (0.0, 0.0)])
        );
        assert_eq!((lines.reach(1), lines.origin(1)), ([2.0, 4.0], 2));
    }

    proptest! {
        #[test]
        fn what_is_left_out_is_within_the_tolerance(
            steps in prop::collection::vec((-1.0..1.0f64, -1.0..1.0f64), 1..200), bend in 0.001..1.0f64, tolerance in 0.0..0.5f64,
        ) {
            let mut line = vec![Point::new(3.0, -2.0)];
            let mut way = Vector::new(1.0, 0.0);
            for (x, y) in steps {
                way += Vector::new(x, y) * bend;
                line.push(line[line.len() - 1] + way.normalize() * 0.1);
            }
            let lines = Lines::new(&[&line], tolerance).expect("lines");
            prop_assert!((lines.length() - length(&line)).abs() < 1e-9);
            let last = lines.segments().count() as u32;
            for segment in lines.segments() {
                let [from, to] = lines.ends(segment);
                let (first, end) = (lines.origin(segment), lines.origin[segment as usize + 1] as usize);
                prop_assert_eq!((from, to), (line[first], line[end]));
                prop_assert!(segment + 1 == last || (to - from).norm() >= tolerance);
                for point in &line[first..end] {
                    prop_assert!(distance_to_segment(*point, from, to) <= tolerance + 1e-12);
                }
            }
        }
    }
}
