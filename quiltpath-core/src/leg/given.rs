//! What is known about a corner drawing, so that it needn't be measured.

use crate::geom::BoxCorner;

/// What is known about a corner motif; `None` for what is to be measured.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
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

impl LegGiven {
    /// The same, with the legs meeting at this corner of the drawing's box.
    #[must_use]
    pub fn with_elbow(mut self, elbow: impl Into<Option<BoxCorner>>) -> Self {
        self.elbow = elbow.into();
        self
    }

    /// The same, with the horizontal leg this deep.
    #[must_use]
    pub fn with_depth_horizontal(mut self, depth: impl Into<Option<f64>>) -> Self {
        self.depth_horizontal = depth.into();
        self
    }

    /// The same, with the vertical leg this deep.
    #[must_use]
    pub fn with_depth_vertical(mut self, depth: impl Into<Option<f64>>) -> Self {
        self.depth_vertical = depth.into();
        self
    }

    /// The same, the legs being laid along the axes by this turn.
    #[must_use]
    pub fn with_turn_degrees(mut self, degrees: impl Into<Option<f64>>) -> Self {
        self.turn_degrees = degrees.into();
        self
    }
}
