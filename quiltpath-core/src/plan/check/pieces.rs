//! What is checked of pieces that are placed, and which piece each finding is about.

use super::bounds::outside;
use super::stretch::stretched;
use crate::error::Error;
use crate::plan::asked::Asked;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::lay::layout::Layout;
use crate::plan::piece::{Piece, PieceKind};

/// Looks at the stretch of all pieces, and whether they stay in their bands.
pub(in crate::plan) fn checked(
    asked: &Asked,
    pieces: &[Piece],
    layouts: &[Layout],
) -> Result<Vec<Finding>, Error> {
    let mut findings = stretched(pieces, asked.max_stretch);
    findings.extend(outside(pieces, layouts, asked.tolerances.flattening)?);
    Ok(findings)
}

/// Whether a finding is one of [`checked`].
pub(in crate::plan) fn is_checked(finding: &Finding) -> bool {
    matches!(
        finding.kind,
        FindingKind::Stretch { .. }
            | FindingKind::OffTheQuilt { .. }
            | FindingKind::OverSeam { .. }
            | FindingKind::OutsideBand { .. }
            | FindingKind::UnderBinding { .. }
    )
}

/// Gives findings of a side or a corner the number of its piece.
pub(in crate::plan) fn name_pieces(findings: &mut [Finding], pieces: &[Piece]) {
    let unnamed = findings
        .iter_mut()
        .filter(|finding| finding.piece.is_none());
    for finding in unnamed {
        let (side, corner) = (finding.side, finding.corner);
        let about = |piece: &Piece| match &piece.kind {
            PieceKind::Side(detail) => side == Some(detail.side),
            PieceKind::Corner(detail) => corner == Some(detail.position),
            PieceKind::Link(_) | PieceKind::Field(_) | PieceKind::Ring(_) => false,
        };
        let own = |piece: &Piece| Some(piece.border) == finding.border && about(piece);
        finding.piece = pieces.iter().position(own);
    }
}
