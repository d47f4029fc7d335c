//! The ends of lines that are stitched already, and which of them a pass goes on from.

use std::collections::HashMap;

use super::mark::{LineEndMark, Mark, MarkKind, MarkedPiece};
use crate::geom::Point;
use crate::plan::piece::{Piece, PieceKind};
use crate::plan::stitch::{PlannedRun, RunPart};

/// Ends within this of each other, in millimetres, are one place.
const SAME_MM: f64 = 1e-3;

/// The side of the cells that ends are looked up by, in millimetres; larger than [`SAME_MM`].
const CELL_MM: f64 = 1.0;

/// The ends of lines that are stitched already.
#[derive(Debug, Clone, Default)]
pub(in crate::plan) struct StitchedEnds {
    cells: HashMap<[i64; 2], Vec<Mark>>,
}

fn cell(point: Point) -> [i64; 2] {
    [point.x, point.y].map(|value| (value / CELL_MM).floor() as i64)
}

impl StitchedEnds {
    /// Adds an end, once.
    pub(in crate::plan) fn add(&mut self, mark: Mark) {
        if self.at(mark.point).is_none() {
            self.cells.entry(cell(mark.point)).or_default().push(mark);
        }
    }

    /// Adds both ends of each part of a run, with the pieces that the parts are of.
    pub(in crate::plan) fn add_run(&mut self, pieces: &[Piece], run: &PlannedRun) {
        let points = run.motif.points();
        let (Some(first), Some(last)) = (run.parts.first(), run.parts.last()) else {
            return;
        };
        if !run.closed {
            self.add(end(pieces, first, true, points[0]));
            self.add(end(pieces, last, false, points[points.len() - 1]));
        }
        // Where a run goes on from one piece to the next, a line of a later pass may begin, too.
        for part in &run.parts {
            let piece = &pieces[part.piece];
            for (which, point) in [(true, piece.start().point), (false, piece.end().point)] {
                let reached = match which {
                    true => part.between[0] <= 0.0,
                    false => part.between[1] >= 1.0,
                };
                if reached {
                    let starts = which != part.reversed;
                    self.add(end(pieces, part, starts, point));
                }
            }
        }
    }

    /// The stitched end at a place.
    fn at(&self, point: Point) -> Option<&Mark> {
        let [column, row] = cell(point);
        let near =
            (-1..=1).flat_map(|down| (-1..=1).map(move |right| [column + right, row + down]));
        let mut marks = near.filter_map(|cell| self.cells.get(&cell)).flatten();
        marks.find(|mark| (mark.point - point).norm() <= SAME_MM)
    }
}

/// The end of a part of a piece as a mark: of its start as it is stitched, or of its end.
fn end(pieces: &[Piece], part: &RunPart, starts: bool, point: Point) -> Mark {
    let piece = &pieces[part.piece];
    let at = usize::from(starts == part.reversed);
    let (at, of) = match (part.in_repeats, &piece.kind) {
        (Some(repeats), PieceKind::Side(_)) => (repeats[at], piece.line().ends.len()),
        _ => (part.between[at], 1),
    };
    let end = LineEndMark {
        border: piece.border,
        piece: MarkedPiece::of(&piece.kind),
        at,
        of,
        stitched: true,
    };
    Mark::new(MarkKind::LineEnd(end), point)
}

/// The stitched ends where runs start or end, each once.
pub(in crate::plan) fn meets(runs: &[PlannedRun], earlier: &StitchedEnds) -> Vec<Mark> {
    let mut marks: Vec<Mark> = Vec::new();
    for run in runs {
        let points = run.motif.points();
        for point in [points[0], points[points.len() - 1]] {
            let Some(mark) = earlier.at(point) else {
                continue;
            };
            if !marks.iter().any(|other| other.point == mark.point) {
                marks.push(*mark);
            }
        }
    }
    marks
}
