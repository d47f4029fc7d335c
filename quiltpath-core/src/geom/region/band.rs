//! The region between two polygons, as a border's band is one.

use super::polygon::Region;
use crate::geom::Point;

/// The region between an outer polygon and a hole in it.
#[derive(Debug, Clone, PartialEq)]
pub struct BandRegion {
    /// The outer boundary.
    pub outer: Region,
    /// The hole, inside the outer boundary.
    pub inner: Region,
}

impl BandRegion {
    /// How far the point is from the ring: 0 inside and on the boundaries.
    #[must_use]
    pub fn distance_outside(&self, point: Point) -> f64 {
        if !self.outer.contains(point) {
            self.outer.distance_to_boundary(point)
        } else if self.inner.contains(point) {
            self.inner.distance_to_boundary(point)
        } else {
            0.0
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ring_measures_from_the_boundary_that_is_crossed() {
        let square = |half: f64| {
            let corners = [(-half, -half), (half, -half), (half, half), (-half, half)];
            Region::new(corners.map(|(x, y)| Point::new(x, y)).to_vec()).expect("square")
        };
        let ring = BandRegion {
            outer: square(4.0),
            inner: square(2.0),
        };
        assert_eq!(ring.distance_outside(Point::new(3.0, 0.0)), 0.0);
        assert_eq!(ring.distance_outside(Point::new(5.5, 0.0)), 1.5);
        assert_eq!(ring.distance_outside(Point::new(1.5, 0.0)), 0.5);
    }
}
