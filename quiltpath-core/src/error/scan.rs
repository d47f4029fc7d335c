//! Pictures of drawings that can't be read as lines.

use std::fmt;

/// What is wrong with a picture of a drawing, or with how it is to be read.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum ScanFault {
    /// The file is no picture of a kind that is read.
    NotPicture,
    /// The picture is damaged, cut off, or of a rare kind.
    Damaged {
        /// What its reader found.
        reason: String,
    },
    /// The picture has too many pixels.
    TooLarge {
        /// Pixels in a row.
        width: u64,
        /// Rows.
        height: u64,
        /// The most pixels that are accepted.
        limit: u64,
    },
    /// The picture has hardly a pixel.
    TooSmall {
        /// Pixels in a row.
        width: u64,
        /// Rows.
        height: u64,
        /// The least number for either.
        least: u64,
    },
    /// The number of grey values is not width times height.
    WrongCount {
        /// How many there are.
        found: usize,
        /// How many there should be.
        expected: usize,
    },
    /// There is no line in the picture.
    NoLine {
        /// How many specks there are, which were passed over.
        specks: usize,
    },
    /// Most of the picture, or too much of it for a drawing of lines, is dark.
    TooDark {
        /// The dark share of it, 0 to 1.
        share: f64,
        /// The largest share that is accepted.
        limit: f64,
    },
    /// There is too much of something for a drawing of lines.
    TooBusy {
        /// What there is too much of, such as `separate lines`.
        what: &'static str,
        /// How many there are, or the first number that is too large.
        found: usize,
        /// The largest number that is accepted.
        limit: usize,
    },
    /// Many small signs of about one size: writing rather than a drawing.
    LooksLikeText {
        /// How many there are.
        signs: usize,
    },
    /// Lines are about a pixel wide: too few pixels for the pen, or no drawing at all.
    TooThin {
        /// How wide they are, in pixels.
        pixels: f64,
        /// The least width that is accepted.
        least: f64,
    },
    /// A shape is filled, and such shapes are refused.
    Filled {
        /// How many are.
        count: usize,
        /// The middle of the largest, in pixels from the top left.
        at: [f64; 2],
    },
    /// None of the drawing paper's marks is there, and no size is given.
    NoMarks,
    /// Some marks of the drawing paper are there, but not all.
    MarksMissing {
        /// How many are found, the ring counted.
        found: usize,
        /// True when the ring is among them.
        ring: bool,
    },
    /// The four marks are there, but their code can't be read.
    CodeUnreadable,
    /// A drawing paper is asked for that no code can tell.
    BadBlank {
        /// What is wrong with it and what would be accepted.
        reason: &'static str,
    },
}

impl ScanFault {
    /// How many of the drawing paper's marks are found.
    pub(crate) fn marks(&self) -> usize {
        match self {
            Self::MarksMissing { found, .. } => *found,
            Self::CodeUnreadable => 4,
            _ => 0,
        }
    }
}

impl fmt::Display for ScanFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotPicture => write!(
                f,
                "no PNG or JPEG picture; save the scan or the photo as one of them"
            ),
            Self::Damaged { reason } => write!(
                f,
                "the picture can't be read: {reason}; save it again as a PNG or JPEG picture"
            ),
            Self::TooLarge {
                width,
                height,
                limit,
            } => write!(
                f,
                "the picture has {width} x {height} pixels; up to {} million in all are accepted, so scan at 300 dpi or make it smaller",
                limit / 1_000_000
            ),
            Self::TooSmall {
                width,
                height,
                least,
            } => write!(
                f,
                "the picture has {width} x {height} pixels; at least {least} each way are needed, and 200 for each inch of paper are good"
            ),
            Self::WrongCount { found, expected } => write!(
                f,
                "{found} grey values are given for a picture of {expected} pixels; give one for each"
            ),
            Self::NoLine { specks: 0 } => write!(
                f,
                "no line is found in the picture; draw with a dark pen on light paper, and check that it lies the right way up in the scanner"
            ),
            Self::NoLine { specks } => write!(
                f,
                "no line is found in the picture, only {specks} speck{}; draw with a dark pen on light paper",
                super::words::plural(*specks)
            ),
            Self::TooDark { share, limit } => write!(
                f,
                "{:.0} % of the picture is dark; a drawing of dark lines on light paper has up to {:.0} %",
                share * 100.0,
                limit * 100.0
            ),
            Self::TooBusy { what, found, limit } => write!(
                f,
                "the picture has {found} {what}; up to {limit} are accepted, so give a drawing of lines on plain paper"
            ),
            Self::LooksLikeText { signs } => write!(
                f,
                "the picture has {signs} small signs and no longer lines, as writing does; give a drawing of lines"
            ),
            Self::TooThin { pixels, least } => write!(
                f,
                "lines in the picture are {pixels:.1} pixels wide, and at least {least} are needed: scan in grey at 200 dpi or more, or photograph from nearer by; only drawings of lines can be read"
            ),
            Self::Filled { count, at: [x, y] } => write!(
                f,
                "{count} filled shape{}, the largest at {x:.0}, {y:.0} pixels; draw its outline, or ask for it",
                super::words::plural(*count)
            ),
            Self::NoMarks => write!(
                f,
                "the four marks of the drawing paper aren't found, so the size isn't known; give the width of the drawing"
            ),
            Self::MarksMissing { found, ring } => {
                write!(f, "{found} of the drawing paper's four marks are found")?;
                match ring {
                    true => write!(f, ", the ring among them")?,
                    false => write!(f, ", and the ring isn't among them")?,
                }
                write!(
                    f,
                    "; take the picture again with all four in it, whole and in the light, or give the width of the drawing"
                )
            }
            Self::CodeUnreadable => write!(
                f,
                "the drawing paper's four marks are found, but not the code between the lower two; take the picture again, sharp and with the code in it, or give the width of the drawing"
            ),
            Self::BadBlank { reason } => f.write_str(reason),
        }
    }
}
