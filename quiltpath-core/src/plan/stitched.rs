//! What is stitched already of a quilt, as it was laid, so that a plan can be solved round it.
//!
//! Problem: at the frame a plan is stitched part by part; threads break, measures change. What is
//! stitched must be known by names that hold after a change, with its true line.
//! Method: for each border the corners of its seam and the widths of its band as they were, and for
//! each piece that has begun the whole line as laid with the stretches of it that are stitched, as
//! shares of its length. Guarantee: no stretch is taken down twice; taking one down and taking it
//! back leaves what was there. Failure: a piece whose line or border has changed since, which is
//! refused: the plan is then to be solved round what is stitched.

mod ends;
mod part;
mod stretches;
mod taken;

pub use ends::{LineEnd, StitchedEnd};
pub use part::{PartPlace, Stitched, StitchedBorder, StitchedPart};
