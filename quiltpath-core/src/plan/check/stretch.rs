//! Sides whose stretch is beyond the limit.

use crate::plan::chained::beyond;
use crate::plan::finding::Finding;
use crate::plan::piece::{Piece, PieceKind};

/// Looks at every side whose stretch is beyond the limit, given as a fraction.
pub(in crate::plan) fn stretched(pieces: &[Piece], limit: f64) -> Vec<Finding> {
    let look = |(number, piece): (usize, &Piece)| {
        let PieceKind::Side(side) = &piece.kind else {
            return None;
        };
        // Of a side that has begun, what is open is reported where it is filled.
        let kind = beyond(&side.fit, limit).filter(|_| !piece.has_begun())?;
        let found = Finding::warning(kind).on_piece(number, piece);
        Some(found.at(piece.start().point))
    };
    pieces.iter().enumerate().filter_map(look).collect()
}
