//! One border as a plan asks for it.

use super::by_side::BySide;
use super::corner::CornerSpec;
use super::length::LengthSpec;
use super::lie::OrientationSpec;
use super::quilt::StationSpec;
use super::side::SideSpec;

/// One border: a ring with as many sides as the quilt.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct BorderSpec {
    /// A name for pieces and files; "border", or "border-1" and so on, by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub name: Option<String>,
    /// The width of the border: from the raw edge (or the seam to the border outside it) to its
    /// inner seam. One for all sides, or one for each; a side without one has no border there.
    pub width: BySide<LengthSpec>,
    /// The seam gap: kept free next to the inner seam; 1/4 in by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub seam_gap: Option<LengthSpec>,
    /// The edge gap: kept free next to the outer edge; by default 1/2 in at the raw edge (1/4 in
    /// for the binding's seam allowance and 1/4 in of clearance), 1/4 in at a seam.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub edge_gap: Option<LengthSpec>,
    /// The band may be up to this much shallower than the gaps leave, both gaps growing alike,
    /// so that repeats need less stretch; 0 by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub slack: Option<LengthSpec>,
    /// Whether the drawings lie as they are drawn, or in the way that joins best; as_drawn by
    /// default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "super::words::is_default")
    )]
    pub orientation: OrientationSpec,
    /// Where the border was measured because its edge or seam is wavy; straight by default.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Vec::is_empty")
    )]
    pub stations: Vec<StationSpec>,
    /// What happens at the corners; they stay empty where it is left out. A corner design is
    /// stitched where both its sides are, or in every corner where all sides are plain.
    #[cfg_attr(feature = "json", serde(default))]
    pub corner: CornerSpec,
    /// What goes along the sides; they stay plain where it is left out.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "SideSpec::is_plain")
    )]
    pub side: SideSpec,
}

impl BorderSpec {
    /// A border of this width, everything else left to its default.
    #[must_use]
    pub fn new(width: impl Into<BySide<LengthSpec>>, corner: CornerSpec, side: SideSpec) -> Self {
        Self {
            name: None,
            width: width.into(),
            seam_gap: None,
            edge_gap: None,
            slack: None,
            orientation: OrientationSpec::AsDrawn,
            stations: Vec::new(),
            corner,
            side,
        }
    }

    /// The names of its drawings as they are written: the corner's, then those of the sides.
    pub fn drawings(&self) -> impl Iterator<Item = &String> {
        self.corner.motif.iter().chain(self.side.drawings())
    }

    /// The same names, to be changed in place.
    pub fn drawings_mut(&mut self) -> impl Iterator<Item = &mut String> {
        self.corner.motif.iter_mut().chain(self.side.drawings_mut())
    }

    /// The same border with [`name`](Self::name).
    #[must_use]
    pub fn with_name(mut self, name: impl Into<String>) -> Self {
        self.name = Some(name.into());
        self
    }

    /// The same border with [`seam_gap`](Self::seam_gap).
    #[must_use]
    pub fn with_seam_gap(mut self, seam_gap: impl Into<LengthSpec>) -> Self {
        self.seam_gap = Some(seam_gap.into());
        self
    }

    /// The same border with [`edge_gap`](Self::edge_gap).
    #[must_use]
    pub fn with_edge_gap(mut self, edge_gap: impl Into<LengthSpec>) -> Self {
        self.edge_gap = Some(edge_gap.into());
        self
    }

    /// The same border with [`slack`](Self::slack).
    #[must_use]
    pub fn with_slack(mut self, slack: impl Into<LengthSpec>) -> Self {
        self.slack = Some(slack.into());
        self
    }

    /// The same border with [`orientation`](Self::orientation).
    #[must_use]
    pub fn with_orientation(mut self, orientation: OrientationSpec) -> Self {
        self.orientation = orientation;
        self
    }

    /// The same border with [`stations`](Self::stations).
    #[must_use]
    pub fn with_stations(mut self, stations: impl IntoIterator<Item = StationSpec>) -> Self {
        self.stations = stations.into_iter().collect();
        self
    }
}
