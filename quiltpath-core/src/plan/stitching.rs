//! A solved plan brought to the machine: passes on the frame, runs in order, stitches and thread.
//!
//! The pieces are divided where the throat needs it, put into the fewest passes with few thread
//! cuts and little travel (`order`), and each run is stitched (`stitch::job`). What the solution
//! itself is does not change; without a throat all of the quilt is one pass.

use super::findings::{Finding, counted};
use super::inspect;
use super::pieces::PieceKind;
use super::solve::Solved;
use super::spec::PlanSpec;
use crate::both::both;
use crate::check::check_lines;
use crate::error::Error;
use crate::geom::Point;
use crate::motif::Motif;
use crate::order::{
    Divided, Loading, OrderOptions, Ordered, Place, Placed, RunStep, divide, order,
};
use crate::stitch::job::{Job, JobOptions, stitch_lines};
use crate::transform::Transform;

/// A part of a piece in a run.
#[derive(Debug, Clone, PartialEq)]
pub struct RunPart {
    /// The number of the piece.
    pub piece: usize,
    /// Of a side, the repeats that it covers, counted from 1, the first and the last; `None` for a
    /// piece that is whole or cut inside a motif.
    pub repeats: Option<[usize; 2]>,
    /// From where to where on the piece, as shares of its length from its start, the lesser first.
    pub between: [f64; 2],
    /// True when it is stitched against the direction of the piece.
    pub reversed: bool,
}

/// What is stitched without a thread cut.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedRun {
    /// The number of the pass, from 0, over all loadings.
    pub pass: usize,
    /// The parts of pieces in order.
    pub parts: Vec<RunPart>,
    /// The line on the cloth, in millimetres, in the order of stitching.
    pub motif: Motif,
    /// True when it ends where it starts.
    pub closed: bool,
}

/// One pass: what is stitched before the quilt is advanced.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedPass {
    /// How the quilt lies.
    pub loading: Loading,
    /// How far the window's upper edge lies below the upper edge of the quilt as loaded.
    pub top: f64,
    /// The map from the cloth to the machine, whose origin is where the window's upper edge meets
    /// the left edge of the quilt as loaded; x to the right, y down.
    pub to_machine: Transform,
    /// The numbers of its runs.
    pub runs: std::ops::Range<usize>,
}

/// A solved plan as it is stitched; lengths in millimetres, times in seconds.
#[derive(Debug, Clone, PartialEq)]
pub struct Stitching {
    /// The height of the window; `None` when all of the quilt is within reach.
    pub throat: Option<f64>,
    /// The passes in order.
    pub passes: Vec<PlannedPass>,
    /// The runs in order, each one thread cut.
    pub runs: Vec<PlannedRun>,
    /// The number of thread cuts that no order comes below, given the pieces as they are divided.
    pub least_cuts: usize,
    /// The way from run to run without stitching.
    pub travel: f64,
    /// The runs as stitched, with time and thread.
    pub job: Job,
    /// How they are stitched.
    pub options: JobOptions,
    /// The time for advancing and for loading the quilt anew, in seconds.
    pub advancing: f64,
    /// What there is to say about stitches, lines and passes, the most severe first.
    pub findings: Vec<Finding>,
}

impl Stitching {
    /// The findings of the plan and of its stitching, in the order of `result.json`.
    pub fn all_findings<'a>(&'a self, solved: &'a Solved) -> impl Iterator<Item = &'a Finding> {
        solved.findings.iter().chain(&self.findings)
    }

    /// The time for all of it, in minutes.
    #[must_use]
    pub fn minutes(&self) -> f64 {
        self.job.time.minutes() + self.advancing / 60.0
    }

    /// The number of each piece in the order of stitching, from 1; a piece that is stitched in
    /// several parts has the place of its first.
    #[must_use]
    pub fn piece_numbers(&self) -> Vec<usize> {
        let parts = self.runs.iter().flat_map(|run| &run.parts);
        let pieces = parts.clone().map(|part| part.piece + 1).max().unwrap_or(0);
        let mut numbers = vec![0; pieces];
        let mut next = 1;
        for part in parts {
            if numbers[part.piece] == 0 {
                numbers[part.piece] = next;
                next += 1;
            }
        }
        numbers
    }
}

/// Brings a solved plan to the machine.
///
/// # Errors
///
/// A plan or geometry error with the key at fault when `stitching`, `machine`, `thread` or `checks`
/// of the plan hold a number out of its range; a stitch error when there would be too many stitches.
///
/// # Complexity
///
/// O(points + stitches) for drawn lines.
pub fn stitch_plan(spec: &PlanSpec, solved: &Solved) -> Result<Stitching, Error> {
    stitched(spec, solved).map_err(|e| e.in_unit(spec.unit.into()))
}

fn stitched(spec: &PlanSpec, solved: &Solved) -> Result<Stitching, Error> {
    let options = spec.job_options()?;
    let frame = spec.frame_options()?;
    let bounds = solved.bounds();
    let within_reach = bounds.width().max(bounds.height());
    let throat = frame.throat.unwrap_or(within_reach);
    let pieces: Vec<Placed<'_>> = solved
        .pieces
        .iter()
        .enumerate()
        .map(|(number, piece)| {
            let placed = Placed::new(&piece.motif).with_ends(&piece.ends);
            match piece.kind {
                // A link goes with the piece before it: a corner, or the side that it ends.
                PieceKind::Link(_) => placed.with_loading_of(number.saturating_sub(1)),
                _ => placed,
            }
        })
        .collect();
    let limits = spec.limits(options.stitch.target)?;
    let lines: Vec<&[Point]> = (solved.paths.iter().map(|path| path.motif.points())).collect();
    let stitched = || -> Result<_, Error> {
        let mut divided = divide(&pieces, throat, frame.loadings)?;
        for join in &solved.joins {
            if join.gap <= solved.join_tolerance {
                divided.join(join.from, join.to)?;
            }
        }
        let window = OrderOptions::new(throat, bounds);
        let ordered = order(&divided.atoms, &divided.joins, &window)?;
        let (passes, runs) = planned(solved, &divided, &pieces, &ordered)?;
        let job = stitch_lines(runs.iter().map(|run| &run.motif), &options)?;
        Ok((divided.deep, ordered, passes, runs, job))
    };
    // Either takes about half the time.
    let (stitched, report) = both(stitched, || check_lines(&lines, &limits));
    let (deep, ordered, passes, runs, job) = stitched?;
    let mut findings = inspect::tell(solved, &report?, &job, &runs, &limits);
    findings.extend(deep.iter().map(|&piece| too_deep(solved, piece, throat)));
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    Ok(Stitching {
        throat: frame.throat,
        least_cuts: ordered.least_cuts(),
        travel: ordered.travel(),
        advancing: frame.seconds_per_advance * passes.len().saturating_sub(1) as f64,
        passes,
        runs,
        job,
        options,
        findings,
    })
}

fn planned(
    solved: &Solved,
    divided: &Divided,
    pieces: &[Placed<'_>],
    ordered: &Ordered,
) -> Result<(Vec<PlannedPass>, Vec<PlannedRun>), Error> {
    let reached: Vec<Vec<f64>> = (pieces.iter())
        .map(|piece| reached(piece.motif.points()))
        .collect();
    let mut passes = Vec::new();
    let mut runs = Vec::new();
    for loaded in &ordered.loadings {
        for pass in &loaded.passes {
            let first = runs.len();
            for run in &pass.runs {
                let name = solved.layouts[solved.pieces[piece_of(divided, run.steps[0])].border]
                    .name
                    .as_str();
                runs.push(PlannedRun {
                    pass: passes.len(),
                    parts: parts(solved, divided, &reached, &run.steps),
                    motif: Motif::from_points(name, divided.line(pieces, &run.steps))?,
                    closed: run.closed,
                });
            }
            passes.push(PlannedPass {
                loading: loaded.loading,
                top: pass.top,
                to_machine: pass.to_machine,
                runs: first..runs.len(),
            });
        }
    }
    Ok((passes, runs))
}

fn piece_of(divided: &Divided, step: RunStep) -> usize {
    divided.stretches[step.atom].piece
}

/// How far along its piece each point lies.
fn reached(points: &[Point]) -> Vec<f64> {
    let mut sum = 0.0;
    let steps = points.windows(2).map(|pair| (pair[1] - pair[0]).norm());
    std::iter::once(0.0)
        .chain(steps.map(|step| {
            sum += step;
            sum
        }))
        .collect()
}

/// The share of a piece's length that lies before a place on it.
fn share_at(reached: &[f64], place: Place) -> f64 {
    let last = reached.len() - 1;
    let [here, next] = [place.point, place.point + 1].map(|point| reached[point.min(last)]);
    let whole = reached[last];
    if whole > 0.0 {
        (here + (next - here) * place.share) / whole
    } else {
        0.0
    }
}

/// The steps of a run, those of one piece that follow each other taken together.
fn parts(
    solved: &Solved,
    divided: &Divided,
    reached: &[Vec<f64>],
    steps: &[RunStep],
) -> Vec<RunPart> {
    let mut parts: Vec<RunPart> = Vec::new();
    for step in steps {
        let stretch = &divided.stretches[step.atom];
        let ends = &solved.pieces[stretch.piece].ends;
        let copy = |point: usize| ends.partition_point(|end| *end < point);
        let whole = stretch.from.share == 0.0
            && stretch.to.share == 0.0
            && (stretch.from.point == 0 || ends.contains(&stretch.from.point))
            && ends.contains(&stretch.to.point);
        let repeats = whole.then(|| {
            let first = if stretch.from.point == 0 {
                0
            } else {
                copy(stretch.from.point) + 1
            };
            [first + 1, copy(stretch.to.point) + 1]
        });
        let reach = &reached[stretch.piece];
        let next = RunPart {
            piece: stretch.piece,
            repeats,
            between: [stretch.from, stretch.to].map(|place| share_at(reach, place)),
            reversed: step.reversed,
        };
        match parts.last_mut() {
            Some(last) if last.piece == next.piece && last.reversed == next.reversed => {
                last.repeats = match (last.repeats, next.repeats) {
                    (Some([a, b]), Some([c, d])) => Some([a.min(c), b.max(d)]),
                    _ => None,
                };
                last.between = [
                    last.between[0].min(next.between[0]),
                    last.between[1].max(next.between[1]),
                ];
            }
            _ => parts.push(next),
        }
    }
    parts
}

fn too_deep(solved: &Solved, piece: usize, throat: f64) -> Finding {
    let piece = &solved.pieces[piece];
    Finding::error(
        "too_deep",
        Some(piece.motif.start().point),
        format!(
            "{}: no pass of {} takes {} as a whole, so it is cut inside a motif; use a machine with a deeper throat, \"turned\", or a smaller design",
            piece.name,
            solved.unit.readable(throat),
            match &piece.kind {
                PieceKind::Side(side) =>
                    format!("one of its {}", counted(side.fit.chosen.repeats, "repeat")),
                _ => "it".to_owned(),
            }
        ),
    )
}
