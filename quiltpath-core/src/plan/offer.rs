//! What a plan that is solved leaves to choose: numbers of repeats, depth and slack of bands, and
//! the changes that a finding offers as a way out.

mod change;
mod choices;
mod drawn;
mod room;
mod ways;

pub use change::Change;
pub use choices::{NumberChoice, SideChoices, side_choices};
pub use drawn::{DrawnFor, DrawnLines, DrawnShape, drawn_lines};
pub use room::{BorderRoom, border_rooms};
pub use ways::ways_of;
