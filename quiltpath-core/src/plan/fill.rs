//! A border filled: repeats chained along each span, corners and links between them, all as pieces.

mod kept;
mod middle;
mod ring;
mod round;
mod side;

pub(in crate::plan) use ring::{Filled, Named, fill, followed, stitched};
pub(in crate::plan) use round::fill_round;
pub(in crate::plan) use side::stiffness;
