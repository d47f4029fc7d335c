//! Corners placed where two sides of a border meet at any angle and with depths of their own.
//!
//! Problem: an L drawn square has to fill a corner of another angle between two bands that may be
//! differently deep, and still be as deep as the band and at its drawn height at both ports.
//! Method: an affine map. The elbow goes onto the outer corner of the band; the axis of the leg that
//! is left goes along the leaving side, the other along the entering side, away from the elbow. An
//! offset along one of them lies |offset| · sin α off the line of the other, so depths are scaled
//! by depth / (sized depth · sin α).
//! Guarantee: lines of the legs go onto lines of the bands up to rounding, so an offset across the
//! leg is the same share of the band's depth, and travel straight along a leg is straight along the
//! side. Ink of the legs stays in the bands. Lines square across a leg become parallel to the other
//! side: a side that ends on such a [`CrossLine`] goes on as the corner ends.
//! The price: lengths along the leg grow by 1/sin α, and by the other band's depth over the sized
//! depth.
//! Failure: an angle out of range.
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
    /// A geometry error when a direction has no length or no finite one, the elbow is not finite, or
    /// a depth is not above 0.
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

    /// The interior angle in degrees.
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
    /// side's, then the leaving side's.
    /// They are those across the legs of [`SizedCorner::place_between`].
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
    /// A `mirrored` corner has its legs changed, so that it is the mirror image of one that is not, at
    /// a corner of the same angle.
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
    /// quarter of a degree, or an image is beyond the limits.
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
mod tests {
    use super::*;
    use crate::chain::Repeat;
    use crate::corner::{Arrangement, DerivedCorner, MitreOptions, mitred_corner, size_corner};
    use crate::geom::{Bounds, BoxCorner};
    use crate::leg::{LegGiven, choose_leg};
    use crate::warp::Strip;
    use proptest::prelude::*;

    const DEPTH: f64 = 2.0;

    fn corner() -> SizedCorner {
        let points = [
            (1.5, 9.0),
            (0.0, 5.0),
            (2.0, 4.0),
            (0.5, 2.0),
            (0.0, 0.5),
            (1.0, 0.0),
            (4.0, 2.0),
            (6.0, 0.0),
            (8.0, 0.25),
        ];
        let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
        let motif = Motif::from_points("l", points).expect("a motif");
        // The ends run straight along their legs.
        let motif = motif.with_directions([Vector::new(0.0, -1.0), Vector::new(1.0, 0.0)]);
        let leg = choose_leg(&motif, &LegGiven::default()).expect("an L");
        size_corner(&motif, &leg, DEPTH).expect("sized")
    }

    fn site(degrees: f64, turn: f64, depths: [f64; 2]) -> CornerSite {
        let unit = |angle: f64| Vector::new(angle.cos(), angle.sin());
        CornerSite {
            elbow: Point::new(3.0, -4.0),
            entering: unit(turn + degrees.to_radians()),
            leaving: unit(turn),
            depths,
        }
    }

    #[test]
    fn a_square_corner_is_that_of_a_rectangle() {
        let corner = corner();
        let outer = Bounds {
            min: Point::new(1.0, 2.0),
            max: Point::new(61.0, 82.0),
        };
        let (x, y) = (Vector::new(1.0, 0.0), Vector::new(0.0, 1.0));
        let sides = [(y, x), (-x, y), (-y, -x), (x, -y)];
        for (number, (position, (entering, leaving))) in
            BoxCorner::ALL.into_iter().zip(sides).enumerate()
        {
            let site = CornerSite {
                elbow: position.of(outer),
                entering,
                leaving,
                depths: [DEPTH; 2],
            };
            assert_eq!(site.angle_degrees(), 90.0);
            for (arrangement, mirrored) in [
                (Arrangement::Turned, false),
                (Arrangement::Mirrored, number % 2 == 1),
            ] {
                let expected = corner.place(position, outer, arrangement).expect("placed");
                let placed = corner.place_between(&site, mirrored).expect("placed");
                assert_eq!(placed, expected, "{position} {arrangement:?}");
            }
        }
    }

    #[test]
    fn what_no_corner_fits_is_refused() {
        let corner = corner();
        let between = |degrees| corner.place_between(&site(degrees, 0.3, [1.0; 2]), false);
        for degrees in [0.0, 29.0, 151.0, 180.0, 270.0, f64::NAN] {
            let error = between(degrees).expect_err("refused");
            assert!(error.to_string().contains("30 to 150 degrees"), "{error}");
        }
    }

    #[test]
    fn what_is_no_site_is_refused() {
        let (x, y) = (Vector::new(1.0, 0.0), Vector::new(0.0, 1.0));
        let new =
            |entering, leaving, depths| CornerSite::new(Point::origin(), entering, leaving, depths);
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(new(y, x, [1.0, bad]).expect_err("no depth").is_geometry());
            assert!(new(y, x * bad, [1.0; 2]).is_err() || bad == -1.0);
        }
        let nowhere = Point::new(f64::NAN, 0.0);
        assert!(CornerSite::new(nowhere, y, x, [1.0; 2]).is_err());
        // Directions of any length.
        let long = new(7.0 * y, 0.1 * x, [1.0, 2.0]).expect("a site");
        assert_eq!(long, new(y, x, [1.0, 2.0]).expect("a site"));
    }

    #[test]
    fn a_corner_made_for_one_place_is_refused_at_another() {
        let hill = [(0.0, 1.0), (1.0, 0.0), (2.0, 1.0)].map(|(x, y)| Point::new(x, y));
        let hill = Motif::from_points("hill", hill.to_vec()).expect("a motif");
        let repeat = Repeat::new(&hill).expect("a repeat");
        let options = MitreOptions::default();
        let made = mitred_corner(&repeat, DEPTH, 75.0, &options)
            .expect("mitred")
            .corner;
        assert!(made.place(&site(75.0, 0.4, [DEPTH; 2])).is_ok());
        for (degrees, depths) in [
            (90.0, [DEPTH; 2]),
            (75.01, [DEPTH; 2]),
            (75.0, [1.01 * DEPTH; 2]),
        ] {
            let error = made.place(&site(degrees, 0.4, depths)).expect_err("other");
            assert!(error.to_string().contains("made for 75"), "{error}");
        }
        let uneven = made
            .place(&site(75.0, 0.0, [2.0, 3.0]))
            .expect_err("uneven");
        assert!(uneven.to_string().contains("2 deep before"), "{uneven}");
    }

    #[test]
    fn a_mitred_corner_is_placed_without_change_of_shape() {
        let hill = [(0.0, 1.0), (1.0, 0.0), (2.0, 1.0)];
        let hill = hill.iter().map(|&(x, y)| Point::new(x, y)).collect();
        let hill = Motif::from_points("hill", hill).expect("a motif");
        let site = site(120.0, 1.0, [DEPTH; 2]);
        let depth = site.equal_depth().expect("one depth");
        let options = MitreOptions::default().with_legs(1);
        let repeat = Repeat::new(&hill).expect("a repeat");
        let mitred = mitred_corner(&repeat, depth, site.angle_degrees(), &options).expect("mitred");
        let placed = mitred.corner.place(&site).expect("placed");
        assert!((placed.length() - mitred.corner.motif.length()).abs() < 1e-9);
        let across = |along: Vector, point: Point| along.perp(&(point - site.elbow));
        // Both ports at the same height, the one drawn: 0 over the inner line.
        assert!((across(site.leaving, placed.end().point) - DEPTH).abs() < 1e-9);
        assert!((across(-site.entering, placed.start().point) - DEPTH).abs() < 1e-9);
        assert!((placed.end().direction - mitred_direction(&mitred.corner, &site)).norm() < 1e-9);
    }

    fn mitred_direction(corner: &DerivedCorner, site: &CornerSite) -> Vector {
        let (u, d) = (site.leaving, corner.motif.end().direction);
        Vector::new(u.x * d.x - u.y * d.y, u.y * d.x + u.x * d.y)
    }

    proptest! {
        #[test]
        fn ports_and_depths_are_kept_at_any_corner(
            degrees in 30.0..150.0f64, turn in 0.0..6.2f64, depths in (0.5..4.0f64, 0.5..4.0f64), mirrored in any::<bool>(),
        ) {
            let corner = corner();
            let site = site(degrees, turn, [depths.0, depths.1]);
            let placed = corner.place_between(&site, mirrored).expect("placed");
            let normal = |along: Vector, depth: f64| Vector::new(along.y, -along.x) * depth;
            let entering = Strip::of_unit(site.elbow - normal(-site.entering, depths.0), -site.entering, normal(-site.entering, depths.0));
            let leaving = Strip::of_unit(site.elbow - normal(site.leaving, depths.1), site.leaving, normal(site.leaving, depths.1));
            let (start, end) = (corner.motif.start(), corner.motif.end());
            let (first, last) = if mirrored { (end.point.y, start.point.x) } else { (start.point.x, end.point.y) };
            prop_assert!((entering.locate(placed.start().point).1 - (1.0 - first / DEPTH)).abs() < 1e-9);
            prop_assert!((leaving.locate(placed.end().point).1 - (1.0 - last / DEPTH)).abs() < 1e-9);
            // Travel along the legs stays along the sides, clockwise.
            prop_assert!((placed.start().direction + site.entering).norm() < 1e-9);
            prop_assert!((placed.end().direction - site.leaving).norm() < 1e-9);
            for point in placed.points() {
                let inside = |strip: &Strip| (-1e-9..=1.0 + 1e-9).contains(&strip.locate(*point).1);
                prop_assert!(inside(&entering) || inside(&leaving));
            }
            let lines = site.cross_lines(&placed);
            prop_assert_eq!(lines[0].through, placed.start().point);
            prop_assert_eq!(lines[1].direction, site.entering);
        }

        /// Two lines drawn straight out along the legs, 3 and 2 long.
        #[test]
        fn lengths_off_each_side_grow_by_one_over_the_sine(
            degrees in 30.0..150.0f64, turn in 0.0..6.2f64, depths in (0.5..4.0f64, 0.5..4.0f64), mirrored in any::<bool>(),
        ) {
            let l = [(0.5, 9.0), (0.5, 6.0), (2.0, 4.0), (0.0, 0.0), (4.0, 2.0), (6.0, 0.5), (8.0, 0.5)];
            let l = l.map(|(x, y)| Point::new(x, y)).to_vec();
            let motif = Motif::from_points("l", l).expect("a motif");
            let leg = choose_leg(&motif, &LegGiven::default()).expect("an L");
            let sized = size_corner(&motif, &leg, DEPTH).expect("sized");
            prop_assert_eq!(sized.scale, [1.0; 2]);
            let placed = sized.place_between(&site(degrees, turn, [depths.0, depths.1]), mirrored).expect("placed");
            let points = placed.points();
            let last = points.len() - 1;
            let [first, second] = [[0, 1], [last - 1, last]].map(|[a, b]| (points[b] - points[a]).norm());
            let drawn = if mirrored { [2.0, 3.0] } else { [3.0, 2.0] };
            let sin = degrees.to_radians().sin();
            prop_assert!((first - drawn[0] * depths.1 / (DEPTH * sin)).abs() < 1e-9, "{first}");
            prop_assert!((second - drawn[1] * depths.0 / (DEPTH * sin)).abs() < 1e-9, "{second}");
        }
    }
}
