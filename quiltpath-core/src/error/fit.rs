//! Spans that no whole number of repeats can fill.

use std::fmt;

use super::words::Lengths;
use crate::units::rounded;

/// What keeps a span from being filled with repeats; lengths in the unit of the call, which is
/// millimetres inside a plan.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum FitFault {
    /// A span has no length.
    SpanNotPositive {
        /// The span.
        span: f64,
    },
    /// A repeat starts and ends at the same distance along.
    RepeatHasNoPitch,
    /// A repeat is a straight line along the border.
    RepeatHasNoHeight,
    /// No repeat at all is asked for.
    NoRepeats,
    /// No number of repeats is a multiple of this.
    EveryOutOfRange {
        /// The number that repeats are to be a multiple of.
        every: usize,
        /// The largest that is accepted.
        limit: usize,
    },
    /// An odd number is to be a multiple of an even one.
    OddMultiple {
        /// The number that repeats are to be a multiple of.
        every: usize,
    },
    /// Sides that have to be alike are given different numbers of repeats.
    NumbersDiffer {
        /// The number of one side.
        one: usize,
        /// The number of another.
        other: usize,
    },
    /// Sides that have to be alike are to have an even number of repeats and an odd one.
    ParitiesDiffer,
    /// Repeats that are centred on a side are not even in number.
    CentredOdd {
        /// The number of repeats.
        repeats: usize,
    },
    /// Repeats that are centred on a side are to be odd in number.
    CentredParity,
    /// A span would take too many repeats.
    TooMany {
        /// The number of repeats.
        count: f64,
        /// The largest that is accepted.
        limit: usize,
    },
    /// More repeats are asked for than are accepted.
    NumberTooLarge {
        /// The number, or the least that the rest allows.
        repeats: usize,
        /// The largest that is accepted.
        limit: usize,
    },
    /// There is no side to fill.
    NoSides,
    /// The depths are not in the order least, preferred, greatest, or not above 0.
    DepthRange {
        /// The least depth.
        min: f64,
        /// The depth that is best.
        preferred: f64,
        /// The greatest depth.
        max: f64,
    },
    /// The span of a side is no straight line in the depth.
    SideHasNoLength {
        /// The span at depth 0.
        fixed: f64,
        /// The span for each unit of depth.
        per_depth: f64,
    },
    /// The limits of the stretch are not on both sides of 1.
    LimitNotAroundOne {
        /// The least stretch.
        least: f64,
        /// The greatest stretch.
        most: f64,
    },
    /// A fit was made of another group.
    OtherGroup,
    /// The sides would have too many points in all.
    TooManyInAll {
        /// The number of points.
        count: f64,
        /// The largest that is accepted.
        limit: usize,
    },
    /// A chained path would have too many points.
    TooManyPoints {
        /// The number of points.
        count: f64,
        /// The largest that is accepted.
        limit: usize,
    },
}

impl fmt::Display for FitFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, Lengths::Bare)
    }
}

impl FitFault {
    /// The message with lengths shown like this.
    #[allow(clippy::too_many_lines)]
    pub(super) fn write(&self, f: &mut fmt::Formatter<'_>, lengths: Lengths) -> fmt::Result {
        match self {
            Self::SpanNotPositive { span } => {
                write!(
                    f,
                    "the span is {}; give a span above 0",
                    lengths.show(*span)
                )
            }
            Self::RepeatHasNoPitch => write!(
                f,
                "the repeat starts and ends at the same distance along, so it can't be chained; draw it from left to right"
            ),
            Self::RepeatHasNoHeight => write!(
                f,
                "the repeat is a straight line along the border, so it has no height to size by; give a drawing with height"
            ),
            Self::NoRepeats => write!(f, "0 repeats can't fill a span; give at least 1"),
            Self::EveryOutOfRange { every, limit } => write!(
                f,
                "repeats in multiples of {every} can't fill a span; give a multiple of 1 to {limit}"
            ),
            Self::OddMultiple { every } => write!(
                f,
                "no odd number of repeats is a multiple of {every}; give a multiple of an odd number, or allow even numbers"
            ),
            Self::NumbersDiffer { one, other } => write!(
                f,
                "sides that have to be alike are given {one} and {other} repeats; give them one number"
            ),
            Self::ParitiesDiffer => write!(
                f,
                "sides that have to be alike are to have an even and an odd number of repeats; give them one parity"
            ),
            Self::CentredOdd { repeats } => {
                write!(
                    f,
                    "repeats centred on a side take an even number, not {repeats}; give "
                )?;
                match repeats {
                    0 | 1 => write!(f, "2"),
                    _ => write!(f, "{} or {}", repeats - 1, repeats.saturating_add(1)),
                }
            }
            Self::CentredParity => write!(
                f,
                "repeats centred on a side take an even number, not an odd one; leave the parity out, or give even"
            ),
            Self::TooMany { count, limit } => write!(
                f,
                "the span would take {count:.0} repeats; up to {limit} are accepted, so check the units of the motif and the span"
            ),
            Self::NumberTooLarge { repeats, limit } => write!(
                f,
                "{repeats} repeats are asked for; up to {limit} are accepted, so give a smaller number"
            ),
            Self::NoSides => write!(f, "the border has no side; give at least one side to fill"),
            Self::DepthRange {
                min,
                preferred,
                max,
            } => {
                let [min, preferred, max] = [min, preferred, max].map(|depth| lengths.show(*depth));
                write!(
                    f,
                    "the depth may go from {min} to {max} and is best at {preferred}; give a least depth above 0, a greatest one not below it, and one between them"
                )
            }
            Self::SideHasNoLength { fixed, per_depth } => write!(
                f,
                "the span is {} and {} for each unit of depth; give finite numbers, the first above 0",
                lengths.show(*fixed),
                rounded(*per_depth)
            ),
            Self::LimitNotAroundOne { least, most } => write!(
                f,
                "the stretch may go from {} to {}; give a least stretch above 0 and up to 1, and a greatest one of 1 or more",
                rounded(*least),
                rounded(*most)
            ),
            Self::OtherGroup => write!(
                f,
                "the fit is not one of this group: it has another number of sides, or a side without repeats; give the fit that was made of it"
            ),
            Self::TooManyInAll { count, limit } => write!(
                f,
                "the sides would have {count:.0} points in all; up to {limit} are accepted, so check the units of the motif and the quilt, or use a coarser flattening"
            ),
            Self::TooManyPoints { count, limit } => write!(
                f,
                "the chained path would have {count:.0} points; up to {limit} are accepted, so use a coarser flattening or fewer repeats"
            ),
        }
    }
}
