//! Where the cloth lies: readings of marks to a map from the plan to the machine.
//!
//! Problem: on the frame the cloth is turned, pulled and bowed. The needle is put on marks whose
//! place in the plan is known, and the machine's place is read there. Wanted is where every other
//! point of the plan lies. Method: a trend as rich as the readings bear, then a correction that
//! brings the ends of lines already stitched exactly to where they were read:
//!
//! | readings | trend |
//! | --- | --- |
//! | one | a shift |
//! | two, or all on a line | shift, turn, and stretch along the line |
//! | three to five | affine, by least squares |
//! | six and more | a thin-plate spline, as smooth as leave-one-out errors ask for; affine at its smoothest |
//!
//! The correction is a sum of bumps that fade out over the size of all readings, so it neither
//! turns nor stretches what is far from those ends. Guarantee: exact ends are met to rounding; a
//! rigid motion of all readings moves the map by the same; the order of readings is nothing.
//! Failure: a reading that is off by a mistake bends the map; from six on it is named.
//!
//! Sources: F. L. Bookstein, "Principal warps: thin-plate splines and the decomposition of
//! deformations" (1989); G. Wahba, "Spline models for observational data" (1990), for smoothing and
//! the errors of leaving one out; H. Wendland (1995) for the bumps. From memory.

mod aligned;
#[cfg(test)]
pub(crate) mod cloth;
mod course;
mod doubts;
mod line;
mod map;
mod reading;
mod spline;
mod strain;

pub use aligned::{Aligned, ReadingReport, align, align_exactly};
pub use doubts::ReadingDoubt;
pub use map::{ClothMap, Trend};
pub use reading::{DEFAULT_NOISE_MM, Reading};
pub use strain::Strain;
