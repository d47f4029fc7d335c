//! What a stitched line takes: seconds at the machine, needle and bobbin thread.

mod clock;
mod motion;
mod thread;

pub use clock::Clock;
pub use motion::{MachineLimits, Time, stitching_time};
pub use thread::{Thread, ThreadNeed, ThreadOptions, lockstitch_thread, thread_need};
