//! Stitch paths that meet: from drawn motifs and a measured quilt to one continuous line round the border.
#![forbid(unsafe_code)]
#![deny(missing_docs)]

pub mod chain;
pub mod check;
pub mod corner;
pub mod error;
pub mod fit;
pub mod geom;
mod graph;
pub mod interop;
pub mod io;
pub mod leg;
pub mod motif;
pub mod order;
pub mod plan;
pub mod route;
pub mod stitch;
pub mod transform;
pub mod units;
pub mod warp;

pub use error::Error;
