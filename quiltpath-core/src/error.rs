//! What can be wrong, each fault with its data and its words.
//!
//! The one error type is [`crate::Error`]: [`crate::Error::kind`] has the fault with its data, for
//! callers that act on it; the accessors have the place. New kinds and faults may be added.

mod align;
mod data;
mod drawing;
mod dxf;
mod fit;
mod geometry;
mod geometry_words;
mod kind;
mod length;
pub(crate) mod located;
mod motif;
mod plan;
mod resume;
mod scan;
mod stitch;
mod stitched;
mod words;

pub use align::AlignFault;
pub use data::DataFault;
pub use drawing::DrawingFault;
pub use dxf::DxfFault;
pub use fit::FitFault;
pub use geometry::{GeometryFault, Measure};
pub use kind::ErrorKind;
pub use length::LengthFault;
pub use located::Position;
pub use motif::{LegFault, MotifFault};
pub use plan::PlanFault;
pub use resume::ResumeFault;
pub use scan::ScanFault;
pub use stitch::{CheckFault, OutlineNumber, PaperFault, StitchFault};
pub use stitched::StitchedFault;

pub(crate) use located::{Error, not_negative, positive};

#[cfg(test)]
mod tests;
