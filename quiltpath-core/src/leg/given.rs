//! What is known about a corner drawing, so that it needn't be measured.

use crate::geom::BoxCorner;

/// What the user says about a corner motif outright; `None` for what is to be measured.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct LegGiven {
    /// The corner of the drawing's box (after the turn) where the legs meet.
    pub elbow: Option<BoxCorner>,
    /// The depth of the horizontal leg, in the unit of the drawing.
    pub depth_horizontal: Option<f64>,
    /// The depth of the vertical leg, in the unit of the drawing.
    pub depth_vertical: Option<f64>,
    /// The turn about the origin that lays the legs along the axes, in degrees, positive clockwise.
    pub turn_degrees: Option<f64>,
}
