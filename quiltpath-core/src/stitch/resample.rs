//! Needle points along a path: even stitches that keep to it and meet its cusps.
//!
//! Problem: replace a path by straight stitches of about one length, none shorter than a machine
//! can form, that start and end with the path, have a needle point at every cusp and leave the
//! path by no more than a given chord error.
//! Method: cusps cut the path into runs. A run is parted so that each stitch gets the same share
//! of ∫ds/ℓ, ℓ = min(target, √(8 r e)) for the radius r of the path and a chord error e (a chord
//! over an arc of radius r lies s²/(8 r) from it, near enough). r is read from the sagitta of
//! pieces of about half a stitch, which jitter in the points hardly moves. That only plans the
//! spacing: afterwards every stitch is held against all points of its part of the path, and split
//! at the farthest one until the chord error holds.
//! Guarantee: start and end are needle points, all needle points lie on the path in its order.
//! No stitch is longer than √2 times the target, none shorter than the minimum (except as below).
//! Where minimum and chord error or cusps conflict the minimum wins, and the place is reported.
//! Failure: a path that never leaves the surroundings of its start and its end, nearer than the
//! minimum to one of them, still gets its two ends as needle points: a shorter stitch, reported as
//! the shortest. The minimum may be at most target/√2, or else there are straight lines that no
//! number of equal stitches fits.

mod chord;
mod mend;
mod needles;
mod options;
mod runs;
mod stitches;
#[cfg(test)]
mod tests;

pub use options::StitchOptions;
pub use stitches::{Miss, StitchReport, Stitches};

use crate::error::Error;
use crate::geom::Polyline;
use needles::Needles;
use runs::Runs;

/// Turns a path into needle points, the first on its start and the last on its end.
///
/// Options and needle points are in the unit of the path. Where the shortest stitch and the chord
/// error, or a cusp, can't both be had, the shortest stitch is kept and the place reported.
///
/// ```
/// use quiltpath_core::geom::{Point, Polyline};
/// use quiltpath_core::stitch::resample::{StitchOptions, resample};
/// use quiltpath_core::units::Unit;
///
/// // A straight line of 10 in at 10 stitches per inch is 100 stitches.
/// let line = Polyline::new(vec![Point::new(0.0, 0.0), Point::new(10.0, 0.0)])?;
/// let stitches = resample(&line, &StitchOptions::per_inch(10.0, Unit::In)?)?;
/// assert_eq!(stitches.count(), 100);
/// assert_eq!(stitches.points[100], line.end());
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when an option is out of its range or not finite; a stitch error when the path
/// would take more than 10 million stitches.
///
/// # Complexity
///
/// O(points + stitches) when stitches are not much longer than the shapes of the path, which then
/// need few splits; O(points · splits) at worst.
pub fn resample(line: &Polyline, options: &StitchOptions) -> Result<Stitches, Error> {
    options.check()?;
    let points = line.points();
    let mut needles = Needles::starting(points[0], options.minimum);
    let sharp = Runs::new(points, options).part(&mut needles)?;
    let mut mended = mend::mend(points, needles, options);
    mended.report.tiny = sharp.tiny;
    let (points_out, places) = mended.needles.into_parts();
    let mut stitches = Stitches {
        points: points_out,
        along: Vec::new(),
        anchors: Vec::new(),
        report: mended.report,
    };
    stitches.measure(points, &places);
    stitches.sort_cusps(points, &places, &sharp.cusps);
    Ok(stitches)
}
