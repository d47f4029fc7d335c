//! The corners of a pass that are stitched by themselves, each to be laid by marks of its own.
//!
//! Problem: one mark tells where a corner lies, not how it is turned; marks far off tell it only as
//! far as the cloth between is straight. Method: near a corner is what is no farther from its seam
//! corner than its line, or the outer corner of its border. Beside the places that every line of
//! the cloth has there are more near each corner, on its seam and, of the outermost border, on the
//! raw edge: where a side begins there, at the greatest round distance within three quarters of
//! what is near.

use super::mark::{AlongLine, Mark, MarkKind, MarkLine};
use crate::geom::Point;
use crate::plan::lay::layout::Layout;
use crate::plan::lay::place::{CornerPlace, Side};
use crate::plan::piece::{Piece, PieceKind};
use crate::plan::stitch::PlannedRun;
use crate::units::Unit;

/// A corner that is stitched by itself.
#[derive(Debug, Clone, Copy)]
pub(in crate::plan) struct OwnCorner {
    border: usize,
    corner: CornerPlace,
    /// Its seam corner.
    pub(super) at: Point,
    /// How far from there is near.
    pub(super) near: f64,
}

impl OwnCorner {
    /// Of a piece that is a corner.
    pub(in crate::plan) fn of(layouts: &[Layout], piece: &Piece) -> Option<Self> {
        let PieceKind::Corner(detail) = &piece.kind else {
            return None;
        };
        let (border, corner) = (piece.border, detail.position);
        let band = &layouts.get(border)?.band;
        let at = *band.seam.corners().get(corner.index())?;
        let outer = *band.edge.corners().get(corner.index())?;
        let away = piece
            .points()
            .chain([outer])
            .map(|point| (point - at).norm());
        Some(Self {
            border,
            corner,
            at,
            near: away.fold(0.0, f64::max),
        })
    }

    /// Those of these runs, each once.
    pub(in crate::plan) fn all(
        layouts: &[Layout],
        pieces: &[Piece],
        runs: &[PlannedRun],
    ) -> Vec<Self> {
        let parts = runs.iter().flat_map(|run| &run.parts);
        let mut numbers: Vec<usize> = parts.map(|part| part.piece).collect();
        numbers.sort_unstable();
        numbers.dedup();
        let corners = numbers
            .iter()
            .map(|&piece| Self::of(layouts, &pieces[piece]));
        corners.flatten().collect()
    }

    /// Whether a mark is its seam corner.
    pub(super) fn is_at(&self, mark: &Mark) -> bool {
        let (line, corner) = (MarkLine::Seam(self.border), self.corner);
        mark.kind == MarkKind::Corner { line, corner }
    }

    /// Whether a mark is near it.
    pub(super) fn is_near(&self, mark: &Mark) -> bool {
        (mark.point - self.at).norm() <= self.near * (1.0 + 1e-9)
    }

    /// The places near it that a line of the cloth may not have otherwise.
    pub(super) fn places(&self, layouts: &[Layout], unit: Unit) -> Vec<Mark> {
        let layout = &layouts[self.border];
        let distance = round_within(unit, 0.75 * self.near);
        let side = Side::all(layout.band.seam.sides()).nth(self.corner.index());
        let seam = (
            &layout.band.seam,
            &layout.lines.seam,
            MarkLine::Seam(self.border),
        );
        let edge = (&layout.band.edge, &layout.lines.edge, MarkLine::RawEdge);
        let lines = [seam].into_iter().chain((self.border == 0).then_some(edge));
        let marks = lines.filter_map(|(straight, line, which)| {
            let side = side.filter(|side| straight.side_length(side.index()) > 2.0 * distance)?;
            let at = AlongLine::From(distance);
            Some(super::places::mark_along((straight, line), which, side, at))
        });
        marks.collect()
    }
}

/// The greatest length within this one that is round: a whole number of inches or of 25 mm, halved
/// until it is within.
fn round_within(unit: Unit, length: f64) -> f64 {
    let one = match unit {
        Unit::In | Unit::Ft => 25.4,
        _ => 25.0,
    };
    match (length / one).floor() {
        none if none < 1.0 => {
            let mut half = one;
            while half > length && half > 1.0 {
                half /= 2.0;
            }
            half
        }
        whole => whole * one,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn round_lengths_are_those_that_a_tape_shows() {
        let lengths = [6.4, 1.0, 0.99, 0.3].map(|inches| round_within(Unit::In, inches * 25.4));
        for (length, wanted) in lengths.into_iter().zip([6.0, 1.0, 0.5, 0.25]) {
            assert!((length / 25.4 - wanted).abs() < 1e-12, "{length}");
        }
        assert_eq!(round_within(Unit::Cm, 160.0), 150.0);
    }
}
