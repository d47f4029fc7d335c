//! What the frame takes, and the quilt on it.

use crate::geom::Bounds;

/// How many more passes than the fewest are looked at for fewer thread cuts: 2.
pub const MORE_PASSES: usize = 2;

/// The frame and the quilt on it, in the unit of the atoms.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct OrderOptions {
    /// How much of the quilt can be stitched before it is advanced.
    pub throat: f64,
    /// The box of the quilt on the cloth; the machine's coordinates start at its left edge.
    pub quilt: Bounds,
    /// How many more passes than the fewest there may be where that saves thread cuts: up to
    /// [`MORE_PASSES`], 0 by default.
    pub more_passes: usize,
}

impl OrderOptions {
    /// A frame that takes so much of the quilt before it is advanced, and the quilt's box.
    ///
    /// The numbers are checked where they are used.
    #[must_use]
    pub fn new(throat: f64, quilt: Bounds) -> Self {
        let more_passes = 0;
        Self {
            throat,
            quilt,
            more_passes,
        }
    }

    /// The same frame with so many more passes than the fewest where that saves thread cuts; up to
    /// [`MORE_PASSES`] are looked at.
    #[must_use]
    pub fn with_more_passes(mut self, more_passes: usize) -> Self {
        self.more_passes = more_passes;
        self
    }
}
