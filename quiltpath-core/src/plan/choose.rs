//! Depth and numbers of repeats: chosen side by side, for a whole border, or for all borders.

mod cut;
mod depth;
mod group;
mod numbers;
mod share;
mod ways;

pub(in crate::plan) use cut::{Full, cut_best};
pub(in crate::plan) use depth::{Chosen, choose_depth, counts};
pub(in crate::plan) use numbers::fits;
pub(in crate::plan) use share::choose_shared;
pub(in crate::plan) use ways::ways_out;
