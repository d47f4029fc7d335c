//! Checks of stitched lines: what would stitch badly, where it is and by how much.
//!
//! Each check looks at the lines alone and knows nothing of plans. [`close`] finds lines side by
//! side, where thread builds up; [`twice`] lines on top of one another; [`density`] squares with
//! too much line in them; [`loops`] loops smaller than a few stitches; [`bands`] lines that leave
//! where they may be stitched. [`check_lines`] runs all but the last at once.
//!
//! The limits are our own choices, with the reason beside each; what is good practice depends on
//! thread, batting and taste. All of them may be changed.

pub mod bands;
mod cell;
pub mod close;
pub mod density;
mod lines;
pub mod loops;
mod near;
mod runs;
pub mod twice;

pub use lines::{LEAST_LENGTH, Lines, MAX_POINTS};

use std::cmp::Ordering;
use std::ops::RangeInclusive;

use crate::error::Error;
use crate::geom::Point;
use close::Run;
use density::{Dense, DensityLimit};
use loops::{Loop, LoopLimit};

/// The most places that one check tells; what is beyond is counted.
pub const MAX_PLACES: usize = 1000;

/// What a check has found.
#[derive(Debug, Clone, PartialEq)]
pub struct Found<T> {
    /// The places, the worst first, at most [`MAX_PLACES`].
    pub places: Vec<T>,
    /// How many more there are.
    pub left_out: usize,
    /// Spots that hold too many segments to go through all their pairs, the fullest first, at
    /// most [`MAX_PLACES`]. Nothing is told of the lines inside them; drawn lines have none.
    pub crowded: Vec<Crowded>,
}

/// A spot that holds too many segments to go through all their pairs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crowded {
    /// The middle of the spot.
    pub at: Point,
    /// The number of segments in it.
    pub segments: usize,
}

/// A part of one of the lines.
#[derive(Debug, Clone, PartialEq)]
pub struct LinePart {
    /// The index of the line.
    pub line: usize,
    /// The distance along the line at which the part starts.
    pub from: f64,
    /// The distance along the line at which it ends.
    pub to: f64,
    /// The indices of points of the line, as given, between which it lies.
    pub points: RangeInclusive<usize>,
    /// Where it starts.
    pub start: Point,
    /// Where it ends.
    pub end: Point,
}

impl LinePart {
    fn new(lines: &Lines, [first, last]: [u32; 2], [from, to]: [f64; 2]) -> Self {
        Self {
            line: lines.line(first) as usize,
            from,
            to,
            points: lines.origin(first)..=lines.origin(last + 1),
            start: lines.point(first, from),
            end: lines.point(last, to),
        }
    }

    /// The length of the part along its line.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.to - self.from
    }
}

/// All the limits of [`check_lines`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// How far points may be moved where lines are sampled finer than that.
    pub tolerance: f64,
    /// Lines side by side.
    pub close: close::RunLimit,
    /// Lines on top of one another.
    pub twice: close::RunLimit,
    /// The length of line in a square.
    pub density: DensityLimit,
    /// Loops.
    pub loops: LoopLimit,
}

impl Limits {
    /// The default limits of each check, for lines in millimetres.
    pub const DEFAULT_MM: Self = Self {
        tolerance: Lines::TOLERANCE_MM,
        close: close::RunLimit::CLOSE_MM,
        twice: close::RunLimit::TWICE_MM,
        density: DensityLimit::DEFAULT_MM,
        loops: LoopLimit::DEFAULT_MM,
    };
}

/// What all checks have found: see [`check_lines`].
#[derive(Debug, Clone, PartialEq)]
pub struct CheckReport {
    /// Lines closer than the limit over a length, the longest first.
    pub close: Found<Run>,
    /// Lines stitched twice, the longest first; none of them is among `close`.
    pub twice: Found<Run>,
    /// Squares with too much line, the fullest first.
    pub density: Found<Dense>,
    /// Loops below the limit, the smallest first.
    pub loops: Found<Loop>,
}

/// Runs the checks for lines side by side, stitched twice, too dense and looped too small.
///
/// Each line is given by its points in the order of stitching, in the unit of the limits.
///
/// ```
/// use quiltpath_core::{check::{Limits, check_lines}, geom::Point};
///
/// // A hairpin: out and back 1 mm apart.
/// let line = [(0.0, 0.0), (50.0, 0.0), (50.0, 1.0), (0.0, 1.0)].map(|(x, y)| Point::new(x, y));
/// let report = check_lines(&[&line], &Limits::DEFAULT_MM)?;
/// let run = &report.close.places[0];
/// assert_eq!((run.parts[0].line, run.parts[1].line, run.nearest), (0, 0, 1.0));
/// assert_eq!((run.parts[0].from, run.parts[1].to), (0.0, 101.0));
/// assert!(report.twice.places.is_empty() && report.loops.places.is_empty());
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`Lines::new`], [`close::close`], [`twice::twice`], [`density::density`] and
/// [`loops::loops`].
///
/// # Complexity
///
/// O(points) for drawn lines; at most about 64 bytes for each point and 8 for each pair of segments
/// that are close. However the lines lie, time grows no faster than the number of points; what is
/// left out for that is told in [`Found::crowded`].
pub fn check_lines(lines: &[&[Point]], limits: &Limits) -> Result<CheckReport, Error> {
    let lines = Lines::new(lines, limits.tolerance)?;
    let doubled = twice::doubled(&lines, &limits.twice)?;
    Ok(CheckReport {
        close: close::except(&lines, &limits.close, &doubled.told())?,
        twice: doubled.found(&lines),
        density: density::density(&lines, &limits.density)?,
        loops: loops::loops(&lines, &limits.loops)?,
    })
}

/// The places in this order, with what is over the most counted.
fn worst_first<T>(
    mut places: Vec<T>,
    order: impl FnMut(&T, &T) -> Ordering,
    mut crowded: Vec<Crowded>,
) -> Found<T> {
    places.sort_by(order);
    let left_out = places.len().saturating_sub(MAX_PLACES);
    places.truncate(MAX_PLACES);
    crowded.sort_by_key(|spot| std::cmp::Reverse(spot.segments));
    crowded.truncate(MAX_PLACES);
    Found {
        places,
        left_out,
        crowded,
    }
}
