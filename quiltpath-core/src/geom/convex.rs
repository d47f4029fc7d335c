//! Convex polygons that a border can run round, and their insets by a width for each side.
//!
//! Problem: a quilt of 3 to 12 sides has borders whose widths may differ by side; where do the
//! lines inside it meet?
//! Method: corner k of the inset is where the lines of the two sides next to it, each moved inwards
//! by its own width, cross. With unit vectors of travel e along the side before and l along the
//! side after, and their widths a and b, it lies at the corner plus (a l − b e) / (e × l).
//! Guarantee: the inset is a convex polygon with the same sides exactly when each of its sides
//! still runs forward, which is what is checked: equal directions turn once round in all.
//! Failure: widths that leave nothing of a side; the error names the worst and by how much.
//!
//! Corners go clockwise as seen (x to the right, y down); side k runs from corner k to the next.

use super::point::unit_vector;
use super::region::Region;
use super::{BoxCorner, MAX_COORDINATE, Point, Vector};
use crate::error::{Error, GeometryFault};

/// The most sides of a polygon that a border can run round.
pub(crate) const MAX_SIDES: usize = 12;

/// The sharpest corner, in degrees: at it a border's inner corner already lies 3.7 widths, the
/// cotangent of half the angle, from its outer one along both sides.
pub(crate) const MIN_CORNER_DEGREES: f64 = 30.0;

/// How far beyond a limit an angle may lie, in degrees: corner points are measured, so a regular
/// figure of twelve sides has corners of a little more or less than 150 degrees.
pub(crate) const ANGLE_TOLERANCE_DEGREES: f64 = 0.25;

/// The flattest corner, in degrees: beyond it two sides are better taken as one.
const MAX_CORNER_DEGREES: f64 = 170.0;

const SIDE_NAMES: [&str; 4] = ["top", "right", "bottom", "left"];

/// A strictly convex polygon of 3 to 12 sides, its corners clockwise as seen, none below 30 or
/// above 170 degrees, by more than a quarter of a degree.
///
/// Sides and corners are numbered from 0 and counted round: side 4 of a quadrangle is side 0.
///
/// ```
/// use quiltpath_core::geom::{ConvexPolygon, Point};
///
/// let quilt = ConvexPolygon::new(vec![
///     Point::new(0.0, 0.0), Point::new(60.0, 0.0), Point::new(60.0, 80.0), Point::new(0.0, 80.0),
/// ])?;
/// let seam = quilt.inset(&[5.0, 4.0, 6.0, 4.0])?;
/// assert_eq!(seam.corners()[2], Point::new(56.0, 74.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct ConvexPolygon {
    corners: Vec<Point>,
}

impl ConvexPolygon {
    /// Makes a polygon of these corners, clockwise as seen.
    ///
    /// # Errors
    ///
    /// A geometry error when a coordinate is not finite, two corners are the same, sides cross,
    /// there are fewer than 3 or more than 12 corners, a corner does not turn clockwise, or its
    /// interior angle is below 30 or above 170 degrees, by more than a quarter of a degree.
    ///
    /// # Complexity
    ///
    /// O(corners²), at most 12 of them.
    pub fn new(corners: Vec<Point>) -> Result<Self, Error> {
        let found = corners.len();
        if !(3..=MAX_SIDES).contains(&found) {
            return Err(GeometryFault::PolygonSides { found }.into());
        }
        let region = Region::new(corners.clone())?;
        if region.corners().len() != found {
            return Err(GeometryFault::CornerTwice.into());
        }
        let polygon = Self { corners };
        for at in 0..found {
            let corner = || corner_name(at, found);
            let (entering, leaving) =
                (polygon.direction(polygon.before(at)), polygon.direction(at));
            if entering.perp(&leaving) <= 0.0 {
                return Err(GeometryFault::CornerNotConvex { corner: corner() }.into());
            }
            let degrees = polygon.angle_degrees(at);
            let range = MIN_CORNER_DEGREES - ANGLE_TOLERANCE_DEGREES
                ..=MAX_CORNER_DEGREES + ANGLE_TOLERANCE_DEGREES;
            if !range.contains(&degrees) {
                let corner = corner();
                return Err(GeometryFault::CornerAngle { corner, degrees }.into());
            }
        }
        Ok(polygon)
    }

    /// The corners, clockwise as seen, the first not repeated.
    #[must_use]
    pub fn corners(&self) -> &[Point] {
        &self.corners
    }

    /// One corner.
    #[must_use]
    pub fn corner(&self, corner: usize) -> Point {
        self.corners[corner % self.sides()]
    }

    /// The number of sides, which is that of the corners.
    #[must_use]
    pub fn sides(&self) -> usize {
        self.corners.len()
    }

    /// The number of the side that ends at a corner.
    #[must_use]
    pub fn before(&self, corner: usize) -> usize {
        (corner % self.sides() + self.sides() - 1) % self.sides()
    }

    /// The number of the corner at the end of a side.
    #[must_use]
    pub fn after(&self, side: usize) -> usize {
        (side % self.sides() + 1) % self.sides()
    }

    /// The unit vector of travel along a side.
    #[must_use]
    pub fn direction(&self, side: usize) -> Vector {
        unit_vector(self.step(side))
    }

    /// The length of a side.
    #[must_use]
    pub fn side_length(&self, side: usize) -> f64 {
        self.step(side).norm()
    }

    fn step(&self, side: usize) -> Vector {
        self.corners[self.after(side)] - self.corners[side % self.sides()]
    }

    /// The interior angle at a corner, in degrees.
    #[must_use]
    pub fn angle_degrees(&self, corner: usize) -> f64 {
        let back = -self.direction(self.before(corner));
        let leaving = self.direction(corner);
        leaving.perp(&back).atan2(leaving.dot(&back)).to_degrees()
    }

    /// The polygon inside this one whose sides lie this far from the ones of the same number.
    ///
    /// # Errors
    ///
    /// A geometry error when the number of widths is not that of the sides, a width is not from 0
    /// to [`MAX_COORDINATE`], or the widths leave nothing of a side; it names the side that is
    /// worst off.
    ///
    /// # Complexity
    ///
    /// O(corners).
    pub fn inset(&self, widths: &[f64]) -> Result<Self, Error> {
        let count = self.sides();
        if widths.len() != count {
            let found = widths.len();
            return Err(GeometryFault::WidthCount { found, count }.into());
        }
        let accepted = 0.0..=MAX_COORDINATE;
        if let Some(&value) = widths.iter().find(|width| !accepted.contains(*width)) {
            return Err(Error::bad_number(
                "the width of a border's side",
                value,
                "a length from 0 to 1e9",
            ));
        }
        let corners: Vec<Point> = (0..count)
            .map(|at| {
                let before = self.before(at);
                let (entering, leaving) = (self.direction(before), self.direction(at));
                let shift = leaving * widths[before] - entering * widths[at];
                self.corners[at] + shift / entering.perp(&leaving)
            })
            .collect();
        let mut worst: Option<(f64, usize, f64)> = None;
        for side in 0..count {
            let left = (corners[self.after(side)] - corners[side]).dot(&self.direction(side));
            let length = self.side_length(side);
            let taken = length - left;
            if left <= 1e-9 * length && worst.is_none_or(|(share, ..)| length / taken < share) {
                worst = Some((length / taken, side, taken));
            }
        }
        if let Some((share, side, taken)) = worst {
            return Err(GeometryFault::InsetTooWide {
                side: side_name(side, count),
                taken,
                length: self.side_length(side),
                percent: 100.0 * share,
            }
            .into());
        }
        Ok(Self { corners })
    }

    /// The polygon as a region of the plane.
    ///
    /// # Errors
    ///
    /// As [`Region::new`]; a valid polygon is a region unless rounding has closed it up.
    pub fn region(&self) -> Result<Region, Error> {
        Region::new(self.corners.clone())
    }
}

fn side_name(side: usize, count: usize) -> String {
    if count == 4 {
        return format!("the {} side", SIDE_NAMES[side % 4]);
    }
    format!("side {}", side + 1)
}

fn corner_name(corner: usize, count: usize) -> String {
    if count == 4 {
        return format!("the {} corner", BoxCorner::ALL[corner % 4]);
    }
    format!("corner {}", corner + 1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn polygon(corners: &[(f64, f64)]) -> Result<ConvexPolygon, Error> {
        ConvexPolygon::new(corners.iter().map(|&(x, y)| Point::new(x, y)).collect())
    }

    fn regular(sides: usize, radius: f64) -> ConvexPolygon {
        let corner = |k: usize| {
            let (sin, cos) = (std::f64::consts::TAU * k as f64 / sides as f64).sin_cos();
            Point::new(radius * cos, radius * sin)
        };
        ConvexPolygon::new((0..sides).map(corner).collect()).expect("regular")
    }

    #[test]
    fn what_no_border_runs_round_is_refused_with_its_corner() {
        let refused = |corners: &[(f64, f64)]| polygon(corners).expect_err("refused").to_string();
        assert!(refused(&[(0.0, 0.0), (1.0, 0.0)]).contains("2 corners"));
        let backwards = refused(&[(0.0, 0.0), (0.0, 4.0), (4.0, 4.0), (4.0, 0.0)]);
        assert!(backwards.contains("top left corner"), "{backwards}");
        let dented = refused(&[(0.0, 0.0), (4.0, 0.0), (1.8, 1.8), (0.0, 4.0)]);
        assert!(dented.contains("bottom right"), "{dented}");
        let flat = refused(&[(0.0, 0.0), (2.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]);
        assert!(flat.contains("corner 2"), "{flat}");
        let sharp = refused(&[(0.0, 0.0), (10.0, 2.0), (0.0, 4.0)]);
        assert!(sharp.contains("corner 2 has 22.6 degrees"), "{sharp}");
        let twice = refused(&[(0.0, 0.0), (4.0, 0.0), (4.0, 0.0), (4.0, 4.0)]);
        assert!(twice.contains("same"), "{twice}");
        let star: Vec<_> = [0, 2, 4, 1, 3]
            .map(|k| regular(5, 10.0).corners()[k])
            .iter()
            .map(|p| (p.x, p.y))
            .collect();
        assert!(polygon(&star).is_err());
        assert!(polygon(&[(0.0, 0.0), (f64::NAN, 0.0), (1.0, 1.0)]).is_err());
        let thirteen: Vec<_> = (0..13).map(|k| (f64::from(k), 0.0)).collect();
        assert!(refused(&thirteen).contains("13 corners"));
    }

    #[test]
    fn sides_are_counted_round() {
        let quilt = polygon(&[(0.0, 0.0), (60.0, 0.0), (60.0, 80.0), (0.0, 80.0)]).expect("quilt");
        assert_eq!(quilt.direction(5), quilt.direction(1));
        assert_eq!(quilt.side_length(7), 80.0);
        assert_eq!([quilt.before(4), quilt.after(7)], [3, 0]);
        assert!((quilt.angle_degrees(usize::MAX) - 90.0).abs() < 1e-12);
        assert_eq!(quilt.before(usize::MAX), 2);
    }

    #[test]
    fn widths_that_leave_nothing_name_the_worst_side() {
        let quilt = polygon(&[(0.0, 0.0), (60.0, 0.0), (60.0, 80.0), (0.0, 80.0)]).expect("quilt");
        let error = quilt.inset(&[5.0, 40.0, 5.0, 40.0]).expect_err("too wide");
        assert_eq!(
            error.to_string(),
            "the widths take 80 of the 60 of the top side, so nothing is left inside it; give widths below 75 % of these"
        );
        assert!(quilt.inset(&[5.0, 30.0, 5.0, 30.0]).is_err());
        assert!(quilt.inset(&[5.0, 5.0, 5.0]).is_err());
        assert!(quilt.inset(&[5.0, -5.0, 5.0, 5.0]).is_err());
        for width in [f64::NAN, 1e10, 1e308, f64::INFINITY] {
            let error = quilt.inset(&[width; 4]).expect_err("too wide").to_string();
            assert!(error.contains("from 0 to 1e9"), "{error}");
        }
        assert_eq!(quilt.inset(&[0.0; 4]).expect("itself"), quilt);
        // A triangle loses its shortest side's border first to a wide opposite one.
        let triangle = regular(3, 30.0);
        assert!(triangle.inset(&[15.0; 3]).is_err());
        assert!(triangle.inset(&[14.9; 3]).is_ok());
    }

    #[test]
    fn a_regular_polygons_inset_has_the_apothem_less_the_width() {
        for sides in 3..=MAX_SIDES {
            let half = std::f64::consts::PI / sides as f64;
            let inner = regular(sides, 40.0)
                .inset(&vec![7.0; sides])
                .expect("inset");
            let radius = 40.0 - 7.0 / half.cos();
            for corner in inner.corners() {
                assert!((corner.coords.norm() - radius).abs() < 1e-12, "{sides}");
            }
            let degrees = 180.0 - 360.0 / sides as f64;
            assert!((inner.angle_degrees(0) - degrees).abs() < 1e-9);
        }
    }

    proptest! {
        #[test]
        fn every_side_of_an_inset_is_its_width_away(
            sides in 3usize..=12, phases in prop::collection::vec(-0.2..0.2f64, 12), widths in prop::collection::vec(0.0..3.0f64, 12),
        ) {
            let corner = |k: usize| {
                let (sin, cos) = (std::f64::consts::TAU * (k as f64 + phases[k]) / sides as f64).sin_cos();
                Point::new(50.0 * cos, 40.0 * sin)
            };
            let Ok(outer) = ConvexPolygon::new((0..sides).map(corner).collect()) else { return Ok(()) };
            let Ok(inner) = outer.inset(&widths[..sides]) else { return Ok(()) };
            prop_assert!(ConvexPolygon::new(inner.corners().to_vec()).is_ok());
            for (side, width) in widths.iter().enumerate().take(sides) {
                let direction = outer.direction(side);
                prop_assert!((inner.direction(side) - direction).norm() < 1e-6);
                for at in [side, outer.after(side)] {
                    let away = direction.perp(&(inner.corners()[at] - outer.corners()[side]));
                    prop_assert!((away - width).abs() < 1e-9);
                }
            }
        }
    }
}
