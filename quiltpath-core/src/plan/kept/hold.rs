//! The corners of a border that has begun: those that are stitched held where they are, those next
//! to a stitched side drawn to its end.
//!
//! A corner is drawn out by moving its points by shares of the shifts of its two ends, in
//! proportion to the length of the line, so that a shift fades out over the whole corner.

use super::border::KeptBorder;
use crate::corner::CornerSite;
use crate::error::Error;
use crate::geom::{Point, Vector};
use crate::motif::Motif;
use crate::plan::corners::{CornerPiece, Corners};
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::joint::Joint;
use crate::plan::lay::layout::Layout;
use crate::plan::piece::CornerMade;
use crate::warp::CrossLine;

/// An end that is nearer to where it is to be, in millimetres, is there.
const THERE_MM: f64 = 1e-9;

/// A corner is drawn out by no more than this: 1/4 in, our own choice. Beyond, a link is stitched.
const DRAWN_MM: f64 = 6.35;

/// Holds the corners of a border, given with its number, that have begun, and has the others meet
/// what is stitched beside them. Shifts beyond `join` are reported.
pub(in crate::plan) fn hold(
    corners: Corners,
    (index, layout): (usize, &Layout),
    kept: &KeptBorder,
    join: f64,
) -> Result<(Corners, Vec<Finding>), Error> {
    let mut findings = Vec::new();
    let mut off = 0.0;
    let mut joints = corners.joints;
    let mut placed = corners.pieces.into_iter().peekable();
    let mut pieces: Vec<CornerPiece> = Vec::new();
    for (place, site) in layout.corner_sites() {
        let at = place.index();
        let joint = joints.iter().position(|(corner, _)| *corner == at);
        let here = |piece: &CornerPiece| piece.detail.position == place;
        let own: Vec<CornerPiece> = std::iter::from_fn(|| placed.next_if(here)).collect();
        let lines = kept.corner(at);
        if let (Some(first), false) = (own.first(), lines.is_empty()) {
            let ends = |motif: &Motif| [motif.start().point, motif.end().point];
            let [was, is] = [ends(&lines[0].motif), ends(&first.motif)];
            off += (was[0] - is[0]).norm() + (was[1] - is[1]).norm();
            for line in lines {
                pieces.push(CornerPiece {
                    motif: line.motif.clone().renamed(first.motif.name()),
                    detail: first.detail.clone(),
                    stretches: line.stretches.clone(),
                });
            }
        } else if joint.is_some() && own.len() == 1 {
            for piece in own {
                let ends = [piece.motif.start().point, piece.motif.end().point];
                let sides = [kept.side(layout.band.edge.before(at)), kept.side(at)];
                let wanted = [0, 1].map(|end| {
                    let side = sides[end]?;
                    let there = side.kept_end(end == 0)?;
                    let near = (there - ends[end]).norm() <= join;
                    (side.met(end == 0) || near).then_some(there)
                });
                let apart = |end: usize| wanted[end].map_or(0.0, |to| (to - ends[end]).norm());
                off += apart(0) + apart(1);
                let (motif, by) = drawn_out(&piece.motif, wanted)?;
                if by > join {
                    let kind = FindingKind::CornerDrawnOut { by };
                    let found = Finding::note(kind).on_corner(index, place);
                    findings.push(found.at(site.elbow));
                }
                pieces.push(CornerPiece { motif, ..piece });
            }
        } else {
            pieces.extend(own);
        }
        if let (Some(joint), Some(piece)) = (joint, pieces.last()) {
            let lines = lines_across(&site, piece);
            let mut ends = Joint::of(&piece.motif, lines);
            // A link that is stitched already is where the side has to go on.
            let links = [
                kept.link(layout.band.edge.before(at), true),
                kept.link(at, false),
            ];
            for (end, link) in links.into_iter().enumerate() {
                let Some(link) = link else { continue };
                let far = [link.motif.start(), link.motif.end()][end];
                ends[end] = Joint {
                    end: far,
                    line: CrossLine {
                        through: far.point,
                        ..ends[end].line
                    },
                };
            }
            joints[joint].1 = ends;
        }
    }
    let held = Corners {
        pieces,
        joints,
        cuts: corners.cuts,
        off,
    };
    Ok((held, findings))
}

fn lines_across(site: &CornerSite, piece: &CornerPiece) -> [CrossLine; 2] {
    match piece.detail.made {
        CornerMade::Mitred { .. } | CornerMade::Bent { .. } => site.square_lines(&piece.motif),
        _ => site.cross_lines(&piece.motif),
    }
}

/// A line with its start and its end moved to where they are wanted, and by how much, at most.
fn drawn_out(motif: &Motif, wanted: [Option<Point>; 2]) -> Result<(Motif, f64), Error> {
    let ends = [motif.start().point, motif.end().point];
    let shift = [0, 1].map(|end| {
        let shift: Vector = wanted[end].map_or_else(Vector::zeros, |to| to - ends[end]);
        match shift.norm() > DRAWN_MM {
            true => Vector::zeros(),
            false => shift,
        }
    });
    let by = shift[0].norm().max(shift[1].norm());
    if by <= THERE_MM {
        return Ok((motif.clone(), 0.0));
    }
    let length = motif.length();
    let mut points = motif.points().to_vec();
    let last = points.len() - 1;
    let mut reached = 0.0;
    let mut before = points[0];
    for (index, point) in points.iter_mut().enumerate() {
        reached += (*point - before).norm();
        before = *point;
        let share = match index {
            0 => 0.0,
            _ if index == last => 1.0,
            _ => reached / length,
        };
        *point += shift[0] * (1.0 - share) + shift[1] * share;
    }
    for (end, index) in [(0, 0), (1, last)] {
        if let (Some(to), true) = (wanted[end], shift[end] != Vector::zeros()) {
            points[index] = to;
        }
    }
    let directions = [motif.start(), motif.end()].map(|end| end.direction);
    let drawn = Motif::from_points(motif.name(), points)?
        .with_directions(directions)
        .with_links(motif.links().to_vec());
    Ok((drawn, by))
}
