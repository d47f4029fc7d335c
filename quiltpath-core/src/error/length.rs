//! Lengths that can't be read.

use std::fmt;

/// What is wrong with a length as typed.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum LengthFault {
    /// Nothing is there.
    Empty,
    /// There is no number.
    NotANumber {
        /// The text.
        text: String,
    },
    /// A fraction divides by 0.
    ZeroDivision {
        /// The text.
        text: String,
    },
    /// The decimal mark is a comma, which lists of lengths are separated by.
    DecimalComma {
        /// The text.
        text: String,
    },
    /// The unit is not known.
    UnknownUnit {
        /// The text.
        text: String,
        /// What stands where the unit should.
        unit: String,
    },
    /// A bare number where no unit for bare numbers is named.
    UnitMissing {
        /// The number as text.
        text: String,
    },
    /// A reading of a mark that can't be read.
    NoReading {
        /// The text.
        text: String,
    },
    /// The number is too large.
    OutOfRange {
        /// The text.
        text: String,
        /// What is accepted.
        accepted: &'static str,
    },
}

impl fmt::Display for LengthFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(
                f,
                "the length is empty; write a number and a unit, for example 4 1/2 in or 114 mm"
            ),
            Self::NotANumber { text } => write!(
                f,
                "\"{text}\" is not a length; write for example 4.5, 4 1/2 in, 4½\", 11.4cm or 114 mm"
            ),
            Self::NoReading { text } => write!(
                f,
                "{text:?} is no reading; write a mark and the machine's x and y, for example A 3.12 4.50, A 3 1/8 4 1/2, or a mark's name, a colon, x and y"
            ),
            Self::ZeroDivision { text } => {
                write!(f, "\"{text}\" divides by 0; write a fraction such as 1/2")
            }
            Self::DecimalComma { text } => write!(
                f,
                "\"{text}\" has a decimal comma, and commas separate lengths; write {}",
                text.replacen(',', ".", 1)
            ),
            Self::UnknownUnit { text, unit } => write!(
                f,
                "\"{text}\" has the unknown unit \"{unit}\"; use in, \", ft, yd, mm, cm or m"
            ),
            Self::UnitMissing { text } => write!(
                f,
                "{text} has no unit; write {text} in or {text} mm, or name the unit of all bare numbers once"
            ),
            Self::OutOfRange { text, accepted } => {
                write!(f, "\"{text}\" is out of range; give {accepted}")
            }
        }
    }
}
