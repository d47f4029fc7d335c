//! From path to cloth: needle points along a line, and what it takes.

pub mod estimate;
pub mod resample;
