//! The L in a corner motif: where its legs meet, how deep they are, where the line enters and
//! leaves.
//!
//! Problem: a drawing does not mark its legs, yet a corner is sized by the depth of its legs
//! and placed by its elbow. Method: the empty inner corner is the largest empty rectangle in a
//! corner of the drawing's box (`empty_corner`); what it leaves of the box are the legs
//! (`analyse`); a drawing that isn't square is turned first (`turns`).
//!
//! Failure cases: a drawing without an empty corner, or one whose line doesn't run from leg to
//! leg, is refused unless elbow and depths are given; doubtful readings carry their doubts.

mod analyse;
mod clear;
mod doubt;
mod doubts;
mod empty_corner;
mod given;
mod name;
mod reading;
mod regions;
mod rough;
mod shape;
mod turns;

pub use analyse::{analyse_legs, choose_leg};
pub use clear::is_clear_l;
pub use doubt::LegDoubt;
pub use given::LegGiven;
pub use name::LegName;
pub use regions::{l_region, leg_end, rectangle, triangle_half};
pub use rough::rough_legs;
pub use shape::LegShape;

#[cfg(test)]
mod tests;
