//! What a finding is about: a drawing, a piece, a border.

use crate::plan::{Finding, FindingKind, Solved};

/// What a finding is about, as its sentence begins: a drawing, a piece or a border by its name.
#[must_use]
pub fn finding_subject(finding: &Finding, solved: &Solved) -> Option<String> {
    let border = || {
        let layout = solved.layouts.get(finding.border?)?;
        Some(layout.name.clone())
    };
    let own = || finding.piece.and_then(|piece| name(solved, piece));
    match &finding.kind {
        FindingKind::DrawingLinked { drawing, .. }
        | FindingKind::OneLine { drawing, .. }
        | FindingKind::Backwards { drawing }
        | FindingKind::LegUnclear { drawing, .. }
        | FindingKind::CornerUneven { drawing, .. }
        | FindingKind::Trimmed { drawing, .. } => Some(drawing.clone()),
        FindingKind::MeasuresDisagree { .. }
        | FindingKind::NoDiagonal { .. }
        | FindingKind::DepthShared { .. }
        | FindingKind::JoinOpen { .. }
        | FindingKind::JoinKink { .. }
        | FindingKind::Crowded { .. }
        | FindingKind::Unlisted { .. } => None,
        FindingKind::LinesClose {
            other: Some(other), ..
        } => {
            let other = name(solved, *other)?;
            Some(format!("{} and {other}", own()?))
        }
        FindingKind::DepthChosen { .. }
        | FindingKind::WaysOut { .. }
        | FindingKind::CornerSlanted { .. }
        | FindingKind::CornersAlike { .. }
        | FindingKind::MitreKink { .. }
        | FindingKind::MitreNotSmoothed { .. }
        | FindingKind::MitreLoops { .. }
        | FindingKind::CornersClose { .. }
        | FindingKind::StationsInCorner { .. }
        | FindingKind::Kept { .. }
        | FindingKind::StitchedTwice { .. } => border(),
        _ => own().or_else(border),
    }
}

/// The name of a piece by its number.
pub(super) fn name(solved: &Solved, piece: usize) -> Option<String> {
    solved.pieces.get(piece).map(|piece| piece.name.clone())
}
