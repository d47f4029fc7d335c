//! The room of a border for its band, for rulers on a page.

use serde::Serialize;

use super::length::LengthSaid;
use crate::io::words::sides_meet;
use crate::plan::{BorderRoom, CornerMade, FindingKind, PieceKind, Solved};

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
    /// How the sides meet the corner drawing; `None` where corners stand by themselves or are made
    /// from the repeat.
    pub meets: Option<String>,
    /// Whether they meet without a link.
    pub met: bool,
}

impl BorderView {
    pub(super) fn of(room: &BorderRoom, solved: &Solved) -> Self {
        let long = |mm: f64| LengthSaid::of(mm, solved.unit);
        let layout = solved.layouts.get(room.border);
        let (meets, met) = meets(room.border, solved);
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
            meets,
            met,
        }
    }
}

/// How the sides of a border meet its corners, and whether without a link.
fn meets(border: usize, solved: &Solved) -> (Option<String>, bool) {
    let linked = solved
        .findings
        .iter()
        .filter(|finding| finding.border == Some(border));
    let apart = linked.fold(0.0_f64, |most, finding| match finding.kind {
        FindingKind::Linked { length } => most.max(length),
        _ => most,
    });
    let of_border = |at: usize| solved.pieces.get(at).filter(|piece| piece.border == border);
    let joined = solved.joins.iter().find_map(|join| {
        let (from, to) = (of_border(join.from)?, of_border(join.to)?);
        match (&from.kind, &to.kind) {
            (PieceKind::Corner(_), PieceKind::Side(side)) => Some((to, side)),
            _ => None,
        }
    });
    // Corners made from the repeat meet it by their making.
    let drawn = solved.pieces.iter().any(|piece| match &piece.kind {
        PieceKind::Corner(corner) if piece.border == border => {
            matches!(corner.made, CornerMade::Drawn | CornerMade::Trimmed { .. })
        }
        _ => false,
    });
    let Some((piece, side)) = joined.filter(|_| drawn && apart == 0.0) else {
        let said = (apart > 0.0).then(|| sides_meet(apart, 0.0, 0.0, solved.unit));
        return (said, apart == 0.0);
    };
    let layout = &solved.layouts[border];
    let (_, across) = layout.strip(side.side).locate(piece.motif().start().point);
    let gap = layout.widths[side.side.index()].seam_gap;
    let from_seam = gap + across * layout.band.depth(side.side.index());
    let levelled = match side.levelled > solved.join_tolerance {
        true => side.levelled,
        false => 0.0,
    };
    (
        Some(sides_meet(0.0, levelled, from_seam, solved.unit)),
        true,
    )
}
