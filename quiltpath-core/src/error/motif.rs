//! Drawings that are not one open path, and corner motifs whose legs can't be found.

use std::fmt;

use super::words::Lengths;
use crate::geom::{Gap, Point};

/// What keeps a drawing from being one open path; lengths in the unit of the lines, which is
/// millimetres inside a plan.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum MotifFault {
    /// The drawing has no path.
    Nothing,
    /// The drawing is several lines that don't meet.
    Apart {
        /// The gaps between one line and the next, in the order of travel.
        gaps: Vec<Gap>,
        /// How many separate lines there are.
        pieces: usize,
    },
    /// So many lines lie in one spot that where they meet isn't looked for.
    Crowded {
        /// The middle of the spot.
        at: Point,
        /// How many segments lie in it.
        segments: usize,
    },
    /// There are more strokes than are made one line.
    TooManyStrokes {
        /// How many there are.
        count: usize,
        /// How many are accepted.
        limit: usize,
    },
    /// No stroke is longer than what counts as one place.
    AllShort {
        /// How near ends are that meet.
        join: f64,
    },
    /// The drawing has no places where the line could start and end as it is to.
    NoEnds,
}

impl fmt::Display for MotifFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, Lengths::Bare)
    }
}

impl MotifFault {
    /// The message with lengths shown like this.
    pub(super) fn write(&self, f: &mut fmt::Formatter<'_>, lengths: Lengths) -> fmt::Result {
        const LISTED: usize = 5;
        match self {
            Self::Nothing => write!(
                f,
                "the drawing has no path; give a drawing with at least one line"
            ),
            Self::Apart { gaps, pieces } => {
                write!(f, "the drawing is {pieces} separate lines: ")?;
                let place = |point: Point| {
                    let [x, y] = [point.x, point.y].map(|place| lengths.show(place));
                    format!("({x}, {y})")
                };
                for gap in gaps.iter().take(LISTED) {
                    let (from, to) = (place(gap.from), place(gap.to));
                    write!(
                        f,
                        "\"{}\" ends at {from}, {} from the start of \"{}\" at {to}; ",
                        gap.from_id,
                        lengths.show(gap.size()),
                        gap.to_id
                    )?;
                }
                if gaps.len() > LISTED {
                    write!(f, "and {} gaps more; ", gaps.len() - LISTED)?;
                }
                write!(
                    f,
                    "draw them so that they meet, or have one line made of them"
                )
            }
            Self::Crowded { at, segments } => {
                let [x, y] = [at.x, at.y].map(|place| lengths.show(place));
                write!(
                    f,
                    "{segments} segments lie around ({x}, {y}), too many to find out where they meet; draw fewer lines there"
                )
            }
            Self::TooManyStrokes { count, limit } => write!(
                f,
                "the drawing has {count} strokes that don't follow one another; up to {limit} are made one line, so draw fewer, or read the layers that are to be stitched alone"
            ),
            Self::AllShort { join } => write!(
                f,
                "no stroke is clearly longer than {}, at which ends count as one place; draw longer ones, or give a smaller distance",
                lengths.show(*join)
            ),
            Self::NoEnds => write!(
                f,
                "no line along the drawing starts and ends as it is to; give places that lie on the drawing"
            ),
        }
    }
}

/// What keeps a drawing from being an L; lengths in the unit of the drawing.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum LegFault {
    /// There is no empty inner corner.
    NoEmptyCorner,
    /// The line does not run from one leg's open end to the other's.
    PortsElsewhere {
        /// The leg that the line starts on: `horizontal` or `vertical`.
        starts_on: &'static str,
        /// The other leg.
        ends_on: &'static str,
        /// How far the line's start lies from its leg's open end, in shares of its free length.
        start_share: f64,
        /// How far the line's end lies from its leg's open end, in shares of its free length.
        end_share: f64,
    },
    /// A leg is as deep as the drawing, or has no depth.
    TooDeep {
        /// The depth of the leg.
        depth: f64,
        /// The size of the drawing across the leg; the depth has to be below it.
        limit: f64,
    },
}

impl fmt::Display for LegFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, Lengths::Bare)
    }
}

impl LegFault {
    /// The message with lengths shown like this.
    pub(super) fn write(&self, f: &mut fmt::Formatter<'_>, lengths: Lengths) -> fmt::Result {
        match self {
            Self::NoEmptyCorner => write!(
                f,
                "no empty inner corner found, so this is not an L; give an L-shaped drawing, or give its elbow and leg depth outright"
            ),
            Self::PortsElsewhere {
                starts_on,
                ends_on,
                start_share,
                end_share,
            } => write!(
                f,
                "the line does not run from one leg's open end to the other's: its start lies {:.0} % of the {starts_on} leg's free length from the open end, its end {:.0} % of the {ends_on} leg's; give an L that starts and ends at its open ends, or give its elbow and leg depth outright",
                100.0 * start_share,
                100.0 * end_share
            ),
            Self::TooDeep { depth, limit } => {
                let limit = lengths.show(*limit);
                write!(
                    f,
                    "a leg depth of {} does not fit into a drawing of {limit}; give a leg depth above 0 and below {limit}",
                    lengths.show(*depth)
                )
            }
        }
    }
}
