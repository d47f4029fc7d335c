//! Fitting repeats to the room there is.

pub mod ease;
pub mod ring;
pub mod span;

pub use ease::{Ease, EaseLimits, EaseReport, Stiffness};
pub use ring::{
    Alternative, DepthGroup, DepthRange, GroupFit, RingSide, StretchLimit, alternatives, fit_ring,
    fit_rings,
};
pub use span::{Choice, Count, Parity, SpanFit, fit_span};
