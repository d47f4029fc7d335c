//! What stitching the lines of a plan would come to: thread build-up, small loops, open joins.
//!
//! The checks themselves are floors lower (`check`); here their places are put to the pieces that
//! they are about. A fault of a motif is there in each of its repeats, so the places of one piece
//! are one finding, the worst first.

use super::along::Along;
use crate::check::{CheckReport, Found, Limits};
use crate::geom::Point;
use crate::plan::finding::{Finding, FindingKind, Severity};
use crate::plan::piece::Piece;
use crate::plan::solved::Solved;

/// A turn at a join is reported from this many degrees on: our own choice.
const LEAST_KINK_DEGREES: f64 = 20.0;

/// What a place is about: a piece, or all of a border.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum About {
    Piece(usize),
    Pieces(usize, usize),
    Border(usize),
}

/// Puts what the checks of a plan's paths have found to its pieces.
pub(in crate::plan) fn lines(
    solved: &Solved,
    report: &CheckReport,
    limits: &Limits,
) -> Vec<Finding> {
    let along: Vec<Along> = solved
        .paths
        .iter()
        .map(|path| {
            let pieces = path.pieces.iter();
            Along::new(pieces.map(|&piece| (solved.pieces[piece].length(), piece)))
        })
        .collect();
    let at = |line: usize, along_it: f64| along[line].at(along_it).unwrap_or(0);
    let close = grouped(solved, Severity::Warning, &report.close, |run| {
        let [one, other] = [&run.parts[0], &run.parts[1]];
        let (a, b) = (at(one.line, one.from), at(other.line, other.from));
        let apart = (a != b).then_some(b);
        let kind = FindingKind::LinesClose {
            nearest: run.nearest,
            length: run.length,
            closest: limits.close.distance,
            over: limits.close.length,
            other: apart,
        };
        let about = apart.map_or(About::Piece(a), |b| About::Pieces(a, b));
        (about, run.at, kind)
    });
    let twice = grouped(solved, Severity::Note, &report.twice, |run| {
        let border = solved.paths[run.parts[0].line].border;
        let kind = FindingKind::StitchedTwice { length: run.length };
        (About::Border(border), run.at, kind)
    });
    let dense = grouped(solved, Severity::Warning, &report.density, |dense| {
        let line = dense.lines.first().map_or(0, |(line, _)| *line);
        let piece = nearest(&solved.pieces, &solved.paths[line].pieces, dense.at);
        let kind = FindingKind::Dense {
            length: dense.length,
            square: limits.density.side,
            densest: limits.density.length,
        };
        (About::Piece(piece), dense.at, kind)
    });
    let small = grouped(solved, Severity::Warning, &report.loops, |small| {
        let piece = at(small.part.line, small.part.from);
        let kind = FindingKind::SmallLoop {
            length: small.length,
            least: limits.loops.length,
        };
        (About::Piece(piece), small.at, kind)
    });
    close
        .into_iter()
        .chain(twice)
        .chain(dense)
        .chain(small)
        .collect()
}

/// One finding for the places of each piece, and what was not listed or not compared.
fn grouped<T>(
    solved: &Solved,
    severity: Severity,
    found: &Found<T>,
    read: impl Fn(&T) -> (About, Point, FindingKind),
) -> Vec<Finding> {
    let mut groups: Vec<(About, Finding)> = Vec::new();
    let mut code = "";
    for place in &found.places {
        let (about, at, kind) = read(place);
        code = kind.code();
        match groups.iter_mut().find(|(known, _)| *known == about) {
            Some((_, finding)) => finding.places.push(at),
            None => {
                let finding = Finding::new(severity, kind).at(at);
                let finding = match about {
                    About::Border(border) => finding.on_border(border),
                    About::Piece(piece) | About::Pieces(piece, _) => {
                        finding.on_piece(piece, &solved.pieces[piece])
                    }
                };
                groups.push((about, finding));
            }
        }
    }
    let mut findings: Vec<Finding> = groups.into_iter().map(|(_, finding)| finding).collect();
    if found.left_out > 0 {
        let places = found.left_out;
        let kind = FindingKind::Unlisted { code, places };
        findings.push(Finding::new(severity, kind));
    }
    if !found.crowded.is_empty() {
        let spots = found.crowded.len();
        let mut finding = Finding::warning(FindingKind::Crowded { spots });
        finding.places = found.crowded.iter().map(|spot| spot.at).collect();
        findings.push(finding);
    }
    findings
}

/// Looks for joins that are open, or where the line turns.
pub(in crate::plan) fn joins(solved: &Solved) -> Vec<Finding> {
    let mut findings = Vec::new();
    for join in &solved.joins {
        let piece = &solved.pieces[join.from];
        let here = |finding: Finding| finding.on_piece(join.from, piece).at(piece.end().point);
        if join.gap > solved.join_tolerance {
            findings.push(here(Finding::error(FindingKind::JoinOpen {
                next: join.to,
                gap: join.gap,
                tolerance: solved.join_tolerance,
            })));
        }
        if join.kink_degrees > LEAST_KINK_DEGREES {
            let degrees = join.kink_degrees;
            let kind = FindingKind::JoinKink {
                next: join.to,
                degrees,
                limit: LEAST_KINK_DEGREES,
            };
            findings.push(here(Finding::turn(degrees, kind)));
        }
    }
    findings
}

/// The number of the piece of a path that comes nearest to a point.
fn nearest(pieces: &[Piece], path: &[usize], at: Point) -> usize {
    let distance = |piece: usize| {
        let points = pieces[piece].points();
        points
            .map(|point| (point - at).norm_squared())
            .fold(f64::INFINITY, f64::min)
    };
    let pieces = path.iter().copied();
    pieces
        .min_by(|a, b| distance(*a).total_cmp(&distance(*b)))
        .unwrap_or(0)
}
