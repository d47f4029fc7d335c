//! Corners on the cloth, with the joints of the sides between them.

use crate::motif::Motif;
use crate::plan::joint::Joint;
use crate::plan::piece::CornerDetail;

/// A corner on the cloth, or one of the lines of a block.
#[derive(Debug, Clone)]
pub(in crate::plan) struct CornerPiece {
    pub(in crate::plan) motif: Motif,
    pub(in crate::plan) detail: CornerDetail,
    /// What of it is stitched, as shares of its length.
    pub(in crate::plan) stretches: Vec<[f64; 2]>,
}

impl CornerPiece {
    /// A corner of which nothing is stitched.
    pub(in crate::plan) fn new(motif: Motif, detail: CornerDetail) -> Self {
        Self {
            motif,
            detail,
            stretches: Vec::new(),
        }
    }
}

/// The corners of one border, clockwise from the first.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Corners {
    /// One at a corner, more for blocks of several lines, or none where the corner square is empty.
    pub(in crate::plan) pieces: Vec<CornerPiece>,
    /// For each corner that sides join on to the joints of those before and after it; a corner that
    /// is not listed has none.
    pub(in crate::plan) joints: Vec<(usize, [Joint; 2])>,
    /// In how many equally good ways they can be cut: 1 unless they are mitres.
    pub(in crate::plan) cuts: usize,
    /// How far, all together, the ends of corners lie from where what is stitched has them.
    pub(in crate::plan) off: f64,
}

impl Corners {
    /// Corners that sides don't join on to, or none.
    pub(in crate::plan) fn apart(pieces: Vec<CornerPiece>) -> Self {
        Self {
            pieces,
            joints: Vec::new(),
            cuts: 1,
            off: 0.0,
        }
    }

    /// The joints of the sides before and after a corner, where they join on to it.
    pub(in crate::plan) fn joints(&self, corner: usize) -> Option<[Joint; 2]> {
        let own = self.joints.iter().find(|(at, _)| *at == corner);
        own.map(|(_, joints)| *joints)
    }

    /// The line of a corner, where there is one.
    pub(in crate::plan) fn at(&self, corner: usize) -> Option<&CornerPiece> {
        let own = |piece: &&CornerPiece| piece.detail.position.index() == corner;
        self.pieces.iter().find(own)
    }

    /// Corners that the sides between them join on to.
    pub(in crate::plan) fn joined(placed: Vec<(CornerPiece, [Joint; 2])>) -> Self {
        let at = |piece: &CornerPiece| piece.detail.position.index();
        Self {
            joints: placed
                .iter()
                .map(|(piece, joints)| (at(piece), *joints))
                .collect(),
            pieces: placed.into_iter().map(|(piece, _)| piece).collect(),
            cuts: 1,
            off: 0.0,
        }
    }
}
