//! A border filled: repeats chained along each span, corners and links between them, all as pieces.

mod ring;
mod side;

pub(in crate::plan) use ring::{Filled, fill};
pub(crate) use side::ease_is_limited;
