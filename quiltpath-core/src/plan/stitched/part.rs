//! The parts of a quilt that are stitched, by their borders and by names that hold after a change.

use crate::geom::Point;
use crate::plan::ask::CornerStyle;
use crate::plan::lay::SideWidths;
use crate::plan::lay::field::FieldPlace;
use crate::plan::lay::layout::Layout;
use crate::plan::lay::place::{CornerPlace, Side};
use crate::plan::piece::{CornerMade, Piece, PieceKind, PieceLine};
use crate::plan::solved::Solved;

/// What is stitched of a quilt, in millimetres, in the coordinates of the plan by which it lies.
///
/// x to the right, y down, as in [`Solved`]. Runs are taken down by [`Stitched::add`].
///
/// ```
/// use quiltpath_core::plan::{Stitched, solve, stitch_plan};
/// # use quiltpath_core::{geom::Point, io::json::read_plan, motif::Motif};
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)];
/// #     let points = wave.map(|(x, y)| Point::new(x, y)).to_vec();
/// #     Ok(Motif::from_points("wave", points)?.into())
/// # };
/// # let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
/// #     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let solved = solve(&plan, wave)?;
/// let stitching = stitch_plan(&plan, &solved)?;
/// let mut stitched = Stitched::default();
/// stitched.add(&solved, &stitching.runs[0])?;
/// // Nothing may be stitched twice.
/// assert!(stitched.add(&solved, &stitching.runs[0]).is_err());
/// assert!((stitched.length() - stitching.runs[0].motif.length()).abs() < 1e-9);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
#[non_exhaustive]
pub struct Stitched {
    /// The borders that have begun, in the order in which they did.
    pub borders: Vec<StitchedBorder>,
}

/// A border that has begun.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct StitchedBorder {
    /// Its name.
    pub name: String,
    /// The corners of its inner seam when it was begun, taken as straight, clockwise as seen: what
    /// is stitched is carried by them to where the seam is now.
    pub seam: Vec<Point>,
    /// The width and the gaps of each side, of the band as it was used.
    pub widths: Vec<SideWidths>,
    /// The pieces that have begun, and the other lines of a corner that has.
    pub parts: Vec<StitchedPart>,
}

/// A piece that has begun.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct StitchedPart {
    /// What it is.
    pub place: PartPlace,
    /// Its whole line as laid, with the places where repeats end.
    pub line: PieceLine,
    /// The stretches of it that are stitched, as shares of its length from its start, rising and
    /// apart from each other; none of a line that only belongs to one that has begun.
    pub stretches: Vec<[f64; 2]>,
}

/// What a piece is, by names that hold when measures change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum PartPlace {
    /// A corner, or one of its lines.
    Corner {
        /// Which corner of the border.
        place: CornerPlace,
        /// The style of the corner.
        style: CornerStyle,
        /// Which of its lines, from 0.
        line: usize,
    },
    /// The repeats along a side.
    Side {
        /// Which side of the border.
        side: Side,
        /// Whether its start and its end lie on the ends of corners.
        meets: [bool; 2],
    },
    /// A short line between a corner and a side.
    Link {
        /// The side that it leads to or comes from.
        side: Side,
        /// True at the end of the side.
        last: bool,
    },
    /// The repeats of a border without corners.
    Ring,
    /// A place in the field of blocks, or one of the lines of its design.
    Field {
        /// Which place.
        place: FieldPlace,
        /// Which of its lines, from 0.
        line: usize,
    },
}

impl PartPlace {
    /// What a piece of a solved plan is, given by its number.
    pub(in crate::plan) fn of(solved: &Solved, number: usize) -> Self {
        let piece = &solved.pieces[number];
        match &piece.kind {
            PieceKind::Corner(detail) => {
                let before = &solved.pieces[..number];
                let same = |other: &&Piece| match &other.kind {
                    PieceKind::Corner(there) => {
                        other.border == piece.border && there.position == detail.position
                    }
                    _ => false,
                };
                Self::Corner {
                    place: detail.position,
                    style: style(&detail.made),
                    line: before.iter().filter(same).count(),
                }
            }
            PieceKind::Side(detail) => {
                let met = |with: [usize; 2], gap: f64| {
                    let corner = with.into_iter().find(|&other| other != number);
                    let kind = corner.and_then(|at| solved.pieces.get(at));
                    gap <= solved.join_tolerance
                        && kind.is_some_and(|at| matches!(at.kind, PieceKind::Corner(_)))
                };
                let joins = || solved.joins.iter();
                let meets = [
                    joins().any(|j| j.to == number && met([j.from, j.to], j.gap)),
                    joins().any(|j| j.from == number && met([j.from, j.to], j.gap)),
                ];
                let side = detail.side;
                Self::Side { side, meets }
            }
            PieceKind::Ring(_) => Self::Ring,
            PieceKind::Field(detail) => {
                let before = &solved.pieces[..number];
                let same = |other: &&Piece| match &other.kind {
                    PieceKind::Field(there) => there.place == detail.place,
                    _ => false,
                };
                let line = before.iter().rev().take_while(same).count();
                let place = detail.place;
                Self::Field { place, line }
            }
            PieceKind::Link(side) => {
                let side_before = number.checked_sub(1).and_then(|at| solved.pieces.get(at));
                let last = side_before.is_some_and(|before| match &before.kind {
                    PieceKind::Side(detail) => {
                        before.border == piece.border && detail.side == *side
                    }
                    _ => false,
                });
                Self::Link { side: *side, last }
            }
        }
    }

    /// Whether two are one piece, whatever their style and whether they meet their corners.
    pub(crate) fn is(&self, other: &Self) -> bool {
        match (self, other) {
            (
                Self::Corner { place, line, .. },
                Self::Corner {
                    place: there,
                    line: number,
                    ..
                },
            ) => place == there && line == number,
            (Self::Side { side, .. }, Self::Side { side: there, .. }) => side == there,
            (Self::Link { .. }, Self::Link { .. })
            | (Self::Ring, Self::Ring)
            | (Self::Field { .. }, Self::Field { .. }) => self == other,
            _ => false,
        }
    }
}

/// The style of a corner that came about like this.
pub(in crate::plan) fn style(made: &CornerMade) -> CornerStyle {
    match made {
        CornerMade::Drawn | CornerMade::Trimmed { .. } => CornerStyle::Leg,
        CornerMade::Block { .. } => CornerStyle::Block,
        CornerMade::Mitred { .. } => CornerStyle::Mitred,
        CornerMade::Bent { .. } => CornerStyle::Bent,
    }
}

impl StitchedPart {
    /// A part of this line, nothing of it stitched.
    #[must_use]
    pub fn new(place: PartPlace, line: PieceLine) -> Self {
        Self {
            place,
            line,
            stretches: Vec::new(),
        }
    }

    /// From where to where it is stitched, counted in repeats, each by its length: 2.25 is a
    /// quarter of the third.
    #[must_use]
    pub fn in_repeats(&self) -> Vec<[f64; 2]> {
        let points = self.line.motif.points();
        let mut reached = vec![0.0];
        for pair in points.windows(2) {
            reached.push(reached[reached.len() - 1] + (pair[1] - pair[0]).norm());
        }
        let length = reached[points.len() - 1];
        let stops = self.line.ends.iter();
        let stops: Vec<f64> = std::iter::once(0.0)
            .chain(stops.map(|&stop| reached[stop.min(points.len() - 1)] / length))
            .collect();
        let count = |share: f64| {
            let next = stops.partition_point(|&stop| stop <= share);
            match (stops.get(next), next.checked_sub(1)) {
                (Some(to), Some(whole)) => {
                    whole as f64 + (share - stops[whole]) / (to - stops[whole])
                }
                _ => (stops.len() - 1) as f64,
            }
        };
        let stretches = self.stretches.iter();
        stretches.map(|stretch| stretch.map(count)).collect()
    }

    /// The length that is stitched, in millimetres.
    #[must_use]
    pub fn length(&self) -> f64 {
        let shares: f64 = self.stretches.iter().map(|[from, to]| to - from).sum();
        shares * self.line.motif.length()
    }
}

impl StitchedBorder {
    /// A border as it lies in a plan, nothing of it stitched.
    #[must_use]
    pub fn new(layout: &Layout) -> Self {
        Self {
            name: layout.name.clone(),
            seam: layout.band.seam.corners().to_vec(),
            widths: layout.widths.clone(),
            parts: Vec::new(),
        }
    }

    /// The part that is this piece.
    pub(in crate::plan) fn part(&self, place: &PartPlace) -> Option<&StitchedPart> {
        self.parts.iter().find(|part| part.place.is(place))
    }

    /// Whether anything of it is stitched.
    pub(in crate::plan) fn has_begun(&self) -> bool {
        self.parts.iter().any(|part| !part.stretches.is_empty())
    }
}

impl Stitched {
    /// True when nothing is stitched.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        !self.borders.iter().any(StitchedBorder::has_begun)
    }

    /// The length that is stitched, in millimetres.
    #[must_use]
    pub fn length(&self) -> f64 {
        let parts = self.borders.iter().flat_map(|border| &border.parts);
        parts.map(StitchedPart::length).sum()
    }

    /// The border of this name, when it has begun.
    #[must_use]
    pub fn border(&self, name: &str) -> Option<&StitchedBorder> {
        self.borders.iter().find(|border| border.name == name)
    }

    /// The part that is the piece of this number of a solved plan, when it has begun.
    #[must_use]
    pub fn part(&self, solved: &Solved, piece: usize) -> Option<&StitchedPart> {
        let layout = solved.layouts.get(solved.pieces.get(piece)?.border)?;
        self.border(&layout.name)?
            .part(&PartPlace::of(solved, piece))
    }
}
