//! Positions on the boundary of a region: distances along it from its first corner.
//!
//! Positions run in the order of the corners, whichever way that turns, and wrap round: position
//! and position + length are the same place.

use super::polygon::Region;
use crate::geom::Point;

/// Which way along a boundary.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Way {
    /// In the order of the corners.
    Onward,
    /// Against the order of the corners.
    Back,
}

/// The boundary of a region, measured from its first corner in the order of the corners.
///
/// ```
/// use quiltpath_core::geom::{Bounds, Point, region::{Perimeter, Region, Way}};
///
/// let square = Region::rectangle(Bounds { min: Point::new(0.0, 0.0), max: Point::new(2.0, 2.0) })?;
/// let boundary = Perimeter::of(&square);
/// assert_eq!(boundary.length(), 8.0);
/// assert_eq!(boundary.point_at(3.0), Point::new(2.0, 1.0));
/// assert_eq!(boundary.position_of(Point::new(1.9, 1.0)), 3.0);
/// assert_eq!(boundary.between(1.0, 5.0, Way::Onward).len(), 2);
/// assert_eq!(boundary.distance(1.0, 7.0), 2.0);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Perimeter {
    corners: Vec<Point>,
    /// The position of each corner, then the length of the whole.
    starts: Vec<f64>,
}

impl Perimeter {
    /// Measures the boundary of a region.
    ///
    /// # Complexity
    ///
    /// O(corners).
    #[must_use]
    pub fn of(region: &Region) -> Self {
        let corners = region.corners().to_vec();
        let mut starts = vec![0.0];
        let mut total = 0.0;
        for side in 0..corners.len() {
            let [from, to] = region.side(side);
            total += (to - from).norm();
            starts.push(total);
        }
        Self { corners, starts }
    }

    /// The length once round.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.starts[self.corners.len()]
    }

    /// The same place as a position from 0 up to, not including, the length.
    #[must_use]
    pub fn wrap(&self, position: f64) -> f64 {
        let wrapped = position.rem_euclid(self.length());
        // The remainder of a tiny negative number rounds up to the length itself.
        if wrapped < self.length() {
            wrapped
        } else {
            0.0
        }
    }

    /// The point at a position.
    ///
    /// # Complexity
    ///
    /// O(log corners).
    #[must_use]
    pub fn point_at(&self, position: f64) -> Point {
        let position = self.wrap(position);
        let side = self.side_at(position);
        let (from, to) = (self.corner(side), self.corner(side + 1));
        let length = self.starts[side + 1] - self.starts[side];
        from + (to - from) * ((position - self.starts[side]) / length)
    }

    /// The position of the point of the boundary nearest to this point.
    ///
    /// # Complexity
    ///
    /// O(corners).
    #[must_use]
    pub fn position_of(&self, point: Point) -> f64 {
        let mut nearest = (f64::INFINITY, 0.0);
        for side in 0..self.corners.len() {
            let from = self.corner(side);
            let step = self.corner(side + 1) - from;
            let along = ((point - from).dot(&step) / step.norm_squared()).clamp(0.0, 1.0);
            let distance = (point - (from + step * along)).norm();
            if distance < nearest.0 {
                nearest = (distance, self.starts[side] + along * step.norm());
            }
        }
        self.wrap(nearest.1)
    }

    /// How far it is from one position to another, going this way.
    #[must_use]
    pub fn travel(&self, from: f64, to: f64, way: Way) -> f64 {
        match way {
            Way::Onward => self.wrap(to - from),
            Way::Back => self.wrap(from - to),
        }
    }

    /// How far it is from one position to another, the shorter way.
    #[must_use]
    pub fn distance(&self, from: f64, to: f64) -> f64 {
        let onward = self.travel(from, to, Way::Onward);
        onward.min(self.length() - onward)
    }

    /// The corners passed on the way from one position to another, without those at its ends.
    ///
    /// # Complexity
    ///
    /// O(log corners + corners passed).
    #[must_use]
    pub fn between(&self, from: f64, to: f64, way: Way) -> Vec<Point> {
        let (first, last) = match way {
            Way::Onward => (self.wrap(from), self.wrap(to)),
            Way::Back => (self.wrap(to), self.wrap(from)),
        };
        let count = self.corners.len();
        let mut passed = Vec::new();
        if first != last {
            let mut next = self.side_at(first) + 1;
            let reach = if last > first {
                last
            } else {
                last + self.length()
            };
            let start = |corner: usize| {
                self.starts[corner % count] + (corner / count) as f64 * self.length()
            };
            while start(next) < reach {
                passed.push(self.corner(next));
                next += 1;
            }
        }
        if way == Way::Back {
            passed.reverse();
        }
        passed
    }

    /// The side on which a wrapped position lies; a corner belongs to the side that it starts.
    pub(crate) fn side_at(&self, position: f64) -> usize {
        self.starts[1..self.corners.len()].partition_point(|&start| start <= position)
    }

    /// The position of a corner.
    pub(crate) fn start_of(&self, side: usize) -> f64 {
        self.starts[side]
    }

    fn corner(&self, index: usize) -> Point {
        self.corners[index % self.corners.len()]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn l() -> Perimeter {
        let corners = [(0, 0), (4, 0), (4, 1), (1, 1), (1, 4), (0, 4)];
        let corners = corners.map(|(x, y)| Point::new(f64::from(x), f64::from(y)));
        Perimeter::of(&Region::new(corners.to_vec()).expect("an L"))
    }

    #[test]
    fn the_corners_passed_are_those_between() {
        let l = l();
        assert_eq!(l.length(), 16.0);
        let passed = l.between(15.0, 4.5, Way::Onward);
        assert_eq!(passed, [Point::new(0.0, 0.0), Point::new(4.0, 0.0)]);
        let passed = l.between(4.0, 15.0, Way::Back);
        assert_eq!(passed, [Point::new(0.0, 0.0)]);
        assert!(l.between(3.0, 3.0, Way::Onward).is_empty());
        assert_eq!(l.between(4.5, 4.4, Way::Onward).len(), 6);
    }

    proptest! {
        #[test]
        fn positions_and_points_agree(position in -40.0..40.0f64, other in -40.0..40.0f64) {
            let l = l();
            let back = l.position_of(l.point_at(position));
            prop_assert!(l.distance(back, position) < 1e-12);
            for way in [Way::Onward, Way::Back] {
                let mut line = vec![l.point_at(position)];
                line.extend(l.between(position, other, way));
                line.push(l.point_at(other));
                let length = crate::geom::measure::length(&line);
                prop_assert!((length - l.travel(position, other, way)).abs() < 1e-9);
            }
        }
    }
}
