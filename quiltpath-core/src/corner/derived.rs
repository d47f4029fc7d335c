//! A corner made from the border's own repeat, for one angle and one depth of the band.

use super::site::CornerSite;
use crate::error::{Error, GeometryFault};
use crate::motif::Motif;
use crate::transform::Transform;

/// Angles and depths that differ by less than this share are the same.
const SAME: f64 = 1e-6;

/// A corner made from a repeat, in its standard position: the outer elbow at the origin, the leg
/// that is left along +x, the leg that is entered at the corner's interior angle from it, clockwise
/// (straight down for 90 degrees); travelled clockwise round the quilt; y down.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct DerivedCorner {
    /// The motif.
    pub motif: Motif,
    angle_degrees: f64,
    depth: f64,
}

impl DerivedCorner {
    pub(super) fn new(motif: Motif, angle_degrees: f64, depth: f64) -> Self {
        Self {
            motif,
            angle_degrees,
            depth,
        }
    }

    /// The interior angle that the corner is made for, in degrees.
    #[must_use]
    pub fn angle_degrees(&self) -> f64 {
        self.angle_degrees
    }

    /// The depth of the band that the corner is made for.
    #[must_use]
    pub fn depth(&self) -> f64 {
        self.depth
    }

    /// The corner moved and turned into place, its shape unchanged.
    ///
    /// # Errors
    ///
    /// A geometry error when the depths of the two bands differ by more than a millionth, when the
    /// site's angle or depth differs from this corner's by more than that, or when a coordinate
    /// would be beyond [`MAX_COORDINATE`](crate::geom::MAX_COORDINATE).
    ///
    /// # Complexity
    ///
    /// O(n).
    pub fn place(&self, site: &CornerSite) -> Result<Motif, Error> {
        let (degrees, depth) = (site.angle_degrees(), site.equal_depth()?);
        let same = |own: f64, other: f64| (own - other).abs() <= SAME * own;
        if !(same(self.angle_degrees, degrees) && same(self.depth, depth)) {
            return Err(GeometryFault::OtherCorner {
                degrees: [self.angle_degrees, degrees],
                depths: [self.depth, depth],
            }
            .into());
        }
        let (x, y) = (site.leaving.x, site.leaving.y);
        let map = Transform::new([x, y, -y, x, site.elbow.x, site.elbow.y]);
        self.motif.transformed(&map)
    }
}
