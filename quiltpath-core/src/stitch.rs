//! From path to cloth: needle points along a line, tie-offs at its ends, the time and the thread.
//!
//! [`job`] does all of it for many lines. All lengths of a call are in the unit of its lines; x to
//! the right, y down.

pub mod estimate;
pub mod job;
pub mod resample;
pub mod tie_off;
