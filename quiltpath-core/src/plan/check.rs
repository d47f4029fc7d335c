//! What is checked of a solved plan: measures, stretch, lines outside their band, lines that stitch badly.

mod bounds;
mod lines;
mod measures;
mod stitches;
mod stretch;

pub(in crate::plan) use bounds::outside;
pub(in crate::plan) use lines::{joins, lines};
pub(in crate::plan) use measures::disagreeing;
pub(in crate::plan) use stitches::stitches;
pub(in crate::plan) use stretch::stretched;
