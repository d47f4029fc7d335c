//! What a plan asks of the blocks within the borders, and of the strips between them.

use super::length::LengthSpec;
use super::side::SideSpec;
use super::strokes::StrokesSpec;
use crate::plan::lay::field::{Lie, Setting};

/// The blocks of the quilt top, within its borders and in their middle.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct BlocksSpec {
    /// The number of rows; on point, of blocks that touch the left edge.
    pub rows: usize,
    /// The number of columns; on point, of blocks that touch the top edge.
    pub columns: usize,
    /// The finished side of a block, seam to seam: one length, or a list of row heights and one of
    /// column widths. What the borders leave is shared equally by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub size: Option<BlockSizeSpec>,
    /// How the blocks lie; straight by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub setting: Setting,
    /// What is kept free within the seams of blocks, sashes and triangles; 1/4 in by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub seam_gap: Option<LengthSpec>,
    /// The design of the blocks; they stay plain where it is left out.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub block: Option<DesignSpec>,
    /// How the design lies in blocks of other rows and columns; as_is by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub lie: Lie,
    /// The strips between straight blocks; none by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub sashing: Option<SashingSpec>,
    /// On point: what goes in the triangles at the edge; the block's design is cut to them by
    /// default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub triangles: Option<TrianglesSpec>,
}

/// The sides of blocks.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(
    feature = "json",
    serde(
        untagged,
        expecting = "a length such as 12 or \"12 in\", or lists of them: {\"heights\": […], \"widths\": […]}"
    )
)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum BlockSizeSpec {
    /// All blocks are squares of this side.
    Square(LengthSpec),
    /// Rows and columns differ.
    Lists(BlockListsSpec),
}

/// The heights of the rows and the widths of the columns.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct BlockListsSpec {
    /// The height of each row, from the top.
    pub heights: Vec<LengthSpec>,
    /// The width of each column, from the left.
    pub widths: Vec<LengthSpec>,
}

/// A drawing that stands by itself in a block, a cornerstone or a triangle.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct DesignSpec {
    /// The file of the drawing, SVG, DXF or JSON, relative to the plan's file.
    pub motif: String,
    /// The layers of the drawing that are read: ids or labels of its groups; all by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Vec::is_empty")
    )]
    pub layers: Vec<String>,
    /// What becomes of a drawing of several strokes; one_line by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub strokes: StrokesSpec,
    /// How much line a thread cut counts for; the thread is cut within a block where that saves
    /// more. 4 in by default; not for cornerstones, which are one line.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub cut: Option<LengthSpec>,
}

/// The strips between blocks, and the squares where they cross.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct SashingSpec {
    /// The finished width of a sash, seam to seam.
    pub width: LengthSpec,
    /// Whether sashes also go round the outside of the blocks; false by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "std::ops::Not::not")
    )]
    pub outer: bool,
    /// Whether sashes end at cornerstones; where false, those between rows run through. True by
    /// default.
    #[cfg_attr(
        feature = "json",
        serde(default = "yes", skip_serializing_if = "is_yes")
    )]
    pub cornerstones: bool,
    /// The band of the sashes may be up to this much shallower than the seam gaps leave, so that
    /// repeats need less stretch; 0 by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub slack: Option<LengthSpec>,
    /// The design of the cornerstones; they stay plain where it is left out. One whose line runs
    /// from one side of its box to another joins two of the sashes that meet there.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub cornerstone: Option<DesignSpec>,
    /// What goes along the sashes; they stay plain where it is left out.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "SideSpec::is_plain")
    )]
    pub side: SideSpec,
}

/// What goes in the triangles at the edge of blocks on point.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct TrianglesSpec {
    /// Whether all of them stay plain; false by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "std::ops::Not::not")
    )]
    pub plain: bool,
    /// The design of side triangles, drawn with the long side, which lies outside, up; the block's
    /// design is cut to them by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub side: Option<DesignSpec>,
    /// The design of corner triangles, drawn for the top left corner of the quilt; the block's
    /// design is cut to them by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub corner: Option<DesignSpec>,
}

#[cfg(feature = "json")]
fn yes() -> bool {
    true
}

#[cfg(feature = "json")]
#[allow(clippy::trivially_copy_pass_by_ref)] // serde asks for a reference
fn is_yes(value: &bool) -> bool {
    *value
}

impl BlocksSpec {
    /// So many rows and columns of plain blocks that share what the borders leave.
    #[must_use]
    pub fn new(rows: usize, columns: usize) -> Self {
        Self {
            rows,
            columns,
            size: None,
            setting: Setting::default(),
            seam_gap: None,
            block: None,
            lie: Lie::default(),
            sashing: None,
            triangles: None,
        }
    }

    /// The names of its drawings as they are written.
    pub fn drawings(&self) -> impl Iterator<Item = &String> {
        let sashing = self.sashing.iter();
        let sashes = sashing.clone().flat_map(|sashing| sashing.side.drawings());
        let cornerstones = sashing.filter_map(|sashing| sashing.cornerstone.as_ref());
        let triangles = self.triangles.iter();
        let triangles = triangles.flat_map(|both| both.side.iter().chain(&both.corner));
        let designs = self.block.iter().chain(cornerstones).chain(triangles);
        designs.map(|design| &design.motif).chain(sashes)
    }

    /// The same names, to be changed in place.
    pub fn drawings_mut(&mut self) -> impl Iterator<Item = &mut String> {
        let (cornerstone, side) = match &mut self.sashing {
            Some(sashing) => (sashing.cornerstone.as_mut(), Some(&mut sashing.side)),
            None => (None, None),
        };
        let sashes = side.into_iter().flat_map(SideSpec::drawings_mut);
        let triangles = self.triangles.iter_mut();
        let triangles = triangles.flat_map(|both| both.side.iter_mut().chain(&mut both.corner));
        let designs = self.block.iter_mut().chain(cornerstone).chain(triangles);
        designs.map(|design| &mut design.motif).chain(sashes)
    }

    /// The same blocks with [`size`](Self::size).
    #[must_use]
    pub fn with_size(mut self, size: impl Into<LengthSpec>) -> Self {
        self.size = Some(BlockSizeSpec::Square(size.into()));
        self
    }

    /// The same blocks with these heights of their rows and widths of their columns.
    #[must_use]
    pub fn with_lists(mut self, heights: Vec<LengthSpec>, widths: Vec<LengthSpec>) -> Self {
        self.size = Some(BlockSizeSpec::Lists(BlockListsSpec { heights, widths }));
        self
    }

    /// The same blocks with [`setting`](Self::setting).
    #[must_use]
    pub fn with_setting(mut self, setting: Setting) -> Self {
        self.setting = setting;
        self
    }

    /// The same blocks with [`seam_gap`](Self::seam_gap).
    #[must_use]
    pub fn with_seam_gap(mut self, seam_gap: impl Into<LengthSpec>) -> Self {
        self.seam_gap = Some(seam_gap.into());
        self
    }

    /// The same blocks with [`block`](Self::block).
    #[must_use]
    pub fn with_block(mut self, block: DesignSpec) -> Self {
        self.block = Some(block);
        self
    }

    /// The same blocks with [`lie`](Self::lie).
    #[must_use]
    pub fn with_lie(mut self, lie: Lie) -> Self {
        self.lie = lie;
        self
    }

    /// The same blocks with [`sashing`](Self::sashing).
    #[must_use]
    pub fn with_sashing(mut self, sashing: SashingSpec) -> Self {
        self.sashing = Some(sashing);
        self
    }

    /// The same blocks with [`triangles`](Self::triangles).
    #[must_use]
    pub fn with_triangles(mut self, triangles: TrianglesSpec) -> Self {
        self.triangles = Some(triangles);
        self
    }
}

impl DesignSpec {
    /// The drawing of this name, everything else left to its default.
    #[must_use]
    pub fn new(motif: impl Into<String>) -> Self {
        Self {
            motif: motif.into(),
            ..Self::default()
        }
    }

    /// The same design with [`layers`](Self::layers).
    #[must_use]
    pub fn with_layers(mut self, layers: impl IntoIterator<Item = impl Into<String>>) -> Self {
        self.layers = layers.into_iter().map(Into::into).collect();
        self
    }

    /// The same design with [`strokes`](Self::strokes).
    #[must_use]
    pub fn with_strokes(mut self, strokes: StrokesSpec) -> Self {
        self.strokes = strokes;
        self
    }

    /// The same design with [`cut`](Self::cut).
    #[must_use]
    pub fn with_cut(mut self, cut: impl Into<LengthSpec>) -> Self {
        self.cut = Some(cut.into());
        self
    }
}

impl SashingSpec {
    /// Sashes of this width with plain cornerstones.
    #[must_use]
    pub fn new(width: impl Into<LengthSpec>, side: SideSpec) -> Self {
        Self {
            width: width.into(),
            outer: false,
            cornerstones: true,
            slack: None,
            cornerstone: None,
            side,
        }
    }

    /// The same sashes with [`outer`](Self::outer).
    #[must_use]
    pub fn with_outer(mut self, outer: bool) -> Self {
        self.outer = outer;
        self
    }

    /// The same sashes with [`cornerstones`](Self::cornerstones).
    #[must_use]
    pub fn with_cornerstones(mut self, cornerstones: bool) -> Self {
        self.cornerstones = cornerstones;
        self
    }

    /// The same sashes with [`slack`](Self::slack).
    #[must_use]
    pub fn with_slack(mut self, slack: impl Into<LengthSpec>) -> Self {
        self.slack = Some(slack.into());
        self
    }

    /// The same sashes with [`cornerstone`](Self::cornerstone).
    #[must_use]
    pub fn with_cornerstone(mut self, cornerstone: DesignSpec) -> Self {
        self.cornerstone = Some(cornerstone);
        self
    }
}

impl TrianglesSpec {
    /// The same triangles with [`plain`](Self::plain).
    #[must_use]
    pub fn with_plain(mut self, plain: bool) -> Self {
        self.plain = plain;
        self
    }

    /// The same triangles with [`side`](Self::side).
    #[must_use]
    pub fn with_side(mut self, side: DesignSpec) -> Self {
        self.side = Some(side);
        self
    }

    /// The same triangles with [`corner`](Self::corner).
    #[must_use]
    pub fn with_corner(mut self, corner: DesignSpec) -> Self {
        self.corner = Some(corner);
        self
    }
}
