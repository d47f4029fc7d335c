//! Lines stitched twice: stretches that lie on top of one another.
//!
//! Problem: where does a line run along a stretch that is stitched already, in either direction?
//! Method and guarantee: as for stretches within a distance (`within`), the distance being the
//! thickness of the thread. Stems and spines are stitched there and back on purpose; whether a run
//! is a fault is for the caller to decide. Failure: lines in crowded spots are not gone through;
//! the spots are reported.

use super::found::Found;
use super::within::{Run, RunLimit, Within};
use crate::error::Error;
use crate::geom::lines::Lines;

/// Finds lines that are stitched on top of one another over a length.
///
/// In the unit of the lines; [`RunLimit::TWICE_MM`] is the default limit.
///
/// ```
/// use quiltpath_core::{check::{Lines, RunLimit, twice}, geom::Point};
///
/// let stem = [(0.0, 0.0), (40.0, 0.0), (15.0, 0.0), (15.0, 30.0)].map(|(x, y)| Point::new(x, y));
/// let lines = Lines::new(&[&stem], Lines::TOLERANCE_MM)?;
/// let found = twice(&lines, &RunLimit::TWICE_MM)?;
/// assert_eq!(found.places.len(), 1);
/// assert!((found.places[0].length - 25.0).abs() < 0.4);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when the distance or the length is below 1e-6 or not finite, or the length is
/// below twice the distance.
///
/// # Complexity
///
/// O(points + pairs of segments within the distance) for drawn lines.
pub fn twice(lines: &Lines, limit: &RunLimit) -> Result<Found<Run>, Error> {
    Ok(doubled(lines, limit)?.found(lines))
}

/// As [`twice`], for checks that leave out what it finds.
pub(super) fn doubled(lines: &Lines, limit: &RunLimit) -> Result<Within, Error> {
    Within::of(lines, limit, &[])
}
