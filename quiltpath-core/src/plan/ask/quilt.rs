//! What a plan gives of the quilt's outline, and of seams and edges that are not straight.

use super::length::LengthSpec;

/// The outline of the quilt along its raw edges, in one of these ways: `width` and `height`; the
/// four sides, best with `falling` or `rising` or both; `corners`; `circle`; or `ellipse`. Without
/// a diagonal the quilt is taken as near to square as its sides allow.
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct QuiltSpec {
    /// From the left raw edge to the right one, of a quilt with four right angles.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub width: Option<LengthSpec>,
    /// From the top raw edge to the bottom one, of a quilt with four right angles.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub height: Option<LengthSpec>,
    /// The length of the top raw edge.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub top: Option<LengthSpec>,
    /// The length of the right raw edge.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub right: Option<LengthSpec>,
    /// The length of the bottom raw edge.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub bottom: Option<LengthSpec>,
    /// The length of the left raw edge.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub left: Option<LengthSpec>,
    /// The diagonal from the top left corner to the bottom right one.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub falling: Option<LengthSpec>,
    /// The diagonal from the bottom left corner to the top right one.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub rising: Option<LengthSpec>,
    /// The corners of an outline of 3 to 12 sides that is nowhere hollow, clockwise as seen, each
    /// as `[x, y]`: x to the right and y down from any point. Four begin at the top left.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub corners: Option<Vec<[LengthSpec; 2]>>,
    /// A round cloth; borders run round it without a corner.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub circle: Option<CircleSpec>,
    /// An oval cloth; borders run round it without a corner.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub ellipse: Option<EllipseSpec>,
    /// The radius to which the corners of any outline are rounded; sharp by default. Borders run
    /// round them without a corner as long as their edge is round.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub rounding: Option<LengthSpec>,
    /// Scallops that a round edge is cut in.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub scallops: Option<ScallopsSpec>,
}

/// Scallops along a round raw edge: arcs of one length from the middle of the top on, the outline
/// along their crowns.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ScallopsSpec {
    /// How many there are, all round.
    pub count: usize,
    /// How far the points between two of them lie inside the outline.
    pub depth: LengthSpec,
}

/// A circle along its raw edge.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct CircleSpec {
    /// From edge to edge, through the middle.
    pub diameter: LengthSpec,
}

/// An ellipse along its raw edge.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct EllipseSpec {
    /// From the left edge to the right one.
    pub width: LengthSpec,
    /// From the top edge to the bottom one.
    pub height: LengthSpec,
}

impl QuiltSpec {
    /// A quilt of this size with four right angles.
    #[must_use]
    pub fn rectangle(width: impl Into<LengthSpec>, height: impl Into<LengthSpec>) -> Self {
        Self::default().with_width(width).with_height(height)
    }

    /// A round cloth of this diameter.
    #[must_use]
    pub fn circle(diameter: impl Into<LengthSpec>) -> Self {
        let diameter = diameter.into();
        Self {
            circle: Some(CircleSpec { diameter }),
            ..Self::default()
        }
    }

    /// An oval cloth of this width and height.
    #[must_use]
    pub fn ellipse(width: impl Into<LengthSpec>, height: impl Into<LengthSpec>) -> Self {
        let (width, height) = (width.into(), height.into());
        Self {
            ellipse: Some(EllipseSpec { width, height }),
            ..Self::default()
        }
    }

    /// The same quilt with [`rounding`](Self::rounding).
    #[must_use]
    pub fn with_rounding(mut self, radius: impl Into<LengthSpec>) -> Self {
        self.rounding = Some(radius.into());
        self
    }

    /// The same quilt with [`scallops`](Self::scallops).
    #[must_use]
    pub fn with_scallops(mut self, count: usize, depth: impl Into<LengthSpec>) -> Self {
        let depth = depth.into();
        self.scallops = Some(ScallopsSpec { count, depth });
        self
    }

    /// The same quilt with [`width`](Self::width).
    #[must_use]
    pub fn with_width(mut self, width: impl Into<LengthSpec>) -> Self {
        self.width = Some(width.into());
        self
    }

    /// The same quilt with [`height`](Self::height).
    #[must_use]
    pub fn with_height(mut self, height: impl Into<LengthSpec>) -> Self {
        self.height = Some(height.into());
        self
    }

    /// The same quilt with [`top`](Self::top).
    #[must_use]
    pub fn with_top(mut self, top: impl Into<LengthSpec>) -> Self {
        self.top = Some(top.into());
        self
    }

    /// The same quilt with [`right`](Self::right).
    #[must_use]
    pub fn with_right(mut self, right: impl Into<LengthSpec>) -> Self {
        self.right = Some(right.into());
        self
    }

    /// The same quilt with [`bottom`](Self::bottom).
    #[must_use]
    pub fn with_bottom(mut self, bottom: impl Into<LengthSpec>) -> Self {
        self.bottom = Some(bottom.into());
        self
    }

    /// The same quilt with [`left`](Self::left).
    #[must_use]
    pub fn with_left(mut self, left: impl Into<LengthSpec>) -> Self {
        self.left = Some(left.into());
        self
    }

    /// The same quilt with [`falling`](Self::falling).
    #[must_use]
    pub fn with_falling(mut self, falling: impl Into<LengthSpec>) -> Self {
        self.falling = Some(falling.into());
        self
    }

    /// The same quilt with [`rising`](Self::rising).
    #[must_use]
    pub fn with_rising(mut self, rising: impl Into<LengthSpec>) -> Self {
        self.rising = Some(rising.into());
        self
    }

    /// The same quilt with [`corners`](Self::corners).
    #[must_use]
    pub fn with_corners(mut self, corners: Vec<[LengthSpec; 2]>) -> Self {
        self.corners = Some(corners);
        self
    }
}

/// One place along a side where a border was measured because its edge or seam is wavy.
///
/// Both measures are taken from the straight line between the side's two corners on the
/// border's edge, square to it and inwards.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct StationSpec {
    /// The side: `top`, `right`, `bottom` or `left`, or its number from 1.
    pub side: SideNameSpec,
    /// How far along the straight line, clockwise, from the corner where the side begins.
    pub at: LengthSpec,
    /// From the straight line to the edge, below 0 where the edge lies outside it; 0 by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub edge: Option<LengthSpec>,
    /// From the straight line to the seam; the border's width by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub seam: Option<LengthSpec>,
}

impl StationSpec {
    /// A station on this side, this far along it; edge and seam where they are by default.
    #[must_use]
    pub fn new(side: SideNameSpec, at: impl Into<LengthSpec>) -> Self {
        Self {
            side,
            at: at.into(),
            edge: None,
            seam: None,
        }
    }

    /// The same station with [`edge`](Self::edge).
    #[must_use]
    pub fn with_edge(mut self, edge: impl Into<LengthSpec>) -> Self {
        self.edge = Some(edge.into());
        self
    }

    /// The same station with [`seam`](Self::seam).
    #[must_use]
    pub fn with_seam(mut self, seam: impl Into<LengthSpec>) -> Self {
        self.seam = Some(seam.into());
        self
    }
}

/// A side as a plan names it: `top`, `right`, `bottom` or `left`, or its number from 1.
#[derive(Debug, Clone, PartialEq, Eq)]
#[cfg_attr(feature = "json", derive(serde::Serialize), serde(untagged))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum SideNameSpec {
    /// The number of the side, clockwise from 1.
    Number(usize),
    /// The name of one of four sides.
    Name(String),
}

#[cfg(feature = "json")]
impl<'de> serde::Deserialize<'de> for SideNameSpec {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Visitor;

        impl serde::de::Visitor<'_> for Visitor {
            type Value = SideNameSpec;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(
                    "a side: \"top\", \"right\", \"bottom\" or \"left\", or its number from 1",
                )
            }

            fn visit_u64<E: serde::de::Error>(self, value: u64) -> Result<SideNameSpec, E> {
                usize::try_from(value)
                    .map(SideNameSpec::Number)
                    .map_err(E::custom)
            }

            fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<SideNameSpec, E> {
                Ok(SideNameSpec::Name(text.to_owned()))
            }
        }

        deserializer.deserialize_any(Visitor)
    }
}
