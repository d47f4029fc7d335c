//! The quilter's plan: what is asked, how it is solved, what is found.

mod bounds;
mod choose;
mod corners;
pub mod findings;
mod inspect;
pub mod layout;
pub mod order;
pub mod outline;
pub mod pieces;
pub mod place;
pub mod quilt;
pub mod rank;
mod repeats;
mod ring;
mod run;
mod share;
pub mod solve;
mod spans;
pub mod spec;
pub mod stitching;
mod wave;

pub use findings::{Finding, Severity};
pub use layout::{Layout, LayoutLines};
pub use order::Path;
pub use outline::{OutlineBand, SideWidths};
pub use pieces::{CornerDetail, CornerMade, Join, Piece, PieceKind, SideDetail};
pub use place::{CornerPlace, Side};
pub use quilt::{Measured, Quilt};
pub use rank::{Ranker, Rating};
pub use solve::{MotifRequest, Solved, solve};
pub use spans::Rated;
pub use spec::PlanSpec;
pub use stitching::{PlannedPass, PlannedRun, RunPart, Stitching, stitch_plan};

#[cfg(test)]
mod tests;
