//! The map between a flat sheet and its picture.
//!
//! Problem: a sheet photographed at a slant is stretched; four places on it and in the picture tell
//! how. Method: the direct linear transform (R. Hartley and A. Zisserman, "Multiple View Geometry
//! in Computer Vision", 2nd edition, algorithm 4.2; from memory): both sets of places are moved and
//! scaled to about one, then the map is the vector that a matrix of eight rows takes to nothing, by
//! singular values. Guarantee: the four places are met to rounding. Failure: places on a line have
//! no such map.

use crate::geom::Point;
use nalgebra::{Matrix3, SMatrix};

/// A map of the plane that keeps lines straight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Homography(Matrix3<f64>);

impl Homography {
    /// The map that takes these four places to those; `None` where three of either lie on a line.
    pub(super) fn of(from: [Point; 4], to: [Point; 4]) -> Option<Self> {
        let (own, from) = normal(from)?;
        let (target, to) = normal(to)?;
        let mut rows = SMatrix::<f64, 9, 9>::zeros();
        for (at, (p, q)) in from.iter().zip(&to).enumerate() {
            let one = [p.x, p.y, 1.0];
            for (column, value) in one.into_iter().enumerate() {
                rows[(2 * at, column)] = -value;
                rows[(2 * at, column + 6)] = q.x * value;
                rows[(2 * at + 1, column + 3)] = -value;
                rows[(2 * at + 1, column + 6)] = q.y * value;
            }
        }
        let svd = rows.try_svd(false, true, f64::EPSILON, 1000)?;
        let (least, _) = svd.singular_values.argmin();
        let found = svd.v_t?.row(least).into_owned();
        let inner = Matrix3::from_row_iterator(found.iter().copied());
        let map = target.try_inverse()? * inner * own;
        let map = Self(map);
        let usual = map.0.iter().all(|value| value.is_finite());
        (usual && inner.determinant().abs() > 1e-9).then_some(map)
    }

    /// The way back.
    pub(super) fn inverse(&self) -> Option<Self> {
        self.0.try_inverse().map(Self)
    }

    /// Where a place goes.
    pub(super) fn map(&self, place: Point) -> Point {
        let to = self.0 * place.to_homogeneous();
        Point::new(to.x / to.z, to.y / to.z)
    }
}

/// The places moved to have their middle at 0 and a mean distance of √2, and the map that does it.
fn normal(places: [Point; 4]) -> Option<(Matrix3<f64>, [Point; 4])> {
    let middle = places
        .iter()
        .fold(Point::origin(), |sum, place| sum + place.coords / 4.0);
    let mean = places
        .iter()
        .map(|place| (place - middle).norm())
        .sum::<f64>()
        / 4.0;
    if !(mean > 0.0 && mean.is_finite()) {
        return None;
    }
    let scale = std::f64::consts::SQRT_2 / mean;
    let map = Matrix3::new(
        scale,
        0.0,
        -scale * middle.x,
        0.0,
        scale,
        -scale * middle.y,
        0.0,
        0.0,
        1.0,
    );
    Some((
        map,
        places.map(|place| Point::from((place - middle) * scale)),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use nalgebra::Vector3;
    use proptest::prelude::*;

    #[test]
    fn places_on_a_line_have_no_map() {
        let square =
            [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]].map(|[x, y]| Point::new(x, y));
        let line = [[0.0, 0.0], [1.0, 1.0], [2.0, 2.0], [0.0, 5.0]].map(|[x, y]| Point::new(x, y));
        assert!(Homography::of(square, line).is_none());
        assert!(Homography::of([Point::origin(); 4], square).is_none());
    }

    proptest! {
        /// A plane seen by a pinhole camera, turned about all axes: the map is found from four
        /// places and holds for all others, there and back.
        #[test]
        fn a_tilted_plane_is_squared_up(
            tilt in (-0.4..0.4f64, -0.4..0.4f64, -3.1..3.1f64),
            size in (100.0..300.0f64, 100.0..300.0f64),
            place in (0.0..1.0f64, 0.0..1.0f64),
        ) {
            let turn = nalgebra::Rotation3::from_euler_angles(tilt.0, tilt.1, tilt.2);
            let camera = |place: Point| {
                let seen = turn * Vector3::new(place.x - 100.0, place.y - 80.0, 0.0) + Vector3::new(3.0, 4.0, 600.0);
                Point::new(3000.0 * seen.x / seen.z + 1500.0, 3000.0 * seen.y / seen.z + 1200.0)
            };
            let corners = [[0.0, 0.0], [size.0, 0.0], [size.0, size.1], [0.0, size.1]].map(|[x, y]| Point::new(x, y));
            let map = Homography::of(corners, corners.map(camera)).expect("a map");
            let place = Point::new(place.0 * size.0, place.1 * size.1);
            prop_assert!((map.map(place) - camera(place)).norm() < 1e-6);
            let back = map.inverse().expect("a way back").map(camera(place));
            prop_assert!((back - place).norm() < 1e-6);
        }
    }
}
