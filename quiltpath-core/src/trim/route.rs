//! One path through the pieces, in the order that is asked for.

use super::boundary::Boundary;
use super::clip::ClippedPiece;
use super::options::{JoinOrder, RouteOptions};
use super::routed::Routed;
use super::{draw, free, keep};
use crate::error::Error;
use crate::geom::region::Region;

/// Joins the pieces to one path with little added length.
///
/// Pieces come from [`clip`](crate::trim::clip), or are anybody's that end on the boundary at the
/// positions that they give. A piece with both ends inside can't be reached along the boundary, so
/// beside others it becomes a path of its own.
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
/// A geometry error when there is no piece, when a piece doesn't end at the position that it gives,
/// when a number in the options is none, or when the inset is too large for the region.
///
/// # Complexity
///
/// O(n log n) for `Keep` and `KeepAndReverse`; for `Free` O(n log n) with both ends prescribed,
/// else up to 4 million steps more.
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
