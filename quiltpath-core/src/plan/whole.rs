//! Whether a solved plan and its stitching have all that they refer to, before they are used.
//!
//! What is solved here has it. But its lists are open: pieces or borders may be taken out, or a
//! stitching go with another plan.

use std::ops::Range;

use crate::error::{Error, PlanFault};
use crate::geom::ConvexPolygon;
use crate::plan::lay::layout::Layout;
use crate::plan::piece::PieceKind;
use crate::plan::solved::Solved;
use crate::plan::stitch::Stitching;

/// Refuses a plan that refers to a border, a side or a piece that is not there, or whose borders
/// have another number of sides than its quilt, and a stitching that refers to a piece, a run, a
/// pass or a stitched line that is not there.
pub(crate) fn check_whole(solved: &Solved, stitching: Option<&Stitching>) -> Result<(), Error> {
    let borders = Listed::new("border", solved.layouts.len());
    let pieces = Listed::new("piece", solved.pieces.len());
    for layout in &solved.layouts {
        let sides = match layout.is_field() {
            true => layout.band.sides(),
            false => solved.quilt.outline.sides(),
        };
        check_sides(layout, sides)?;
    }
    for piece in &solved.pieces {
        borders.has(piece.border)?;
        let band = &solved.layouts[piece.border].band;
        match &piece.kind {
            PieceKind::Corner(corner) => {
                Listed::new("corner", band.sides()).has(corner.position.index())?;
            }
            PieceKind::Side(side) => Listed::new("side", band.sides()).has(side.side.index())?,
            PieceKind::Link(side) => Listed::new("side", band.sides()).has(side.index())?,
            PieceKind::Field(_) | PieceKind::Ring(_) => {}
        }
    }
    for join in &solved.joins {
        pieces.has(join.from)?;
        pieces.has(join.to)?;
    }
    for path in &solved.paths {
        borders.has(path.border)?;
        path.pieces
            .iter()
            .try_for_each(|&piece| pieces.has(piece))?;
    }
    let Some(stitching) = stitching else {
        return Ok(());
    };
    let runs = Listed::new("run", stitching.runs.len());
    let lines = Listed::new("stitched line", stitching.job.lines.len());
    let passes = Listed::new("pass", stitching.passes.len());
    for pass in &stitching.passes {
        runs.have(&pass.runs)?;
    }
    for (run, index) in stitching.runs.iter().zip(0..) {
        lines.has(index)?;
        passes.has(run.pass)?;
        run.parts
            .iter()
            .try_for_each(|part| pieces.has(part.piece))?;
    }
    Ok(())
}

/// Refuses a border with another number of sides than its quilt, or of widths than sides.
fn check_sides(layout: &Layout, sides: usize) -> Result<(), Error> {
    let band = &layout.band;
    let outlines = [&band.edge, &band.seam, &band.outer, &band.inner].map(ConvexPolygon::sides);
    let mut counts = outlines.into_iter().chain([layout.widths.len()]);
    match counts.find(|&count| count != sides) {
        Some(count) => Listed::new("side", count.min(sides)).has(count.max(sides) - 1),
        None => Ok(()),
    }
}

/// A list that others refer to by numbers.
struct Listed {
    what: &'static str,
    count: usize,
}

impl Listed {
    fn new(what: &'static str, count: usize) -> Self {
        Self { what, count }
    }

    fn has(&self, number: usize) -> Result<(), Error> {
        if number < self.count {
            return Ok(());
        }
        let Self { what, count } = *self;
        Err(PlanFault::NotThere {
            what,
            number,
            count,
        }
        .into())
    }

    fn have(&self, numbers: &Range<usize>) -> Result<(), Error> {
        match numbers.end.checked_sub(1) {
            Some(last) if !numbers.is_empty() => self.has(last),
            _ => Ok(()),
        }
    }
}
