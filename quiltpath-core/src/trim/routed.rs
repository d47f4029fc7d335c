//! Pieces joined: the paths, what each stretch of them is, and what the joining costs.

use crate::geom::Polyline;

/// Pieces joined to one path, or to several where the thread is cut.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Routed {
    /// The paths in the order of stitching.
    pub paths: Vec<RoutedPath>,
    /// What the joining costs.
    pub report: TrimReport,
}

/// One continuous path.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct RoutedPath {
    /// The path.
    pub line: Polyline,
    /// What each stretch of it is, in the order of travel; each starts on the point where the
    /// one before ends.
    pub parts: Vec<PathPart>,
}

/// A stretch of a path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct PathPart {
    /// What it is.
    pub kind: PathPartKind,
    /// The index of its first point in the path.
    pub first: usize,
    /// The index of its last point in the path.
    pub last: usize,
}

/// What a stretch of a path is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum PathPartKind {
    /// The piece of this index, against its direction when reversed.
    Piece {
        /// The index of the piece.
        index: usize,
        /// Whether it is travelled against its own direction.
        reversed: bool,
    },
    /// The same piece stitched over once more.
    Again {
        /// The index of the piece.
        index: usize,
        /// Whether it is travelled against its own direction.
        reversed: bool,
    },
    /// A link along the boundary.
    Link,
}

/// What joining the pieces costs. Lengths are in the unit of the pieces.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct TrimReport {
    /// The length of the pieces.
    pub own_length: f64,
    /// The length of the links and of what is stitched over.
    pub added_length: f64,
    /// The number of links.
    pub links: usize,
    /// The thread cuts between pieces, a prescribed start or end that isn't reached included.
    pub cuts: usize,
    /// The length of what is stitched over.
    pub restitched_length: f64,
    /// The number of slivers dropped when the drawing was cut to the region.
    pub slivers: usize,
    /// The length lost with them.
    pub lost_length: f64,
    /// Whether the added length is the least possible in this order of stitching, each piece being
    /// stitched as a whole, before links beyond the limit are left out.
    pub exactness: Exactness,
    /// Whether the line crosses itself in the region, or may, where that takes too long to find
    /// out. Then stitching over as far as a crossing, which isn't considered, may add less.
    pub crossed: bool,
}

impl TrimReport {
    /// What no way of joining in this order beats; `None` where the line crosses itself, since it
    /// isn't known there.
    #[must_use]
    pub fn least_added(&self) -> Option<f64> {
        match self.exactness {
            _ if self.crossed => None,
            Exactness::Exact => Some(self.added_length),
            Exactness::Bound { lower, .. } => Some(lower),
        }
    }

    /// The added length divided by the length of the pieces.
    #[must_use]
    pub fn share(&self) -> f64 {
        self.added_length / self.own_length
    }
}

/// Whether a length is the least possible.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Exactness {
    /// It is: proven, and checked against brute force on small cases.
    Exact,
    /// The least possible length lies between `lower` and the length found.
    Bound {
        /// No route adds less than this.
        lower: f64,
        /// The length found divided by `lower`; infinite when that is 0.
        ratio: f64,
    },
}
