//! The passes and runs of a plan in order, each run with the parts of pieces that it goes through.

use super::data::{PlannedPass, PlannedRun, RunPart};
use crate::error::Error;
use crate::geom::Point;
use crate::motif::Motif;
use crate::order::{Divided, Ordered, Place, Placed, RunStep};
use crate::plan::solved::Solved;

/// The passes and runs of pieces that are divided and put in order.
pub(super) fn planned(
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
                reach: pass.reach,
                to_machine: pass.to_machine,
                marks: Vec::new(),
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

/// How much of a piece's length lies before a place on it.
fn length_at(reached: &[f64], place: Place) -> f64 {
    let last = reached.len() - 1;
    let [here, next] = [place.point, place.point + 1].map(|point| reached[point.min(last)]);
    here + (next - here) * place.share
}

/// The share of a piece's length that lies before a place on it.
fn share_at(reached: &[f64], place: Place) -> f64 {
    let whole = reached[reached.len() - 1];
    if whole > 0.0 {
        length_at(reached, place) / whole
    } else {
        0.0
    }
}

/// How many repeats, whole ones and the share of the next one's length, lie before a place on a
/// piece whose repeats end at these points.
fn in_repeats(reached: &[f64], ends: &[usize], place: Place) -> f64 {
    let last = reached.len() - 1;
    let length = length_at(reached, place);
    let whole = ends.partition_point(|&end| reached[end.min(last)] <= length);
    let to = |repeat: usize| ends.get(repeat).map(|&end| reached[end.min(last)]);
    let from = whole.checked_sub(1).and_then(to).unwrap_or(0.0);
    match to(whole) {
        Some(to) if to > from => whole as f64 + (length - from) / (to - from),
        _ => whole as f64,
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
        let ends = &solved.pieces[stretch.piece].line().ends;
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
            in_repeats: (ends.len() > 1)
                .then(|| [stretch.from, stretch.to].map(|place| in_repeats(reach, ends, place))),
            between: [stretch.from, stretch.to].map(|place| share_at(reach, place)),
            reversed: step.reversed,
        };
        match parts.last_mut() {
            Some(last) if last.piece == next.piece && last.reversed == next.reversed => {
                last.repeats = match (last.repeats, next.repeats) {
                    (Some([a, b]), Some([c, d])) => Some([a.min(c), b.max(d)]),
                    _ => None,
                };
                let widest =
                    |one: [f64; 2], other: [f64; 2]| [one[0].min(other[0]), one[1].max(other[1])];
                last.between = widest(last.between, next.between);
                last.in_repeats = last
                    .in_repeats
                    .zip(next.in_repeats)
                    .map(|(a, b)| widest(a, b));
            }
            _ => parts.push(next),
        }
    }
    parts
}
