//! Fitting repeats to the room there is.

mod ease;
mod ring;
mod span;

pub use ease::{Ease, EaseLimits, EaseReport, Stiffness};
pub use ring::{
    Alternative, DepthGroup, DepthRange, GroupFit, RingSide, StretchLimit, alternatives, fit_ring,
    fit_rings,
};
pub(crate) use span::MAX_REPEATS;
pub use span::{Choice, Count, Parity, SpanFit, choices_around, fit_span};
