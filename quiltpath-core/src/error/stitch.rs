//! Paths that can't be stitched, lines that can't be checked, pieces that paper can't take.

use std::fmt;

use super::words::Lengths;
use crate::units::Unit;

/// What keeps a path from being stitched or put in order.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum StitchFault {
    /// A path would take too many stitches.
    TooMany {
        /// The number of stitches.
        count: f64,
        /// The largest that is accepted.
        limit: usize,
    },
    /// The stitching falls into too many parts.
    TooManyAtoms {
        /// The largest number that is accepted.
        limit: usize,
    },
    /// An atom is joined that is not there.
    NoSuchAtom {
        /// Its number, from 0.
        atom: usize,
        /// How many there are.
        count: usize,
    },
    /// A piece is named that is not there.
    NoSuchPiece {
        /// Its number, from 0.
        piece: usize,
        /// How many there are.
        count: usize,
    },
    /// The ends of copies don't follow each other on the line.
    EndsAstray {
        /// The index of the line's last point.
        last: usize,
    },
    /// The quilt is thicker than the bar that it is wound on is round.
    RollTooThick {
        /// The thickness of the quilt, in the unit of the call, which is millimetres inside a plan.
        thickness: f64,
        /// The circumference of the bar.
        most: f64,
    },
    /// Nothing of the throat is left for a window.
    NothingLeft {
        /// The height of the throat, in the unit of the call, which is millimetres inside a plan.
        throat: f64,
        /// What is kept free at either edge.
        reserve: f64,
        /// By how much the roll has grown.
        growth: f64,
        /// How much of the quilt is wound on it.
        wound: f64,
    },
}

impl fmt::Display for StitchFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, Lengths::Bare)
    }
}

impl StitchFault {
    /// The message with lengths shown like this.
    pub(super) fn write(&self, f: &mut fmt::Formatter<'_>, lengths: Lengths) -> fmt::Result {
        let show = |length: &f64| lengths.show(*length);
        match self {
            Self::TooMany { count, limit } => write!(
                f,
                "the path would take {count:.0} stitches; up to {limit} are accepted, so check the units of the path and of the stitch"
            ),
            Self::TooManyAtoms { limit } => write!(
                f,
                "the stitching falls into more than {limit} parts; up to that many are accepted, so check the unit of the throat, or put it in order in parts"
            ),
            Self::NoSuchAtom { atom, count } => write!(
                f,
                "atom {atom} is joined, but there are only {count}; give the numbers of atoms, counted from 0"
            ),
            Self::NoSuchPiece { piece, count } => write!(
                f,
                "piece {piece} is named, but there are only {count}; give the numbers of pieces, counted from 0"
            ),
            Self::EndsAstray { last } => write!(
                f,
                "the copies do not end on the line one after the other; give rising indices of its points, from 1 to {last}"
            ),
            Self::RollTooThick { thickness, most } => write!(
                f,
                "the quilt lies {} thick on the roll, more than the bar is round; give up to {}, or a thicker bar",
                show(thickness),
                show(most)
            ),
            Self::NothingLeft {
                throat,
                reserve,
                growth,
                wound,
            } => write!(
                f,
                "nothing is left of a throat of {}: {} is kept free at either edge, and the roll takes {} with {} of the quilt on it; give a deeper throat, less to keep free, a thinner quilt or a thicker bar",
                show(throat),
                show(reserve),
                show(growth),
                show(wound)
            ),
        }
    }
}

/// What keeps stitched lines or outlines from being checked; lengths in the unit of the call, which
/// is millimetres inside a plan.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum CheckFault {
    /// The lines have too many points.
    TooManyPoints {
        /// How many they have.
        found: usize,
        /// The largest number that is accepted.
        limit: usize,
    },
    /// The lines would pass through too many squares.
    TooFar {
        /// The number of squares.
        squares: f64,
        /// The largest that is accepted.
        limit: usize,
    },
    /// An outline reaches beyond the one around it.
    NotNested {
        /// The outline around it.
        outer: OutlineNumber,
        /// The outline that reaches beyond.
        inner: OutlineNumber,
        /// By how much.
        by: f64,
    },
}

/// An outline between which lines may be stitched, by its number from 0 in its list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum OutlineNumber {
    /// One that lines stay inside of, counted from the outermost.
    Outer(usize),
    /// One that lines stay outside of, counted from the innermost.
    Inner(usize),
}

impl fmt::Display for OutlineNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Outer(number) => write!(f, "outer outline {number}"),
            Self::Inner(number) => write!(f, "inner outline {number}"),
        }
    }
}

impl fmt::Display for CheckFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, Lengths::Bare)
    }
}

impl CheckFault {
    /// The message with lengths shown like this.
    pub(super) fn write(&self, f: &mut fmt::Formatter<'_>, lengths: Lengths) -> fmt::Result {
        match self {
            Self::TooManyPoints { found, limit } => write!(
                f,
                "the lines have {found} points; up to {limit} are accepted, so check them in parts"
            ),
            Self::TooFar { squares, limit } => write!(
                f,
                "the lines would pass through {squares:.0} squares; up to {limit} are accepted, so check the units of the lines and the side of the squares"
            ),
            Self::NotNested { outer, inner, by } => write!(
                f,
                "{inner} reaches {} beyond {outer}; give outlines that lie within each other",
                lengths.show(*by)
            ),
        }
    }
}

/// What keeps pieces from being printed; lengths in millimetres.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum PaperFault {
    /// A piece takes too many sheets of paper.
    TooManySheets {
        /// Width and height of the piece.
        size: [f64; 2],
        /// How many sheets it takes.
        sheets: f64,
        /// The name of the paper.
        paper: &'static str,
        /// The largest number that is accepted.
        limit: usize,
        /// Width and height up to which a piece of its shape is accepted.
        accepted: [f64; 2],
    },
    /// Paper to draw a motif on doesn't fit on a sheet.
    BlankTooLarge {
        /// Width and height of what is drawn.
        size: [f64; 2],
        /// The name of the paper.
        paper: &'static str,
        /// Width and height up to which it fits, on the sheet upright and on its side.
        accepted: [[f64; 2]; 2],
    },
}

impl fmt::Display for PaperFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, Unit::Mm)
    }
}

impl PaperFault {
    /// The message with lengths in this unit.
    pub(super) fn write(&self, f: &mut fmt::Formatter<'_>, unit: Unit) -> fmt::Result {
        let words = |size: &[f64; 2]| {
            let [width, height] = size.map(|mm| unit.readable(mm));
            format!("{width} x {height}")
        };
        match self {
            Self::TooManySheets {
                size,
                sheets,
                paper,
                limit,
                accepted,
            } => write!(
                f,
                "a piece of {} takes {sheets:.0} sheets of {paper} paper; up to {limit} are accepted, so give a piece of up to {}: check its unit, or cut or scale it",
                words(size),
                words(accepted)
            ),
            Self::BlankTooLarge {
                size,
                paper,
                accepted: [upright, sideways],
            } => write!(
                f,
                "a drawing of {} doesn't fit on a sheet of {paper} paper with its marks; up to {} fits, or {} with the sheet on its side: a smaller drawing is as good, since plans size it to the band",
                words(size),
                words(upright),
                words(sideways)
            ),
        }
    }
}
