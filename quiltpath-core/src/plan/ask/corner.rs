//! What a plan asks of a border's corners.

use super::corner_at::CornerAtSpec;
use super::end::EndSpec;
use super::leg::{LegSpec, TrimSpec};
use super::length::LengthSpec;
use super::lie::CornerLie;
use super::strokes::StrokesSpec;
use super::style::{CornerStyle, ThroughSpec};
use crate::corner::{Arrangement, ExtraLoops};

/// What happens at the corners of a border.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CornerSpec {
    /// The style of the corners.
    pub style: CornerStyle,
    /// The corners that get their design, such as `["top_left", "bottom_right"]`, or by their
    /// numbers from 1; the others stay empty. All by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Vec::is_empty")
    )]
    pub at: Vec<CornerAtSpec>,
    /// Styles leg and block: the file of the drawing, SVG, DXF or JSON, relative to the plan's
    /// file.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub motif: Option<String>,
    /// Styles leg and block: the layers of the drawing that are read, ids or labels of its groups;
    /// all by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Vec::is_empty")
    )]
    pub layers: Vec<String>,
    /// Styles leg and block: how the drawing is repeated at the corners; mirrored by
    /// default. Corners made from the repeat always turn.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub arrangement: Option<Arrangement>,
    /// Styles leg and block: how the drawing lies in the corner: mirrored on its diagonal, so that
    /// its legs change places, or as it is, the default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub lie: CornerLie,
    /// Style leg: where the drawing's legs are and how deep; what is left out is found in the
    /// drawing.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub leg: Option<LegSpec>,
    /// Style leg: cut the drawing to an L first, where it is a whole block design.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub trim: Option<TrimSpec>,
    /// Styles leg and block: what becomes of a drawing of several strokes; one_line by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub strokes: StrokesSpec,
    /// Styles leg and block: where the one line of the drawing starts: a word, or how far to the
    /// right and how far down in the drawing at its true size, where the place of it that is
    /// nearest is taken; at the open end of a leg, or of a block where the least is stitched twice,
    /// by default. Not with `trim`, for what is cut to an L starts and ends on its legs.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub start: Option<EndSpec>,
    /// Styles leg and block: where the one line of the drawing ends, as `start` says where it
    /// starts.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub end: Option<EndSpec>,
    /// Style block: how much line a thread cut counts for; the thread is cut within the block where
    /// that saves more. 4 in by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub cut: Option<LengthSpec>,
    /// Styles leg and block: link lines of the drawing that don't meet by straight lines, in the
    /// order of drawing.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "std::ops::Not::not")
    )]
    pub link_gaps: bool,
    /// Style butted: which two sides run through to the edge; top_bottom by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub through: Option<ThroughSpec>,
    /// Styles open, butted and block: the gap between a side's end and the corner square or the
    /// side that runs through, and round a block at its seams; the seam gap by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub gap: Option<LengthSpec>,
    /// Style block: turn the block by 45 degrees; false by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "std::ops::Not::not")
    )]
    pub on_point: bool,
    /// Styles mitred and bent: the number of whole repeats on each leg; 0 by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub legs: Option<usize>,
    /// Style mitred: over how much of the line, either side of the diagonal, the turn there
    /// is rounded off; 0 by default, which leaves a point.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub smooth: Option<LengthSpec>,
    /// Style mitred: what becomes of loops beyond the first crossing of the diagonal; link by
    /// default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub extra: Option<ExtraLoops>,
    /// Style bent: the radius of the middle of the band on the bend; the least that keeps to
    /// `length_change_percent` by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub radius: Option<LengthSpec>,
    /// Style bent: by how many percent lengths may change along the bend, longer outside and
    /// shorter inside; 33 by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub length_change_percent: Option<f64>,
}

impl CornerSpec {
    /// Corners of this style, everything else left to its default.
    #[must_use]
    pub fn new(style: CornerStyle) -> Self {
        Self {
            style,
            ..Self::default()
        }
    }

    /// The same corners with [`at`](Self::at).
    #[must_use]
    pub fn with_at(mut self, at: impl IntoIterator<Item = impl Into<CornerAtSpec>>) -> Self {
        self.at = at.into_iter().map(Into::into).collect();
        self
    }

    /// The same corners with [`motif`](Self::motif).
    #[must_use]
    pub fn with_motif(mut self, motif: impl Into<String>) -> Self {
        self.motif = Some(motif.into());
        self
    }

    /// The same corners with [`layers`](Self::layers).
    #[must_use]
    pub fn with_layers(mut self, layers: impl IntoIterator<Item = impl Into<String>>) -> Self {
        self.layers = layers.into_iter().map(Into::into).collect();
        self
    }

    /// The same corners with [`arrangement`](Self::arrangement).
    #[must_use]
    pub fn with_arrangement(mut self, arrangement: Arrangement) -> Self {
        self.arrangement = Some(arrangement);
        self
    }

    /// The same corners with [`lie`](Self::lie).
    #[must_use]
    pub fn with_lie(mut self, lie: CornerLie) -> Self {
        self.lie = lie;
        self
    }

    /// The same corners with [`leg`](Self::leg).
    #[must_use]
    pub fn with_leg(mut self, leg: LegSpec) -> Self {
        self.leg = Some(leg);
        self
    }

    /// The same corners with [`trim`](Self::trim).
    #[must_use]
    pub fn with_trim(mut self, trim: TrimSpec) -> Self {
        self.trim = Some(trim);
        self
    }

    /// The same corners with [`strokes`](Self::strokes).
    #[must_use]
    pub fn with_strokes(mut self, strokes: StrokesSpec) -> Self {
        self.strokes = strokes;
        self
    }

    /// The same corners with [`start`](Self::start).
    #[must_use]
    pub fn with_start(mut self, start: EndSpec) -> Self {
        self.start = Some(start);
        self
    }

    /// The same corners with [`end`](Self::end).
    #[must_use]
    pub fn with_end(mut self, end: EndSpec) -> Self {
        self.end = Some(end);
        self
    }

    /// The same corners with [`cut`](Self::cut).
    #[must_use]
    pub fn with_cut(mut self, cut: impl Into<LengthSpec>) -> Self {
        self.cut = Some(cut.into());
        self
    }

    /// The same corners with [`link_gaps`](Self::link_gaps).
    #[must_use]
    pub fn with_link_gaps(mut self, link_gaps: bool) -> Self {
        self.link_gaps = link_gaps;
        self
    }

    /// The same corners with [`through`](Self::through).
    #[must_use]
    pub fn with_through(mut self, through: ThroughSpec) -> Self {
        self.through = Some(through);
        self
    }

    /// The same corners with [`gap`](Self::gap).
    #[must_use]
    pub fn with_gap(mut self, gap: impl Into<LengthSpec>) -> Self {
        self.gap = Some(gap.into());
        self
    }

    /// The same corners with [`on_point`](Self::on_point).
    #[must_use]
    pub fn with_on_point(mut self, on_point: bool) -> Self {
        self.on_point = on_point;
        self
    }

    /// The same corners with [`legs`](Self::legs).
    #[must_use]
    pub fn with_legs(mut self, legs: usize) -> Self {
        self.legs = Some(legs);
        self
    }

    /// The same corners with [`smooth`](Self::smooth).
    #[must_use]
    pub fn with_smooth(mut self, smooth: impl Into<LengthSpec>) -> Self {
        self.smooth = Some(smooth.into());
        self
    }

    /// The same corners with [`extra`](Self::extra).
    #[must_use]
    pub fn with_extra(mut self, extra: ExtraLoops) -> Self {
        self.extra = Some(extra);
        self
    }

    /// The same corners with [`radius`](Self::radius).
    #[must_use]
    pub fn with_radius(mut self, radius: impl Into<LengthSpec>) -> Self {
        self.radius = Some(radius.into());
        self
    }

    /// The same corners with [`length_change_percent`](Self::length_change_percent).
    #[must_use]
    pub fn with_length_change_percent(mut self, length_change_percent: f64) -> Self {
        self.length_change_percent = Some(length_change_percent);
        self
    }
}
