//! The parts of the stitching that are put in order, and the ends at which they are joined.

use super::loading::Loading;
use crate::geom::{Bounds, Point};

/// The most atoms that are put in order together: 10 000.
pub(super) const MAX_ATOMS: usize = 10_000;

/// A part of the stitching that is not to be divided between passes.
///
/// Coordinates on the cloth in any one unit, x to the right, y down.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Atom {
    /// Where its line starts.
    pub start: Point,
    /// Where its line ends.
    pub end: Point,
    /// The box that holds all of it.
    pub bounds: Bounds,
    /// How the quilt lies when it is stitched.
    pub loading: Loading,
    /// Whether it may as well be stitched in the other loading, where that takes fewer passes, cuts
    /// or travel.
    pub either: bool,
    /// In which of the two sweeps of a loading it is stitched.
    pub sweep: Sweep,
}

/// Which of the two sweeps of a loading: down the quilt, then back up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Sweep {
    /// Passes go down the quilt.
    #[default]
    First,
    /// Passes follow those of the first sweep and go back up, so that the quilt is rolled back pass
    /// by pass; down where there is no first one.
    Second,
}

impl Sweep {
    /// Both, in order.
    pub(super) const ALL: [Self; 2] = [Self::First, Self::Second];
}

impl Atom {
    /// An atom from start to end within a box, stitched with the quilt upright.
    #[must_use]
    pub fn new(start: Point, end: Point, bounds: Bounds) -> Self {
        let loading = Loading::Upright;
        Self {
            start,
            end,
            bounds,
            loading,
            either: false,
            sweep: Sweep::First,
        }
    }

    /// The same atom, stitched with the quilt lying this way.
    #[must_use]
    pub fn with_loading(mut self, loading: Loading) -> Self {
        self.loading = loading;
        self
    }

    /// The same atom, stitched in this sweep.
    #[must_use]
    pub fn with_sweep(mut self, sweep: Sweep) -> Self {
        self.sweep = sweep;
        self
    }

    /// The same atom, stitched in whichever loading takes fewer passes.
    #[must_use]
    pub fn in_either_loading(mut self) -> Self {
        self.either = true;
        self
    }
}

/// One end of the atom of this number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AtomEnd {
    /// Where it starts.
    Start(usize),
    /// Where it ends.
    End(usize),
}

impl AtomEnd {
    pub(super) fn atom(self) -> usize {
        match self {
            Self::Start(atom) | Self::End(atom) => atom,
        }
    }

    /// A number for each end: even for starts.
    pub(super) fn number(self) -> usize {
        2 * self.atom() + usize::from(matches!(self, Self::End(_)))
    }
}
