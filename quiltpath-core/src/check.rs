//! Checks of stitched lines: what would stitch badly, where it is and by how much.
//!
//! Each check looks at the lines alone and knows nothing of plans. [`close()`] finds lines side by
//! side, where thread builds up; [`twice()`] lines on top of one another; [`density()`] squares
//! with too much line in them; [`loops()`] loops smaller than a few stitches; [`beyond`] lines that
//! leave where they may be stitched. [`check_lines`] runs all but the last at once.
//!
//! The limits are our own choices, with the reason beside each; what is good practice depends on
//! thread, batting and taste. All of them may be changed.

mod bands;
pub(crate) mod cell;
mod close;
mod density;
mod found;
mod loops;
mod runs;
mod twice;
mod within;

pub use crate::geom::lines::Lines;
pub use crate::geom::near::Crowded;
pub use bands::{Beyond, Leaves, Outlines, beyond};
pub use close::close;
pub use density::{Dense, DensityLimit, density};
pub use found::{Found, LinePart};
pub use loops::{Loop, LoopLimit, loops};
pub use twice::twice;
pub use within::{Run, RunLimit};

use crate::error::Error;
use crate::geom::Point;

/// All the limits of [`check_lines`].
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Limits {
    /// How far points may be moved where lines are sampled finer than that.
    pub tolerance: f64,
    /// Lines side by side.
    pub close: RunLimit,
    /// Lines on top of one another.
    pub twice: RunLimit,
    /// The length of line in a square.
    pub density: DensityLimit,
    /// Loops.
    pub loops: LoopLimit,
}

impl Limits {
    /// The same limits with another tolerance of thinning.
    #[must_use]
    pub fn with_tolerance(mut self, tolerance: f64) -> Self {
        self.tolerance = tolerance;
        self
    }

    /// The same limits with another one for lines side by side.
    #[must_use]
    pub fn with_close(mut self, close: RunLimit) -> Self {
        self.close = close;
        self
    }

    /// The same limits with another one for lines on top of one another.
    #[must_use]
    pub fn with_twice(mut self, twice: RunLimit) -> Self {
        self.twice = twice;
        self
    }

    /// The same limits with another one for the length of line in a square.
    #[must_use]
    pub fn with_density(mut self, density: DensityLimit) -> Self {
        self.density = density;
        self
    }

    /// The same limits with another one for loops.
    #[must_use]
    pub fn with_loops(mut self, loops: LoopLimit) -> Self {
        self.loops = loops;
        self
    }
}

impl Default for Limits {
    /// The default limits of each check, for lines in millimetres.
    fn default() -> Self {
        Self {
            tolerance: Lines::TOLERANCE_MM,
            close: RunLimit::CLOSE_MM,
            twice: RunLimit::TWICE_MM,
            density: DensityLimit::default(),
            loops: LoopLimit::default(),
        }
    }
}

/// What all checks have found: see [`check_lines`].
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
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
/// let report = check_lines(&[&line], &Limits::default())?;
/// let run = &report.close.places[0];
/// assert_eq!((run.parts[0].line, run.parts[1].line, run.nearest), (0, 0, 1.0));
/// assert_eq!((run.parts[0].from, run.parts[1].to), (0.0, 101.0));
/// assert!(report.twice.places.is_empty() && report.loops.places.is_empty());
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`Lines::new`], [`close()`], [`twice()`], [`density()`] and [`loops()`].
///
/// # Complexity
///
/// O(points) for drawn lines; at most about 64 bytes for each point and 8 for each pair of segments
/// that are close. However the lines lie, time grows no faster than the number of points; what is
/// left out for that is listed in [`Found::crowded`].
pub fn check_lines(lines: &[impl AsRef<[Point]>], limits: &Limits) -> Result<CheckReport, Error> {
    let lines = Lines::new(lines, limits.tolerance)?;
    let doubled = twice::doubled(&lines, &limits.twice)?;
    Ok(CheckReport {
        close: close::except(&lines, &limits.close, &doubled.taken())?,
        twice: doubled.found(&lines),
        density: density::density(&lines, &limits.density)?,
        loops: loops::loops(&lines, &limits.loops)?,
    })
}
