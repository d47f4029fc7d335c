//! The gap between two lines of a drawing that don't meet.

use super::point::Point;

/// The way from the end of one line to the start of the next, where they don't meet.
#[derive(Debug, Clone, PartialEq)]
pub struct Gap {
    /// The id of the line that ends.
    pub from_id: String,
    /// Where it ends.
    pub from: Point,
    /// The id of the line that starts.
    pub to_id: String,
    /// Where it starts.
    pub to: Point,
}

impl Gap {
    /// The distance to bridge.
    #[must_use]
    pub fn size(&self) -> f64 {
        (self.to - self.from).norm()
    }
}
