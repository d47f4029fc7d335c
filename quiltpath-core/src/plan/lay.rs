//! Where the quilt and its borders lie: outline, bands, waves, and the names of sides and corners.

pub(in crate::plan) mod field;
pub(in crate::plan) mod layout;
mod lines;
pub(in crate::plan) mod meet;
mod outline;
pub(in crate::plan) mod place;
pub(in crate::plan) mod quilt;
pub(in crate::plan) mod round;
mod wave;

pub use field::{FieldKind, FieldPlace, FieldSpot, Lie, Setting, Slot};
pub use layout::{Layout, layouts};
pub use lines::LayoutLines;
pub use outline::{OutlineBand, SideWidths};
pub use place::{CornerPlace, Side};
pub use quilt::{Measured, Quilt, Squarest};
pub(in crate::plan) use wave::Waved;
