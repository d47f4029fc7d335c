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
    /// The readings are much farther apart, or much closer, than the marks are.
    Stretched {
        /// How many times as far.
        stretch: f64,
    },
    /// The map by the readings folds the cloth.
    Folds {
        /// Where, as the plan expects it on the machine.
        at: [f64; 2],
    },
    /// A mark that the pass doesn't have.
    NoSuchMark {
        /// What was given.
        mark: String,
        /// The marks that the pass has.
        marks: Vec<String>,
    },
    /// What was given for the zero of files is none.
    NoOrigin {
        /// What was given.
        text: String,
    },
    /// Lines that have no window can't have their zero there.
    NoWindow,
    /// A length is taped from a stitched end that no reading is of.
    NoStitchedEnd {
        /// The side.
        side: String,
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
            Self::Stretched { stretch } => {
                write!(
                    f,
                    "the readings lie {stretch:.3} times as far apart as the marks do, and no cloth is stretched like that"
                )?;
                match unit_read(*stretch) {
                    Some(guess) => write!(f, "; they look like {guess}"),
                    None => write!(
                        f,
                        "; read the marks again, and look whether they were exchanged"
                    ),
                }
            }
            Self::Folds { at: [x, y] } => write!(
                f,
                "by these readings the cloth lies in a fold near {}, {}; read the marks near there again",
                lengths.show(*x),
                lengths.show(*y)
            ),
            Self::NoSuchMark { mark, marks } => write!(
                f,
                "there is no mark {mark:?}; the marks are {}",
                marks.join(", ")
            ),
            Self::NoOrigin { text } => write!(
                f,
                "{text:?} is no place for the zero; give window, start, mark: and a letter, or corner: and top_left, top_right, bottom_right or bottom_left"
            ),
            Self::NoWindow => write!(
                f,
                "these lines have no window; give start or corner: and its name for their zero"
            ),
            Self::NoStitchedEnd { side } => write!(
                f,
                "a length along the {side} is taped from where its stitched line ends and goes on in this pass; read that mark, too"
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

/// What readings that are so many times as far apart as the marks were meant to be in.
fn unit_read(stretch: f64) -> Option<&'static str> {
    const UNITS: [(f64, &str); 6] = [
        (1.0 / 25.4, "inches where millimetres were meant"),
        (25.4, "millimetres where inches were meant"),
        (1.0 / 2.54, "inches where centimetres were meant"),
        (2.54, "centimetres where inches were meant"),
        (0.1, "centimetres where millimetres were meant"),
        (10.0, "millimetres where centimetres were meant"),
    ];
    let near = |unit: &&(f64, &str)| (stretch / unit.0).ln().abs() < 0.05;
    UNITS.iter().find(near).map(|unit| unit.1)
}
