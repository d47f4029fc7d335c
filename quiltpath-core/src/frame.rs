//! At the frame: a solved plan laid on the cloth as it lies, stopped, taken up again, finished.
//!
//! The plan knows nothing of what happens here. A pass is laid by readings of its marks
//! ([`lay_and_refit`]) and judged ([`judge`]) before a needle moves.

mod judge;
mod lay;
mod line;
mod origin;
mod progress;
mod readable;
mod refit;
mod tape;

pub use judge::{Clearance, LaidFinding, LaidFindingKind, judge};
pub use lay::{LaidPass, LaidRun, MarkReading, lay_pass, pass_map};
pub use line::DEFAULT_CHORD_MM;
pub use origin::Origin;
pub use progress::{MarkRead, PassRead, Progress, Stopped};
pub use readable::readable_marks;
pub use refit::{Laying, Refitted, lay_and_refit};
pub use tape::taped;

#[cfg(test)]
mod tests;
