//! Lines side by side: closer than a limit over a length, so that thread builds up.
//!
//! Problem, method, guarantee and failure: as for stretches within a distance (`within`). Lines
//! that are stitched twice are found first (`twice`) and cut out, so that none is reported by both.

use super::found::Found;
use super::runs::Taken;
use super::twice::doubled;
use super::within::{Run, RunLimit, Within};
use crate::error::Error;
use crate::geom::lines::Lines;

/// Finds lines closer than a limit over a length, but for those stitched twice.
///
/// In the unit of the lines. A run may hold more than two stretches: a fill whose rows are too
/// close is one run from its first row to its last.
///
/// ```
/// use quiltpath_core::{check::{Lines, RunLimit, close}, geom::Point};
///
/// let point = Point::new;
/// let (base, above) = ([point(0.0, 0.0), point(90.0, 0.0)], [point(20.0, -1.0), point(50.0, -1.0)]);
/// let lines = Lines::new(&[&base, &above], Lines::TOLERANCE_MM)?;
/// let found = close(&lines, &RunLimit::CLOSE_MM, &RunLimit::TWICE_MM)?;
/// let run = &found.places[0];
/// assert_eq!((run.parts[1].line, run.length, run.nearest), (1, 30.0, 1.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when a distance or a length is below 1e-6 or not finite, or a length is below
/// twice its distance.
///
/// # Complexity
///
/// O(points + pairs of segments within the distance) for drawn lines.
pub fn close(lines: &Lines, limit: &RunLimit, twice: &RunLimit) -> Result<Found<Run>, Error> {
    except(lines, limit, &doubled(lines, twice)?.taken())
}

/// As [`close`], with what is stitched twice found before.
pub(super) fn except(
    lines: &Lines,
    limit: &RunLimit,
    taken: &[Taken],
) -> Result<Found<Run>, Error> {
    Ok(Within::of(lines, limit, taken)?.found(lines))
}

#[cfg(test)]
mod tests;
