//! A mark: a place on the cloth that can be found again with the needle, by a lasting name.

use crate::align::DEFAULT_NOISE_MM;
use crate::geom::Point;
use crate::plan::lay::field::FieldPlace;
use crate::plan::lay::place::{CornerPlace, Side};
use crate::plan::piece::PieceKind;

/// How well a raw edge, or a place along a seam by a tape measure, is found, as a standard
/// deviation in millimetres: 1/16 in, our own guess.
const BY_TAPE_MM: f64 = 25.4 / 16.0;

/// A place on the cloth that can be found again with the needle.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Mark {
    /// What it is; as long as the quilt is the same, the same place.
    pub kind: MarkKind,
    /// Where the plan has it, on the quilt, in millimetres.
    pub point: Point,
}

/// What a mark is.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum MarkKind {
    /// A corner of a line of the cloth.
    Corner {
        /// Which line.
        line: MarkLine,
        /// Which corner of it.
        corner: CornerPlace,
    },
    /// A place along a line of the cloth.
    Along {
        /// Which line.
        line: MarkLine,
        /// Which side of it.
        side: Side,
        /// Where on that side.
        at: AlongLine,
    },
    /// The point between two scallops of the raw edge.
    Cusp {
        /// Its number from 0, clockwise from the middle of the top.
        number: usize,
    },
    /// An end of what is stitched already, or of what is to be stitched.
    LineEnd(LineEndMark),
    /// A place that was found by a tape measure from another.
    Taped,
}

/// A line of the cloth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum MarkLine {
    /// The raw edge of the quilt.
    RawEdge,
    /// The inner seam of a border, by its number from the outermost, from 0.
    Seam(usize),
}

/// Where a mark lies along a side of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum AlongLine {
    /// In its middle.
    Middle,
    /// So far, in millimetres, from the corner where the side begins.
    From(f64),
}

/// An end of a stitched line.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct LineEndMark {
    /// The number of its border, from the outermost, from 0.
    pub border: usize,
    /// Which piece of the border.
    pub piece: MarkedPiece,
    /// Where on the piece, counted in repeats of a side, in shares of any other piece: 0 is where
    /// it starts, as it was planned.
    pub at: f64,
    /// How many repeats the side has; 1 for any other piece.
    pub of: usize,
    /// Whether it is stitched already: then the needle finds it well, and what goes on from there
    /// has to meet it.
    pub stitched: bool,
}

/// A piece of a border, by its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum MarkedPiece {
    /// A corner.
    Corner(CornerPlace),
    /// A side.
    Side(Side),
    /// A link next to this side.
    Link(Side),
    /// The repeats of a border without corners.
    Ring,
    /// A place in the field of blocks.
    Field(FieldPlace),
}

impl MarkedPiece {
    /// The place of a piece.
    #[must_use]
    pub fn of(kind: &PieceKind) -> Self {
        match kind {
            PieceKind::Corner(corner) => Self::Corner(corner.position),
            PieceKind::Side(side) => Self::Side(side.side),
            PieceKind::Link(side) => Self::Link(*side),
            PieceKind::Ring(_) => Self::Ring,
            PieceKind::Field(detail) => Self::Field(detail.place),
        }
    }
}

impl Mark {
    pub(in crate::plan) fn new(kind: MarkKind, point: Point) -> Self {
        Self { kind, point }
    }

    /// A place that was found by a tape measure, on the quilt, in millimetres.
    #[must_use]
    pub fn taped(point: Point) -> Self {
        Self::new(MarkKind::Taped, point)
    }

    /// How well the needle is put on it, as a standard deviation, in millimetres.
    #[must_use]
    pub fn noise(&self) -> f64 {
        match self.kind {
            MarkKind::Corner {
                line: MarkLine::Seam(_),
                ..
            } => DEFAULT_NOISE_MM,
            MarkKind::LineEnd(end) if end.stitched => DEFAULT_NOISE_MM,
            _ => BY_TAPE_MM,
        }
    }

    /// Whether what is stitched next has to meet it: the end of a line already stitched.
    #[must_use]
    pub fn is_met(&self) -> bool {
        matches!(self.kind, MarkKind::LineEnd(end) if end.stitched)
    }
}

/// The letter of a mark by its number in its pass, from 0: A to Z, then AA and so on.
///
/// ```
/// use quiltpath_core::plan::mark_letter;
///
/// assert_eq!([0, 25, 26].map(mark_letter), ["A", "Z", "AA"]);
/// ```
#[must_use]
pub fn mark_letter(number: usize) -> String {
    let mut letters = Vec::new();
    let mut left = number + 1;
    while left > 0 {
        left -= 1;
        letters.push(char::from(b'A' + (left % 26) as u8));
        left /= 26;
    }
    letters.iter().rev().collect()
}
