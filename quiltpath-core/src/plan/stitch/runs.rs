//! The passes and runs of a plan in order, each run with the parts of pieces that it goes through.

use super::along::{in_repeats, reached};
use super::data::{PlannedPass, PlannedRun, RunPart};
use super::left::{AllLeft, Left};
use super::minutes::FrameTime;
use crate::error::Error;
use crate::motif::Motif;
use crate::order::{Divided, Ordered, Place, Placed, RunStep};
use crate::plan::solved::Solved;

/// The passes and runs of pieces that are divided and put in order.
pub(super) fn planned(
    solved: &Solved,
    divided: &Divided,
    (left, pieces): (&AllLeft<'_>, &[Placed<'_>]),
    ordered: &Ordered,
) -> Result<(Vec<PlannedPass>, Vec<PlannedRun>), Error> {
    let parts_left: Vec<Reached<'_>> = (left.0.iter())
        .map(|part| Reached::of(solved, part))
        .collect();
    let mut passes = Vec::new();
    let mut runs = Vec::new();
    for loaded in &ordered.loadings {
        for pass in &loaded.passes {
            let first = runs.len();
            for run in &pass.runs {
                let name = solved.layouts
                    [solved.pieces[left.0[part_of(divided, run.steps[0])].piece].border]
                    .name
                    .as_str();
                runs.push(PlannedRun {
                    pass: passes.len(),
                    parts: parts(divided, &parts_left, &run.steps),
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
                time: FrameTime::default(),
            });
        }
    }
    Ok((passes, runs))
}

/// What is left of a piece, and how far along it and the piece each point lies.
struct Reached<'a> {
    left: &'a Left<'a>,
    own: Vec<f64>,
    /// Of the whole piece, where that is more.
    whole: Option<Vec<f64>>,
    /// Where repeats of the piece end.
    ends: &'a [usize],
}

impl<'a> Reached<'a> {
    fn of(solved: &'a Solved, left: &'a Left<'a>) -> Self {
        let piece = &solved.pieces[left.piece];
        let line = piece.line();
        Self {
            left,
            own: reached(left.motif.points()),
            whole: (piece.has_begun()).then(|| reached(line.motif.points())),
            ends: &line.ends,
        }
    }

    fn whole(&self) -> &[f64] {
        self.whole.as_ref().unwrap_or(&self.own)
    }

    /// How much of the piece's length lies before a place on what is left.
    fn length_at(&self, place: Place) -> f64 {
        self.left.before + length_at(&self.own, place)
    }

    /// The share of the piece's length that lies before a place on what is left.
    fn share_at(&self, place: Place) -> f64 {
        let whole = self.whole();
        let whole = whole[whole.len() - 1];
        if whole > 0.0 {
            (self.length_at(place) / whole).min(1.0)
        } else {
            0.0
        }
    }
}

fn part_of(divided: &Divided, step: RunStep) -> usize {
    divided.stretches[step.atom].piece
}

/// How much of a piece's length lies before a place on it.
fn length_at(reached: &[f64], place: Place) -> f64 {
    let last = reached.len() - 1;
    let [here, next] = [place.point, place.point + 1].map(|point| reached[point.min(last)]);
    here + (next - here) * place.share
}

/// The steps of a run, those of one piece that follow each other taken together.
fn parts(divided: &Divided, left: &[Reached<'_>], steps: &[RunStep]) -> Vec<RunPart> {
    let mut parts: Vec<RunPart> = Vec::new();
    for step in steps {
        let stretch = &divided.stretches[step.atom];
        let reached = &left[stretch.piece];
        let part = reached.left;
        let copy = |point: usize| part.ends.partition_point(|end| *end < point);
        let starts = match stretch.from.point {
            0 => part.starts_whole,
            point => part.ends.contains(&point),
        };
        let whole = stretch.from.share == 0.0
            && stretch.to.share == 0.0
            && starts
            && part.ends.contains(&stretch.to.point);
        let repeats = whole.then(|| {
            let first = if stretch.from.point == 0 {
                0
            } else {
                copy(stretch.from.point) + 1
            };
            [first + 1, copy(stretch.to.point) + 1].map(|copy| part.repeats_before + copy)
        });
        let places = [stretch.from, stretch.to];
        let in_repeats =
            |place| in_repeats(reached.whole(), reached.ends, reached.length_at(place));
        let next = RunPart {
            piece: part.piece,
            repeats,
            in_repeats: (reached.ends.len() > 1).then(|| places.map(in_repeats)),
            between: places.map(|place| reached.share_at(place)),
            reversed: step.reversed,
        };
        // Stretches of a piece that has begun need not follow each other on it.
        let apart = |last: &RunPart| {
            let follows = |ends: [f64; 2]| (ends[0] - ends[1]).abs() < 1e-9;
            reached.whole.is_some()
                && !follows([last.between[1], next.between[0]])
                && !follows([last.between[0], next.between[1]])
        };
        match parts.last_mut() {
            Some(last)
                if last.piece == next.piece && last.reversed == next.reversed && !apart(last) =>
            {
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
