//! Regions to cut a drawing to: the L, the rectangle, half of a rectangle.
//!
//! All lie with the top left corner of their box at the origin, corners clockwise as seen (x to
//! the right, y down), starting at the elbow or the top left corner; [`Region::map`] moves them.

use super::name::LegName;
use crate::error::{Error, LegFault};
use crate::geom::region::{Perimeter, Region};
use crate::geom::{Bounds, BoxCorner, Point, Vector};

impl BoxCorner {
    /// The legs in the order in which a line passes them clockwise round the quilt, for an L with
    /// its elbow at this corner of the quilt.
    #[must_use]
    pub fn legs_clockwise(self) -> [LegName; 2] {
        match self {
            Self::TopLeft | Self::BottomRight => [LegName::Vertical, LegName::Horizontal],
            Self::TopRight | Self::BottomLeft => [LegName::Horizontal, LegName::Vertical],
        }
    }
}

/// The L in a box of this width and height whose legs, this deep, meet at the elbow.
///
/// Its first corner is the elbow; the others follow clockwise as seen.
///
/// ```
/// use quiltpath_core::{geom::BoxCorner, leg::l_region};
///
/// let l = l_region(BoxCorner::TopLeft, 9.0, 9.0, 4.5)?;
/// assert_eq!(l.area(), 9.0 * 9.0 - 4.5 * 4.5);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A leg error when the leg depth is not above 0 or not below both sizes; a geometry error when
/// a size is no region's.
pub fn l_region(
    elbow: BoxCorner,
    width: f64,
    height: f64,
    leg_depth: f64,
) -> Result<Region, Error> {
    let limit = width.min(height);
    if !(leg_depth > 0.0 && leg_depth < limit) {
        let depth = leg_depth;
        return Err(LegFault::TooDeep { depth, limit }.into());
    }
    let [elbow, next, _, last] = clockwise_from(elbow, width, height);
    // One leg runs along elbow-next, the other along elbow-last.
    let across = (last - elbow).normalize() * leg_depth;
    let along = (next - elbow).normalize() * leg_depth;
    Region::new(vec![
        elbow,
        next,
        next + across,
        elbow + along + across,
        last + along,
        last,
    ])
}

/// The position on the boundary of the L of [`l_region`] at the open end of one leg: `across` is
/// 0 on the inner line (the side of the empty corner) and 1 on the outer line.
///
/// ```
/// use quiltpath_core::geom::{BoxCorner, Point, region::Perimeter};
/// use quiltpath_core::leg::{LegName, l_region, leg_end};
///
/// let l = l_region(BoxCorner::TopLeft, 9.0, 8.0, 3.0)?;
/// let end = leg_end(BoxCorner::TopLeft, 9.0, 8.0, 3.0, LegName::Horizontal, 0.5)?;
/// assert_eq!(Perimeter::of(&l).point_at(end), Point::new(9.0, 1.5));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`l_region`]; an `across` beyond 0 to 1 counts as the nearer of them, and one that is no
/// number is a geometry error.
pub fn leg_end(
    elbow: BoxCorner,
    width: f64,
    height: f64,
    leg_depth: f64,
    leg: LegName,
    across: f64,
) -> Result<f64, Error> {
    if across.is_nan() {
        return Err(Error::bad_number(
            "the offset across",
            across,
            "0 for the inner line to 1 for the outer one",
        ));
    }
    let l = l_region(elbow, width, height, leg_depth)?;
    let corners = l.corners();
    let first_leg_is_horizontal = corners[0].y == corners[1].y;
    let (outer, inner) = if first_leg_is_horizontal == (leg == LegName::Horizontal) {
        (corners[1], corners[2])
    } else {
        (corners[5], corners[4])
    };
    let point = inner + (outer - inner) * across.clamp(0.0, 1.0);
    Ok(Perimeter::of(&l).position_of(point))
}

/// The rectangle of this width and height, clockwise as seen from its top left corner.
///
/// # Errors
///
/// A geometry error when a size is no region's.
pub fn rectangle(width: f64, height: f64) -> Result<Region, Error> {
    let max = Point::new(width, height);
    Region::rectangle(Bounds {
        min: Point::origin(),
        max,
    })
}

/// The half of a rectangle, cut along a diagonal, that keeps this corner; it starts there and
/// goes on clockwise as seen.
///
/// ```
/// use quiltpath_core::{geom::{BoxCorner, Point}, leg::triangle_half};
///
/// let half = triangle_half(BoxCorner::BottomRight, 4.0, 2.0)?;
/// assert_eq!(half.area(), 4.0);
/// assert!(half.contains(Point::new(4.0, 2.0)) && !half.contains(Point::new(0.0, 0.0)));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when a size is no region's.
pub fn triangle_half(corner: BoxCorner, width: f64, height: f64) -> Result<Region, Error> {
    let [corner, next, _, last] = clockwise_from(corner, width, height);
    Region::new(vec![corner, next, last])
}

/// The corners of the box clockwise as seen, starting at this one.
fn clockwise_from(corner: BoxCorner, width: f64, height: f64) -> [Point; 4] {
    let bounds = Bounds {
        min: Point::origin(),
        max: Point::origin() + Vector::new(width, height),
    };
    let mut corners = BoxCorner::ALL.map(|corner| corner.of(bounds));
    corners.rotate_left(
        BoxCorner::ALL
            .iter()
            .position(|&e| e == corner)
            .unwrap_or(0),
    );
    corners
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_l_is_empty_across_from_its_elbow() {
        for elbow in BoxCorner::ALL {
            let l = l_region(elbow, 10.0, 8.0, 3.0).expect("an L");
            let bounds = l.bounds();
            assert_eq!(bounds.max, Point::new(10.0, 8.0));
            assert_eq!(l.corners()[0], elbow.of(bounds));
            assert!(!l.contains(elbow.opposite().of(bounds)));
            for leg in [LegName::Horizontal, LegName::Vertical] {
                let end = leg_end(elbow, 10.0, 8.0, 3.0, leg, 1.0).expect("an end");
                let point = Perimeter::of(&l).point_at(end);
                let neighbour = elbow.opposite().of(bounds);
                let expected = match leg {
                    LegName::Horizontal => Point::new(neighbour.x, elbow.of(bounds).y),
                    LegName::Vertical => Point::new(elbow.of(bounds).x, neighbour.y),
                };
                assert!((point - expected).norm() < 1e-12);
            }
        }
    }

    #[test]
    fn what_is_no_l_is_refused() {
        for depth in [0.0, 8.0, -1.0, f64::NAN] {
            let error = l_region(BoxCorner::TopLeft, 10.0, 8.0, depth).expect_err("no L");
            assert!(error.is_leg());
            assert!(error.to_string().contains("above 0 and below 8"));
        }
        let leg = LegName::Horizontal;
        let end = leg_end(BoxCorner::TopLeft, 10.0, 8.0, 3.0, leg, f64::NAN);
        assert!(end.expect_err("nowhere").is_geometry());
        assert!(rectangle(0.0, 4.0).is_err());
        assert!(triangle_half(BoxCorner::TopLeft, f64::NAN, 4.0).is_err());
    }
}
