//! What a plan tells of the roll in the throat.

use super::length::LengthSpec;

/// The bar that the stitched part of the quilt is wound on, and how thick the quilt lies there.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct RollSpec {
    /// The diameter of the bar without the quilt.
    pub bar_diameter: LengthSpec,
    /// The thickness of all layers as they lie on the roll. Measure it there: wind some of a quilt,
    /// and see by how much the roll grows.
    pub thickness: LengthSpec,
}

impl RollSpec {
    /// A quilt of this thickness on a bar of this diameter.
    #[must_use]
    pub fn new(bar_diameter: impl Into<LengthSpec>, thickness: impl Into<LengthSpec>) -> Self {
        Self {
            bar_diameter: bar_diameter.into(),
            thickness: thickness.into(),
        }
    }
}
