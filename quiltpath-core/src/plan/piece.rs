//! The pieces of a solved plan: corners, sides and links, each as placed lines.

mod field;
mod ring;

pub use field::{FieldDetail, SashDetail};
pub use ring::RingDetail;

use super::lay::place::{CornerPlace, Side};
use super::middle::MiddleDetail;
use crate::fit::{EaseReport, SpanFit};
use crate::geom::{Bounds, Point, turn_between};
use crate::motif::{End, Motif};

/// One piece of the stitching, placed on the quilt, in millimetres.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Piece {
    /// The name: border, kind and place, such as `border-side-top`; fit for a file name.
    pub name: String,
    /// What the piece is.
    pub kind: PieceKind,
    /// The number of the border, from the outermost, from 0.
    pub border: usize,
    /// The depth of the band that the piece lies in; of a corner, that of the side that begins
    /// there.
    pub depth: f64,
    /// The stretches of its line that are stitched already, as shares of its length from its start,
    /// rising and apart from each other; none unless the plan was solved round what is stitched.
    pub stitched: Vec<[f64; 2]>,
    /// Its lines, at least one.
    lines: Vec<PieceLine>,
}

/// A line of a piece, placed on the quilt, in millimetres.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct PieceLine {
    /// The line, travelled in the order of stitching.
    pub motif: Motif,
    /// The indices of the points where repeats end; of a line that is whole, its last point.
    pub ends: Vec<usize>,
}

impl PieceLine {
    /// A line whose repeats end at the points of these indices, rising, the last at the last point.
    #[must_use]
    pub fn new(motif: Motif, ends: Vec<usize>) -> Self {
        Self { motif, ends }
    }

    /// A line that is whole.
    pub(in crate::plan) fn whole(motif: Motif) -> Self {
        let ends = vec![motif.points().len() - 1];
        Self { motif, ends }
    }
}

impl Piece {
    pub(in crate::plan) fn new(
        border: usize,
        (border_name, place): (&str, &str),
        depth: f64,
        kind: PieceKind,
        line: PieceLine,
    ) -> Self {
        let name = format!("{border_name}-{}-{}", kind.name(), place.replace('_', "-"));
        let line = PieceLine {
            motif: line.motif.renamed(name.clone()),
            ..line
        };
        Self {
            name,
            kind,
            border,
            depth,
            stitched: Vec::new(),
            lines: vec![line],
        }
    }

    /// A piece of the field of blocks; of a design of several lines the one of this number, from 1.
    pub(in crate::plan) fn of_field(
        border: usize,
        number: usize,
        depth: f64,
        detail: FieldDetail,
        line: PieceLine,
    ) -> Self {
        let mut name = detail.place.to_string().replace(' ', "-");
        if number > 1 {
            name = format!("{name}-{number}");
        }
        let line = PieceLine {
            motif: line.motif.renamed(name.clone()),
            ..line
        };
        Self {
            name,
            kind: PieceKind::Field(Box::new(detail)),
            border,
            depth,
            stitched: Vec::new(),
            lines: vec![line],
        }
    }

    /// The same piece, these stretches of it stitched already.
    pub(in crate::plan) fn with_stitched(mut self, stretches: Vec<[f64; 2]>) -> Self {
        self.stitched = stretches;
        self
    }

    /// The same piece with this line.
    pub(in crate::plan) fn with_line(mut self, line: PieceLine) -> Self {
        let motif = line.motif.renamed(self.name.clone());
        self.lines = vec![PieceLine { motif, ..line }];
        self
    }

    /// Whether all of it is stitched already.
    #[must_use]
    pub fn is_stitched(&self) -> bool {
        self.stitched == [[0.0, 1.0]]
    }

    /// Whether any of it is stitched already.
    #[must_use]
    pub fn has_begun(&self) -> bool {
        !self.stitched.is_empty()
    }

    /// The lines in the order of stitching, at least one.
    #[must_use]
    pub fn lines(&self) -> &[PieceLine] {
        &self.lines
    }

    /// The length of its lines together, in millimetres.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.lines.iter().map(|line| line.motif.length()).sum()
    }

    /// The points of its lines in the order of stitching.
    pub fn points(&self) -> impl Iterator<Item = Point> + Clone {
        let lines = self.lines.iter();
        lines.flat_map(|line| line.motif.points().iter().copied())
    }

    /// The smallest box, sides along the axes, that holds its lines, in millimetres.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        let more = self.lines[1..].iter().map(|line| line.motif.bounds());
        more.fold(self.motif().bounds(), |all, next| all.union(&next))
    }

    /// Where its first line starts.
    #[must_use]
    pub fn start(&self) -> End {
        self.motif().start()
    }

    /// Where its last line ends.
    #[must_use]
    pub fn end(&self) -> End {
        self.lines[self.lines.len() - 1].motif.end()
    }

    /// The one line that a piece has today.
    pub(crate) fn line(&self) -> &PieceLine {
        &self.lines[0]
    }

    pub(crate) fn motif(&self) -> &Motif {
        &self.line().motif
    }
}

/// What a piece is, with what only that kind has.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum PieceKind {
    /// A corner motif.
    Corner(CornerDetail),
    /// Repeats along a side.
    Side(SideDetail),
    /// A short connecting line after the corner or before it, next to this side.
    Link(Side),
    /// Repeats all the way round, without a corner.
    Ring(RingDetail),
    /// What fills a block, a sash, a cornerstone or a triangle of the quilt top.
    Field(Box<FieldDetail>),
}

impl PieceKind {
    /// The number of repeats and their stretch, of a piece that is made of repeats.
    #[must_use]
    pub fn fit(&self) -> Option<&SpanFit> {
        match self {
            Self::Side(side) => Some(&side.fit),
            Self::Ring(ring) => Some(&ring.fit),
            Self::Field(field) => field.sash.as_ref().map(|sash| &sash.fit),
            Self::Corner(_) | Self::Link(_) => None,
        }
    }

    /// The sharpest turn where one of its repeats ends and the next starts, in degrees from 0 to
    /// 180.
    #[must_use]
    pub fn kink_degrees(&self) -> Option<f64> {
        match self {
            Self::Side(side) => Some(side.kink_degrees),
            Self::Ring(ring) => Some(ring.kink_degrees),
            Self::Field(field) => field.sash.as_ref().map(|sash| sash.kink_degrees),
            Self::Corner(_) | Self::Link(_) => None,
        }
    }

    /// The name in data: `corner`, `side`, `link` or `ring`, or that of a
    /// [`FieldKind`](super::FieldKind).
    #[must_use]
    pub fn name(&self) -> &'static str {
        match self {
            Self::Corner(_) => "corner",
            Self::Side(_) => "side",
            Self::Link(_) => "link",
            Self::Ring(_) => "ring",
            Self::Field(detail) => detail.place.kind.name(),
        }
    }
}

/// What only a corner has.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct CornerDetail {
    /// Which corner of the border it is.
    pub position: CornerPlace,
    /// The interior angle of the border at the corner, in degrees.
    pub angle_degrees: f64,
    /// The factors from the drawing to the cloth, across its upright and its level leg; 1 for a
    /// corner made from the repeat. Along a leg the factor is that across the other leg, divided by
    /// the sine of the angle.
    pub scale: [f64; 2],
    /// How the corner came about.
    pub made: CornerMade,
}

/// How a corner came about, with the numbers that go with it.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum CornerMade {
    /// An L as it was drawn.
    Drawn,
    /// A drawing cut to an L and joined again, lengths as on the cloth.
    Trimmed {
        /// The length of the links and of what is stitched over.
        added_length: f64,
        /// That length divided by the length of the drawing's own line.
        added_share: f64,
        /// The number of links.
        links: usize,
        /// The length that is stitched over a second time.
        restitched_length: f64,
        /// The length that was dropped as slivers.
        lost_length: f64,
        /// No way of joining adds less than this; equal to `added_length` where that is exact, and
        /// `None` where it isn't known, since the line crosses itself.
        least_added: Option<f64>,
    },
    /// A block in the corner square.
    Block {
        /// The turn from the drawing to the cloth, in degrees, positive clockwise.
        turn_degrees: f64,
    },
    /// The repeat, cut on the diagonal and mirrored.
    Mitred {
        /// The turn of the line at the diagonal, in degrees.
        kink_degrees: f64,
        /// How often the line meets the diagonal.
        crossings: usize,
        /// The length of line that was dropped.
        lost_length: f64,
        /// The length of the links along the diagonal.
        linked_length: f64,
    },
    /// Whole repeats carried round on an arc.
    Bent {
        /// The number of repeats.
        repeats: usize,
        /// The radius of the middle of the band on the arc.
        radius: f64,
        /// The depth of the band on the arc.
        arc_depth: f64,
        /// By how much lengths along the arc change at most, as a share.
        length_change: f64,
    },
}

/// What only a side has.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct SideDetail {
    /// Which side of the border it is.
    pub side: Side,
    /// The number of repeats and their stretch, with the neighbours to choose from.
    pub fit: SpanFit,
    /// The length along the band between the corners.
    pub span: f64,
    /// How far one repeat leads along on the cloth.
    pub pitch: f64,
    /// The factors from the drawing to the cloth, along the band and across it; across is the mean
    /// where the band's depth changes.
    pub scale: [f64; 2],
    /// What lies in the middle, between two groups of as many repeats each.
    pub middle: Option<MiddleDetail>,
    /// The largest shift of an end across the band by levelling.
    pub levelled: f64,
    /// How many links are stitched between repeats.
    pub links: usize,
    /// The sharpest turn of the line where one of its repeats ends and the next starts, mirrored or
    /// not, in degrees from 0 to 180.
    pub kink_degrees: f64,
    /// What easing the repeats comes to, where the plan asks for it.
    pub ease: Option<EaseReport>,
}

/// Where one piece ends and the next starts.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Join {
    /// The number of the piece that ends, from 0.
    pub from: usize,
    /// The number of the piece that starts.
    pub to: usize,
    /// The distance between the two ends, in millimetres.
    pub gap: f64,
    /// The turn between the two directions of travel, in degrees from 0 to 180.
    pub kink_degrees: f64,
}

impl Join {
    /// The join of two pieces, given by their numbers from 0, whose lines end and start so.
    #[must_use]
    pub fn new([from, to]: [usize; 2], end: &End, start: &End) -> Self {
        Self {
            from,
            to,
            gap: (start.point - end.point).norm(),
            kink_degrees: turn_between(end.direction, start.direction).to_degrees(),
        }
    }
}
