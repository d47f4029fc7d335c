//! A simple polygon: which point lies in it, how far its boundary is.

use crate::error::{Error, GeometryFault};
use crate::geom::crossing::opposite;
use crate::geom::measure::distance_to_segment;
use crate::geom::{Bounds, Point, Polyline};

/// A simple polygon: corners in order, closed by itself, sides that meet only at corners.
#[derive(Debug, Clone, PartialEq)]
pub struct Region {
    corners: Vec<Point>,
}

impl Region {
    /// Makes a region of the polygon with these corners, in either direction of turning.
    ///
    /// A last corner that repeats the first is left out.
    ///
    /// # Errors
    ///
    /// A geometry error when a coordinate is not finite, when fewer than 3 corners that are not
    /// in one line are given, or when two sides touch or cross (it names both sides).
    ///
    /// # Complexity
    ///
    /// O(n log n) in the number of corners of an outline as they are drawn; O(n²) where most of
    /// its sides lie above each other.
    pub fn new(corners: Vec<Point>) -> Result<Self, Error> {
        let mut corners = Polyline::new(corners)?.into_points();
        if corners.first() == corners.last() {
            corners.pop();
        }
        let region = Self { corners };
        let found = region.corners.len();
        if found < 3 {
            return Err(GeometryFault::RegionTooFew { found }.into());
        }
        if let Some((first, second)) = region.first_touch() {
            return Err(GeometryFault::RegionNotSimple { first, second }.into());
        }
        if region.signed_area() == 0.0 {
            return Err(GeometryFault::RegionTooFew { found }.into());
        }
        Ok(region)
    }

    /// The first two sides that touch without being neighbours, by the first and then the second:
    /// a sweep along x.
    fn first_touch(&self) -> Option<(usize, usize)> {
        let count = self.corners.len();
        let boxes: Vec<Bounds> = (0..count)
            .map(|side| Bounds::of_nonempty(&self.side(side)))
            .collect();
        let mut order: Vec<usize> = (0..count).collect();
        order.sort_by(|one, other| boxes[*one].min.x.total_cmp(&boxes[*other].min.x));
        let mut least: Option<(usize, usize)> = None;
        for (at, &one) in order.iter().enumerate() {
            let own = &boxes[one];
            let rest = order[at + 1..].iter().copied();
            let beside = rest.take_while(|other| boxes[*other].min.x <= own.max.x);
            for other in beside {
                let apart = boxes[other].min.y > own.max.y || boxes[other].max.y < own.min.y;
                let pair = (one.min(other), one.max(other));
                let neighbours = pair.1 == pair.0 + 1 || (pair.0 == 0 && pair.1 == count - 1);
                if apart || neighbours || least.is_some_and(|least| least <= pair) {
                    continue;
                }
                if touch(self.side(pair.0), self.side(pair.1)) {
                    least = Some(pair);
                }
            }
        }
        least
    }

    /// The rectangle between two opposite corners.
    ///
    /// # Errors
    ///
    /// As [`Region::new`]; a box without width or height is no region.
    pub fn rectangle(bounds: Bounds) -> Result<Self, Error> {
        let Bounds { min, max } = bounds;
        Self::new(vec![
            min,
            Point::new(max.x, min.y),
            max,
            Point::new(min.x, max.y),
        ])
    }

    /// The corners in order, the first not repeated.
    #[must_use]
    pub fn corners(&self) -> &[Point] {
        &self.corners
    }

    /// The area, in square units.
    #[must_use]
    pub fn area(&self) -> f64 {
        self.signed_area().abs()
    }

    /// The smallest box, sides along the axes, that holds the region.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        Bounds::of_nonempty(&self.corners)
    }

    /// The region of the images of the corners.
    ///
    /// # Errors
    ///
    /// As [`Region::new`].
    pub fn map(&self, image: impl FnMut(Point) -> Point) -> Result<Self, Error> {
        Self::new(self.corners.iter().copied().map(image).collect())
    }

    pub(super) fn signed_area(&self) -> f64 {
        let origin = self.corners[0];
        let doubled: f64 = (0..self.corners.len())
            .map(|index| {
                let [from, to] = self.side(index);
                (from - origin).perp(&(to - origin))
            })
            .sum();
        doubled / 2.0
    }

    pub(crate) fn side(&self, index: usize) -> [Point; 2] {
        [
            self.corners[index],
            self.corners[(index + 1) % self.corners.len()],
        ]
    }

    /// True when the point lies inside or on the boundary; exact up to the rounding of one product.
    ///
    /// # Complexity
    ///
    /// O(corners).
    #[must_use]
    pub fn contains(&self, point: Point) -> bool {
        let mut inside = false;
        for index in 0..self.corners.len() {
            let [from, to] = self.side(index);
            let turn = (to - from).perp(&(point - from));
            if turn == 0.0 && (point - from).dot(&(point - to)) <= 0.0 {
                return true;
            }
            if (from.y > point.y) != (to.y > point.y) && (turn > 0.0) == (to.y > from.y) {
                inside = !inside;
            }
        }
        inside
    }

    /// The distance from the point to the nearest point of the boundary.
    #[must_use]
    pub fn distance_to_boundary(&self, point: Point) -> f64 {
        (0..self.corners.len())
            .map(|index| {
                let [from, to] = self.side(index);
                distance_to_segment(point, from, to)
            })
            .fold(f64::INFINITY, f64::min)
    }
}

/// True when two closed segments share a point.
fn touch(first: [Point; 2], second: [Point; 2]) -> bool {
    let side = |line: [Point; 2], point: Point| (line[1] - line[0]).perp(&(point - line[0]));
    let within = |line: [Point; 2], point: Point| (point - line[0]).dot(&(point - line[1])) <= 0.0;
    let (a, b) = (side(first, second[0]), side(first, second[1]));
    let (c, d) = (side(second, first[0]), side(second, first[1]));
    if opposite(a, b) && opposite(c, d) {
        return true;
    }
    (a == 0.0 && within(first, second[0]))
        || (b == 0.0 && within(first, second[1]))
        || (c == 0.0 && within(second, first[0]))
        || (d == 0.0 && within(second, first[1]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn region(corners: &[(f64, f64)]) -> Result<Region, Error> {
        Region::new(corners.iter().map(|&(x, y)| Point::new(x, y)).collect())
    }

    #[test]
    fn what_is_no_simple_polygon_is_refused() {
        let bow_tie = region(&[(0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)]);
        assert!(
            bow_tie
                .expect_err("crosses")
                .to_string()
                .contains("sides 0 and 2")
        );
        let flat = region(&[(0.0, 0.0), (1.0, 0.0), (2.0, 0.0)]);
        assert!(
            flat.expect_err("flat")
                .to_string()
                .contains("at least 3 corners")
        );
        let touching = region(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 0.0), (0.0, 4.0)]);
        assert!(touching.is_err());
        // So small that products of what tells the sides are 0.
        let tiny = 1e-90;
        let tiny =
            [(0.0, 0.0), (2.0, 2.0), (2.0, 0.5), (0.0, 2.0)].map(|(x, y)| (x * tiny, y * tiny));
        assert!(
            region(&tiny)
                .expect_err("crosses")
                .to_string()
                .contains("sides 0 and 2")
        );
    }

    #[test]
    fn boundary_and_corners_are_inside() {
        let l = region(&[
            (0.0, 0.0),
            (4.0, 0.0),
            (4.0, 1.0),
            (1.0, 1.0),
            (1.0, 4.0),
            (0.0, 4.0),
        ])
        .expect("an L");
        assert_eq!(l.area(), 7.0);
        for (x, y, inside) in [
            (0.0, 0.0, true),
            (4.0, 0.5, true),
            (1.0, 1.0, true),
            (0.5, 3.0, true),
            (2.0, 2.0, false),
            (-1.0, 1.0, false),
            (5.0, 1.0, false),
        ] {
            assert_eq!(l.contains(Point::new(x, y)), inside, "({x}, {y})");
        }
    }

    proptest! {
        #[test]
        fn a_rectangle_contains_what_its_bounds_do(w in 0.1..9.0f64, h in 0.1..9.0f64, x in -10.0..10.0f64, y in -10.0..10.0f64) {
            let bounds = Bounds { min: Point::new(0.0, 0.0), max: Point::new(w, h) };
            let region = Region::rectangle(bounds).expect("rectangle");
            let expected = (0.0..=w).contains(&x) && (0.0..=h).contains(&y);
            prop_assert_eq!(region.contains(Point::new(x, y)), expected);
        }
    }
}
