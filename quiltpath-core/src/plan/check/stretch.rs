//! Sides whose stretch is beyond the limit.

use crate::plan::finding::{Finding, FindingKind};
use crate::plan::piece::{Piece, PieceKind};

/// Looks at every side whose stretch is beyond the limit, given as a fraction.
pub(in crate::plan) fn stretched(pieces: &[Piece], limit: f64) -> Vec<Finding> {
    let look = |(number, piece): (usize, &Piece)| {
        let PieceKind::Side(side) = &piece.kind else {
            return None;
        };
        let stretch = side.fit.chosen.stretch;
        // Of a side that has begun, what is open is reported where it is filled.
        if (stretch - 1.0).abs() <= limit || piece.has_begun() {
            return None;
        }
        let other = if stretch > 1.0 {
            side.fit.more
        } else {
            side.fit.fewer
        };
        let kind = FindingKind::Stretch {
            repeats: side.fit.chosen.repeats,
            stretch,
            limit,
            instead: other.map(|choice| (choice.repeats, choice.stretch)),
        };
        let found = Finding::warning(kind).on_piece(number, piece);
        Some(found.at(piece.start().point))
    };
    pieces.iter().enumerate().filter_map(look).collect()
}
