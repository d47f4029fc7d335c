//! In which order a plan asks for corners and sides.

/// Which pieces are stitched before others.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum OrderSpec {
    /// As it takes the fewest passes and thread cuts: a line runs on from a corner into the side.
    #[default]
    AsItComes,
    /// Every corner by itself, in passes down the quilt; then the sides, in passes back up, so that
    /// they can be fitted between the corners as these came to lie.
    CornersFirst,
}
