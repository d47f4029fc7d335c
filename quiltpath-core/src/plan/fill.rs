//! A border filled: repeats chained along each span, corners and links between them, all as pieces.

mod ring;
mod side;

pub(in crate::plan) use ring::{Filled, Named, closed, fill, stitched};
pub(crate) use side::ease_is_limited;
pub(in crate::plan) use side::stiffness;
