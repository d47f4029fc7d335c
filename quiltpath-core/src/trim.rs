//! Pieces of a drawing and the boundary that they end on, joined to one path with little extra.
//!
//! Problem: a drawing cut to a region is many pieces, and a machine stitches one line. What links
//! them runs along the boundary, where it shows least, or at an inset from it. Method: by
//! [`JoinOrder`]: the drawn order as it is, the drawn order with directions chosen (`keep`), or any
//! order, which is the rural postman problem on a ring (`free`, `search`, `postman`).
//!
//! Guarantee: every piece is stitched once, links stay in the region, thread cuts are as few as
//! the options allow, and the report says whether the added length is the least possible or how
//! far from that it may be. Failure cases: an inset too large for the region; positions that
//! aren't where the pieces end.

mod boundary;
mod clip;
mod draw;
mod free;
mod keep;
mod postman;
mod restitch;

mod search;
mod trimmed;
mod walk;

#[cfg(test)]
mod brute;
#[cfg(test)]
mod tests;

pub use clip::{Clipped, ClippedPiece, DEFAULT_SLIVER_MM, EndOn, clip};
pub(crate) use clip::{Sides, inside};
pub use restitch::RESTITCH_LIMIT;
pub use search::{PAIR_LIMIT, SEARCH_BUDGET};
pub use trimmed::{TrimOptions, Trimmed, trim_to_region};

use crate::error::Error;
use crate::geom::Polyline;
use crate::geom::region::Region;

use boundary::Boundary;

/// In which order the pieces of a drawing that was cut are joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum JoinOrder {
    /// The drawn order and directions.
    Keep,
    /// The drawn order, each piece in either direction.
    #[cfg_attr(feature = "json", serde(rename = "reverse"))]
    KeepAndReverse,
    /// Any order, each piece in either direction.
    #[default]
    Free,
}

/// Where the path has to start and end: positions along the boundary from its first corner in
/// the order of the corners, or wherever is best.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Terminals {
    /// Where the path starts; `None` for the best place.
    pub start: Option<f64>,
    /// Where the path ends; `None` for the best place.
    pub end: Option<f64>,
}

/// What a route may and must do. Lengths are in the unit of the pieces.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RouteOptions {
    /// How much the route may depart from the drawing.
    pub order: JoinOrder,
    /// Where the path starts and ends.
    pub terminals: Terminals,
    /// Whether a piece may be stitched over a second time where that helps: to come back from an
    /// end inside the region, or instead of a longer link. With [`JoinOrder::Free`] at any time, else
    /// only right after (or before) the piece itself. Without it an end inside the region that
    /// is no end of the path takes a thread cut.
    pub restitch: bool,
    /// Links longer than this are left out: there the thread is cut. The order is chosen first.
    pub max_link: Option<f64>,
    /// How far inside the boundary links run; 0 for on the boundary itself.
    pub inset: f64,
}

/// Pieces joined to one path, or to several where the thread is cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Routed {
    /// The paths in the order of stitching.
    pub paths: Vec<RoutedPath>,
    /// What the joining costs.
    pub report: TrimReport,
}

/// One continuous path.
#[derive(Debug, Clone, PartialEq)]
pub struct RoutedPath {
    /// The path.
    pub line: Polyline,
    /// What each stretch of it is, in the order of travel; each starts on the point where the
    /// one before ends.
    pub parts: Vec<PathPart>,
}

/// A stretch of a path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
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
    /// Whether the added length is the least possible in this order of stitching, before links
    /// beyond the limit are left out.
    pub exactness: Exactness,
}

impl TrimReport {
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

/// Joins the pieces to one path with little added length.
///
/// Pieces come from [`clip`](crate::trim::clip), or are anybody's that end on the boundary
/// where they say. A piece with both ends inside can't be reached along the boundary, so beside
/// others it becomes a path of its own.
///
/// ```
/// use quiltpath_core::geom::{Point, Polyline};
/// use quiltpath_core::leg::rectangle;
/// use quiltpath_core::trim::{Exactness, RouteOptions, clip, route};
///
/// // A zigzag that leaves a square above and below.
/// let zigzag = (0..6).map(|i| Point::new(1.0 + f64::from(i), if i % 2 == 0 { -1.0 } else { 9.0 }));
/// let square = rectangle(8.0, 8.0)?;
/// let clipped = clip(&Polyline::new(zigzag.collect())?, &square, 0.0)?;
/// assert_eq!(clipped.pieces.len(), 5);
/// let routed = route(&clipped.pieces, &square, &RouteOptions::default())?;
/// assert_eq!(routed.paths.len(), 1);
/// assert_eq!(routed.report.exactness, Exactness::Exact);
/// // Four links of 0.2 each, where the zigzag turned outside.
/// assert!((routed.report.added_length - 0.8).abs() < 1e-9);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when there is no piece, when a piece doesn't end where it says, when a
/// number in the options is none, or when the inset is too large for the region.
///
/// # Complexity
///
/// O(n log n) for `Keep` and `KeepAndReverse`; for `Free` O(n log n) with both ends prescribed,
/// else up to [`SEARCH_BUDGET`] steps more.
pub fn route(
    pieces: &[ClippedPiece],
    region: &Region,
    options: &RouteOptions,
) -> Result<Routed, Error> {
    if let Some(limit) = options.max_link
        && (limit.is_nan() || limit < 0.0)
    {
        return Err(Error::bad_number(
            "the longest link",
            limit,
            "0 or a length above 0",
        ));
    }
    let ring = Boundary::of(pieces, region, options.terminals, options.inset)?;
    let plan = match options.order {
        JoinOrder::Keep => keep::in_order(&ring, keep::Directions::Drawn, options.restitch),
        JoinOrder::KeepAndReverse => {
            keep::in_order(&ring, keep::Directions::Free, options.restitch)
        }
        JoinOrder::Free => free::any_order(&ring, options.restitch),
    };
    draw::draw(pieces, &ring, plan, options.max_link)
}
