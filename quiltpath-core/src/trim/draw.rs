//! Steps to paths: points, parts, thread cuts, and what it all adds.

use super::boundary::Boundary;
use super::clip::ClippedPiece;
use super::routed::{Exactness, PathPart, PathPartKind, Routed, RoutedPath, TrimReport};
use super::walk::{Plan, Step};
use crate::error::Error;
use crate::geom::{Point, Polyline};

/// Points nearer than this share of all arcs are one: a link ends where the piece starts.
const SAME: f64 = 1e-11;

/// The found length may exceed the bound by this share and still be it, by rounding.
const ROUNDING: f64 = 1e-9;

/// A step of a path; a piece stitched for the second time is told from the first.
#[derive(Debug, Clone, Copy)]
struct Move {
    step: Step,
    again: bool,
}

pub(super) fn draw(
    pieces: &[ClippedPiece],
    ring: &Boundary,
    plan: Plan,
    max_link: Option<f64>,
) -> Result<Routed, Error> {
    let moves = moves(pieces.len(), &plan.steps);
    let around: f64 = ring.arcs.iter().sum();
    let is_cut = |each: &Move| each.step == Step::Cut;
    let found: f64 = runs(&moves, is_cut)
        .into_iter()
        .flatten()
        .map(|each| added(ring, each))
        .sum();
    // Sums and differences along the ring may leave a bound a speck below 0.
    let lower = plan.lower.max(0.0);
    let exactness = if found <= lower * (1.0 + ROUNDING) + SAME * around {
        Exactness::Exact
    } else {
        Exactness::Bound {
            lower,
            ratio: found / lower,
        }
    };
    let is_cut = |each: &Move| match each.step {
        Step::Link { from, to, way } => {
            max_link.is_some_and(|limit| ring.link_length(from, to, way) > limit)
        }
        Step::Piece { .. } | Step::Cut => is_cut(each),
    };
    let mut report = TrimReport {
        own_length: ring.edges.iter().map(|edge| edge.length).sum(),
        added_length: 0.0,
        links: 0,
        cuts: moves.iter().filter(|each| is_cut(each)).count(),
        restitched_length: 0.0,
        slivers: 0,
        lost_length: 0.0,
        exactness,
        crossed: false,
    };
    let mut paths = Vec::new();
    for run in runs(&moves, is_cut) {
        let mut pen = Pen::new(SAME * around);
        for each in run {
            let length = added(ring, each);
            let kind = match each.step {
                Step::Piece { index, reversed } if each.again => {
                    report.restitched_length += length;
                    PathPartKind::Again { index, reversed }
                }
                Step::Piece { index, reversed } => PathPartKind::Piece { index, reversed },
                Step::Link { .. } | Step::Cut => PathPartKind::Link,
            };
            report.added_length += length;
            report.links += usize::from(pen.draw(kind, &points(pieces, ring, each.step)));
        }
        paths.push(RoutedPath {
            line: Polyline::new(pen.points)?,
            parts: pen.parts,
        });
    }
    Ok(Routed { paths, report })
}

/// What is stitched between thread cuts. Beside a cut nothing has to lead anywhere, so there a
/// run goes from its first piece to its last.
fn runs(moves: &[Move], is_cut: impl Fn(&Move) -> bool) -> Vec<&[Move]> {
    let split: Vec<&[Move]> = moves.split(is_cut).collect();
    let count = split.len();
    let own = |each: &Move| matches!(each.step, Step::Piece { .. }) && !each.again;
    let kept = split.into_iter().enumerate().filter_map(|(index, run)| {
        let (first, last) = (run.iter().position(own)?, run.iter().rposition(own)?);
        let from = if index == 0 { 0 } else { first };
        let to = if index + 1 == count {
            run.len() - 1
        } else {
            last
        };
        Some(&run[from..=to])
    });
    kept.collect()
}

fn moves(pieces: usize, steps: &[Step]) -> Vec<Move> {
    let mut seen = vec![false; pieces];
    steps
        .iter()
        .map(|&step| Move {
            step,
            again: match step {
                Step::Piece { index, .. } => std::mem::replace(&mut seen[index], true),
                Step::Link { .. } | Step::Cut => false,
            },
        })
        .collect()
}

/// What a move adds to the pieces' own length.
fn added(ring: &Boundary, each: &Move) -> f64 {
    match each.step {
        Step::Piece { index, .. } if each.again => ring.edges[index].length,
        Step::Link { from, to, way } => ring.link_length(from, to, way),
        Step::Piece { .. } | Step::Cut => 0.0,
    }
}

fn points(pieces: &[ClippedPiece], ring: &Boundary, step: Step) -> Vec<Point> {
    match step {
        Step::Piece { index, reversed } => {
            let mut points = pieces[index].line.points().to_vec();
            if reversed {
                points.reverse();
            }
            points
        }
        Step::Link { from, to, way } => ring.link_points(from, to, way),
        Step::Cut => Vec::new(),
    }
}

struct Pen {
    points: Vec<Point>,
    parts: Vec<PathPart>,
    same: f64,
}

impl Pen {
    fn new(same: f64) -> Self {
        Self {
            points: Vec::new(),
            parts: Vec::new(),
            same,
        }
    }

    /// Draws a stretch; true when it is a link that goes anywhere.
    fn draw(&mut self, kind: PathPartKind, points: &[Point]) -> bool {
        let same = self.same;
        let near = |a: Point, b: Point| (a - b).norm() <= same;
        let mut points = points.iter();
        if let (Some(last), Some(&next)) = (self.points.last_mut(), points.as_slice().first())
            && near(*last, next)
        {
            points.next();
            // The drawing's own points stay as they are, to the last bit.
            if kind != PathPartKind::Link {
                *last = next;
            }
        }
        let first = self.points.len().saturating_sub(1);
        for &point in points {
            if self
                .points
                .last()
                .is_none_or(|&last| kind != PathPartKind::Link || !near(last, point))
            {
                self.points.push(point);
            }
        }
        let last = self.points.len().saturating_sub(1);
        if last > first {
            self.parts.push(PathPart { kind, first, last });
        }
        last > first && kind == PathPartKind::Link
    }
}
