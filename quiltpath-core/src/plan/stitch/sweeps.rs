//! Corners first: which parts of a plan go into which sweep, and how far the quilt is rolled.
//!
//! Method: the atoms of corners are the first sweep, those of sides and of links the second.
//! Corners are not joined to each other, so each is a run of its own. With two loadings corners are
//! stitched upright where that takes them whole, before the sides of either loading. The window of
//! a corner takes its seam corner in, so that it can be touched, where it is high enough. Failure:
//! a corner that fits a window only when the quilt is turned comes after the sides that lie across
//! before.

use super::data::PlannedPass;
use crate::geom::{Bounds, Point};
use crate::order::{Divided, Loading, OrderOptions, Sweep};
use crate::plan::piece::PieceKind;
use crate::plan::solved::Solved;

/// Whether a piece is a corner.
pub(super) fn is_corner(solved: &Solved, piece: usize) -> bool {
    matches!(solved.pieces[piece].kind, PieceKind::Corner(_))
}

/// Of a corner, the corner of its border's inner seam.
pub(super) fn seam_corner(solved: &Solved, piece: usize) -> Option<Point> {
    let piece = &solved.pieces[piece];
    let PieceKind::Corner(corner) = &piece.kind else {
        return None;
    };
    let seam = solved.layouts[piece.border].band.seam.corners();
    seam.get(corner.position.index()).copied()
}

/// Puts corners into the first sweep and all else into the second; `corner` tells of what is
/// divided the seam corner, if it is of a corner.
pub(super) fn corners_first(
    corner: impl Fn(usize) -> Option<Point>,
    divided: &mut Divided,
    frame: &OrderOptions,
) {
    for (atom, stretch) in divided.atoms.iter_mut().zip(&divided.stretches) {
        let Some(seam) = corner(stretch.piece) else {
            atom.sweep = Sweep::Second;
            continue;
        };
        if frame.takes(Loading::Upright, &atom.bounds) {
            atom.loading = Loading::Upright;
        }
        let with_seam = atom.bounds.union(&Bounds {
            min: seam,
            max: seam,
        });
        if frame.takes(atom.loading, &with_seam) {
            atom.bounds = with_seam;
        }
    }
}

/// How far the quilt is rolled on or back before each pass but the first of a loading.
pub(super) fn moves(passes: &[PlannedPass]) -> impl Iterator<Item = f64> {
    let pairs = passes.windows(2).map(|pair| [&pair[0], &pair[1]]);
    let within = pairs.filter(|[one, next]| one.loading == next.loading);
    within.map(|[one, next]| (next.top - one.top).abs())
}

/// How many times the quilt is advanced for a move: one for each throat begun.
pub(super) fn advances(way: f64, throat: f64) -> usize {
    // A move as long as the throat is one, whatever it was rounded to.
    (way / throat - 1e-9).ceil().max(0.0) as usize
}

#[cfg(test)]
mod tests {
    use super::advances;

    #[test]
    fn a_move_takes_an_advance_for_each_throat_begun() {
        let counted =
            [0.0, 1.0, 18.0, 18.0 + 1e-12, 18.1, 36.0, 80.0].map(|way| advances(way, 18.0));
        assert_eq!(counted, [0, 1, 1, 1, 2, 2, 5]);
        assert_eq!(advances(f64::NAN, 18.0), 0);
    }
}
