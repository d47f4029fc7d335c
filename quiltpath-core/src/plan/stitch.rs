//! A solved plan as it is stitched on the frame.

mod data;
mod options;
mod plan;
mod runs;

pub use data::{PlannedPass, PlannedRun, RunPart, Stitching};
pub use plan::stitch_plan;
