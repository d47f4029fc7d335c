//! One subpath of a drawing as points, with the id that messages call it by.

use std::sync::Arc;

use crate::geom::Point;
use crate::geom::flatten::FlatPath;

/// One subpath of a drawing with the id of the element that drew it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Subpath {
    /// The id of the element, or a description such as `path 3`.
    /// Shared by all of a stroke.
    pub(super) id: Arc<str>,
    /// Its points and end directions.
    pub(super) flat: FlatPath,
}

impl Subpath {
    pub(super) fn count(&self) -> usize {
        self.flat.points.len()
    }

    /// Where it starts and ends when it is travelled so.
    pub(super) fn ends(&self, reversed: bool) -> (Point, Point) {
        let points = &self.flat.points;
        let (first, last) = (points[0], points[points.len() - 1]);
        if reversed {
            (last, first)
        } else {
            (first, last)
        }
    }
}
