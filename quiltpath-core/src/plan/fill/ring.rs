//! The pieces of a border in the order of stitching, with links where ends don't meet, and their
//! joins.
//!
//! Where sides join on to corners, each end was measured when it was placed; here the corner's
//! joint and the side's own end are compared once, which gives the link or the join.

use super::kept::fill_kept;
use super::side::{FilledSide, fill_side, stiffness};
use crate::error::Error;
use crate::fit::{SpanFit, Stiffness};
use crate::geom::Point;
use crate::motif::Motif;
use crate::plan::asked::BorderAsked;
use crate::plan::corners::{CornerPiece, Corners};
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::kept::KeptSide;
use crate::plan::laid::{Border, Laid};
use crate::plan::lay::layout::Layout;
use crate::plan::lay::place::Side;
use crate::plan::piece::{Join, Piece, PieceKind, PieceLine, SideDetail};
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

impl Filled {
    /// A border that stays plain.
    pub(super) fn plain(layout: Layout) -> Self {
        Self {
            layout,
            pieces: Vec::new(),
            joins: Vec::new(),
            points: 0,
        }
    }
}

/// A side with what is stitched at either end of it.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Stitched {
    side: Side,
    /// The links before and after it, where it doesn't meet its corners.
    links: [Option<Piecewise>; 2],
    line: PieceLine,
    /// What of it is stitched already, as shares of its length.
    stretches: Vec<[f64; 2]>,
    kind: PieceKind,
}

/// A line, and what of it is stitched already, as shares of its length.
#[derive(Debug, Clone)]
struct Piecewise {
    motif: Motif,
    stretches: Vec<[f64; 2]>,
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
        let (side, found) = stitched(border, span, *fit, &stiffness, before)?;
        findings.extend(found);
        filled += side.line.motif.points().len();
        sides.push(side);
    }
    let (pieces, joins) = ring(border.asked, &laid.layout, laid.corners, sides);
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
    stiffness: &[Stiffness],
    points: usize,
) -> Result<(Stitched, Vec<Finding>), Error> {
    let index = border.asked.index;
    let at = span.side.index();
    let kept = border.kept.and_then(|kept| kept.side(at));
    let (filled, mut findings) = match kept {
        Some(kept) => fill_kept(border, span, fit, stiffness, points, kept)?,
        None => fill_side(border, span, fit, stiffness, points)?,
    };
    let FilledSide {
        line,
        detail,
        stretches,
    } = filled;
    let ends = [line.motif.start(), line.motif.end()];
    let mut links = [None, None];
    for (end, link) in links.iter_mut().enumerate() {
        let last = end == 1;
        let Some((joint, _)) = span.ends[end].joint else {
            continue;
        };
        let known = border.kept.and_then(|kept| kept.link(at, last));
        let own = known.map(|line| Piecewise {
            motif: line.motif.clone(),
            stretches: line.stretches.clone(),
        });
        let here = ends[end].point;
        let length = (here - joint.end.point).norm();
        if length <= border.tolerances.join {
            *link = own;
            continue;
        }
        let found = |finding: Finding| finding.on_side(index, detail.side).at(joint.end.point);
        let corner = [at, border.layout.band.edge.after(at)][end];
        // What lies across from the end of the side: a link that is stitched, or the corner.
        let across = match (known, border.kept) {
            (Some(line), _) => Some(line),
            (None, Some(kept)) => kept.corner(corner).first(),
            (None, None) => None,
        };
        let stitched = |kept: &KeptSide| {
            (known.is_some() || kept.met(last))
                && kept.is_stitched_at(last)
                && across.is_some_and(|line| line.is_stitched_at(!last))
        };
        if kept.is_some_and(stitched) {
            // Both are stitched: there is nothing to stitch between them.
            let kind = FindingKind::StitchedApart { gap: length };
            findings.push(found(Finding::warning(kind)));
            *link = own;
            continue;
        }
        findings.push(found(Finding::warning(FindingKind::Linked { length })));
        *link = Some(match own {
            Some(own) => own.drawn_on(here, last)?,
            None => {
                let points = match last {
                    false => vec![joint.end.point, here],
                    true => vec![here, joint.end.point],
                };
                Piecewise {
                    motif: Motif::from_points("link", points)?,
                    stretches: Vec::new(),
                }
            }
        });
    }
    let side = Stitched {
        side: detail.side,
        links,
        line,
        stretches,
        kind: PieceKind::Side(detail),
    };
    Ok((side, findings))
}

impl Piecewise {
    /// The same line, gone on with to the place where its side starts, or from where it ends.
    fn drawn_on(self, side: Point, last: bool) -> Result<Self, Error> {
        let length = self.motif.length();
        let mut points = self.motif.points().to_vec();
        let at = if last { 0 } else { points.len() };
        points.insert(at, side);
        let motif = Motif::from_points(self.motif.name(), points)?;
        let all = motif.length();
        let before = if last { all - length } else { 0.0 };
        let stretches = self.stretches.iter();
        let share = |of: f64| (before + of * length) / all;
        Ok(Self {
            stretches: stretches.map(|stretch| stretch.map(share)).collect(),
            motif,
        })
    }
}

/// The pieces of a border: each corner before the side that begins there, and the joins where they
/// follow each other.
pub(in crate::plan) fn ring(
    border: &BorderAsked,
    layout: &Layout,
    corners: Corners,
    sides: Vec<Stitched>,
) -> (Vec<Piece>, Vec<Join>) {
    let named = Named::new(border.index, layout);
    let mut pieces = Vec::with_capacity(2 * sides.len() + corners.pieces.len());
    let mut corner = corners.pieces.into_iter().peekable();
    let mut stitched = sides.into_iter().peekable();
    for side in layout.sides() {
        let here = |corner: &CornerPiece| corner.detail.position.index() == side.index();
        let own = std::iter::from_fn(|| corner.next_if(here));
        pieces.extend(
            (1..)
                .zip(own)
                .map(|(number, corner)| named.corner(corner, number)),
        );
        let own = stitched.next_if(|stitched| stitched.side == side);
        pieces.extend(own.map(|own| named.side(own)).into_iter().flatten());
    }
    let joins = followed(border, &pieces);
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
        let piece = self.piece(&place, at, kind, PieceLine::whole(corner.motif));
        piece.with_stitched(corner.stretches)
    }

    /// A side between its links, where it has some.
    pub(in crate::plan) fn side(&self, stitched: Stitched) -> Vec<Piece> {
        let Stitched {
            side,
            links: [first, last],
            line,
            stretches,
            kind,
        } = stitched;
        let link = |which: &str, line: Piecewise| {
            let place = format!("{}-{which}", side.name());
            let kind = PieceKind::Link(side);
            let piece = self.piece(&place, side.index(), kind, PieceLine::whole(line.motif));
            piece.with_stitched(line.stretches)
        };
        let first = first.map(|line| link("start", line));
        let middle = self.piece(side.name(), side.index(), kind, line);
        let middle = middle.with_stitched(stretches);
        let last = last.map(|line| link("end", line));
        first.into_iter().chain([middle]).chain(last).collect()
    }
}

/// The joins of a border's pieces that follow each other; all the way round where all of it is
/// stitched.
pub(in crate::plan) fn followed(border: &BorderAsked, pieces: &[Piece]) -> Vec<Join> {
    let next = pieces.iter().cycle().skip(1);
    let pairs = pieces.iter().zip(next).enumerate();
    pairs
        .filter(|(_, (piece, next))| follow(border, [&piece.kind, &next.kind]))
        .map(|(from, (piece, next))| {
            let to = (from + 1) % pieces.len();
            Join::new([from, to], &piece.end(), &next.start())
        })
        .collect()
}

/// Whether one piece is stitched on from another: a side from the corner before it, a corner from
/// its side, and links beside their side.
fn follow(border: &BorderAsked, kinds: [&PieceKind; 2]) -> bool {
    use PieceKind::{Corner, Link, Side};
    let joins = border.corner.joins();
    let after = |side: usize| (side + 1) % border.sides.len();
    match kinds {
        [Corner(corner), Side(SideDetail { side, .. }) | Link(side)] => {
            joins && corner.position.index() == side.index()
        }
        [Side(SideDetail { side, .. }) | Link(side), Corner(corner)] => {
            joins && corner.position.index() == after(side.index())
        }
        [Side(SideDetail { side, .. }), Link(other)]
        | [Link(other), Side(SideDetail { side, .. })] => side == other,
        _ => false,
    }
}
