//! Units of length, lengths as people type them, lengths as people read them.
//!
//! Inside a plan all lengths are millimetres; the unit that was asked for appears only at the
//! edges.

mod length;
mod rounded;
mod unit;

pub use length::Length;
pub use unit::Unit;

pub(crate) use rounded::rounded;
pub(crate) use unit::nearest;

#[cfg(test)]
mod tests;
