//! What a stitched line takes: seconds at the machine, needle and bobbin thread.

mod motion;
mod thread;

pub use motion::{MachineLimits, Time, stitching_time};
pub use thread::{Thread, ThreadNeed, ThreadOptions, lockstitch_thread, thread_need};
