//! Which pieces follow each other without a thread cut.

mod paths;

pub use paths::Path;
pub(in crate::plan) use paths::paths;
