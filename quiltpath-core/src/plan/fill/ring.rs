//! The pieces of a border in the order of stitching, with links where ends don't meet, and their
//! joins.
//!
//! Where sides join on to corners, each end was measured when it was placed; here the corner's
//! joint and the side's own end are compared once, which gives the link or the join.

use super::side::{FilledSide, fill_side, stiffness};
use crate::error::Error;
use crate::fit::{SpanFit, Stiffness};
use crate::motif::{End, Motif};
use crate::plan::corners::{CornerPiece, Corners};
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::laid::{Border, Laid};
use crate::plan::lay::layout::Layout;
use crate::plan::lay::place::Side;
use crate::plan::piece::{Join, Piece, PieceKind, PieceLine};
use crate::plan::spans::{SideSpan, outlines, report};

/// A border as it is stitched, its pieces numbered from 0.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Filled {
    /// Where it lies, its band as it runs on the cloth.
    pub(in crate::plan) layout: Layout,
    pub(in crate::plan) pieces: Vec<Piece>,
    pub(in crate::plan) joins: Vec<Join>,
    /// The number of points of its sides.
    pub(in crate::plan) points: usize,
}

/// A side with what is stitched at either end of it.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Stitched {
    side: Side,
    /// The links before and after it, where it doesn't meet its corners.
    links: [Option<Motif>; 2],
    line: PieceLine,
    kind: PieceKind,
}

/// Fills a border with this number of repeats on each side; `points` is how many points the sides
/// of the borders before it have.
pub(in crate::plan) fn fill(
    border: &Border<'_>,
    laid: Laid,
    fits: &[SpanFit],
    points: usize,
) -> Result<(Filled, Vec<Finding>), Error> {
    let stiffness = stiffness(border)?;
    let mut findings = Vec::new();
    let mut sides = Vec::with_capacity(laid.spans.len());
    let mut filled = 0;
    for (span, fit) in laid.spans.iter().zip(fits) {
        findings.extend(report(
            (border.asked.index, &laid.layout),
            &laid.corners,
            span,
        ));
        let before = points + filled;
        let (side, found) = stitched(border, span, *fit, stiffness.as_ref(), before)?;
        findings.extend(found);
        filled += side.line.motif.points().len();
        sides.push(side);
    }
    let (pieces, joins) = ring(border.asked.index, &laid.layout, laid.corners, sides);
    let [outer, inner] = outlines(&laid.layout, &laid.spans);
    let mut layout = laid.layout;
    (layout.lines.outer, layout.lines.inner) = (outer, inner);
    let filled = Filled {
        layout,
        pieces,
        joins,
        points: filled,
    };
    Ok((filled, findings))
}

/// A side filled, with links where it doesn't meet its corners; `points` is how many points the
/// sides before it have.
pub(in crate::plan) fn stitched(
    border: &Border<'_>,
    span: &SideSpan,
    fit: SpanFit,
    stiffness: Option<&Stiffness>,
    points: usize,
) -> Result<(Stitched, Vec<Finding>), Error> {
    let (filled, mut findings) = fill_side(border, span, fit, stiffness, points)?;
    let FilledSide { chain, detail } = filled;
    let (start, end) = (chain.motif.start(), chain.motif.end());
    let mut link = |from: End, to: End| {
        let length = (to.point - from.point).norm();
        if length <= border.tolerances.join {
            return Ok(None);
        }
        let kind = FindingKind::Linked { length };
        findings.push(
            Finding::warning(kind)
                .on_side(border.asked.index, detail.side)
                .at(from.point),
        );
        Motif::from_points("link", vec![from.point, to.point]).map(Some)
    };
    let [first, last] = span.ends.map(|end| end.joint.map(|(joint, _)| joint.end));
    let links = [
        first.map_or(Ok(None), |corner| link(corner, start))?,
        last.map_or(Ok(None), |corner| link(end, corner))?,
    ];
    let side = Stitched {
        side: detail.side,
        links,
        line: PieceLine {
            motif: chain.motif,
            ends: chain.ends,
        },
        kind: PieceKind::Side(detail),
    };
    Ok((side, findings))
}

/// The pieces of a border: each corner before the side that begins there, and the joins of a ring
/// that closes.
pub(in crate::plan) fn ring(
    border: usize,
    layout: &Layout,
    corners: Corners,
    sides: Vec<Stitched>,
) -> (Vec<Piece>, Vec<Join>) {
    let named = Named::new(border, layout);
    let mut pieces = Vec::with_capacity(2 * sides.len());
    let mut corner = corners.pieces.into_iter().peekable();
    for stitched in sides {
        let at = stitched.side.index();
        let here = |corner: &CornerPiece| corner.detail.position.index() == at;
        let own = std::iter::from_fn(|| corner.next_if(here));
        pieces.extend(
            (1..)
                .zip(own)
                .map(|(number, corner)| named.corner(corner, number)),
        );
        pieces.extend(named.side(stitched));
    }
    let joins = match corners.joints {
        Some(_) => closed(&pieces),
        None => Vec::new(),
    };
    (pieces, joins)
}

/// What the pieces of a border are named and numbered by.
pub(in crate::plan) struct Named<'a> {
    border: usize,
    name: String,
    layout: &'a Layout,
}

impl<'a> Named<'a> {
    pub(in crate::plan) fn new(border: usize, layout: &'a Layout) -> Self {
        let name = layout.file_name();
        Self {
            border,
            name,
            layout,
        }
    }

    fn piece(&self, place: &str, side: usize, kind: PieceKind, line: PieceLine) -> Piece {
        let depth = self.layout.band.depth(side);
        Piece::new(self.border, (&self.name, place), depth, kind, line)
    }

    /// A corner, or the line of a block that has this number, from 1.
    fn corner(&self, corner: CornerPiece, number: usize) -> Piece {
        let place = corner.detail.position;
        let at = place.index();
        let place = match number {
            1 => place.name().to_owned(),
            _ => format!("{}-{number}", place.name()),
        };
        let kind = PieceKind::Corner(corner.detail);
        self.piece(&place, at, kind, PieceLine::whole(corner.motif))
    }

    /// A side between its links, where it has some.
    pub(in crate::plan) fn side(&self, stitched: Stitched) -> Vec<Piece> {
        let Stitched {
            side,
            links: [first, last],
            line,
            kind,
        } = stitched;
        let link = |which: &str, motif: Motif| {
            let place = format!("{}-{which}", side.name());
            let kind = PieceKind::Link(side);
            self.piece(&place, side.index(), kind, PieceLine::whole(motif))
        };
        let first = first.map(|motif| link("start", motif));
        let middle = self.piece(side.name(), side.index(), kind, line);
        let last = last.map(|motif| link("end", motif));
        first.into_iter().chain([middle]).chain(last).collect()
    }
}

/// The joins of pieces that follow each other all the way round.
pub(in crate::plan) fn closed(pieces: &[Piece]) -> Vec<Join> {
    let next = pieces.iter().cycle().skip(1);
    let pairs = pieces.iter().zip(next).enumerate();
    pairs
        .map(|(from, (piece, next))| {
            let to = (from + 1) % pieces.len();
            Join::new([from, to], &piece.end(), &next.start())
        })
        .collect()
}
