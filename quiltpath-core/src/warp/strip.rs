//! A straight band of one depth.

use super::band::BandMap;
use crate::error::{Error, positive};
use crate::geom::polyline::check_points;
use crate::geom::{Point, Vector};

/// A straight band: the image of (s, t) is `origin + s · along + t · across`.
///
/// ```
/// use quiltpath_core::{geom::{Point, Vector}, warp::Strip};
///
/// // The top side of a quilt: travel to the right, outer line up.
/// let top = Strip::new(Point::new(6.0, 5.75), Vector::new(1.0, 0.0), Vector::new(0.0, -5.25))?;
/// assert_eq!(top.place(2.0, 1.0), Point::new(8.0, 0.5));
/// assert_eq!(top.locate(Point::new(8.0, 0.5)), (2.0, 1.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strip {
    origin: Point,
    along: Vector,
    across: Vector,
}

impl Strip {
    /// The strip that starts at `origin` on the inner line; `along` is the direction of travel,
    /// whatever its length, `across` leads from the inner line to the outer one.
    ///
    /// # Errors
    ///
    /// A geometry error when a number is not finite or out of range, when `along` has no length, or
    /// when `across` leads along the band, so that it has no depth.
    pub fn new(origin: Point, along: Vector, across: Vector) -> Result<Self, Error> {
        check_points(&[origin, Point::from(across)])?;
        let length = along.norm();
        positive(
            "the length of the direction along a band",
            length,
            "a vector with a length",
        )?;
        // A unit vector stays as it is, bit for bit.
        let is_unit = (length - 1.0).abs() <= 4.0 * f64::EPSILON;
        let along = if is_unit { along } else { along / length };
        let strip = Self::of_unit(origin, along, across);
        positive("the depth of the band", strip.depth(), "a length above 0")?;
        Ok(strip)
    }

    /// The strip to the right whose outer line is the x axis and whose inner line lies this far
    /// below it.
    ///
    /// ```
    /// use quiltpath_core::{geom::Point, warp::Strip};
    ///
    /// let band = Strip::level(4.5)?;
    /// assert_eq!(band.place(2.0, 0.0), Point::new(2.0, 4.5));
    /// assert_eq!(band.place(2.0, 1.0), Point::new(2.0, 0.0));
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// A geometry error when the depth is not above 0 or out of range.
    pub fn level(depth: f64) -> Result<Self, Error> {
        positive("the depth of the band", depth, "a length above 0")?;
        let (along, across) = (Vector::new(1.0, 0.0), Vector::new(0.0, -depth));
        Self::new(Point::new(0.0, depth), along, across)
    }

    /// The strip along a unit vector, with an `across` that is not along it.
    pub(crate) fn of_unit(origin: Point, along: Vector, across: Vector) -> Self {
        Self {
            origin,
            along,
            across,
        }
    }

    /// The unit vector of travel.
    #[must_use]
    pub fn along(&self) -> Vector {
        self.along
    }

    /// The depth of the band: the distance between its inner and its outer line.
    #[must_use]
    pub fn depth(&self) -> f64 {
        self.along.perp(&self.across).abs()
    }

    /// The point of the cloth at distance `s` along and offset `t` across.
    #[inline]
    #[must_use]
    pub fn place(&self, s: f64, t: f64) -> Point {
        self.origin + self.along * s + self.across * t
    }

    /// The image of a step in the strip.
    #[must_use]
    pub fn place_vector(&self, ds: f64, dt: f64) -> Vector {
        self.along * ds + self.across * dt
    }

    /// The distance along and the offset across of a point of the cloth: the inverse of `place`.
    #[must_use]
    pub fn locate(&self, point: Point) -> (f64, f64) {
        let step = point - self.origin;
        let area = self.along.perp(&self.across);
        (
            step.perp(&self.across) / area,
            self.along.perp(&step) / area,
        )
    }
}

impl BandMap for Strip {
    fn depth(&self) -> f64 {
        self.depth()
    }

    fn depth_at(&self, _: f64) -> f64 {
        self.depth()
    }

    #[inline]
    fn place(&self, s: f64, t: f64) -> Point {
        self.place(s, t)
    }

    fn place_vector_at(&self, _: f64, _: f64, ds: f64, dt: f64) -> Vector {
        self.place_vector(ds, dt)
    }

    fn locate(&self, point: Point) -> Option<(f64, f64)> {
        let (s, t) = self.locate(point);
        (s.is_finite() && t.is_finite()).then_some((s, t))
    }

    #[inline]
    fn is_affine(&self) -> bool {
        true
    }

    fn steps(&self, _: (f64, f64), _: (f64, f64), _: f64) -> f64 {
        1.0
    }
}
