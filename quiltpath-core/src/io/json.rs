//! JSON in and out: point lists, plans and results.

mod fault;
mod lines;
mod objects;
mod plan;
mod points;
mod result;

#[cfg(feature = "svg")]
pub(in crate::io) use lines::is_point_lines;
pub use lines::read_point_lines;
#[cfg(feature = "schema")]
pub use plan::plan_schema;
pub use plan::{read_plan, write_plan};
pub use points::{
    PointList, PointPath, read_point_line, read_points, write_point_line, write_points,
};
pub use result::write_result;
