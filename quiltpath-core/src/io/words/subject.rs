//! What a finding is about: a drawing, a piece, a border.

use crate::plan::{Finding, FindingKind, Piece, PieceKind, Solved};

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
        | FindingKind::BestWay { .. }
        | FindingKind::BetterWay { .. }
        | FindingKind::WaysOut { .. }
        | FindingKind::CornerSlanted { .. }
        | FindingKind::CornersAlike { .. }
        | FindingKind::MitreKink { .. }
        | FindingKind::MitreNotSmoothed { .. }
        | FindingKind::MitreLoops { .. }
        | FindingKind::CornersClose { .. }
        | FindingKind::StationsInCorner { .. }
        | FindingKind::Kept { .. }
        | FindingKind::BlocksKept { .. }
        | FindingKind::TrianglesCut { .. }
        | FindingKind::StitchedTwice { .. } => border(),
        _ => own().or_else(border),
    }
}

/// The name of a piece by its number.
pub(super) fn name(solved: &Solved, piece: usize) -> Option<String> {
    solved.pieces.get(piece).map(|piece| piece.name.clone())
}

/// What a finding is about, as people call it: `top side` or `top left corner`, with the border's
/// name where there are several; a drawing by its name.
#[must_use]
pub fn finding_about(finding: &Finding, solved: &Solved) -> Option<String> {
    let piece = finding.piece.and_then(|at| solved.pieces.get(at));
    let subject = finding_subject(finding, solved)?;
    if solved.layouts.iter().any(|layout| layout.name == subject) {
        let place = finding.side.map(|side| side.to_string());
        let place = place.or_else(|| finding.corner.map(|corner| corner.to_string()));
        return match place {
            Some(place) => finding
                .border
                .map(|border| of_border(solved, border, place)),
            None => (solved.layouts.len() > 1).then_some(subject),
        };
    }
    match piece.filter(|piece| subject.starts_with(&piece.name)) {
        Some(piece) => match &finding.kind {
            FindingKind::LinesClose {
                other: Some(other), ..
            } => {
                let other = solved.pieces.get(*other)?;
                Some(format!(
                    "{} and {}",
                    piece_about(piece, solved),
                    piece_about(other, solved)
                ))
            }
            _ => Some(piece_about(piece, solved)),
        },
        None => Some(subject),
    }
}

/// A piece as people call it: `top side` or `top left corner`, with the border's name where there
/// are several.
pub(in crate::io) fn piece_about(piece: &Piece, solved: &Solved) -> String {
    let words = match &piece.kind {
        PieceKind::Corner(corner) => corner.position.to_string(),
        PieceKind::Side(side) => side.side.to_string(),
        PieceKind::Link(side) => format!("link beside the {side}"),
        PieceKind::Ring(_) => "all round".to_owned(),
        PieceKind::Field(detail) => return detail.place.to_string(),
    };
    of_border(solved, piece.border, words)
}

fn of_border(solved: &Solved, border: usize, words: String) -> String {
    match solved.layouts.get(border) {
        Some(layout) if solved.layouts.len() > 1 => format!("{}, {words}", layout.name),
        _ => words,
    }
}
