//! Regions of the plane: simple polygons, and rings between two of them.

mod band;
mod inset;
mod perimeter;
mod polygon;

pub use band::BandRegion;
pub use perimeter::{Perimeter, Way};
pub use polygon::Region;
