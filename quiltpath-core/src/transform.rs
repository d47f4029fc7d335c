//! Affine maps of the plane: move, turn, mirror, scale, fit to a box.
//!
//! x to the right, y down; a positive angle turns from +x to +y, so clockwise as seen.

use std::ops::Mul;

use kurbo::Affine;
use nalgebra::Matrix2;

use crate::error::{Error, GeometryFault};
use crate::geom::{Bounds, Point, Polyline, Vector};

/// An affine map: a 2 × 2 matrix, then a displacement. A `Copy` value of six f64.
///
/// ```
/// use quiltpath_core::{geom::Point, transform::Transform};
///
/// let turn = Transform::rotate_degrees(90.0).then(Transform::translate(10.0, 0.0));
/// assert_eq!(turn.apply(Point::new(1.0, 0.0)), Point::new(10.0, 1.0));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Transform {
    linear: Matrix2<f64>,
    shift: Vector,
}

impl Default for Transform {
    /// The map that moves nothing.
    fn default() -> Self {
        Self::identity()
    }
}

/// `second * first` is the map that does `first`, then `second`, as with matrices.
impl Mul for Transform {
    type Output = Self;

    fn mul(self, first: Self) -> Self {
        first.then(self)
    }
}

/// The image of a point.
impl Mul<Point> for Transform {
    type Output = Point;

    fn mul(self, point: Point) -> Point {
        self.apply(point)
    }
}

impl From<Affine> for Transform {
    fn from(affine: Affine) -> Self {
        Self::new(affine.as_coeffs())
    }
}

impl From<Transform> for Affine {
    fn from(transform: Transform) -> Self {
        Self::new(transform.coefficients())
    }
}

/// The axis of a mirror.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mirror {
    /// Left and right change places: x becomes -x.
    LeftRight,
    /// Top and bottom change places: y becomes -y.
    TopBottom,
}

/// Whether fitting to a size keeps the proportions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Proportions {
    /// One factor for both axes: the largest that stays within every size given.
    Keep,
    /// Each axis by its own factor.
    Free,
}

impl Transform {
    /// The map that moves nothing.
    #[must_use]
    pub fn identity() -> Self {
        Self {
            linear: Matrix2::identity(),
            shift: Vector::zeros(),
        }
    }

    /// The map (x, y) to (a x + c y + e, b x + d y + f), coefficients in SVG's order.
    #[must_use]
    pub fn new([a, b, c, d, e, f]: [f64; 6]) -> Self {
        Self {
            linear: Matrix2::new(a, c, b, d),
            shift: Vector::new(e, f),
        }
    }

    /// The six coefficients in SVG's order a, b, c, d, e, f.
    #[must_use]
    pub fn coefficients(&self) -> [f64; 6] {
        let m = &self.linear;
        [m.m11, m.m21, m.m12, m.m22, self.shift.x, self.shift.y]
    }

    /// A move by this much to the right and down.
    #[must_use]
    pub fn translate(right: f64, down: f64) -> Self {
        Self::new([1.0, 0.0, 0.0, 1.0, right, down])
    }

    /// The move that brings one point onto another.
    #[must_use]
    pub fn carry(from: Point, to: Point) -> Self {
        Self::translate(to.x - from.x, to.y - from.y)
    }

    /// A turn about the origin, in degrees, positive clockwise; multiples of 90 are exact.
    #[must_use]
    pub fn rotate_degrees(degrees: f64) -> Self {
        let (sin, cos) = match degrees.rem_euclid(360.0) {
            0.0 => (0.0, 1.0),
            90.0 => (1.0, 0.0),
            180.0 => (0.0, -1.0),
            270.0 => (-1.0, 0.0),
            _ => degrees.to_radians().sin_cos(),
        };
        Self::new([cos, sin, -sin, cos, 0.0, 0.0])
    }

    /// A mirror over the axis through the origin.
    #[must_use]
    pub fn mirror(mirror: Mirror) -> Self {
        match mirror {
            Mirror::LeftRight => Self::scale(-1.0, 1.0),
            Mirror::TopBottom => Self::scale(1.0, -1.0),
        }
    }

    /// A mirror over the line through two points.
    ///
    /// # Errors
    ///
    /// As [`Polyline::new`], for the line from one to the other.
    pub fn mirror_line(from: Point, to: Point) -> Result<Self, Error> {
        let direction = Polyline::new(vec![from, to])?.start_direction();
        let (x, y) = (direction.x, direction.y);
        let linear = [
            x * x - y * y,
            2.0 * x * y,
            2.0 * x * y,
            y * y - x * x,
            0.0,
            0.0,
        ];
        Ok(Self::new(linear).about(from))
    }

    /// A scale about the origin, by a factor for each axis.
    #[must_use]
    pub fn scale(x: f64, y: f64) -> Self {
        Self::new([x, 0.0, 0.0, y, 0.0, 0.0])
    }

    /// The map that brings `bounds` to the given width and height, its top left corner staying.
    ///
    /// A size that is `None` follows from the other by the proportions.
    ///
    /// ```
    /// use quiltpath_core::{geom::{Bounds, Point}, transform::{Proportions, Transform}};
    ///
    /// let bounds = Bounds { min: Point::new(1.0, 1.0), max: Point::new(5.0, 3.0) };
    /// let wide = Transform::fit(bounds, Some(8.0), None, Proportions::Keep)?;
    /// assert_eq!(wide.apply(bounds.max), Point::new(9.0, 5.0));
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// A geometry error when a size is not above 0, when neither is given, or when the box has
    /// no extent on an axis that has to be fitted.
    pub fn fit(
        bounds: Bounds,
        width: Option<f64>,
        height: Option<f64>,
        proportions: Proportions,
    ) -> Result<Self, Error> {
        let factor = |size: Option<f64>, extent: f64, axis: &'static str| match size {
            None => Ok(None),
            Some(value) if !(value > 0.0 && value.is_finite()) => Err(Error::bad_number(
                "the size to fit to",
                value,
                "a length above 0",
            )),
            Some(_) if extent == 0.0 => Err(GeometryFault::NoSize { axis }.into()),
            Some(value) => Ok(Some(value / extent)),
        };
        let x = factor(width, bounds.width(), "width")?;
        let y = factor(height, bounds.height(), "height")?;
        let (x, y) = match (x, y, proportions) {
            (Some(x), Some(y), Proportions::Free) => (x, y),
            (Some(x), Some(y), Proportions::Keep) => (x.min(y), x.min(y)),
            (Some(one), None, _) | (None, Some(one), _) => (one, one),
            (None, None, _) => return Err(GeometryFault::NoTarget.into()),
        };
        Ok(Self::scale(x, y).about(bounds.min))
    }

    /// The same map done about this point in place of the origin.
    #[must_use]
    pub fn about(self, centre: Point) -> Self {
        Self::translate(-centre.x, -centre.y)
            .then(self)
            .then(Self::translate(centre.x, centre.y))
    }

    /// This map, then the next one.
    #[must_use]
    pub fn then(self, next: Self) -> Self {
        Self {
            linear: next.linear * self.linear,
            shift: next.linear * self.shift + next.shift,
        }
    }

    /// The map that undoes this one.
    ///
    /// # Errors
    ///
    /// A geometry error when the map flattens the plane, or so nearly that the way back is beyond
    /// all numbers.
    pub fn inverse(&self) -> Result<Self, Error> {
        let inverse = self.linear.try_inverse().map(|linear| Self {
            linear,
            shift: -(linear * self.shift),
        });
        inverse
            .filter(|map| map.coefficients().iter().all(|value| value.is_finite()))
            .ok_or_else(|| GeometryFault::Flat.into())
    }

    /// The factor on areas; negative when the map mirrors.
    #[must_use]
    pub fn determinant(&self) -> f64 {
        self.linear.determinant()
    }

    /// The image of a point.
    #[must_use]
    pub fn apply(&self, point: Point) -> Point {
        self.linear * point + self.shift
    }

    /// The image of a displacement: the linear part alone.
    #[must_use]
    pub fn apply_vector(&self, vector: Vector) -> Vector {
        self.linear * vector
    }

    /// Maps all the points in place.
    ///
    /// # Complexity
    ///
    /// O(n), one pass, no allocation.
    pub fn apply_all(&self, points: &mut [Point]) {
        for point in points {
            *point = self.apply(*point);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn close(first: Point, second: Point) -> bool {
        (first - second).norm() <= 1e-9 * (1.0 + first.coords.norm())
    }

    fn point() -> impl Strategy<Value = Point> {
        (-1e3..1e3f64, -1e3..1e3f64).prop_map(|(x, y)| Point::new(x, y))
    }

    #[test]
    fn a_positive_turn_is_clockwise_as_seen() {
        let right = Point::new(1.0, 0.0);
        let down = Transform::rotate_degrees(90.0).apply(right);
        assert_eq!(down, Point::new(0.0, 1.0));
        assert_eq!(Transform::rotate_degrees(-90.0).apply(down), right);
        assert_eq!(Transform::rotate_degrees(360.0), Transform::identity());
    }

    #[test]
    fn a_bad_size_or_line_is_refused() {
        let bounds = Bounds {
            min: Point::new(0.0, 0.0),
            max: Point::new(4.0, 0.0),
        };
        let fit = |w, h| Transform::fit(bounds, w, h, Proportions::Keep);
        assert!(fit(Some(-1.0), None).is_err());
        let nothing = fit(None, None).expect_err("no size").to_string();
        assert!(
            nothing.ends_with("give a width, a height or both"),
            "{nothing}"
        );
        let flat = fit(None, Some(1.0)).expect_err("no height");
        assert!(flat.to_string().contains("no height"), "{flat}");
        assert!(fit(Some(2.0), None).is_ok());
        let origin = Point::origin();
        assert!(Transform::mirror_line(origin, origin).is_err());
        let endless = Transform::mirror_line(origin, Point::new(f64::INFINITY, 0.0));
        assert!(endless.expect_err("endless").to_string().contains("inf"));
        for factor in [0.0, 1e-320, f64::NAN] {
            assert!(Transform::scale(factor, 1.0).inverse().is_err());
        }
    }

    proptest! {
        /// The other crate's product and its image of a point are the outside values.
        #[test]
        fn products_are_those_of_kurbo(
            c in prop::array::uniform6(-5.0..5.0f64), d in prop::array::uniform6(-5.0..5.0f64), p in point(),
        ) {
            let (first, second) = (Transform::new(c), Transform::new(d));
            let product = Affine::new(d) * Affine::new(c);
            prop_assert_eq!(Affine::from(first), Affine::new(c));
            for (ours, theirs) in (second * first).coefficients().iter().zip(product.as_coeffs()) {
                prop_assert!((ours - theirs).abs() < 1e-9);
            }
            let theirs = product * kurbo::Point::new(p.x, p.y);
            let ours = Transform::from(product) * p;
            prop_assert!(close(ours, Point::new(theirs.x, theirs.y)));
            prop_assert!(close(second * (first * p), ours));
            prop_assert_eq!(Transform::default() * p, p);
        }

        #[test]
        fn an_inverse_undoes(c in prop::array::uniform6(-5.0..5.0f64), p in point()) {
            let map = Transform::new(c);
            prop_assume!(map.determinant().abs() > 0.1);
            let back = map.inverse().expect("invertible");
            prop_assert!(close(back.apply(map.apply(p)), p));
            prop_assert_eq!(Transform::new(map.coefficients()), map);
        }

        #[test]
        fn a_mirror_twice_is_nothing(a in point(), b in point(), p in point()) {
            prop_assume!((a - b).norm() > 1.0);
            let mirror = Transform::mirror_line(a, b).expect("a line");
            prop_assert!(close(mirror.apply(mirror.apply(p)), p));
            prop_assert!(close(mirror.apply(a), a));
            prop_assert!((mirror.determinant() + 1.0).abs() < 1e-12);
            for axis in [Mirror::LeftRight, Mirror::TopBottom] {
                let mirror = Transform::mirror(axis);
                prop_assert_eq!(mirror.then(mirror).apply(p), p);
            }
        }

        #[test]
        fn a_turn_keeps_distances_and_turns_back(degrees in -720.0..720.0f64, a in point(), p in point()) {
            let turn = Transform::rotate_degrees(degrees).about(a);
            prop_assert!(((turn.apply(p) - a).norm() - (p - a).norm()).abs() < 1e-9);
            prop_assert!(close(Transform::rotate_degrees(-degrees).about(a).apply(turn.apply(p)), p));
        }

        #[test]
        fn then_is_one_after_the_other(c in prop::array::uniform6(-5.0..5.0f64), d in prop::array::uniform6(-5.0..5.0f64), p in point()) {
            let (first, second) = (Transform::new(c), Transform::new(d));
            prop_assert!(close(first.then(second).apply(p), second.apply(first.apply(p))));
        }

        #[test]
        fn a_fit_reaches_the_size_and_keeps_the_corner(w in 0.1..9.0f64, h in 0.1..9.0f64, x in 0.1..9.0f64, y in 0.1..9.0f64, p in point()) {
            let bounds = Bounds { min: p, max: p + Vector::new(x, y) };
            let free = Transform::fit(bounds, Some(w), Some(h), Proportions::Free).expect("fit");
            prop_assert!(close(free.apply(p), p));
            prop_assert!(close(free.apply(bounds.max), p + Vector::new(w, h)));
            let kept = Transform::fit(bounds, Some(w), Some(h), Proportions::Keep).expect("fit");
            let size = kept.apply(bounds.max) - p;
            prop_assert!((size.x / size.y - x / y).abs() < 1e-6 * (1.0 + x / y));
            prop_assert!(size.x <= w * (1.0 + 1e-9) && size.y <= h * (1.0 + 1e-9));
        }
    }
}
