//! The words that people read about a plan: its findings in plain sentences, in the plan's unit.
//!
//! Everything below this floor carries data; the sentences are made here, once.

mod brief;
mod change;
#[cfg(all(feature = "json", feature = "svg"))]
mod drawn;
mod ease;
mod finding;
mod frame;
mod kept;
mod laid;
mod leg;
mod lying;
mod mark;
mod minutes;
mod one_line;
mod scan;
mod short;
#[cfg(feature = "svg")]
mod steps;
mod subject;
mod title;
mod ways;

pub use brief::finding_brief;
pub use change::change;
#[cfg(all(feature = "json", feature = "svg"))]
pub(in crate::io) use drawn::{leg_depths, leg_ends, made_one_line, repeat_ends, sides_meet};
pub use ease::ease_limited;
pub use finding::finding;
pub use frame::{bobbin_change, bobbins, change_at, check_stop, next_bobbin};
pub use laid::{laid, lies, refitted};
pub use leg::leg_doubt;
pub use lying::way_told;
pub use mark::mark;
pub use minutes::{MinutesFor, minutes_for};
pub use one_line::one_line;
pub use scan::{ScanSentence, ScanTopic, scanned};
#[cfg(feature = "svg")]
pub(crate) use short::{counted, line_both, percent};
#[cfg(feature = "svg")]
pub use steps::{brought, pass_steps};
#[cfg(feature = "svg")]
pub(in crate::io) use subject::piece_about;
pub use subject::{finding_about, finding_subject};
pub use title::finding_title;
