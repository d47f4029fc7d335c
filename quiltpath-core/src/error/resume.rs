//! Runs that can't be taken up again as asked.

use std::fmt;

use super::words::{Lengths, plural};
use crate::units::rounded;

/// What keeps a run from being taken up again where it is said to have stopped.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum ResumeFault {
    /// It stopped after more line than it has.
    BeyondLength {
        /// The length of line that is asked for.
        after: f64,
        /// How long the run is.
        length: f64,
    },
    /// It stopped after more stitches than it has.
    BeyondStitches {
        /// The stitch that is asked for.
        stitch: usize,
        /// How many the run has, tie-offs included.
        stitches: usize,
    },
    /// It stopped after more minutes than it takes.
    BeyondMinutes {
        /// The minutes that are asked for.
        minutes: f64,
        /// How many the run takes, tie-offs included.
        takes: f64,
    },
    /// The point where it stopped is nowhere near it.
    FarFromLine {
        /// How far the nearest place of the run is.
        distance: f64,
        /// The farthest that is accepted.
        farthest: f64,
    },
    /// It stopped at its end, and nothing of it is to be stitched again.
    NothingLeft {
        /// How long the run is.
        length: f64,
    },
}

impl ResumeFault {
    /// The message with lengths shown like this.
    pub(super) fn write(&self, f: &mut fmt::Formatter<'_>, lengths: Lengths) -> fmt::Result {
        let show = |length: f64| lengths.show(length);
        match self {
            Self::BeyondLength { after, length } => write!(
                f,
                "the run can't have stopped after {} of line, since it is {} long; give up to that",
                show(*after),
                show(*length)
            ),
            Self::BeyondStitches { stitch, stitches } => write!(
                f,
                "the run can't have stopped at stitch {stitch}, since it has {stitches} stitch{}, tie-offs included; give up to that",
                if plural(*stitches).is_empty() {
                    ""
                } else {
                    "es"
                }
            ),
            Self::BeyondMinutes { minutes, takes } => write!(
                f,
                "the run can't have stopped after {} minutes, since it takes {}; give up to that",
                rounded(*minutes),
                rounded(*takes)
            ),
            Self::FarFromLine { distance, farthest } => write!(
                f,
                "the point is {} from the nearest place of the run; up to {} are accepted, so check the run, the unit and which way y points",
                show(*distance),
                show(*farthest)
            ),
            Self::NothingLeft { length } => write!(
                f,
                "nothing of the run is left after {}, where it ends; begin farther back, or go on with the next run",
                show(*length)
            ),
        }
    }
}
