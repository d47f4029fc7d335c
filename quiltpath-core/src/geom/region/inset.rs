//! The region whose boundary runs inside another's, at a fixed distance.
//!
//! Method: every side moves inwards by the distance and meets its neighbours again (mitred
//! corners), so that sides correspond one to one. Guarantee: the result is a simple polygon
//! inside the region, its sides in the directions of the old ones. Failure case: a distance at
//! which a side vanishes or sides cross; then the error says which distances work.

use super::polygon::Region;
use crate::error::{Error, GeometryFault};
use crate::geom::Vector;

impl Region {
    /// The region whose sides run inside those of this one, at this distance (0 or more).
    ///
    /// ```
    /// use quiltpath_core::geom::{Bounds, Point, region::Region};
    ///
    /// let square = Region::rectangle(Bounds { min: Point::new(0.0, 0.0), max: Point::new(4.0, 4.0) })?;
    /// assert_eq!(square.inset(1.0)?.area(), 4.0);
    /// assert!(square.inset(2.0).is_err());
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// A geometry error when the distance is negative or not finite, or so large that a side
    /// vanishes or sides cross; it names a distance up to which the inset works.
    ///
    /// # Complexity
    ///
    /// O(n²) in the number of corners.
    pub fn inset(&self, distance: f64) -> Result<Self, Error> {
        if !(distance >= 0.0 && distance.is_finite()) {
            return Err(Error::bad_number(
                "the inset",
                distance,
                "0 or a distance above 0",
            ));
        }
        if distance == 0.0 {
            return Ok(self.clone());
        }
        self.try_inset(distance).ok_or_else(|| {
            let (mut works, mut fails) = (0.0, distance.min(self.bounds().size().norm()));
            for _ in 0..30 {
                let middle = f64::midpoint(works, fails);
                if self.try_inset(middle).is_some() {
                    works = middle;
                } else {
                    fails = middle;
                }
            }
            GeometryFault::InsetTooLarge {
                inset: distance,
                limit: works,
            }
            .into()
        })
    }

    fn try_inset(&self, distance: f64) -> Option<Self> {
        let count = self.corners().len();
        let turn = self.signed_area().signum();
        let direction = |index: usize| {
            let [from, to] = self.side(index);
            (to - from).normalize()
        };
        let inward = |index: usize| {
            let along = direction(index);
            Vector::new(-along.y, along.x) * turn
        };
        let mut corners = Vec::with_capacity(count);
        for index in 0..count {
            let (before, after) = (inward((index + count - 1) % count), inward(index));
            corners.push(
                self.corners()[index] + (before + after) * (distance / (1.0 + before.dot(&after))),
            );
        }
        let inset = Self::new(corners).ok()?;
        let sound = inset.corners().len() == count
            && (0..count).all(|index| {
                let [from, to] = inset.side(index);
                (to - from).dot(&direction(index)) > 0.0 && self.contains(from)
            });
        sound.then_some(inset)
    }
}

#[cfg(test)]
mod tests {
    use crate::geom::Point;
    use crate::geom::region::Region;
    use proptest::prelude::*;

    #[test]
    fn too_large_an_inset_says_what_works() {
        let corners = [(0, 0), (9, 0), (9, 2), (2, 2), (2, 9), (0, 9)];
        let corners = corners.map(|(x, y)| Point::new(f64::from(x), f64::from(y)));
        let l = Region::new(corners.to_vec()).expect("an L");
        let message = l.inset(1.5).expect_err("too large").to_string();
        assert!(
            message.contains("an inset of 1.5 does not fit"),
            "{message}"
        );
        assert!(message.contains("below 1"), "{message}");
        let inner = l.inset(0.5).expect("fits");
        assert_eq!(inner.corners()[3], Point::new(1.5, 1.5));
        assert!(l.inset(-1.0).is_err() && l.inset(f64::NAN).is_err());
    }

    proptest! {
        #[test]
        fn an_inset_keeps_its_distance(radii in prop::collection::vec(2.0..4.0f64, 5..12), mirrored: bool, distance in 0.01..0.4f64) {
            let step = std::f64::consts::TAU / radii.len() as f64;
            let mut corners: Vec<Point> = radii.iter().enumerate().map(|(i, r)| {
                let (sin, cos) = (step * i as f64).sin_cos();
                Point::new(r * cos, r * sin)
            }).collect();
            if mirrored {
                corners.reverse();
            }
            let star = Region::new(corners).expect("a star-shaped polygon");
            if let Ok(inner) = star.inset(distance) {
                for &corner in inner.corners() {
                    prop_assert!(star.contains(corner));
                    prop_assert!(star.distance_to_boundary(corner) > distance * (1.0 - 1e-9));
                }
            }
        }
    }
}
