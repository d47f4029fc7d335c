//! Where the time at the frame goes.
//!
//! Problem: the minutes of a quilt are more than those of stitching. Method: a sum of what is
//! counted: seconds of moving, starts and cuts as estimated for the lines; advances, marks touched
//! and loadings by the seconds that the plan has for each. Guarantee: the parts are the whole.
//! Failure: all but the moving is as good as the plan's seconds, which are guesses by default.

use super::options::FrameOptions;
use crate::stitch::estimate::Time;

/// Where the time at the frame goes, in seconds.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct FrameTime {
    /// Moving along the lines.
    pub stitching: f64,
    /// Starts, tie-offs and cuts.
    pub starts: f64,
    /// Advancing the quilt from pass to pass.
    pub advancing: f64,
    /// Touching the marks of each pass.
    pub readings: f64,
    /// Loading the quilt on the frame.
    pub loading: f64,
}

impl FrameTime {
    /// All of it, in seconds.
    #[must_use]
    pub fn seconds(&self) -> f64 {
        self.stitching + self.starts + self.advancing + self.readings + self.loading
    }

    /// All of it, in minutes.
    #[must_use]
    pub fn minutes(&self) -> f64 {
        self.seconds() / 60.0
    }

    pub(super) fn of(lines: &Time, counted: Counted, frame: &FrameOptions) -> Self {
        let times = |seconds: f64, count: usize| seconds * count as f64;
        Self {
            stitching: lines.moving,
            starts: lines.standing,
            advancing: times(frame.seconds_per_advance, counted.advances),
            readings: times(frame.seconds_per_reading, counted.marks),
            loading: times(frame.seconds_per_loading, counted.loadings),
        }
    }
}

/// How often there is what takes its seconds each time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Counted {
    pub(super) advances: usize,
    /// The marks that are touched.
    pub(super) marks: usize,
    pub(super) loadings: usize,
}
