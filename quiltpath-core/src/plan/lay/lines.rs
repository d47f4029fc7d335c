//! The lines of a border as they run on the cloth.

use crate::geom::Point;

/// The closed lines of a border, clockwise, the first point not repeated.
#[derive(Debug, Clone, PartialEq)]
pub struct LayoutLines {
    /// The outer edge of the border's fabric: the raw edge, or the seam to the border outside.
    pub edge: Vec<Point>,
    /// The inner seam.
    pub seam: Vec<Point>,
    /// The outer line of the band that may be stitched.
    pub outer: Vec<Point>,
    /// The inner line of the band.
    pub inner: Vec<Point>,
}
