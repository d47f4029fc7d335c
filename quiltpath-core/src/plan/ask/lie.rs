//! How the drawings of a border lie, and whether the best of the ways is looked for.

use crate::error::Error;
use crate::motif::Motif;
use crate::transform::{Mirror, Transform};

/// How the drawing of the sides lies on the band.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum SideLie {
    /// As it is drawn.
    #[default]
    AsIs,
    /// Left and right changed.
    Mirrored,
    /// Inside and outside changed.
    Flipped,
    /// Turned by half a turn, so both.
    Turned,
}

/// How the drawing of the corners lies in them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum CornerLie {
    /// As it is drawn.
    #[default]
    AsIs,
    /// Mirrored on the diagonal, so that its legs change places.
    Mirrored,
}

/// Whether the drawings of a border lie as they are drawn or the best way is looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum OrientationSpec {
    /// As they are drawn, or as the plan has them.
    #[default]
    AsDrawn,
    /// In the way with the fewest links, then the least levelling, then the least turns where
    /// lines meet, then the least stretch: what the plan leaves open of how the repeat and the
    /// corner lie, of the arrangement of the corners, and of the repeats that are mirrored.
    Best,
}

impl SideLie {
    /// All ways, as drawn first.
    pub(in crate::plan) const ALL: [Self; 4] =
        [Self::AsIs, Self::Mirrored, Self::Flipped, Self::Turned];

    /// The word in data, such as `as_is`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::AsIs => "as_is",
            Self::Mirrored => "mirrored",
            Self::Flipped => "flipped",
            Self::Turned => "turned",
        }
    }

    /// The line of a repeat as it lies.
    pub(in crate::plan) fn of(self, line: &Motif) -> Result<Motif, Error> {
        let mirrors: &[Mirror] = match self {
            Self::AsIs => return Ok(line.clone()),
            Self::Mirrored => &[Mirror::LeftRight],
            Self::Flipped => &[Mirror::TopBottom],
            Self::Turned => &[Mirror::LeftRight, Mirror::TopBottom],
        };
        let all = mirrors.iter().map(|&mirror| Transform::mirror(mirror));
        line.transformed(&all.fold(Transform::identity(), Transform::then))
    }
}

impl CornerLie {
    /// Both ways, as drawn first.
    pub(in crate::plan) const ALL: [Self; 2] = [Self::AsIs, Self::Mirrored];

    /// The word in data, such as `as_is`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::AsIs => "as_is",
            Self::Mirrored => "mirrored",
        }
    }
}
