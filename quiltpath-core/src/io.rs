//! Formats in and out: bytes to drawings, point lists and plans, and solved plans back to text.
//!
//! Nothing here touches a file.

#[cfg(feature = "svg")]
mod again;
#[cfg(feature = "svg")]
mod canvas;
#[cfg(feature = "svg")]
pub mod compare;
#[cfg(all(feature = "json", feature = "svg"))]
pub mod drawing;
pub mod dxf;
#[cfg(feature = "svg")]
pub mod dxf_read;
#[cfg(feature = "svg")]
mod fraction;
pub mod gcode;
#[cfg(feature = "svg")]
mod html;
#[cfg(feature = "json")]
pub mod json;
#[cfg(feature = "svg")]
pub mod laid_picture;
#[cfg(feature = "svg")]
mod limits;
#[cfg(all(feature = "json", feature = "svg"))]
pub mod lines;
#[cfg(feature = "svg")]
pub mod look;
#[cfg(feature = "svg")]
mod measures;
#[cfg(any(feature = "json", feature = "svg"))]
mod numbers;
#[cfg(feature = "svg")]
mod over;
#[cfg(all(feature = "scan", feature = "svg"))]
pub mod overlay;
#[cfg(feature = "svg")]
pub mod paper;
#[cfg(feature = "svg")]
mod pass_figure;
#[cfg(feature = "svg")]
mod pen;
#[cfg(feature = "svg")]
pub mod picture;
#[cfg(feature = "scan")]
pub mod picture_read;
mod plain;
pub mod readings;
#[cfg(feature = "svg")]
pub mod sheet;
#[cfg(feature = "svg")]
mod signs;
#[cfg(feature = "svg")]
pub mod svg_read;
#[cfg(feature = "svg")]
pub mod svg_write;
#[cfg(feature = "svg")]
pub mod template;
mod ticks;
#[cfg(all(feature = "json", feature = "svg"))]
pub mod view;

pub mod words;

pub use plain::{NamedLine, YAxis};
