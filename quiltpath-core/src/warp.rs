//! Maps from the strip that a border is drawn in to the cloth.
//!
//! Strip coordinates: s is the distance along, in units of length; t is the offset across,
//! 0 on the inner line and 1 on the outer line. On a band that is not straight s is measured on
//! its middle line, t = 1/2, so that a stretch along means what it says.
//!
//! Five maps: [`Strip`], straight and square; [`RuledBand`], straight lines between stations;
//! [`SplineBand`], smooth curves through them; [`RoundBand`], closed round a curve;
//! [`ScallopedBand`], the same with scallops outside. On each of them the line across at one s is
//! straight and t divides it evenly.

mod band;
mod cubic;
mod round;
mod ruled;
mod scalloped;
mod spline;
mod stations;
mod strip;

pub use band::BandMap;
pub use round::RoundBand;
pub use ruled::{CrossLine, RuledBand};
pub use scalloped::ScallopedBand;
pub use spline::SplineBand;
pub use stations::inset_stations;
pub use strip::Strip;

pub(crate) use band::subdivide;

#[cfg(test)]
mod tests;
