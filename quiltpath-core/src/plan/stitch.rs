//! A solved plan as it is stitched on the frame.

mod along;
mod data;
mod left;
mod minutes;
mod options;
mod plan;
mod runs;
mod sweeps;
mod timed;

pub use data::{PlannedPass, PlannedRun, RunPart, Stitching};
pub use minutes::FrameTime;
pub use plan::stitch_plan;
