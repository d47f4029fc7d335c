//! Measures of a line of points: length, bounding box, the point at a distance along.

use super::point::{Point, Vector};

/// The sum of the lengths of the segments between the points, 0 for fewer than two.
///
/// # Complexity
///
/// O(n), one pass.
#[must_use]
pub fn length(points: &[Point]) -> f64 {
    points
        .windows(2)
        .map(|pair| (pair[1] - pair[0]).norm())
        .sum()
}

/// The point at this distance along the line, clamped to its ends; `None` without points.
///
/// ```
/// use quiltpath_core::geom::{Point, measure::point_at};
///
/// let line = [Point::new(0.0, 0.0), Point::new(2.0, 0.0), Point::new(2.0, 2.0)];
/// assert_eq!(point_at(&line, 3.0), Some(Point::new(2.0, 1.0)));
/// ```
///
/// # Complexity
///
/// O(n).
#[must_use]
pub fn point_at(points: &[Point], distance: f64) -> Option<Point> {
    let mut left = distance.max(0.0);
    for pair in points.windows(2) {
        let step = pair[1] - pair[0];
        let size = step.norm();
        if left <= size && size > 0.0 {
            return Some(pair[0] + step * (left / size));
        }
        left -= size;
    }
    points.last().copied()
}

/// The distance from a point to the segment between two others.
#[must_use]
pub fn distance_to_segment(point: Point, from: Point, to: Point) -> f64 {
    let step = to - from;
    let square = step.norm_squared();
    let along = if square > 0.0 {
        ((point - from).dot(&step) / square).clamp(0.0, 1.0)
    } else {
        0.0
    };
    (point - (from + step * along)).norm()
}

/// A box with sides along the axes; `min` is the top left corner, `max` the bottom right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    /// The least x and the least y: the top left corner.
    pub min: Point,
    /// The greatest x and the greatest y: the bottom right corner.
    pub max: Point,
}

impl Bounds {
    /// The smallest box that holds all the points; `None` without points.
    ///
    /// # Complexity
    ///
    /// O(n), one pass.
    #[must_use]
    pub fn of(points: &[Point]) -> Option<Self> {
        (!points.is_empty()).then(|| Self::of_nonempty(points))
    }

    pub(crate) fn of_nonempty(points: &[Point]) -> Self {
        let mut bounds = Self {
            min: points[0],
            max: points[0],
        };
        for point in points {
            bounds.min = bounds.min.inf(point);
            bounds.max = bounds.max.sup(point);
        }
        bounds
    }

    /// The size along x.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.max.x - self.min.x
    }

    /// The size along y.
    #[must_use]
    pub fn height(&self) -> f64 {
        self.max.y - self.min.y
    }

    /// Width and height as a vector.
    #[must_use]
    pub fn size(&self) -> Vector {
        self.max - self.min
    }

    /// The point in the middle.
    #[must_use]
    pub fn centre(&self) -> Point {
        nalgebra::center(&self.min, &self.max)
    }

    /// The smallest box that holds both.
    #[must_use]
    pub fn union(&self, other: &Self) -> Self {
        Self {
            min: self.min.inf(&other.min),
            max: self.max.sup(&other.max),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_point_beyond_an_end_is_that_end() {
        let line = [Point::new(0.0, 0.0), Point::new(1.0, 0.0)];
        assert_eq!(point_at(&line, -3.0), Some(line[0]));
        assert_eq!(point_at(&line, 3.0), Some(line[1]));
        assert_eq!(point_at(&[], 3.0), None);
    }

    #[test]
    fn distance_to_a_segment_is_that_to_its_nearest_point() {
        let (from, to) = (Point::new(0.0, 0.0), Point::new(4.0, 0.0));
        assert_eq!(distance_to_segment(Point::new(2.0, 3.0), from, to), 3.0);
        assert_eq!(distance_to_segment(Point::new(7.0, 4.0), from, to), 5.0);
        assert_eq!(distance_to_segment(Point::new(3.0, 4.0), from, from), 5.0);
    }
}
