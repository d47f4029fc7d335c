//! A validated open polyline: at least two different points, all finite, within limits.

use super::bounds::Bounds;
use super::measure::length;
use super::point::{MAX_COORDINATE, Point, Vector, unit_vector};
use crate::error::{Error, GeometryFault};

/// An open line through at least two points, from a start to an end, in the order of travel.
///
/// Every coordinate is finite and within [`MAX_COORDINATE`]; no point equals the one before it;
/// the length is above 0. A closed drawing is the same thing with its end on its start.
///
/// ```
/// use quiltpath_core::geom::{Point, Polyline};
///
/// let line = Polyline::new(vec![Point::new(0.0, 0.0), Point::new(3.0, 4.0)])?;
/// assert_eq!(line.length(), 5.0);
/// assert_eq!(line.end(), Point::new(3.0, 4.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Polyline {
    points: Vec<Point>,
}

impl Polyline {
    /// Makes a line of these points; a point equal to the one before it is left out.
    ///
    /// # Errors
    ///
    /// A geometry error that names the index of the first coordinate that is not finite or
    /// beyond [`MAX_COORDINATE`]; or that fewer than two different points were given.
    ///
    /// # Complexity
    ///
    /// O(n); the vector is reused.
    pub fn new(mut points: Vec<Point>) -> Result<Self, Error> {
        check_points(&points)?;
        let found = points.len();
        points.dedup();
        match (points.len(), found) {
            (2.., _) => Ok(Self { points }),
            (_, 0 | 1) => Err(GeometryFault::TooFewPoints { found }.into()),
            _ => Err(GeometryFault::NoLength.into()),
        }
    }

    /// The points in the order of travel.
    #[must_use]
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// The points in the order of travel, taken out of the line.
    #[must_use]
    pub fn into_points(self) -> Vec<Point> {
        self.points
    }

    /// Where the line starts.
    #[must_use]
    pub fn start(&self) -> Point {
        self.points[0]
    }

    /// Where the line ends.
    #[must_use]
    pub fn end(&self) -> Point {
        self.points[self.points.len() - 1]
    }

    /// The unit vector of travel along the first segment.
    #[must_use]
    pub fn start_direction(&self) -> Vector {
        unit_vector(self.points[1] - self.points[0])
    }

    /// The unit vector of travel along the last segment.
    #[must_use]
    pub fn end_direction(&self) -> Vector {
        let last = self.points.len() - 1;
        unit_vector(self.points[last] - self.points[last - 1])
    }

    /// The sum of the lengths of the segments, in the unit of the points.
    #[must_use]
    pub fn length(&self) -> f64 {
        let length = length(&self.points);
        if length > 0.0 {
            return length;
        }
        // The squares of the steps underflow.
        let steps = self.points.windows(2).map(|pair| pair[1] - pair[0]);
        steps.map(|step| step.x.hypot(step.y)).sum()
    }

    /// The smallest box, sides along the axes, that holds the line.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        Bounds::of_nonempty(&self.points)
    }

    /// The same line travelled from its end to its start.
    #[must_use]
    pub fn reversed(mut self) -> Self {
        self.points.reverse();
        self
    }

    /// The line through the images of the points.
    ///
    /// # Errors
    ///
    /// As [`Polyline::new`], when an image is not finite, beyond the limit, or all are the same.
    pub fn map(mut self, mut image: impl FnMut(Point) -> Point) -> Result<Self, Error> {
        for point in &mut self.points {
            *point = image(*point);
        }
        Self::new(self.points)
    }
}

impl AsRef<[Point]> for Polyline {
    fn as_ref(&self) -> &[Point] {
        &self.points
    }
}

impl From<Polyline> for Vec<Point> {
    fn from(line: Polyline) -> Self {
        line.into_points()
    }
}

impl TryFrom<Vec<Point>> for Polyline {
    type Error = Error;

    /// As [`Polyline::new`].
    fn try_from(points: Vec<Point>) -> Result<Self, Error> {
        Self::new(points)
    }
}

impl TryFrom<Vec<(f64, f64)>> for Polyline {
    type Error = Error;

    /// As [`Polyline::new`], each point as its x and y.
    fn try_from(points: Vec<(f64, f64)>) -> Result<Self, Error> {
        Self::new(points.into_iter().map(|(x, y)| Point::new(x, y)).collect())
    }
}

/// Refuses points of which a coordinate is not finite or beyond the limit, and names the first.
pub(crate) fn check_points(points: &[Point]) -> Result<(), Error> {
    let fits = |value: f64| value.abs() <= MAX_COORDINATE;
    // Without a way out in the middle, the points are gone through several at a time.
    let all = |all: bool, point: &Point| all & fits(point.x) & fits(point.y);
    if points.iter().fold(true, all) {
        return Ok(());
    }
    for (index, point) in points.iter().enumerate() {
        check_coordinate(index, point.x)?;
        check_coordinate(index, point.y)?;
    }
    Ok(())
}

/// Refuses a coordinate of the point of this index that is not finite or beyond the limit.
pub(crate) fn check_coordinate(index: usize, value: f64) -> Result<(), Error> {
    if !value.is_finite() {
        return Err(GeometryFault::NotFinite { index, value }.into());
    }
    if value.abs() > MAX_COORDINATE {
        let limit = MAX_COORDINATE;
        return Err(GeometryFault::TooLarge {
            index,
            value,
            limit,
        }
        .into());
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(points: &[(f64, f64)]) -> String {
        let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
        Polyline::new(points).expect_err("is no line").to_string()
    }

    #[test]
    fn what_is_no_line_is_refused_with_a_reason() {
        assert!(refused(&[]).starts_with("0 points can't make a line"));
        assert!(refused(&[(1.0, 1.0)]).starts_with("1 point can't make a line"));
        assert!(refused(&[(1.0, 1.0), (1.0, 1.0)]).starts_with("all points are the same"));
        assert!(
            refused(&[(0.0, 0.0), (f64::NAN, 1.0)]).starts_with("point 1 has the coordinate NaN")
        );
        assert!(refused(&[(0.0, f64::INFINITY), (0.0, 1.0)]).contains("coordinate inf"));
        assert_eq!(
            refused(&[(0.0, 0.0), (1e308, 1.0)]),
            "point 1 has the coordinate 1e308; coordinates may go from -1e9 to 1e9"
        );
    }

    #[test]
    fn steps_whose_squares_underflow_have_a_length_and_a_direction() {
        for step in [5e-324, 1e-310, 1e-200, 1e-160, 1e9] {
            let line = Polyline::new(vec![Point::new(0.0, 0.0), Point::new(step, step)]);
            let line = line.expect("a line");
            assert!(line.length() >= step);
            for direction in [line.start_direction(), line.end_direction()] {
                assert!((direction - Vector::repeat(0.5f64.sqrt())).norm() < 1e-15);
            }
        }
    }

    #[test]
    fn repeated_points_are_left_out() {
        let point = Point::new;
        let line = Polyline::new(vec![
            point(0.0, 0.0),
            point(0.0, 0.0),
            point(0.0, 2.0),
            point(0.0, 2.0),
            point(1.0, 2.0),
        ])
        .expect("a line");
        assert_eq!(line.points().len(), 3);
        assert_eq!(line.start_direction(), Vector::new(0.0, 1.0));
        assert_eq!(line.end_direction(), Vector::new(1.0, 0.0));
        assert_eq!(line.reversed().start(), point(1.0, 2.0));
    }
}
