//! Sides that the cloth has stretched too far, solved again between their touched ends.
//!
//! Problem: a side was planned for a span that lies longer or shorter on the frame. A little the
//! map takes up; beyond the plan's limit another number of repeats is better. Method: the stretch
//! along each side of the pass is measured on the map; where it is beyond the limit, and the plan
//! leaves the number open, the neighbour whose stretch as laid is least is taken and the side
//! filled anew, all other pieces kept. Its ends are those of its corners as before, so the map
//! takes them to the same places. Guarantee: joins stay as exact as they were. Failure: a side that
//! has begun, or that is only in part in this pass, keeps its number; so does one whose number the
//! plan gives. Both are reported.

use super::judge::{LaidFinding, LaidFindingKind};
use super::lay::{LaidPass, MarkReading, lay_runs, parts_of, pass_map, planned_pass};
use crate::align::ClothMap;
use crate::error::Error;
use crate::geom::Point;
use crate::geom::measure::{length, part_between};
use crate::motif::Motif;
use crate::plan::spec::BySide;
use crate::plan::{
    MotifRequest, Part, Piece, PieceKind, PlanSpec, PlannedPass, PlannedRun, RunPart, Severity,
    Side, Solved, Stitching, solve_anew,
};
use crate::strokes::Drawing;

/// A side that got another number of repeats.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Refitted {
    /// The number of the border.
    pub border: usize,
    /// The side.
    pub side: Side,
    /// The number of repeats before and now.
    pub repeats: [usize; 2],
    /// Its stretch as it lies, before and now.
    pub stretch: [f64; 2],
}

/// A pass laid on the cloth, with what had to be solved again for it.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Laying {
    /// The pass.
    pub laid: LaidPass,
    /// The plan with the sides that were solved again.
    pub solved: Solved,
    /// Those sides.
    pub refitted: Vec<Refitted>,
    /// Sides that are stretched beyond the limit and keep their number.
    pub findings: Vec<LaidFinding>,
}

/// Lays a pass on the cloth by readings of its marks, and solves again the sides that lie
/// stretched beyond the plan's limit; `load` gives the drawings, as in
/// [`solve`](crate::plan::solve()).
///
/// Lengths in millimetres; x to the right, y down. Without such a side it is
/// [`lay_pass`](super::lay_pass).
///
/// # Errors
///
/// As [`lay_pass`](super::lay_pass) and [`solve_anew`].
///
/// # Complexity
///
/// O(points) for each side that is solved again.
pub fn lay_and_refit(
    spec: &PlanSpec,
    (solved, stitching): (&Solved, &Stitching),
    pass: usize,
    readings: &[MarkReading],
    mut load: impl FnMut(&MotifRequest) -> Result<Drawing, Error>,
) -> Result<Laying, Error> {
    let planned = planned_pass(stitching, pass)?;
    let aligned = pass_map(stitching, pass, readings)?;
    let mut runs: Vec<PlannedRun> = stitching.runs[planned.runs.clone()].to_vec();
    let mut now = solved.clone();
    let (mut refitted, mut findings) = (Vec::new(), Vec::new());
    for part in parts_of(stitching, planned) {
        let piece = &solved.pieces[part.piece];
        let PieceKind::Side(detail) = &piece.kind else {
            continue;
        };
        let (border, side, fit) = (piece.border, detail.side, detail.fit);
        let Some(pulled) = pulled(piece, part.between, planned, &aligned.map) else {
            continue;
        };
        let stretch = fit.chosen.stretch * pulled;
        if (stretch - 1.0).abs() <= solved.max_stretch {
            continue;
        }
        let asked = spec.borders.get(border);
        let given = asked.and_then(|asked| asked.side.repeats.as_ref()?.get(side));
        let open = part.between == [0.0, 1.0] && given.is_none();
        let others = [fit.fewer, fit.more].into_iter().flatten();
        let far = |stretch: f64| stretch.ln().abs();
        let better = others
            .map(|other| (other.repeats, other.stretch * pulled))
            .filter(|other| open && far(other.1) < far(stretch))
            .min_by(|one, other| far(one.1).total_cmp(&far(other.1)));
        let Some((repeats, anew)) = better else {
            let limit = solved.max_stretch;
            findings.push(LaidFinding {
                kind: LaidFindingKind::SideStretched {
                    border,
                    side,
                    stretch,
                    limit,
                },
                severity: Severity::Warning,
            });
            continue;
        };
        let mut asked = spec.clone();
        let only = Side::all(side.count()).map(|other| (other == side).then_some(repeats));
        asked.borders[border].side.repeats = Some(BySide::List(only.collect()));
        asked.borders[border].side.opposite_alike = false;
        now = solve_anew(&asked, &now, Part::Side(border, side), &mut load)?;
        refitted.push(Refitted {
            border,
            side,
            repeats: [fit.chosen.repeats, repeats],
            stretch: [stretch, anew],
        });
    }
    if !refitted.is_empty() {
        for run in &mut runs {
            *run = rebuilt(run, solved, &now)?;
        }
    }
    Ok(Laying {
        laid: lay_runs((&now, stitching), pass, (readings, aligned), runs)?,
        solved: now,
        refitted,
        findings,
    })
}

/// How many times as long the way from where a side starts to where it ends is on the cloth, of the
/// stretch of it that a pass stitches; `None` where that has no length.
fn pulled(piece: &Piece, between: [f64; 2], pass: &PlannedPass, map: &ClothMap) -> Option<f64> {
    let ends = [piece.start().point, piece.end().point].map(|end| pass.to_machine.apply(end));
    let [from, to] = between.map(|share| ends[0] + (ends[1] - ends[0]) * share);
    let places = (0..=32).map(|at| map.map(from + (to - from) * (f64::from(at) / 32.0)));
    let before = (to - from).norm();
    (before > 0.0).then(|| length(places.collect::<Vec<Point>>()) / before)
}

/// A run with the lines that its pieces have now; pieces are found by their names.
fn rebuilt(run: &PlannedRun, before: &Solved, now: &Solved) -> Result<PlannedRun, Error> {
    let mut points: Vec<Point> = Vec::with_capacity(run.motif.points().len());
    let mut parts = Vec::with_capacity(run.parts.len());
    for part in &run.parts {
        let name = &before.pieces[part.piece].name;
        let found = now.pieces.iter().position(|piece| piece.name == *name);
        let piece = found.unwrap_or(part.piece);
        let line = now.pieces[piece].line();
        let mut own = part_between(line.motif.points(), part.between);
        if part.reversed {
            own.reverse();
        }
        let shared = points
            .last()
            .is_some_and(|last| (last - own[0]).norm() < 1e-9);
        points.extend(&own[usize::from(shared)..]);
        let count = line.ends.len();
        let whole = part.between == [0.0, 1.0];
        parts.push(match whole {
            true => RunPart {
                piece,
                repeats: part.repeats.map(|_| [1, count]),
                in_repeats: (count > 1).then_some([0.0, count as f64]),
                ..part.clone()
            },
            false => RunPart {
                piece,
                ..part.clone()
            },
        });
    }
    if run.closed {
        let start = points[0];
        if let Some(end) = points.last_mut()
            && (*end - start).norm() < 1e-9
        {
            *end = start;
        }
    }
    Ok(PlannedRun {
        pass: run.pass,
        parts,
        motif: Motif::from_points(run.motif.name(), points)?,
        closed: run.closed,
    })
}
