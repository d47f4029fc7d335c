//! Lines that a picture draws over others: links within them, and what is stitched twice.

use std::ops::RangeInclusive;

use maud::{Markup, Render, html};

use crate::motif::Motif;
use crate::plan::{CornerMade, Finding, FindingKind, Piece, PieceKind, Solved};

/// Whether any line is stitched for the second time.
pub(in crate::io) fn goes_over(solved: &Solved) -> bool {
    let corner = |piece: &Piece| match &piece.kind {
        PieceKind::Corner(corner) => matches!(
            corner.made,
            CornerMade::Trimmed { restitched_length, .. } if restitched_length > 0.0
        ),
        _ => false,
    };
    let found = |finding: &Finding| match &finding.kind {
        FindingKind::OneLine { report, .. } => report.retraced > 0.0,
        kind => matches!(kind, FindingKind::StitchedTwice { .. }),
    };
    solved.findings.iter().any(found) || solved.pieces.iter().any(corner)
}

/// The links within a line: each by its first and its last point.
pub(in crate::io) fn links_within(motif: &Motif) -> impl Iterator<Item = RangeInclusive<usize>> {
    let links = motif.links();
    // A link on a curved band is several segments, one after the other.
    let links = links.chunk_by(|one, next| one + 1 == *next);
    links.map(|link| link[0]..=link[link.len() - 1] + 1)
}

/// A link within a piece, drawn over its line.
pub(in crate::io) fn within(data: impl Render) -> Markup {
    let mut drawn = String::new();
    data.render_to(&mut drawn);
    html! {
        path class="under" d=(drawn) {}
        path class="line link" d=(drawn) {}
    }
}

/// A line that is stitched twice, as two lines.
pub(in crate::io) fn twice(data: impl Render) -> Markup {
    let mut drawn = String::new();
    data.render_to(&mut drawn);
    html! {
        path class="again" d=(drawn) {}
        path class="between" d=(drawn) {}
    }
}
