//! JSON in and out: point lists, plans and results.

mod fault;
mod finite;
mod hint;
mod kind;
mod laid;
mod lines;
mod objects;
mod plan;
mod points;
mod progress;
mod quilt;
mod readings;
pub mod result;

#[cfg(feature = "svg")]
pub(in crate::io) use finite::to_text;
pub use hint::key_hint;
pub use laid::write_laid;
#[cfg(feature = "svg")]
pub(in crate::io) use lines::is_point_lines;
pub use lines::read_point_lines;
#[cfg(feature = "schema")]
pub use plan::plan_schema;
pub use plan::{read_plan, write_plan};
pub use points::{
    PointList, PointPath, read_point_line, read_points, write_point_line, write_points,
};
pub use progress::{read_progress, write_progress};
pub use quilt::{QuiltFile, check_drawing_name, drawing_name, is_quilt, read_quilt, write_quilt};
pub use readings::{Readings, read_readings};
