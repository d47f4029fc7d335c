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
    /// What meets end to end is a line, what doesn't is another, with a thread cut between them;
    /// only for corners in style block.
    Apart,
}

impl StrokesSpec {
    /// The name in data: `one_line`, `as_drawn` or `apart`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::OneLine => "one_line",
            Self::AsDrawn => "as_drawn",
            Self::Apart => "apart",
        }
    }

    /// What becomes of strokes that don't meet; where `link` is true they are linked as they are
    /// drawn.
    #[must_use]
    pub fn gaps(self, link: bool) -> Gaps {
        match self {
            _ if link => Gaps::Link,
            Self::OneLine => Gaps::OneLine,
            Self::AsDrawn => Gaps::Refuse,
            Self::Apart => Gaps::Apart,
        }
    }
}
