//! The L in a corner motif: where its legs meet, how deep they are, where the line enters and leaves.
//!
//! Problem: a drawing says nothing about its legs, yet a corner is sized by the depth of its legs
//! and placed by its elbow. Method: the empty inner corner is the largest empty rectangle in a
//! corner of the drawing's box (`empty_corner`); what it leaves of the box are the legs
//! (`analyse`); a drawing that isn't square is turned first (`turns`).
//!
//! Failure cases: a drawing without an empty corner, or one whose line doesn't run from leg to
//! leg, is refused unless the user says elbow and depths; doubtful readings carry notes.

mod analyse;
mod doubts;
mod empty_corner;
mod reading;
mod shapes;
mod turns;

pub use analyse::{MIN_SHARE, analyse_legs, choose_leg};
pub use doubts::{DEPTH_DISAGREEMENT, PORT_NEAR, RIVAL_RATIO};
pub use shapes::{l_region, leg_end, rectangle, triangle_half};
pub use turns::CLEARLY_BETTER;

use std::fmt;

use crate::geom::{Bounds, Point};
use crate::transform::Transform;

/// The corner of the drawing's box where the legs meet.
pub use crate::geom::BoxCorner as Elbow;

/// One of the two legs, named by the way it runs once the drawing is laid square.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LegName {
    /// The leg along x.
    Horizontal,
    /// The leg along y.
    Vertical,
}

impl LegName {
    /// The other leg.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Horizontal => Self::Vertical,
            Self::Vertical => Self::Horizontal,
        }
    }
}

impl fmt::Display for LegName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Horizontal => "horizontal",
            Self::Vertical => "vertical",
        })
    }
}

/// One reading of a drawing as an L. Lengths are in the unit of the drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct LegShape {
    /// The corner of `bounds` where the legs meet.
    pub elbow: Elbow,
    /// The turn about the origin that lays the legs along the axes, in degrees, positive
    /// clockwise; 0 for a drawing that is already square.
    pub turn_degrees: f64,
    /// The box of the drawing after that turn.
    pub bounds: Bounds,
    /// The depth of the horizontal leg: its extent along y.
    pub depth_horizontal: f64,
    /// The depth of the vertical leg: its extent along x.
    pub depth_vertical: f64,
    /// The depth of the horizontal leg, measured on its outer half alone: the half with the open
    /// end, counted along the empty corner. Less than `depth_horizontal` when something near the
    /// elbow pokes into the empty corner.
    pub outer_depth_horizontal: f64,
    /// The depth of the vertical leg, measured on its outer half alone.
    pub outer_depth_vertical: f64,
    /// The leg at whose open end the line starts; it ends at that of the other.
    pub starts_on: LegName,
    /// How far the start lies from its leg's open end, along the leg.
    pub start_distance: f64,
    /// How far the end lies from its leg's open end, along the leg.
    pub end_distance: f64,
    /// The area of the empty corner as measured, divided by the area of the box.
    pub share: f64,
    /// What is doubtful about this reading, each in one plain sentence without a full stop.
    pub notes: Vec<String>,
}

impl LegShape {
    /// The rigid motion that brings the drawing to the standard position: the elbow at the origin
    /// and top left, one leg along +x, the other along +y (down). It turns and moves, and never
    /// mirrors.
    ///
    /// ```
    /// use quiltpath_core::{geom::Point, leg::analyse_legs, motif::Motif};
    ///
    /// // An L that hangs from the top right corner of its box, legs 1 deep.
    /// let l = Motif::from_points("l", vec![
    ///     Point::new(0.0, 0.0), Point::new(1.0, 1.0), Point::new(2.0, 0.0), Point::new(3.0, 1.0),
    ///     Point::new(4.0, 0.0), Point::new(5.0, 1.0), Point::new(4.0, 2.0), Point::new(5.0, 3.0),
    ///     Point::new(4.0, 4.0), Point::new(5.0, 5.0),
    /// ])?;
    /// let shape = &analyse_legs(&l)?[0];
    /// let standard = l.transformed(&shape.to_standard())?;
    /// assert_eq!(standard.bounds().min, Point::origin());
    /// assert_eq!(shape.standard_depths(), (1.0, 1.0));
    /// // It runs from the far end of the top leg to that of the right leg: clockwise.
    /// assert!(shape.runs_clockwise());
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    #[must_use]
    pub fn to_standard(&self) -> Transform {
        let quarters = f64::from(self.elbow.quarter_turns());
        Transform::rotate_degrees(self.turn_degrees)
            .then(Transform::carry(
                self.elbow.of(self.bounds),
                Point::origin(),
            ))
            .then(Transform::rotate_degrees(90.0 * quarters))
    }

    /// The depths of the horizontal and of the vertical leg in the standard position.
    #[must_use]
    pub fn standard_depths(&self) -> (f64, f64) {
        let depths = (self.depth_horizontal, self.depth_vertical);
        if self.legs_swap() {
            (depths.1, depths.0)
        } else {
            depths
        }
    }

    /// True when the line runs, in the standard position, from the vertical leg's open end
    /// (bottom) to the horizontal leg's open end (right): clockwise round a quilt, as seen.
    #[must_use]
    pub fn runs_clockwise(&self) -> bool {
        (self.starts_on == LegName::Vertical) != self.legs_swap()
    }

    /// True when nothing about this reading is doubtful.
    #[must_use]
    pub fn is_clear(&self) -> bool {
        self.notes.is_empty()
    }

    fn legs_swap(&self) -> bool {
        self.elbow.quarter_turns() % 2 == 1
    }
}

/// What the user says about a corner motif outright; `None` for what is to be measured.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LegGiven {
    /// The corner of the drawing's box (after the turn) where the legs meet.
    pub elbow: Option<Elbow>,
    /// The depth of the horizontal leg, in the unit of the drawing.
    pub depth_horizontal: Option<f64>,
    /// The depth of the vertical leg, in the unit of the drawing.
    pub depth_vertical: Option<f64>,
    /// The turn about the origin that lays the legs along the axes, in degrees, positive clockwise.
    pub turn_degrees: Option<f64>,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::motif::Motif;

    fn motif(points: &[(f64, f64)]) -> Motif {
        let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
        Motif::from_points("m", points).expect("a line")
    }

    /// A zigzag L with its elbow top left, 10 wide and 8 high, legs 2 and 3 deep, from right to
    /// bottom.
    fn zigzag() -> Vec<(f64, f64)> {
        vec![
            (10.0, 1.0),
            (9.0, 2.0),
            (7.0, 0.0),
            (5.0, 2.0),
            (3.0, 0.0),
            (0.0, 3.0),
            (3.0, 5.0),
            (0.0, 6.0),
            (3.0, 7.0),
            (1.0, 8.0),
        ]
    }

    fn refused(points: &[(f64, f64)]) -> String {
        let error = analyse_legs(&motif(points)).expect_err("is no L");
        assert!(error.is_leg());
        error.to_string()
    }

    #[test]
    fn what_is_no_l_is_refused_with_what_to_do() {
        let flat = refused(&[(0.0, 0.0), (5.0, 0.0), (9.0, 0.0)]);
        assert!(flat.starts_with("no empty inner corner found"), "{flat}");
        let block = refused(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (0.0, 0.0)]);
        assert!(block.contains("say its elbow and leg depth"), "{block}");
        let circle: Vec<(f64, f64)> = (0..=90)
            .map(|step| (f64::from(step) * 4.0).to_radians().sin_cos())
            .collect();
        refused(&circle);
    }

    #[test]
    fn ends_that_lie_elsewhere_are_named() {
        let mut points = zigzag();
        points.extend(zigzag().into_iter().rev());
        assert_eq!(
            refused(&points),
            "the line does not run from one leg's open end to the other's: its start lies 0 % of \
             the horizontal leg's free length from the open end, its end 117 % of the vertical \
             leg's; give an L that starts and ends at its open ends, or say its elbow and leg depth outright"
        );
        let said = LegGiven {
            elbow: Some(Elbow::TopLeft),
            ..LegGiven::default()
        };
        let shape = choose_leg(&motif(&points), &said).expect("said outright");
        assert_eq!(
            shape.notes,
            [
                "the line does not run from open end to open end: its start lies 0 % of the \
              horizontal leg's free length from the open end, its end 117 % of the vertical leg's"
            ]
        );
    }

    #[test]
    fn a_diagonal_and_a_spiral_are_doubtful() {
        let diagonal = analyse_legs(&motif(&[(9.0, 0.0), (0.0, 9.0)])).expect("a reading");
        assert!(diagonal.len() == 2 && diagonal.iter().all(|shape| !shape.is_clear()));
        assert_eq!(
            diagonal[0].notes[0],
            "the elbow may be bottom right rather than top left: the empty corner across from it \
             takes 25 % of the drawing's box, against 25 % here"
        );
        let spiral: Vec<(f64, f64)> = (0..400)
            .map(|step| {
                let angle = f64::from(step) / 20.0;
                (angle * angle.cos(), angle * angle.sin())
            })
            .collect();
        match analyse_legs(&motif(&spiral)) {
            Ok(shapes) => assert!(!shapes[0].is_clear()),
            Err(error) => assert!(error.is_leg()),
        }
    }

    #[test]
    fn what_is_said_wins() {
        let drawing = motif(&zigzag());
        let measured = choose_leg(&drawing, &LegGiven::default()).expect("an L");
        assert_eq!(
            (measured.depth_horizontal, measured.depth_vertical),
            (2.0, 3.0)
        );
        assert!(measured.is_clear(), "{:?}", measured.notes);
        let said = LegGiven {
            depth_horizontal: Some(2.5),
            ..LegGiven::default()
        };
        let shape = choose_leg(&drawing, &said).expect("an L");
        assert_eq!((shape.depth_horizontal, shape.depth_vertical), (2.5, 3.0));
        assert_eq!(shape.outer_depth_horizontal, 2.0);

        let quarter = LegGiven {
            turn_degrees: Some(90.0),
            ..LegGiven::default()
        };
        let shape = choose_leg(&drawing, &quarter).expect("an L");
        assert_eq!(shape.elbow, Elbow::TopRight);
        assert_eq!((shape.depth_horizontal, shape.depth_vertical), (3.0, 2.0));
        assert_eq!(shape.standard_depths(), measured.standard_depths());
        assert_eq!(shape.runs_clockwise(), measured.runs_clockwise());
    }

    #[test]
    fn a_full_square_is_an_l_when_all_is_said() {
        let block = motif(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]);
        let mut said = LegGiven {
            elbow: Some(Elbow::TopRight),
            depth_horizontal: Some(1.0),
            ..LegGiven::default()
        };
        assert!(choose_leg(&block, &said).is_err());
        said.depth_vertical = Some(1.5);
        let shape = choose_leg(&block, &said).expect("said outright");
        assert_eq!(shape.standard_depths(), (1.5, 1.0));
        assert_eq!(shape.turn_degrees, 0.0);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let drawing = motif(&zigzag());
        let refused = |said: LegGiven| {
            choose_leg(&drawing, &said)
                .expect_err("cannot be")
                .to_string()
        };
        for depth in [0.0, -1.0, 8.0, f64::NAN, f64::INFINITY] {
            let message = refused(LegGiven {
                depth_horizontal: Some(depth),
                ..LegGiven::default()
            });
            assert!(message.contains("above 0 and below 8"), "{message}");
        }
        let message = refused(LegGiven {
            elbow: Some(Elbow::BottomRight),
            ..LegGiven::default()
        });
        assert!(
            message.starts_with("no empty inner corner found"),
            "{message}"
        );
        let message = refused(LegGiven {
            turn_degrees: Some(f64::NAN),
            ..LegGiven::default()
        });
        assert_eq!(
            message,
            "the turn of the drawing is NaN; give an angle in degrees"
        );
    }
}
