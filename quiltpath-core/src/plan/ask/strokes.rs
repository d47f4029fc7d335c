//! What becomes of a drawing's strokes.

use crate::strokes::Gaps;

/// What becomes of a drawing of several strokes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum StrokesSpec {
    /// They become one line that stitches as little as possible twice.
    #[default]
    OneLine,
    /// They stay as they are drawn; those that don't follow one another end to end are refused.
    AsDrawn,
}

impl StrokesSpec {
    /// The name in data: `one_line` or `as_drawn`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::OneLine => "one_line",
            Self::AsDrawn => "as_drawn",
        }
    }

    /// What becomes of strokes that don't meet, where those may be linked as they are drawn.
    #[must_use]
    pub fn gaps(self, link: bool) -> Gaps {
        match self {
            _ if link => Gaps::Link,
            Self::OneLine => Gaps::OneLine,
            Self::AsDrawn => Gaps::Refuse,
        }
    }
}
