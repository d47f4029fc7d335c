//! Strokes of a drawing to one line: what was drawn, as curves, and how it is joined.
//!
//! A [`Drawing`] holds its [`Stroke`]s as they were drawn; [`Drawing::one_line`] makes the one line
//! of them that a machine stitches. All is in millimetres, x to the right, y down.

mod bridges;
mod contact;
mod drawing;
mod ends;
mod engine;
mod gates;
mod join;
mod net;
mod options;
mod stroke;
mod subpath;
mod trails;

pub use drawing::Drawing;
pub use ends::{EndPlace, LegEnds, LineEnds, OtherEnd};
pub use engine::{AddedKind, AddedStretch, OneLineReport};
pub use join::{Joined, JoinedLines};
#[cfg(all(feature = "svg", feature = "json"))]
pub(crate) use options::usual_tolerances;
pub use options::{DEFAULT_JOIN_MM, Gaps, OneLineOptions};
pub use stroke::Stroke;
