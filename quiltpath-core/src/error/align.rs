//! Readings of marks on the cloth that no map can be made of.

use std::fmt;

use super::words::Lengths;

/// What is wrong with readings of marks.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum AlignFault {
    /// There is no reading.
    NoReadings,
    /// There are too many readings.
    TooMany {
        /// How many there are.
        count: usize,
        /// The most that are accepted.
        limit: usize,
    },
    /// A mark is read more than once, at places too far apart to be one.
    ReadTwice {
        /// The mark.
        mark: String,
        /// How far the readings are apart.
        apart: f64,
        /// How far they may be apart.
        limit: f64,
    },
    /// Two marks are planned at one place.
    SamePlace {
        /// The marks.
        marks: [String; 2],
    },
}

impl AlignFault {
    /// The message with lengths shown like this.
    pub(super) fn write(&self, f: &mut fmt::Formatter<'_>, lengths: Lengths) -> fmt::Result {
        match self {
            Self::NoReadings => write!(f, "no mark is read; read at least one"),
            Self::TooMany { count, limit } => {
                write!(f, "{count} readings are given; up to {limit} are accepted")
            }
            Self::ReadTwice { mark, apart, limit } => write!(
                f,
                "mark {mark} is read at places that are {} apart, and up to {} are one place; read it again",
                lengths.show(*apart),
                lengths.show(*limit)
            ),
            Self::SamePlace {
                marks: [one, other],
            } => write!(
                f,
                "the marks {one} and {other} are planned at the same place; leave one out"
            ),
        }
    }
}
