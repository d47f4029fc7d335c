//! Corners placed where two sides of a border meet at any angle and with depths of their own.
//!
//! Problem: an L drawn square has to fill a corner of another angle between two bands that may be
//! differently deep, and still be as deep as the band and at its drawn height at both ports.
//! Method: an affine map. The elbow goes onto the outer corner of the band; the axis of the leg
//! that is left goes along the leaving side, the other along the entering side, away from the
//! elbow. An offset along one of them lies |offset| · sin α off the line of the other, so depths
//! are scaled by depth / (sized depth · sin α). Guarantee: lines of the legs go onto lines of the
//! bands up to rounding, so an offset across the leg is the same share of the band's depth, and
//! travel straight along a leg is straight along the side. Ink of the legs stays in the bands.
//! Lines square across a leg become parallel to the other side: a side that ends on such a
//! [`CrossLine`] goes on as the corner ends. The price: lengths along the leg grow by 1/sin α, and
//! by the other band's depth over the sized depth. Failure: an angle out of range.
//!
//! x to the right, y down; the interior angle is measured clockwise from the leaving side.

use super::drawn::SizedCorner;
use crate::error::{Error, GeometryFault, positive};
use crate::geom::convex::{ANGLE_TOLERANCE_DEGREES, MIN_CORNER_DEGREES};
use crate::geom::{Point, Vector};
use crate::motif::Motif;
use crate::transform::Transform;
use crate::warp::CrossLine;

/// The largest interior angle of a corner that a drawn L is slanted into, in degrees: that of a
/// regular polygon of 12 sides. Lengths along its legs are doubled there, as at 30 degrees.
const MAX_SLANTED_DEGREES: f64 = 150.0;

/// The outer corner of a band, where one side ends and the next begins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CornerSite {
    pub(crate) elbow: Point,
    pub(crate) entering: Vector,
    pub(crate) leaving: Vector,
    pub(crate) depths: [f64; 2],
}

impl CornerSite {
    /// The corner where the outer lines of two sides meet at `elbow`.
    ///
    /// `entering` points along the side that ends here, away from the elbow and so against the
    /// travel; `leaving` points along the side that begins here; their lengths don't matter. The
    /// depths are those of the entering and of the leaving side's band.
    ///
    /// ```
    /// use quiltpath_core::{corner::CornerSite, geom::{Point, Vector}};
    ///
    /// // The top left corner of a quilt, travelled clockwise: up the left side, along the top.
    /// let (down, right) = (Vector::new(0.0, 80.0), Vector::new(60.0, 0.0));
    /// let site = CornerSite::new(Point::origin(), down, right, [4.5, 4.5])?;
    /// assert_eq!((site.angle_degrees(), site.leaving().x), (90.0, 1.0));
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// A geometry error when a direction has no length or no finite one, the elbow is not finite,
    /// or a depth is not above 0.
    pub fn new(
        elbow: Point,
        entering: Vector,
        leaving: Vector,
        depths: [f64; 2],
    ) -> Result<Self, Error> {
        for (index, value) in [elbow.x, elbow.y].into_iter().enumerate() {
            if !value.is_finite() {
                return Err(GeometryFault::NotFinite { index, value }.into());
            }
        }
        for depth in depths {
            positive("the depth of the band", depth, "a length above 0")?;
        }
        let unit = |direction: Vector| {
            let length = direction.norm();
            positive(
                "the length of a direction",
                length,
                "a direction of some length",
            )?;
            Ok::<_, Error>(direction / length)
        };
        Ok(Self {
            elbow,
            entering: unit(entering)?,
            leaving: unit(leaving)?,
            depths,
        })
    }

    /// Where the outer lines of the two sides meet.
    #[must_use]
    pub fn elbow(&self) -> Point {
        self.elbow
    }

    /// The unit vector along the side that ends here, away from the elbow: against the travel.
    #[must_use]
    pub fn entering(&self) -> Vector {
        self.entering
    }

    /// The unit vector along the side that begins here.
    #[must_use]
    pub fn leaving(&self) -> Vector {
        self.leaving
    }

    /// The depths of the entering and of the leaving side's band.
    #[must_use]
    pub fn depths(&self) -> [f64; 2] {
        self.depths
    }

    /// The interior angle in degrees, clockwise from the leaving side to the entering one.
    #[must_use]
    pub fn angle_degrees(&self) -> f64 {
        let (perp, dot) = (
            self.leaving.perp(&self.entering),
            self.leaving.dot(&self.entering),
        );
        perp.atan2(dot).to_degrees()
    }

    /// The one depth of both bands, which a mitred or bent corner needs.
    ///
    /// # Errors
    ///
    /// A geometry error when they differ by more than a millionth.
    pub fn equal_depth(&self) -> Result<f64, Error> {
        let [entering, leaving] = self.depths;
        if (entering - leaving).abs() <= 1e-6 * entering.max(leaving) {
            return Ok(f64::midpoint(entering, leaving));
        }
        Err(GeometryFault::UnequalDepths { entering, leaving }.into())
    }

    /// The lines on which the sides next to a corner that is placed without slant end, through its
    /// ports and square to the sides: the entering side's, then the leaving side's.
    #[must_use]
    pub fn square_lines(&self, corner: &Motif) -> [CrossLine; 2] {
        let square = |side: Vector| Vector::new(-side.y, side.x);
        [
            (corner.start().point, square(self.entering)),
            (corner.end().point, square(self.leaving)),
        ]
        .map(|(through, direction)| CrossLine { through, direction })
    }

    /// The lines on which the sides next to a slanted corner end, through its ports: the entering
    /// side's, then the leaving side's. Each is parallel to the other side, as what is square to a
    /// leg becomes in [`SizedCorner::place_between`].
    #[must_use]
    pub fn cross_lines(&self, corner: &Motif) -> [CrossLine; 2] {
        [
            (corner.start().point, self.leaving),
            (corner.end().point, self.entering),
        ]
        .map(|(through, direction)| CrossLine { through, direction })
    }
}

impl SizedCorner {
    /// The corner slanted into place between two bands, travelled clockwise round the quilt.
    ///
    /// A `mirrored` corner has its legs exchanged: at a corner of the same angle it is the mirror
    /// image of one that isn't mirrored.
    ///
    /// ```
    /// use quiltpath_core::{corner::{CornerSite, size_corner}, geom::{Point, Vector}, leg::{LegGiven, choose_leg}, motif::Motif};
    ///
    /// let l = Motif::from_points("l", [(0.5, 6.0), (0.0, 2.0), (1.0, 1.5), (0.0, 0.0), (2.0, 1.0), (6.0, 0.5)]
    ///     .map(|(x, y)| Point::new(x, y)).to_vec())?;
    /// let sized = size_corner(&l, &choose_leg(&l, &LegGiven::default())?, 2.0)?;
    /// // A corner of 60 degrees, the band 2 deep before it and 3 after it.
    /// let (entering, leaving) = (Vector::new(0.5, 0.75_f64.sqrt()), Vector::new(1.0, 0.0));
    /// let site = CornerSite::new(Point::origin(), entering, leaving, [2.0, 3.0])?;
    /// let placed = sized.place_between(&site, false)?;
    /// // Half way across a band that is 3 deep.
    /// assert!((placed.end().point.y - 1.5).abs() < 1e-12);
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// A geometry error when the interior angle is below 30 or above 150 degrees, by more than a
    /// quarter of a degree, or a coordinate would be beyond
    /// [`MAX_COORDINATE`](crate::geom::MAX_COORDINATE).
    ///
    /// # Complexity
    ///
    /// O(n).
    pub fn place_between(&self, site: &CornerSite, mirrored: bool) -> Result<Motif, Error> {
        let degrees = site.angle_degrees();
        let range = MIN_CORNER_DEGREES - ANGLE_TOLERANCE_DEGREES
            ..=MAX_SLANTED_DEGREES + ANGLE_TOLERANCE_DEGREES;
        if !range.contains(&degrees) {
            return Err(Error::bad_number(
                "the corner's angle",
                degrees,
                "30 to 150 degrees",
            ));
        }
        for depth in site.depths {
            positive("the depth of the band", depth, "a length above 0")?;
        }
        let depth = self.depth();
        let sin = site.leaving.perp(&site.entering);
        // Ink lies by its x across the entering side's band, which runs along the other axis.
        let along_leaving = site.leaving * (site.depths[0] / (depth * sin));
        let along_entering = site.entering * (site.depths[1] / (depth * sin));
        let (x, y) = if mirrored {
            (along_entering, along_leaving)
        } else {
            (along_leaving, along_entering)
        };
        let map = Transform::new([x.x, x.y, y.x, y.y, site.elbow.x, site.elbow.y]);
        let placed = self.motif.transformed(&map)?;
        Ok(if mirrored { placed.reversed() } else { placed })
    }
}

#[cfg(test)]
mod tests;
