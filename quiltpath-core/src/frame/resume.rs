//! The rest of a run after a thread break or with a fresh bobbin.
//!
//! Problem: a line was stitched up to some place; find that place from what is known of it, and
//! stitch what is left, begun a little earlier so that old and new stitches lock into each other.
//! Method: a length of line, a stitch or a time is looked up along the line. A point is held
//! against all segments: each stretch of the line within a circle about the point is one strand,
//! with the place on it that is nearest. The circle is wider than the nearest place by a tolerance,
//! since a needle is put on a place by eye: what is about as near may be the place as well.
//! Guarantee: the rest has all points of the line from its beginning on, none else, and one new
//! point where it begins; with what was stitched it covers the line once, and the overlap twice.
//! Failure: a line that runs back on itself within the circle is one strand there; the true place
//! is then off by up to twice the circle, which the overlap is to cover.

use crate::error::{Error, ResumeFault, not_negative};
use crate::geom::measure::share_on_segment;
use crate::geom::{MAX_COORDINATE, Point};
use crate::motif::Motif;
use crate::stitch::estimate::Clock;
use crate::stitch::job::{Job, JobOptions, stitch_lines};

/// How far back on the stitched line the rest begins: 1/2 in. Common practice (from memory).
pub const BACK_MM: f64 = 12.7;

/// Strands that are this little farther than the nearest may be meant as well: 1/8 in.
pub const STRANDS_MM: f64 = 25.4 / 8.0;

/// A point that is farther from every strand than this is of another run: 1 in.
pub const FARTHEST_MM: f64 = 25.4;

/// A place of a line near a point, in the unit of the line.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Strand {
    /// How much of the line lies before it.
    pub length: f64,
    /// The place itself.
    pub at: Point,
    /// How far it is from the point.
    pub distance: f64,
}

/// What is known of where a run stopped.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Stop {
    /// After this length of its line, in the unit of the line.
    Length(f64),
    /// After so many of its stitches, tie-offs included.
    Stitch(usize),
    /// After so many minutes from its first stitch on, tie-offs included.
    Minutes(f64),
}

/// The rest of a line; lengths in its unit.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Rest {
    /// The line that is left, in the order of stitching.
    pub motif: Motif,
    /// How much of the whole line lies before it.
    pub from: f64,
    /// How much of it is stitched for the second time.
    pub overlap: f64,
    /// The length of the whole line.
    pub whole: f64,
    /// Its stitches with tie-offs, its time and its thread.
    pub job: Job,
}

/// The places of a line that may be meant by a point, the nearest first.
///
/// `tolerance` says how much farther than the nearest place others may be, `farthest` how far the
/// nearest may be; [`STRANDS_MM`] and [`FARTHEST_MM`] for lines in millimetres.
///
/// ```
/// use quiltpath_core::frame::{FARTHEST_MM, STRANDS_MM, strands_at};
/// use quiltpath_core::{geom::Point, motif::Motif};
///
/// // The line comes by 50, 0 after 50 mm and again after 250 mm.
/// let points = [(0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (50.0, 50.0), (50.0, -50.0)];
/// let line = Motif::from_points("loop", points.map(|(x, y)| Point::new(x, y)).to_vec())?;
/// let strands = strands_at(&line, Point::new(50.0, 1.0), STRANDS_MM, FARTHEST_MM)?;
/// let lengths: Vec<f64> = strands.iter().map(|strand| strand.length).collect();
/// assert_eq!(lengths, [249.0, 50.0]);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when a coordinate or a limit is out of its range; a resume error when the
/// nearest place is farther than `farthest`.
///
/// # Complexity
///
/// O(points).
pub fn strands_at(
    line: &Motif,
    point: Point,
    tolerance: f64,
    farthest: f64,
) -> Result<Vec<Strand>, Error> {
    let within = -MAX_COORDINATE..=MAX_COORDINATE;
    if let Some(&value) = point.iter().find(|value| !within.contains(*value)) {
        let what = "a coordinate of the point";
        return Err(Error::bad_number(what, value, "a number from -1e9 to 1e9"));
    }
    not_negative("the tolerance of a strand", tolerance, "0 or more")?;
    not_negative("the farthest that a strand may be", farthest, "0 or more")?;
    let points = line.points();
    let nearest = |pair: &[Point]| {
        let share = share_on_segment(point, [pair[0], pair[1]]);
        let at = pair[0] + (pair[1] - pair[0]) * share;
        (share, at, (at - point).norm())
    };
    let least = points.windows(2).map(|pair| nearest(pair).2);
    let least = least.fold(f64::INFINITY, f64::min);
    if least > farthest {
        return Err(ResumeFault::FarFromLine {
            distance: least,
            farthest,
        }
        .into());
    }
    let circle = least + tolerance;
    let mut strands: Vec<Strand> = Vec::new();
    // Whether the line was within the circle where the last segment ended.
    let (mut inside, mut reached) = (false, 0.0);
    for pair in points.windows(2) {
        let (share, at, distance) = nearest(pair);
        let step = (pair[1] - pair[0]).norm();
        if distance <= circle {
            let strand = Strand {
                length: reached + share * step,
                at,
                distance,
            };
            match strands.last_mut().filter(|_| inside) {
                Some(last) if last.distance <= distance => {}
                Some(last) => *last = strand,
                None => strands.push(strand),
            }
        }
        inside = (pair[1] - point).norm() <= circle;
        reached += step;
    }
    strands.sort_by(|a, b| a.distance.total_cmp(&b.distance));
    Ok(strands)
}

/// How much of a line was stitched when it stopped, in its unit.
///
/// Stitches are counted as [`stitch_lines`] makes them; time runs from the first stitch on, so that
/// the seconds of the start are not in it, but those of the tie-off are.
///
/// ```
/// use quiltpath_core::frame::{Stop, stitched_length};
/// use quiltpath_core::stitch::job::JobOptions;
/// use quiltpath_core::{geom::Point, motif::Motif, units::Unit};
///
/// // 10 in at 10 stitches per inch, after 4 stitches that tie it off.
/// let line = Motif::from_points("line", vec![Point::new(0.0, 0.0), Point::new(10.0, 0.0)])?;
/// let options = JobOptions::new(Unit::In);
/// let length = stitched_length(&line, Stop::Stitch(4 + 25), &options)?;
/// assert!((length - 2.5).abs() < 1e-9);
/// assert_eq!(stitched_length(&line, Stop::Minutes(0.05), &options)?, 0.0);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when a number is below 0 or not finite, or an option out of its range; a resume
/// error when it is beyond the end of the line.
///
/// # Complexity
///
/// As stitching the line.
pub fn stitched_length(line: &Motif, stop: Stop, options: &JobOptions) -> Result<f64, Error> {
    let whole = line.length();
    match stop {
        Stop::Length(after) => {
            not_negative("the length of line that is stitched", after, "0 or more")?;
            // The length of a whole run comes rounded from a message or a list.
            if after > whole * (1.0 + 1e-6) {
                let length = whole;
                return Err(ResumeFault::BeyondLength { after, length }.into());
            }
            Ok(after.min(whole))
        }
        Stop::Stitch(stitch) => {
            let job = stitch_lines([line], options)?;
            let (stitches, line) = (job.count(), &job.lines[0]);
            if stitch > stitches {
                return Err(ResumeFault::BeyondStitches { stitch, stitches }.into());
            }
            let own = stitch.saturating_sub(line.ties.before.len());
            Ok(line.stitches.along.get(own).copied().unwrap_or(whole))
        }
        Stop::Minutes(minutes) => {
            not_negative("the number of minutes", minutes, "0 or more")?;
            options.check()?;
            let clock = Clock::of(line.points(), &options.machine)?;
            let tie_off = match options.tie_off.stitches {
                0 => 0.0,
                _ => options.machine.seconds_per_tie_off,
            };
            let takes = (clock.seconds() + 2.0 * tie_off) / 60.0;
            if minutes > takes * (1.0 + 1e-6) {
                return Err(ResumeFault::BeyondMinutes { minutes, takes }.into());
            }
            Ok(clock.length_at(minutes * 60.0 - tie_off))
        }
    }
}

/// The rest of a line of which this length is stitched, begun so far `back` on the stitched line
/// ([`BACK_MM`] for lines in millimetres) but never before its start.
///
/// ```
/// use quiltpath_core::frame::rest_of;
/// use quiltpath_core::stitch::job::JobOptions;
/// use quiltpath_core::{geom::Point, motif::Motif, units::Unit};
///
/// let line = Motif::from_points("line", vec![Point::new(0.0, 0.0), Point::new(10.0, 0.0)])?;
/// let rest = rest_of(&line, 4.0, 0.5, &JobOptions::new(Unit::In))?;
/// assert_eq!(rest.motif.start().point, Point::new(3.5, 0.0));
/// assert_eq!((rest.from, rest.overlap, rest.whole), (3.5, 0.5, 10.0));
/// assert_eq!(rest.job.count(), 4 + 65 + 4);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when a number is below 0 or not finite, or an option out of its range; a resume
/// error when more is stitched than the line is long, or nothing is left; a stitch error when the
/// rest would take too many stitches.
///
/// # Complexity
///
/// O(points), and stitching the rest.
pub fn rest_of(
    line: &Motif,
    stitched: f64,
    back: f64,
    options: &JobOptions,
) -> Result<Rest, Error> {
    not_negative("how far back the rest begins", back, "0 or more")?;
    let stitched = stitched_length(line, Stop::Length(stitched), options)?;
    let whole = line.length();
    let from = (stitched - back).max(0.0);
    if from >= whole {
        return Err(ResumeFault::NothingLeft { length: whole }.into());
    }
    let motif = line.rest_from(from)?;
    let job = stitch_lines([&motif], options)?;
    Ok(Rest {
        motif,
        from,
        overlap: stitched - from,
        whole,
        job,
    })
}

#[cfg(test)]
mod tests;
