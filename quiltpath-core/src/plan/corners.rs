//! The corners of one border: made ready once, then placed where two sides meet at any depth.

mod block;
mod cut;
mod drawn;
mod made;
mod place;
mod placed;
mod prepare;

pub(in crate::plan) use place::{place, place_fixed};
pub(in crate::plan) use placed::{CornerPiece, Corners};
pub(in crate::plan) use prepare::{Prepared, prepare};

#[cfg(test)]
pub(in crate::plan) use cut::CUTS;
#[cfg(test)]
pub(in crate::plan) use place::PLACED;
