//! What is checked of a solved plan: measures, stretch, lines outside their band, lines that stitch
//! badly.

mod along;
mod bounds;
mod lines;
mod measures;
mod pieces;
mod stitches;
mod stretch;

pub(in crate::plan) use lines::{joins, lines};
pub(in crate::plan) use measures::{disagreeing, unmeasured};
pub(in crate::plan) use pieces::{checked, is_checked, name_pieces};
pub(in crate::plan) use stitches::stitches;
