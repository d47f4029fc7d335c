//! What goes along the sides of a border.

use super::by_side::BySide;
use super::centre::CentreSpec;
use super::end::EndSpec;
use super::lie::SideLie;
use super::spacer::SpacerSpec;
use super::strokes::StrokesSpec;
use crate::chain::{Alternate, Ends};
use crate::fit::Parity;
use crate::plan::lay::place::Side;

/// What goes along the sides of a border: nothing where it is left out.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct SideSpec {
    /// The file of the repeat's drawing, SVG, DXF or JSON, relative to the plan's file; drawn from
    /// left to right with the outside of the quilt up. One for all sides, or one for each; a side
    /// without one stays plain, and beside it the next one runs through to the edge.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub motif: Option<BySide<String>>,
    /// The layers of the drawing that are read: ids or labels of its groups; all by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Vec::is_empty")
    )]
    pub layers: Vec<String>,
    /// How the drawing lies on the band: mirrored left to right, flipped inside out, or turned by
    /// half a turn; as it is by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub lie: SideLie,
    /// The number of repeats has to be a multiple of this; 1 by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub every: Option<usize>,
    /// Whether the number of repeats has to be even or odd; any by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub parity: Parity,
    /// The number of repeats, where it is not to be chosen: of all sides or of single ones.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub repeats: Option<BySide<usize>>,
    /// Give opposite sides the same number of repeats; only where the number of sides is even.
    /// False by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "std::ops::Not::not")
    )]
    pub opposite_alike: bool,
    /// Which repeats are mirrored; none by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub alternate: Alternate,
    /// A motif in the middle of each side, or of some: as many repeats lie before it as after it,
    /// and it is never stretched. None by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub centre: Option<CentreSpec>,
    /// The length of a plain stretch, crossed by a straight line, between the two halves of a
    /// side's repeats, or to either side of its centre: `rest` for what the repeats leave when they
    /// keep their proportions. One for all sides, or one for each; none by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub spacer: Option<BySide<SpacerSpec>>,
    /// Put the stretch of repeats into their stems, so that flowers and loops stay round; false by
    /// default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "std::ops::Not::not")
    )]
    pub ease: bool,
    /// What to do where the repeat starts and ends at different heights; level by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub ends: Ends,
    /// What becomes of a drawing of several strokes; one_line by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub strokes: StrokesSpec,
    /// Where the one line of the drawing starts: a word, or how far to the right and how far down
    /// in the drawing at its true size, where the place of it that is nearest is taken; at its left
    /// edge by default. A repeat goes from left to right all the same.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub start: Option<EndSpec>,
    /// Where the one line of the drawing ends, as `start` says where it starts; at its right edge
    /// by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub end: Option<EndSpec>,
    /// Link lines of the drawing that don't meet by straight lines, in the
    /// order of drawing.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "std::ops::Not::not")
    )]
    pub link_gaps: bool,
}

impl SideSpec {
    /// Sides with this repeat, everything else left to its default.
    #[must_use]
    pub fn new(motif: impl Into<BySide<String>>) -> Self {
        Self {
            motif: Some(motif.into()),
            ..Self::default()
        }
    }

    /// Whether nothing is said of the sides, which stay plain.
    #[must_use]
    pub fn is_plain(&self) -> bool {
        *self == Self::default()
    }

    /// The names of their drawings as they are written.
    pub fn drawings(&self) -> impl Iterator<Item = &String> {
        let centre = self.centre.as_ref().map(|centre| &centre.motif);
        let all = self.motif.iter().chain(centre);
        all.flat_map(BySide::values)
    }

    /// The same names, to be changed in place.
    pub fn drawings_mut(&mut self) -> impl Iterator<Item = &mut String> {
        let centre = self.centre.as_mut().map(|centre| &mut centre.motif);
        let all = self.motif.iter_mut().chain(centre);
        all.flat_map(BySide::values_mut)
    }

    /// The drawing of a side, where it has one.
    #[must_use]
    pub fn motif(&self, side: Side) -> Option<&str> {
        self.motif.as_ref()?.get(side).map(String::as_str)
    }

    /// The same sides with [`layers`](Self::layers).
    #[must_use]
    pub fn with_layers(mut self, layers: impl IntoIterator<Item = impl Into<String>>) -> Self {
        self.layers = layers.into_iter().map(Into::into).collect();
        self
    }

    /// The same sides with [`lie`](Self::lie).
    #[must_use]
    pub fn with_lie(mut self, lie: SideLie) -> Self {
        self.lie = lie;
        self
    }

    /// The same sides with [`every`](Self::every).
    #[must_use]
    pub fn with_every(mut self, every: usize) -> Self {
        self.every = Some(every);
        self
    }

    /// The same sides with [`parity`](Self::parity).
    #[must_use]
    pub fn with_parity(mut self, parity: Parity) -> Self {
        self.parity = parity;
        self
    }

    /// The same sides with [`repeats`](Self::repeats).
    #[must_use]
    pub fn with_repeats(mut self, repeats: impl Into<BySide<usize>>) -> Self {
        self.repeats = Some(repeats.into());
        self
    }

    /// The same sides with [`opposite_alike`](Self::opposite_alike).
    #[must_use]
    pub fn with_opposite_alike(mut self, opposite_alike: bool) -> Self {
        self.opposite_alike = opposite_alike;
        self
    }

    /// The same sides with [`alternate`](Self::alternate).
    #[must_use]
    pub fn with_alternate(mut self, alternate: Alternate) -> Self {
        self.alternate = alternate;
        self
    }

    /// The same sides with [`centre`](Self::centre).
    #[must_use]
    pub fn with_centre(mut self, centre: CentreSpec) -> Self {
        self.centre = Some(centre);
        self
    }

    /// The same sides with [`spacer`](Self::spacer).
    #[must_use]
    pub fn with_spacer(mut self, spacer: impl Into<BySide<SpacerSpec>>) -> Self {
        self.spacer = Some(spacer.into());
        self
    }

    /// The same sides with [`ease`](Self::ease).
    #[must_use]
    pub fn with_ease(mut self, ease: bool) -> Self {
        self.ease = ease;
        self
    }

    /// The same sides with [`ends`](Self::ends).
    #[must_use]
    pub fn with_ends(mut self, ends: Ends) -> Self {
        self.ends = ends;
        self
    }

    /// The same sides with [`strokes`](Self::strokes).
    #[must_use]
    pub fn with_strokes(mut self, strokes: StrokesSpec) -> Self {
        self.strokes = strokes;
        self
    }

    /// The same sides with [`start`](Self::start).
    #[must_use]
    pub fn with_start(mut self, start: EndSpec) -> Self {
        self.start = Some(start);
        self
    }

    /// The same sides with [`end`](Self::end).
    #[must_use]
    pub fn with_end(mut self, end: EndSpec) -> Self {
        self.end = Some(end);
        self
    }

    /// The same sides with [`link_gaps`](Self::link_gaps).
    #[must_use]
    pub fn with_link_gaps(mut self, link_gaps: bool) -> Self {
        self.link_gaps = link_gaps;
        self
    }
}
