//! Fitting repeats to the room there is.

pub mod span;

pub use span::{Choice, Count, Parity, SpanFit, fit_span};
