//! What a solved plan has to report: each finding as data, with its place and what it is about.
//!
//! Lengths in millimetres, stretches as factors, angles in degrees. The words that people read are
//! made of it in `io::words`.

use crate::plan::lay::place::{CornerPlace, Side};

use super::kind::FindingKind;
use crate::geom::Point;
use crate::plan::piece::{Piece, PieceKind};

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Good to know.
    Note,
    /// Look at it before stitching.
    Warning,
    /// Not to be stitched like this.
    Error,
}

impl Severity {
    /// The name in data: `note`, `warning` or `error`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

/// One thing that the solution of a plan, or its stitching, has to report.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Finding {
    /// What it is, with its numbers.
    pub kind: FindingKind,
    /// How much it matters.
    pub severity: Severity,
    /// The number of the piece that it is about, from 0; of several the first.
    pub piece: Option<usize>,
    /// The number of the border, from the outermost, from 0.
    pub border: Option<usize>,
    /// The side of the border.
    pub side: Option<Side>,
    /// The corner of the border.
    pub corner: Option<CornerPlace>,
    /// All its places on the quilt, in millimetres, the worst first; none where it has no place.
    pub places: Vec<Point>,
}

impl Finding {
    pub(crate) fn new(severity: Severity, kind: FindingKind) -> Self {
        Self {
            kind,
            severity,
            piece: None,
            border: None,
            side: None,
            corner: None,
            places: Vec::new(),
        }
    }

    /// A turn of the line: a note, or a warning beyond 60 degrees, where it shows as a fault unless
    /// it is drawn as a point. The limit is our own choice.
    pub(crate) fn turn(degrees: f64, kind: FindingKind) -> Self {
        const SHARP_DEGREES: f64 = 60.0;
        match degrees > SHARP_DEGREES {
            true => Self::warning(kind),
            false => Self::note(kind),
        }
    }

    pub(crate) fn note(kind: FindingKind) -> Self {
        Self::new(Severity::Note, kind)
    }

    pub(crate) fn warning(kind: FindingKind) -> Self {
        Self::new(Severity::Warning, kind)
    }

    pub(crate) fn error(kind: FindingKind) -> Self {
        Self::new(Severity::Error, kind)
    }

    pub(crate) fn at(mut self, place: Point) -> Self {
        self.places.push(place);
        self
    }

    pub(crate) fn on_piece(mut self, number: usize, piece: &Piece) -> Self {
        self.piece = Some(number);
        (self.side, self.corner) = match &piece.kind {
            PieceKind::Corner(corner) => (None, Some(corner.position)),
            PieceKind::Side(side) => (Some(side.side), None),
            PieceKind::Link(side) => (Some(*side), None),
            PieceKind::Field(_) | PieceKind::Ring(_) => (None, None),
        };
        self.on_border(piece.border)
    }

    pub(crate) fn on_border(mut self, border: usize) -> Self {
        self.border = Some(border);
        self
    }

    pub(crate) fn on_side(mut self, border: usize, side: Side) -> Self {
        self.side = Some(side);
        self.on_border(border)
    }

    pub(crate) fn on_corner(mut self, border: usize, corner: CornerPlace) -> Self {
        self.corner = Some(corner);
        self.on_border(border)
    }

    /// What it is, in one word that stays the same.
    #[must_use]
    pub fn code(&self) -> &'static str {
        self.kind.code()
    }

    /// Its place on the quilt, in millimetres: of several the worst.
    #[must_use]
    pub fn place(&self) -> Option<Point> {
        self.places.first().copied()
    }
}
