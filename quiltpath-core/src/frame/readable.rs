//! All marks of a pass that may be read: those chosen for it, and others that can be named.

use super::lay::{parts_of, planned_pass};
use crate::error::Error;
use crate::geom::Point;
use crate::plan::{
    CornerPlace, LineEndMark, Mark, MarkKind, MarkLine, MarkedPiece, Piece, PieceKind, Solved,
    Stitching,
};

/// The marks of a pass first, then every corner of a seam and of the raw edge, and where each piece
/// of the pass starts and ends, such as the ends of a side's span; each place once.
///
/// # Errors
///
/// A plan error when the stitching has no such pass.
///
/// # Complexity
///
/// O(marks²), for few marks.
pub fn readable_marks(
    solved: &Solved,
    stitching: &Stitching,
    pass: usize,
) -> Result<Vec<Mark>, Error> {
    let planned = planned_pass(stitching, pass)?;
    let mut marks = planned.marks.clone();
    let mut add = |kind: MarkKind, point: Point| {
        if !marks.iter().any(|mark| (mark.point - point).norm() < 1e-6) {
            marks.push(Mark { kind, point });
        }
    };
    for (border, layout) in solved.layouts.iter().enumerate() {
        if layout.is_round() {
            continue;
        }
        let seam = (&layout.band.seam, MarkLine::Seam(border));
        let edge = (&layout.band.edge, MarkLine::RawEdge);
        for (line, name) in [seam].into_iter().chain((border == 0).then_some(edge)) {
            let corners = CornerPlace::all(line.sides()).zip(line.corners());
            for (corner, &point) in corners {
                add(MarkKind::Corner { line: name, corner }, point);
            }
        }
    }
    for part in parts_of(stitching, planned) {
        let piece = &solved.pieces[part.piece];
        if part.between[0] <= 0.0 {
            add(end(piece, 0.0), piece.start().point);
        }
        if part.between[1] >= 1.0 {
            add(end(piece, 1.0), piece.end().point);
        }
    }
    Ok(marks)
}

fn end(piece: &Piece, share: f64) -> MarkKind {
    let of = match &piece.kind {
        PieceKind::Side(side) => side.fit.chosen.repeats,
        _ => 1,
    };
    MarkKind::LineEnd(LineEndMark {
        border: piece.border,
        piece: MarkedPiece::of(&piece.kind),
        at: share * of as f64,
        of,
        stitched: false,
    })
}
