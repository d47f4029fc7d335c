//! What the frame takes, and the quilt on it.

use super::atom::Atom;
use super::loading::Loading;
use super::passes::fits;
use super::throat::Throat;
use crate::error::Error;
use crate::geom::Bounds;
use crate::geom::polyline::check_points;

/// How many more passes than the fewest are looked at for fewer thread cuts: 2.
pub const MORE_PASSES: usize = 2;

/// The frame and the quilt on it, in the unit of the atoms.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct OrderOptions {
    /// How much of the quilt can be stitched before it is advanced.
    pub throat: Throat,
    /// The box of the quilt on the cloth; the machine's coordinates start at its left edge.
    pub quilt: Bounds,
    /// How many more passes than the fewest there may be where that saves thread cuts: up to
    /// [`MORE_PASSES`], 0 by default.
    pub more_passes: usize,
}

impl OrderOptions {
    /// A frame that takes so much of the quilt before it is advanced (a [`Throat`], or its height),
    /// and the quilt's box.
    ///
    /// The numbers are checked where they are used.
    #[must_use]
    pub fn new(throat: impl Into<Throat>, quilt: Bounds) -> Self {
        let more_passes = 0;
        Self {
            throat: throat.into(),
            quilt,
            more_passes,
        }
    }

    /// Refuses a throat that takes nothing and a quilt that is no box.
    pub(super) fn check(&self) -> Result<(), Error> {
        self.throat.check()?;
        let Bounds { min, max } = self.quilt;
        check_points(&[min, max]).map_err(|e| e.in_element("the quilt"))
    }

    /// The top and the bottom of a box on the cloth, from the upper edge of the quilt as loaded.
    pub(super) fn below_top(&self, loading: Loading, bounds: &Bounds) -> [f64; 2] {
        let upper = loading.span(&self.quilt)[0];
        loading.span(bounds).map(|y| y - upper)
    }

    /// The height of the window that begins at the top of an atom.
    #[must_use]
    pub fn reach(&self, atom: &Atom) -> f64 {
        let [top, _] = self.below_top(atom.loading, &atom.bounds);
        self.throat.reach(top)
    }

    /// Whether the window that begins at the top of a box takes it; if not, none does.
    #[must_use]
    pub fn takes(&self, loading: Loading, bounds: &Bounds) -> bool {
        let span = self.below_top(loading, bounds);
        fits(span, self.throat.reach(span[0]))
    }

    /// The same frame with so many more passes than the fewest where that saves thread cuts; up to
    /// [`MORE_PASSES`] are looked at.
    #[must_use]
    pub fn with_more_passes(mut self, more_passes: usize) -> Self {
        self.more_passes = more_passes;
        self
    }
}
