//! The styles of a border's corners.

/// The style of a border's corners.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum CornerStyle {
    /// An L-shaped corner motif, with the border between.
    Leg,
    /// The corner squares are left empty.
    #[default]
    Open,
    /// Two sides run to the edge, two stop between them.
    Butted,
    /// A stand-alone motif in each corner square.
    Block,
    /// The repeat itself, cut on the diagonal and mirrored.
    #[cfg_attr(feature = "json", serde(alias = "mitered"))]
    Mitred,
    /// The repeat carried round the corner on an arc.
    Bent,
}

/// Which sides of a butted border run through to the edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum ThroughSpec {
    /// The top and the bottom side.
    #[default]
    TopBottom,
    /// The left and the right side.
    LeftRight,
}

impl CornerStyle {
    /// The name in plans and results, such as `mitred`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Leg => "leg",
            Self::Open => "open",
            Self::Butted => "butted",
            Self::Block => "block",
            Self::Mitred => "mitred",
            Self::Bent => "bent",
        }
    }

    /// Whether the sides join on to the corners, so that one line runs through both.
    #[must_use]
    pub fn joins(self) -> bool {
        matches!(self, Self::Leg | Self::Mitred | Self::Bent)
    }
}
