//! From path to cloth: what a stitched line takes.

pub mod estimate;
