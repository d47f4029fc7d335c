//! Plane geometry without units: points, validated lines, measures, regions, crossings, flattening,
//! convex polygons with their insets, and quilts from their measures.
//!
//! The x axis points to the right, the y axis **down**, as on an SVG page and as seen from above
//! the quilt. Positive angles turn from +x to +y, so clockwise as seen.

mod bounds;
mod box_corner;
pub(crate) mod convex;
pub mod crossing;
pub mod curve_bounds;
pub mod flatten;
mod gap;
pub(crate) mod lines;
pub mod measure;
pub(crate) mod near;
pub mod near_square;
pub(crate) mod nearest;
mod point;
pub(crate) mod polyline;
pub mod quad;
pub mod region;
mod round;
mod scallops;
pub(crate) mod stretches;

pub use bounds::Bounds;
pub use box_corner::BoxCorner;
pub use convex::ConvexPolygon;
pub use gap::Gap;
pub use point::{MAX_COORDINATE, Point, Vector};
pub(crate) use point::{turn_between, unit_vector};
pub use polyline::Polyline;
pub use round::{Round, RoundPlace};
pub use scallops::{ArcLine, CircularArc, Scallops};
