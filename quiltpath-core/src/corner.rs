//! Corners of a border ring: drawn ones, sized by their legs, and ones derived from the repeat.

pub mod bend;
mod derived;
pub mod leg;
pub mod mitre;
pub mod site;

pub use bend::{BendOptions, BendRadius, BentCorner, DEFAULT_LENGTH_CHANGE, bent_corner};
pub use derived::{MAX_ANGLE, MAX_LEG_REPEATS, MIN_ANGLE};
pub use leg::{Arrangement, SizedCorner, size_corner};
pub use mitre::{ExtraLoops, MitreOptions, MitredCorner, mitred_corner};
pub use site::{CornerSite, MAX_SLANTED_DEGREES};
