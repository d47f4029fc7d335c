//! Rings of sides that share a depth: the best fit of all of them, and what else would hold.

mod alternatives;
mod choose;
mod group;
mod limit;
mod ratio;

pub use alternatives::{Alternative, alternatives};
pub use choose::{fit_ring, fit_rings};
pub use group::{DepthGroup, DepthRange, GroupFit, RingSide};
pub use limit::StretchLimit;

#[cfg(test)]
mod tests;
