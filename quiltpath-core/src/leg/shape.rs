//! A drawing read as an L: its elbow, its legs and how they come to the standard position.

use super::doubt::LegDoubt;
use super::name::LegName;
use crate::geom::{Bounds, BoxCorner, Point};
use crate::transform::Transform;

/// One reading of a drawing as an L. Lengths are in the unit of the drawing.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct LegShape {
    /// The corner of `bounds` where the legs meet.
    pub elbow: BoxCorner,
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
    /// What is doubtful about this reading; nothing when it is clear.
    pub doubts: Vec<LegDoubt>,
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
        self.doubts.is_empty()
    }

    fn legs_swap(&self) -> bool {
        self.elbow.quarter_turns() % 2 == 1
    }
}
