//! The L in a corner motif: where its legs meet, how deep they are, where the line enters and leaves.
//!
//! Problem: a drawing says nothing about its legs, yet a corner is sized by the depth of its legs
//! and placed by its elbow. Method: the empty inner corner is the largest empty rectangle in a
//! corner of the drawing's box (`empty_corner`); what it leaves of the box are the legs
//! (`analyse`); a drawing that isn't square is turned first (`turns`).
//!
//! Failure cases: a drawing without an empty corner, or one whose line doesn't run from leg to
//! leg, is refused unless the user says elbow and depths; doubtful readings carry notes.

mod analyse;
mod doubts;
mod empty_corner;
mod given;
mod reading;
mod regions;
mod rough;
mod shape;
mod turns;

pub use analyse::{analyse_legs, choose_leg};
pub use given::LegGiven;
pub use regions::{l_region, leg_end, rectangle, triangle_half};
pub use rough::rough_leg_depth;
pub use shape::{LegName, LegShape};

/// The corner of the drawing's box where the legs meet.
pub(crate) use crate::geom::BoxCorner as Elbow;

#[cfg(test)]
mod tests;
