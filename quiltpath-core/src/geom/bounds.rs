//! A box with sides along the axes.

use super::point::{Point, Vector};

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
    pub fn of(points: impl AsRef<[Point]>) -> Option<Self> {
        let points = points.as_ref();
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
