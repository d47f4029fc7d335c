//! What is stitched, kept where it is while the rest of a border is solved again.
//!
//! Problem: a border has begun, measures have changed, and what is stitched stays on the cloth: it
//! has to be carried to where the new measures have that cloth, and the rest has to meet it.
//! Method: a corner is carried by the rigid motion that takes the old corner of the inner seam with
//! its bisector to the new one. Whole repeats that are begun stand in blocks; a block is turned as
//! its side is, and moved so that its end goes where that of its corner goes; blocks between open
//! repeats share the change of the side's length in proportion to the open repeats before them, so
//! that all open repeats are stretched alike. Guarantee: what is kept keeps its distances; with the
//! measures as they were it keeps its bits. A corner that is not begun, next to a side that is, is
//! drawn to its end. Failure: borders, sides, corner styles and depths that a plan no longer has.

mod band;
mod border;
mod hold;
mod motion;
mod side;

pub(in crate::plan) use band::keep;
pub(in crate::plan) use border::KeptBorder;
pub(in crate::plan) use hold::hold;
pub(in crate::plan) use side::KeptSide;
