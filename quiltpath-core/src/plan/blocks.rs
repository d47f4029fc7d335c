//! The blocks of a quilt top within its borders, with sashes, cornerstones and triangles.
//!
//! A street of its own beside that of the borders: asked and laid out, drawings made ready, sashes
//! sized, pieces filled, checked. What comes out are pieces and joins like those of a border.

mod asked;
mod check;
mod design;
mod drawings;
mod fill;
mod kept;
mod lines;
mod pairs;
mod sash;
mod sashes;
mod triangles;

pub(in crate::plan) use asked::{BlocksAsked, blocks_asked, cut_price};
pub(in crate::plan) use check::outside_places;
pub(in crate::plan) use design::Design;
pub(in crate::plan) use drawings::FieldDrawings;
pub(in crate::plan) use fill::fill_field;
pub(in crate::plan) use kept::keep_pieces;

#[cfg(test)]
mod tests;
