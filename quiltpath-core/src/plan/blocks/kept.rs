//! What is stitched of the blocks, kept as it lies when a plan is solved round it.
//!
//! Guarantee: a piece that has begun keeps its line, moved with the field; where it is joined to
//! others they meet it within the join tolerance.
//! Failure: a field of other measures; a place that is gone; a line that the others of its sashes
//! no longer meet.

use crate::error::{Error, StitchedFault};
use crate::geom::ConvexPolygon;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::piece::{Join, Piece, PieceKind, PieceLine};
use crate::plan::stitched::{PartPlace, StitchedBorder};
use crate::transform::Transform;

/// Measures that differ by less, in millimetres, are one.
const SAME_MM: f64 = 1e-6;

/// Gives the pieces of a field the lines and stretches of what is stitched; `join` is how close
/// ends are that meet.
pub(in crate::plan) fn keep_pieces(
    begun: &StitchedBorder,
    outline: &ConvexPolygon,
    (pieces, joins): (&mut [Piece], &[Join]),
    join: f64,
) -> Result<Finding, Error> {
    let (old, now) = (&begun.seam, outline.corners());
    let alike = old.len() == now.len()
        && (1..now.len()).all(|at| {
            let moved = (old[at] - old[0]) - (now[at] - now[0]);
            moved.norm() <= SAME_MM
        });
    let changed = |piece: String| Error::from(StitchedFault::BlocksChanged { piece });
    if !alike {
        let first = begun.parts.iter().find(|part| !part.stretches.is_empty());
        return Err(changed(
            first.map_or_else(String::new, |part| name(&part.place)),
        ));
    }
    let shift = Transform::carry(old[0], now[0]);
    let (mut kept_pieces, mut length) = (0, 0.0);
    for part in begun.parts.iter().filter(|part| !part.stretches.is_empty()) {
        let gone = || changed(name(&part.place));
        let at = number(pieces, &part.place).ok_or_else(gone)?;
        let motif = part.line.motif.transformed(&shift)?;
        let motif = motif.with_links(part.line.motif.links().to_vec());
        let ends = [pieces[at].start().point, pieces[at].end().point];
        let kept = [motif.start().point, motif.end().point];
        let joined = [
            joins.iter().any(|other| other.to == at),
            joins.iter().any(|other| other.from == at),
        ];
        let apart = |end: usize| joined[end] && (ends[end] - kept[end]).norm() > join;
        if apart(0) || apart(1) {
            return Err(gone());
        }
        kept_pieces += 1;
        length += part.length();
        let line = PieceLine::new(motif, part.line.ends.clone());
        pieces[at] = pieces[at]
            .clone()
            .with_line(line)
            .with_stitched(part.stretches.clone());
    }
    let pieces = kept_pieces;
    Ok(Finding::note(FindingKind::BlocksKept { pieces, length }))
}

/// The name of a part as its piece has it.
fn name(place: &PartPlace) -> String {
    match place {
        PartPlace::Field { place, .. } => place.to_string(),
        _ => String::new(),
    }
}

/// The number of the piece that a part is.
fn number(pieces: &[Piece], part: &PartPlace) -> Option<usize> {
    let PartPlace::Field { place, line } = part else {
        return None;
    };
    let there = |piece: &Piece| match &piece.kind {
        PieceKind::Field(detail) => detail.place == *place,
        _ => false,
    };
    let first = pieces.iter().position(there)?;
    pieces.get(first + line).filter(|piece| there(piece))?;
    Some(first + line)
}
