//! Stitch paths that meet: from drawn motifs and a measured quilt to one continuous line round the
//! border.
//!
//! Nothing here opens a file, prints, or panics on any input; `unsafe` is forbidden. Where to
//! start:
//!
//! - a whole quilt: [`plan::solve()`] and [`plan::stitch_plan`], with plans from `io::json`;
//! - a border: [`chain::Repeat`], [`fit::fit_span`], [`chain::chain_repeats`];
//! - a corner: [`leg::choose_leg`] and [`corner::size_corner`];
//! - a picture of a drawing on paper: [`raster::scan()`];
//! - where the cloth lies on the frame: [`align::align()`]; a pass of a plan laid there:
//!   [`frame::lay_and_refit`];
//! - a plan with its drawings and progress in one, without files: `worksheet`;
//! - drawings of any format: `io::drawing`; paths of other crates: [`interop`].
//!
//! The folder `examples` has each of them as a short program.
//!
//! # Axes and units
//!
//! x to the right, y **down**; a positive angle turns clockwise as seen. Geometry has no unit;
//! plans are in millimetres inside and answer in the unit that they ask for.
//!
//! # Features
//!
//! Without any, the crate is geometry and planning, with DXF and G-code out.
//!
//! | feature | on by default | what it adds |
//! | --- | --- | --- |
//! | `svg` | yes | SVG and DXF drawings in, SVG out, the picture of a plan, pages to print |
//! | `json` | yes | point lists, plans and results as JSON |
//! | `parallel` | yes | two jobs at once where that saves time; without it, and on wasm32, all runs on one thread |
//! | `scan` | no | PNG and JPEG pictures of drawings, read with bounds; with `svg`, the picture to check them on |
//! | `schema` | no | the JSON Schema of the plan; brings `json` |
//!
//! `io::drawing` and `io::lines`, drawings and lines in any format, need both `svg` and `json`.
#![forbid(unsafe_code)]
#![deny(missing_docs)]

pub mod align;
pub mod chain;
pub mod check;
pub mod corner;
pub mod error;
pub mod fit;
pub mod frame;
pub mod geom;
mod graph;
pub mod interop;
pub mod io;
pub mod leg;
pub mod motif;
pub mod order;
mod parallel;
pub mod plan;
pub mod raster;
pub mod stitch;
pub mod strokes;
pub mod transform;
pub mod trim;
pub mod units;
pub mod warp;
#[cfg(all(feature = "json", feature = "svg"))]
pub mod worksheet;

pub use error::located::Error;

// The crates whose types the API shows, in the versions that it shows.
pub use kurbo;
pub use lyon_path;
pub use nalgebra;

/// How many cases a property takes: the usual number, or what the variable `PROPTEST_CASES` asks
/// for.
#[cfg(test)]
fn cases(usual: u32) -> u32 {
    let asked = std::env::var("PROPTEST_CASES").ok();
    asked.and_then(|text| text.parse().ok()).unwrap_or(usual)
}
