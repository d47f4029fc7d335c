//! At the frame: a solved plan laid on the cloth as it lies, stopped, taken up again, finished.
//!
//! The plan knows nothing of what happens here. A pass is laid by readings of its marks
//! ([`lay_and_refit`]) and judged ([`judge`]) before a needle moves, and looked at with the needle
//! up ([`needle_up`]); a run that stopped goes on from there ([`rest_of`]).

mod bobbins;
mod judge;
mod lay;
mod lengths;
mod line;
mod needle_up;
mod pass_check;
mod progress;
mod readable;
mod refit;
mod resume;
mod tape;

pub use bobbins::{
    BobbinChange, BobbinChanges, ChangeAt, RunPlace, bobbin_changes, changes_to_come,
};
pub use judge::{Clearance, LaidFinding, LaidFindingKind, judge};
pub use lay::{LaidPass, LaidRun, MarkReading, lay_pass, pass_map};
pub use lengths::planned_length;
pub use line::DEFAULT_CHORD_MM;
pub use needle_up::{
    CheckStop, CheckedLine, Limit, LimitKind, MOST_STOPS, NeedleUp, Reach, There, limits_of,
    needle_up,
};
pub use pass_check::{check_laid, check_pass, check_piece, pass_window};
pub use progress::{MarkRead, PassRead, Progress, Stopped};
pub use readable::readable_marks;
pub use refit::{Laying, Refitted, lay_and_refit};
pub use resume::{
    BACK_MM, FARTHEST_MM, Rest, STRANDS_MM, Stop, Strand, rest_of, stitched_length, strands_at,
};
pub use tape::taped;

#[cfg(test)]
mod tests;
