//! A picture of a drawing on paper to its strokes.
//!
//! [`scan()`] takes a grey picture, from a scanner or a phone, and gives the centre lines of what a pen
//! drew, in millimetres, with a report of what was filled, left out or in doubt. [`Blank`] is the
//! paper to draw on whose marks tell size, turn and slant. Everything here works on grey values;
//! `io` reads files and writes pages.

mod blank;
mod blobs;
mod bridge;
mod centre;
mod clean;
mod crossings;
mod fills;
mod grey;
mod guides;
mod homography;
mod ink;
#[cfg(test)]
mod made;
mod marks;
mod meet;
mod net;
mod options;
mod pixels;
mod scan;
mod spurs;
mod thickness;
mod thin;
mod view;

pub use blank::{Blank, BlankKind};
#[cfg(feature = "svg")]
pub(crate) use blank::{CELL_MM, CELLS, MARK_MM, RING_MM, cell_middle, cell_share};
#[cfg(feature = "scan")]
pub(crate) use grey::check_size;
pub use grey::{Grey, MAX_PIXELS};
pub use options::{DoubtKind, Fills, Scan, ScanDoubt, ScanOptions, ScanReport, ScanSize, Traced};
pub use scan::scan;
