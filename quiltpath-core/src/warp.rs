//! Maps from the strip that a border is drawn in to the cloth.
//!
//! Strip coordinates: s is the distance along, in units of length; t is the offset across,
//! 0 on the inner line and 1 on the outer line. On a band that is not straight s is measured on
//! its middle line, t = 1/2, so that a stretch along means what it says.
//!
//! Three maps: [`Strip`], straight and square; [`RuledBand`], straight lines between stations;
//! [`SplineBand`], smooth curves through them. On each of them the line across at one s is
//! straight and t divides it evenly.

mod cubic;
mod ruled;
mod spline;
mod stations;

pub use ruled::{CrossLine, RuledBand};
pub use spline::SplineBand;
pub use stations::inset_stations;

use crate::geom::{Point, Vector};

/// What a border is chained along: a map from strip coordinates to the cloth.
pub trait BandMap {
    /// The depth of the band; where it changes, its mean over the length of the middle line.
    fn depth(&self) -> f64;

    /// The depth of the band at distance `s` along, square to the middle line.
    fn depth_at(&self, s: f64) -> f64;

    /// The point of the cloth at distance `s` along and offset `t` across.
    ///
    /// Before the start and beyond the end the band goes on as it does there.
    fn place(&self, s: f64, t: f64) -> Point;

    /// The image of a small step (`ds`, `dt`) at (`s`, `t`): the map's derivative.
    fn place_vector_at(&self, s: f64, t: f64, ds: f64, dt: f64) -> Vector;

    /// The distance along and the offset across of a point of the cloth: the inverse of `place`.
    /// `None` where no point of the band lies on it.
    fn locate(&self, point: Point) -> Option<(f64, f64)>;

    /// True when straight lines in the strip stay straight on the cloth.
    fn is_affine(&self) -> bool {
        false
    }

    /// The distances along, in rising order, at which the map has a kink.
    fn breaks(&self) -> &[f64] {
        &[]
    }

    /// Into how many equal steps a straight line in the strip, without a break between its ends,
    /// has to be divided so that the chords stay within `tolerance` of its image.
    ///
    /// A whole number of at least 1, or infinite.
    fn steps(&self, from: (f64, f64), to: (f64, f64), tolerance: f64) -> f64;
}

/// Calls `see` with strip points strictly between two others, so that the chords between the images
/// of all of them stay within `tolerance` of the image of the straight line.
///
/// More than `limit` points are not written; their number is the error.
pub(crate) fn subdivide<B: BandMap + ?Sized>(
    band: &B,
    from: (f64, f64),
    to: (f64, f64),
    tolerance: f64,
    limit: usize,
    mut see: impl FnMut(f64, f64),
) -> Result<(), f64> {
    let (ds, dt) = (to.0 - from.0, to.1 - from.1);
    let (low, high) = (from.0.min(to.0), from.0.max(to.0));
    let breaks = band.breaks();
    let first = breaks.partition_point(|s| *s <= low);
    let last = breaks.partition_point(|s| *s < high).max(first);
    let between = &breaks[first..last];
    let mut written = 0.0;
    let mut piece = |start: (f64, f64), end: (f64, f64), last: bool| {
        let steps = band.steps(start, end, tolerance);
        written += steps;
        if written > limit as f64 {
            return Err(written);
        }
        for step in 1..steps as usize {
            let share = step as f64 / steps;
            see(
                start.0 + share * (end.0 - start.0),
                start.1 + share * (end.1 - start.1),
            );
        }
        if !last {
            see(end.0, end.1);
        }
        Ok(())
    };
    let mut start = from;
    for index in 0..between.len() {
        let s = between[if ds > 0.0 {
            index
        } else {
            between.len() - 1 - index
        }];
        let end = (s, from.1 + dt * ((s - from.0) / ds));
        piece(start, end, false)?;
        start = end;
    }
    piece(start, to, true)
}

/// A straight band: the image of (s, t) is `origin + s · along + t · across`.
///
/// ```
/// use quiltpath_core::{geom::{Point, Vector}, warp::Strip};
///
/// // The top side of a quilt: travel to the right, outer line up.
/// let top = Strip::new(Point::new(6.0, 5.75), Vector::new(1.0, 0.0), Vector::new(0.0, -5.25));
/// assert_eq!(top.place(2.0, 1.0), Point::new(8.0, 0.5));
/// assert_eq!(top.locate(Point::new(8.0, 0.5)), (2.0, 1.0));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strip {
    origin: Point,
    along: Vector,
    across: Vector,
}

impl Strip {
    /// The strip that starts at `origin` on the inner line; `along` is the unit vector of travel,
    /// `across` leads from the inner line to the outer one and is as long as the band is deep.
    #[must_use]
    pub fn new(origin: Point, along: Vector, across: Vector) -> Self {
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
    /// Not finite on a strip without depth.
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

#[cfg(test)]
mod tests;
