//! A drawn L-shaped corner: sized by its leg depth, placed at the four corners of a border.
//!
//! Problem: scale the L so that each leg is exactly as deep as the band (not the whole L), then
//! place it at the four corners, travelled clockwise round the quilt.
//! Method: in the standard position (elbow at the origin, top left) the vertical leg's depth lies
//! along x and the horizontal leg's along y, so the factors are depth / vertical leg depth and
//! depth / horizontal leg depth. Legs that are equally deep scale in proportion.
//! Guarantee: ink within the legs stays within the band. Mirrored corners are travelled against
//! the direction of drawing, so that every corner is passed clockwise.

use crate::error::{Error, LegFault, positive};
use crate::geom::{Bounds, BoxCorner};
use crate::leg::LegShape;
use crate::motif::Motif;
use crate::transform::Transform;

/// How a corner drawing is repeated at the corners.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum Arrangement {
    /// Neighbouring corners are mirror images, so that a square quilt is symmetrical left to right
    /// and top to bottom.
    #[default]
    Mirrored,
    /// Each corner is the one before it turned; by 90 degrees clockwise on a square quilt.
    Turned,
}

/// A corner motif brought to the depth of a band, in the standard position: elbow at the origin
/// and top left, one leg along +x, the other along +y, travelled from the end of the leg along
/// +y to the end of the leg along +x, so clockwise round the quilt.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct SizedCorner {
    /// The motif.
    pub motif: Motif,
    /// The factors along x and along y, in the standard position, from the drawing to this size.
    pub scale: [f64; 2],
    depth: f64,
}

/// Scales a corner motif so that its legs are as deep as the band.
///
/// `leg` is what [`choose_leg`](crate::leg::choose_leg) found of this motif; `depth` is the depth
/// of the band in the motif's unit.
///
/// ```
/// use quiltpath_core::{corner::size_corner, geom::Point, leg::{LegGiven, choose_leg}, motif::Motif};
///
/// // An L whose legs are 2 deep, for a band 5 deep.
/// let zigzag = [(9.0, 1.0), (7.0, 0.0), (5.0, 2.0), (3.0, 0.0), (0.0, 2.0), (2.0, 4.0), (0.0, 6.0), (1.0, 8.0)];
/// let l = Motif::from_points("l", zigzag.map(|(x, y)| Point::new(x, y)).to_vec())?;
/// let sized = size_corner(&l, &choose_leg(&l, &LegGiven::default())?, 5.0)?;
/// assert_eq!((sized.scale, sized.reach()), ([2.5, 2.5], [22.5, 20.0]));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when the depth is not above 0, or a coordinate would be beyond
/// [`MAX_COORDINATE`](crate::geom::MAX_COORDINATE); a leg error when a leg of the drawing is a line
/// without depth.
///
/// # Complexity
///
/// O(n).
pub fn size_corner(motif: &Motif, leg: &LegShape, depth: f64) -> Result<SizedCorner, Error> {
    positive("the depth of the band", depth, "a length above 0")?;
    for (depth, limit) in [
        (leg.depth_horizontal, leg.bounds.height()),
        (leg.depth_vertical, leg.bounds.width()),
    ] {
        if depth.is_nan() || depth <= 0.0 {
            return Err(LegFault::TooDeep { depth, limit }.into());
        }
    }
    let (horizontal, vertical) = leg.standard_depths();
    let scale = [depth / vertical, depth / horizontal];
    let map = leg.to_standard().then(Transform::scale(scale[0], scale[1]));
    let motif = motif.transformed(&map)?;
    Ok(SizedCorner {
        motif: if leg.runs_clockwise() {
            motif
        } else {
            motif.reversed()
        },
        scale,
        depth,
    })
}

impl SizedCorner {
    /// The depth that both legs have: that of the band they are sized to.
    #[must_use]
    pub fn depth(&self) -> f64 {
        self.depth
    }

    /// The greater factor of [`scale`](Self::scale) by the smaller: 1 when the corner keeps its
    /// proportions, 1.1 when one axis is scaled by a tenth more.
    #[must_use]
    pub fn unevenness(&self) -> f64 {
        let [x, y] = self.scale;
        (x / y).max(y / x)
    }

    /// How far the corner reaches from its elbow along the sides, `[x, y]` in the standard
    /// position.
    #[must_use]
    pub fn reach(&self) -> [f64; 2] {
        let max = self.motif.bounds().max;
        [max.x, max.y]
    }

    /// The corner placed at one corner of a rectangle, the outer line of the border's band,
    /// travelled clockwise round the quilt.
    ///
    /// # Errors
    ///
    /// A geometry error when a coordinate would be beyond
    /// [`MAX_COORDINATE`](crate::geom::MAX_COORDINATE).
    ///
    /// # Complexity
    ///
    /// O(n).
    pub fn place(
        &self,
        position: BoxCorner,
        outer: Bounds,
        arrangement: Arrangement,
    ) -> Result<Motif, Error> {
        let elbow = position.of(outer);
        let about_elbow = match (arrangement, position) {
            (_, BoxCorner::TopLeft) => Transform::identity(),
            (_, BoxCorner::BottomRight) => Transform::rotate_degrees(180.0),
            (Arrangement::Mirrored, BoxCorner::TopRight) => Transform::scale(-1.0, 1.0),
            (Arrangement::Mirrored, BoxCorner::BottomLeft) => Transform::scale(1.0, -1.0),
            (Arrangement::Turned, BoxCorner::TopRight) => Transform::rotate_degrees(90.0),
            (Arrangement::Turned, BoxCorner::BottomLeft) => Transform::rotate_degrees(270.0),
        };
        let placed = self
            .motif
            .transformed(&about_elbow.then(Transform::translate(elbow.x, elbow.y)))?;
        Ok(if about_elbow.determinant() < 0.0 {
            placed.reversed()
        } else {
            placed
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use crate::leg::{LegGiven, choose_leg};
    use proptest::prelude::*;

    /// An L with its elbow at the top left: legs 2 (upright) and 1 (level) deep, 8 wide, 6 high.
    fn l_points() -> Vec<Point> {
        [
            (1.5, 6.0),
            (0.0, 5.0),
            (2.0, 4.0),
            (0.5, 2.0),
            (0.0, 0.5),
            (1.0, 0.0),
            (4.0, 1.0),
            (6.0, 0.0),
            (8.0, 0.25),
        ]
        .iter()
        .map(|&(x, y)| Point::new(x, y))
        .collect()
    }

    fn sized(map: &Transform, reversed: bool, depth: f64) -> SizedCorner {
        let motif = Motif::from_points("l", l_points()).expect("a motif");
        let motif = motif.transformed(map).expect("image");
        let motif = if reversed { motif.reversed() } else { motif };
        let leg = choose_leg(&motif, &LegGiven::default()).expect("an L");
        size_corner(&motif, &leg, depth).expect("sized")
    }

    fn outer() -> Bounds {
        Bounds {
            min: Point::new(1.0, 2.0),
            max: Point::new(61.0, 82.0),
        }
    }

    fn same_line(first: &Motif, second: &Motif) -> bool {
        first.points().len() == second.points().len()
            && first
                .points()
                .iter()
                .zip(second.points())
                .all(|(a, b)| (a - b).norm() < 1e-9)
    }

    #[test]
    fn the_legs_not_the_whole_l_are_sized_to_the_band() {
        let corner = sized(&Transform::identity(), false, 4.0);
        assert_eq!(corner.scale, [2.0, 4.0]);
        assert_eq!(corner.unevenness(), 2.0);
        assert_eq!(corner.reach(), [16.0, 24.0]);
        let motif = Motif::from_points("l", l_points()).expect("a motif");
        let leg = choose_leg(&motif, &LegGiven::default()).expect("an L");
        assert!(size_corner(&motif, &leg, 0.0).is_err());
        assert!(size_corner(&motif, &leg, f64::NAN).is_err());
        // Two straight lines have no depth that could be brought to that of a band.
        let bare = [(0.0, 9.0), (0.0, 0.0), (9.0, 0.0)].map(|(x, y)| Point::new(x, y));
        let bare = Motif::from_points("l", bare.to_vec()).expect("a motif");
        let leg = choose_leg(&bare, &LegGiven::default()).expect("an L");
        let error = size_corner(&bare, &leg, 2.0).expect_err("no depth");
        assert!(
            error
                .to_string()
                .contains("give a leg depth above 0 and below 9"),
            "{error}"
        );
    }

    #[test]
    fn every_corner_is_passed_clockwise() {
        let corner = sized(&Transform::identity(), false, 2.0);
        for arrangement in [Arrangement::Mirrored, Arrangement::Turned] {
            for position in BoxCorner::ALL {
                let placed = corner
                    .place(position, outer(), arrangement)
                    .expect("placed");
                let centre = outer().centre();
                let turn = (placed.start().point - centre).perp(&(placed.end().point - centre));
                assert!(turn > 0.0, "{arrangement:?} {position:?}");
            }
        }
    }

    proptest! {
        #[test]
        fn four_corners_have_the_symmetry_of_their_arrangement(
            quarter in 0usize..4, reversed in any::<bool>(), mirrored in any::<bool>(), depth in 0.5..9.0f64,
        ) {
            let mut drawn = Transform::rotate_degrees(90.0 * quarter as f64);
            if mirrored {
                drawn = Transform::scale(-1.0, 1.0).then(drawn);
            }
            let corner = sized(&drawn, reversed, depth);
            let place = |position, arrangement| corner.place(position, outer(), arrangement).expect("placed");
            let centre = outer().centre();
            let [tl, tr, br, bl] = BoxCorner::ALL.map(|p| place(p, Arrangement::Mirrored));
            let flip = |motif: &Motif, x: f64, y: f64| {
                motif.transformed(&Transform::scale(x, y).about(centre)).expect("image").reversed()
            };
            prop_assert!(same_line(&flip(&tl, -1.0, 1.0), &tr));
            prop_assert!(same_line(&flip(&tl, 1.0, -1.0), &bl));
            prop_assert!(same_line(&flip(&tr, 1.0, -1.0), &br));

            let square = Bounds { min: Point::new(-30.0, -30.0), max: Point::new(30.0, 30.0) };
            let turned = BoxCorner::ALL.map(|p| corner.place(p, square, Arrangement::Turned).expect("placed"));
            let quarter_turn = Transform::rotate_degrees(90.0);
            for at in 0..4 {
                let next = turned[at].transformed(&quarter_turn).expect("image");
                prop_assert!(same_line(&next, &turned[(at + 1) % 4]));
            }
        }
    }
}
