//! Pieces of a drawing and the boundary that they end on, joined to one path with little extra.
//!
//! Problem: a drawing cut to a region is many pieces, and a machine stitches one line. What links
//! them runs along the boundary, where it shows least, or at an inset from it. Method: by
//! [`JoinOrder`]: the drawn order as it is, the drawn order with directions chosen (`keep`), or any
//! order, which is the rural postman problem on a ring (`free`, `search`, `postman`); where pieces
//! may be stitched over and there are up to 150, by the engine that makes one line of strokes
//! (`engine`).
//!
//! Guarantee: every piece is stitched once, links stay in the region, thread cuts are as few as
//! the options allow, and the report has whether the added length is the least possible or how
//! far from that it may be. Failure cases: an inset too large for the region; positions that
//! aren't where the pieces end.

mod boundary;
mod clip;
mod draw;
mod engine;
mod free;
mod keep;
mod options;
mod postman;
mod restitch;
mod route;
mod routed;
mod search;
mod trimmed;
mod walk;

#[cfg(test)]
mod brute;
#[cfg(test)]
mod tests;

pub(crate) use clip::Sides;
#[cfg(feature = "svg")]
pub(crate) use clip::inside;
pub use clip::{Clipped, ClippedPiece, EndOn, clip};
pub use options::{JoinOrder, RouteOptions, Terminals};
pub use route::route;
pub use routed::{Exactness, PathPart, PathPartKind, Routed, RoutedPath, TrimReport};
pub use trimmed::{TrimOptions, Trimmed, trim_to_region};
