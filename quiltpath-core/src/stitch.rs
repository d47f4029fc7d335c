//! From path to cloth: needle points along a line, tie-offs at its ends, and what it takes.

pub mod estimate;
pub mod job;
pub mod resample;
pub mod tie_off;
