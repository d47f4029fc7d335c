//! Corners of a border ring: drawn ones, sized by their legs and placed four times.

pub mod leg;

pub use leg::{Arrangement, CornerPosition, SizedCorner, size_corner};
