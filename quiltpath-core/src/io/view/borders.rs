//! The room of a border for its band, for rulers on a page.

use serde::Serialize;

use super::length::LengthSaid;
use crate::plan::{BorderRoom, Solved};

/// A border with the room for its band; lengths of the side whose band is deepest.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct BorderView {
    /// The name of the border.
    pub name: String,
    /// The width.
    pub width: LengthSaid,
    /// What is kept free at the seam.
    pub seam_gap: LengthSaid,
    /// What is kept free at the outer edge.
    pub edge_gap: LengthSaid,
    /// The depth of the band as it is used.
    pub depth: LengthSaid,
    /// The depth that the gaps leave.
    pub full: LengthSaid,
    /// The least depth to offer.
    pub least: LengthSaid,
    /// The most depth to offer.
    pub most: LengthSaid,
    /// By how much the band may be shallower.
    pub slack: LengthSaid,
    /// The most slack to offer.
    pub most_slack: LengthSaid,
    /// Whether any of the border is stitched, so that its depth stays.
    pub begun: bool,
}

impl BorderView {
    pub(super) fn of(room: &BorderRoom, solved: &Solved) -> Self {
        let long = |mm: f64| LengthSaid::of(mm, solved.unit);
        let layout = solved.layouts.get(room.border);
        Self {
            name: layout.map_or_else(String::new, |layout| layout.name.clone()),
            width: long(room.width),
            seam_gap: long(room.seam_gap),
            edge_gap: long(room.edge_gap),
            depth: long(room.depth),
            full: long(room.full),
            least: long(room.least),
            most: long(room.most),
            slack: long(room.slack),
            most_slack: long(room.most_slack),
            begun: room.begun,
        }
    }
}
