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
mod runs;
#[cfg(test)]
mod tests;

use self::chord::Chord;
use self::needles::Needles;
use self::runs::Runs;
use crate::error::Error;
use crate::geom::{Point, Polyline};
use crate::units::Unit;

/// The default turn above which a point of the path is a cusp, in degrees.
pub const CUSP_DEGREES: f64 = 30.0;

/// The most stitches that one path may take: 10 million.
pub const MAX_STITCHES: usize = 10_000_000;

/// How a path becomes stitches; lengths in the unit of the path.
///
/// ```
/// use quiltpath_core::{stitch::resample::StitchOptions, units::Unit};
///
/// let options = StitchOptions::per_inch(10.0, Unit::Mm)?;
/// assert_eq!(options.target, 2.54);
/// assert_eq!(options.minimum, 2.54 / 4.0);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StitchOptions {
    /// The length of a stitch where nothing speaks against it.
    pub target: f64,
    /// The shortest stitch; above 0 and at most target/√2.
    pub minimum: f64,
    /// How far the path may lie from the stitch that stands for it.
    pub chord_error: f64,
    /// The turn above which a point is a cusp, in degrees: from 0 to below 180.
    ///
    /// The path has to turn by more than this at the point itself, and also between arms of the
    /// minimum's length before and after it, so that jitter and tiny links are no cusps.
    pub cusp_degrees: f64,
}

impl StitchOptions {
    /// Stitches of this length, a quarter of it the minimum, a tenth of it the chord error.
    ///
    /// The two shares are our own choice: at 10 stitches per inch 0.6 mm and 0.25 mm.
    #[must_use]
    pub fn new(target: f64) -> Self {
        Self {
            target,
            minimum: target / 4.0,
            chord_error: target / 10.0,
            cusp_degrees: CUSP_DEGREES,
        }
    }

    /// So many stitches per inch, for a path in this unit; the rest as [`StitchOptions::new`].
    ///
    /// Common practice is 10 to 12.
    ///
    /// # Errors
    ///
    /// A geometry error when the number is not above 0 or not finite.
    pub fn per_inch(stitches: f64, unit: Unit) -> Result<Self, Error> {
        positive("the number of stitches per inch", stitches)?;
        Ok(Self::new(Unit::In.in_mm() / unit.in_mm() / stitches))
    }

    pub(super) fn check(&self) -> Result<(), Error> {
        positive("the target stitch", self.target)?;
        positive("the minimum stitch", self.minimum)?;
        positive("the chord error", self.chord_error)?;
        // An SPI that makes the bound itself shall not fail by rounding.
        let most = self.target * std::f64::consts::FRAC_1_SQRT_2 * (1.0 + 1e-12);
        if self.minimum > most {
            let accepted = "at most 0.7071 times the target stitch, so that every length can be parted into stitches";
            return Err(Error::bad_number(
                "the minimum stitch",
                self.minimum,
                accepted,
            ));
        }
        if !(0.0..180.0).contains(&self.cusp_degrees) {
            let accepted = "0 degrees or more, below 180";
            return Err(Error::bad_number(
                "the turn of a cusp",
                self.cusp_degrees,
                accepted,
            ));
        }
        Ok(())
    }
}

fn positive(what: &'static str, value: f64) -> Result<(), Error> {
    if value > 0.0 && value.is_finite() {
        Ok(())
    } else {
        Err(Error::bad_number(what, value, "a number above 0"))
    }
}

/// The needle points of a path.
#[derive(Debug, Clone, PartialEq)]
pub struct Stitches {
    /// The needle points in the order of stitching, from the start of the path to its end.
    pub points: Vec<Point>,
    /// The places in `points` that are cusps of the path, in order.
    pub anchors: Vec<usize>,
    /// How well the stitches keep to what was asked.
    pub report: StitchReport,
}

/// How well stitches keep to what was asked; lengths in the unit of the path.
#[derive(Debug, Clone, PartialEq)]
pub struct StitchReport {
    /// The shortest stitch.
    pub shortest: f64,
    /// The longest stitch.
    pub longest: f64,
    /// The greatest distance from the path to the stitch that stands for it.
    pub worst_chord_error: f64,
    /// Cusps that are no needle points, since a stitch would be below the minimum; every one,
    /// however near to its stitch it lies.
    pub dropped: Vec<Miss>,
    /// How many points turn as sharply as a cusp, but not between arms of the minimum's length:
    /// jitter and tiny links, which only the chord error holds.
    ///
    /// With them, cusps that are needle points and those dropped, every sharp turn is counted.
    pub tiny: usize,
    /// Places where the chord error is above what was asked, for the same reason; one a stitch.
    pub strayed: Vec<Miss>,
}

/// A point of the path that the stitches pass by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Miss {
    /// The point of the path.
    pub at: Point,
    /// Its distance from the stitch that stands for that part of the path.
    pub distance: f64,
}

impl Stitches {
    /// How many stitches there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.points.len() - 1
    }

    /// Tells the cusps that are needle points from those that are not.
    fn sort_cusps(&mut self, path: &[Point], places: &[needles::Place], cusps: &[usize]) {
        let mut next = 0;
        for &cusp in cusps {
            while places[next].after() <= cusp {
                next += 1;
            }
            if places[next].is_vertex(cusp) {
                self.anchors.push(next);
            } else {
                let chord = Chord::new(self.points[next - 1], self.points[next]);
                self.report.dropped.push(Miss {
                    at: path[cusp],
                    distance: chord.square(path[cusp]).sqrt(),
                });
            }
        }
    }
}

/// Turns a path into needle points.
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
/// would take more than [`MAX_STITCHES`] stitches.
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
        anchors: Vec::new(),
        report: mended.report,
    };
    stitches.sort_cusps(points, &places, &sharp.cusps);
    Ok(stitches)
}
