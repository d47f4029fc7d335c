//! The L of a corner drawing: where its legs are, or what a drawing is cut to.

use super::length::LengthSpec;
use crate::geom::BoxCorner;
use crate::trim::JoinOrder;

/// The L that a drawing is cut to before it is scaled; its elbow lies in a corner of the drawing's
/// box. Lengths are as in the drawing.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct TrimSpec {
    /// The depth of both legs.
    pub leg_depth: LengthSpec,
    /// The corner of the drawing where the legs meet; top_left by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub elbow: Option<BoxCorner>,
    /// The width of the L; the drawing's by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub width: Option<LengthSpec>,
    /// The height of the L; the drawing's by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub height: Option<LengthSpec>,
    /// How far inside the L's edge the links between pieces run; 0, on the edge, by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub inset: Option<LengthSpec>,
    /// In which order the pieces are joined; free by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub order: Option<JoinOrder>,
}

impl TrimSpec {
    /// An L with legs of this depth, everything else left to its default.
    #[must_use]
    pub fn new(leg_depth: impl Into<LengthSpec>) -> Self {
        Self {
            leg_depth: leg_depth.into(),
            elbow: None,
            width: None,
            height: None,
            inset: None,
            order: None,
        }
    }

    /// The same cut with [`elbow`](Self::elbow).
    #[must_use]
    pub fn with_elbow(mut self, elbow: BoxCorner) -> Self {
        self.elbow = Some(elbow);
        self
    }

    /// The same cut with [`width`](Self::width).
    #[must_use]
    pub fn with_width(mut self, width: impl Into<LengthSpec>) -> Self {
        self.width = Some(width.into());
        self
    }

    /// The same cut with [`height`](Self::height).
    #[must_use]
    pub fn with_height(mut self, height: impl Into<LengthSpec>) -> Self {
        self.height = Some(height.into());
        self
    }

    /// The same cut with [`inset`](Self::inset).
    #[must_use]
    pub fn with_inset(mut self, inset: impl Into<LengthSpec>) -> Self {
        self.inset = Some(inset.into());
        self
    }

    /// The same cut with [`order`](Self::order).
    #[must_use]
    pub fn with_order(mut self, order: JoinOrder) -> Self {
        self.order = Some(order);
        self
    }
}

/// Where a corner drawing's legs are and how deep; lengths as in the drawing, before it is scaled.
/// What is left out is found in the drawing.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LegSpec {
    /// The corner of the drawing where its legs meet.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub elbow: Option<BoxCorner>,
    /// The depth of the leg that runs from left to right in the drawing.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub horizontal_depth: Option<LengthSpec>,
    /// The depth of the leg that runs up and down in the drawing.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub vertical_depth: Option<LengthSpec>,
    /// Degrees by which to turn the drawing clockwise so that its legs lie level and upright.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub turn_degrees: Option<f64>,
}

impl LegSpec {
    /// The same legs with [`elbow`](Self::elbow).
    #[must_use]
    pub fn with_elbow(mut self, elbow: BoxCorner) -> Self {
        self.elbow = Some(elbow);
        self
    }

    /// The same legs with [`horizontal_depth`](Self::horizontal_depth).
    #[must_use]
    pub fn with_horizontal_depth(mut self, horizontal_depth: impl Into<LengthSpec>) -> Self {
        self.horizontal_depth = Some(horizontal_depth.into());
        self
    }

    /// The same legs with [`vertical_depth`](Self::vertical_depth).
    #[must_use]
    pub fn with_vertical_depth(mut self, vertical_depth: impl Into<LengthSpec>) -> Self {
        self.vertical_depth = Some(vertical_depth.into());
        self
    }

    /// The same legs with [`turn_degrees`](Self::turn_degrees).
    #[must_use]
    pub fn with_turn_degrees(mut self, turn_degrees: f64) -> Self {
        self.turn_degrees = Some(turn_degrees);
        self
    }
}
