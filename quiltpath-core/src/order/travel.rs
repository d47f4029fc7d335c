//! The order, direction and opening of the runs with the least travel from run to run.
//!
//! Problem: the runs of each pass are stitched in any order, an open one from either end, a closed
//! one from the start of any of its atoms, either way round. Between them the machine moves in a
//! straight line; when the quilt is advanced the machine stays where it is on the frame.
//! Method: dynamic programming over the sets of runs stitched and the way that the last one was
//! stitched (M. Held and R. M. Karp, "A dynamic programming approach to sequencing problems",
//! 1962). A pass starts from every way that the one before may end, at what that cost, so the
//! travel over all passes of a loading together is the least.
//! Guarantee: exact while each pass has at most [`EXACT_RUNS`] runs and the table at most
//! [`EXACT_STEPS`] steps. A larger pass is ordered by `nearby`, and a lower bound is reported:
//! a tree that connects the runs for each pass, and the shortest way from pass to pass.
//! Failure: none.

mod nearby;

#[cfg(test)]
mod tests;

use super::{Run, RunStep};
use crate::geom::{Point, Vector};
use crate::trim::Exactness;
use nearby::{any_order, tree};

/// The most runs in one pass for which travel is the least possible: 12.
pub const EXACT_RUNS: usize = 12;

/// The most steps of the table for one pass: 2^24. It takes 2^runs for each pair of ways that two
/// runs follow each other, so 12 open runs are well within.
pub const EXACT_STEPS: usize = 1 << 24;

/// One way to stitch a run.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Opening {
    run: usize,
    /// The position of the step that comes first, or last when against the run's direction.
    at: usize,
    reversed: bool,
    entry: Point,
    exit: Point,
}

/// The runs of a pass with the ways to stitch each.
#[derive(Debug, Clone, PartialEq)]
struct Openings {
    all: Vec<Opening>,
    /// Where the openings of each run start, and their number at the end.
    first: Vec<usize>,
}

impl Openings {
    /// The openings of these runs; `ends` gives an atom's start and end as the machine sees them.
    fn of(runs: &[Run], ends: impl Fn(usize) -> [Point; 2]) -> Self {
        let (mut all, mut first) = (Vec::new(), vec![0]);
        for (run, Run { steps, closed }) in runs.iter().enumerate() {
            let side =
                |step: RunStep, end: bool| ends(step.atom)[usize::from(end != step.reversed)];
            let openings = if *closed { steps.len() } else { 1 };
            for at in 0..openings {
                let entry = side(steps[at], false);
                let exit = side(steps[(at + steps.len() - 1) % steps.len()], true);
                let onward = Opening {
                    run,
                    at,
                    reversed: false,
                    entry,
                    exit,
                };
                all.push(onward);
                if entry != exit || !closed {
                    all.push(Opening {
                        reversed: true,
                        entry: exit,
                        exit: entry,
                        ..onward
                    });
                }
            }
            first.push(all.len());
        }
        Self { all, first }
    }

    fn runs(&self) -> usize {
        self.first.len() - 1
    }

    fn of_run(&self, run: usize) -> std::ops::Range<usize> {
        self.first[run]..self.first[run + 1]
    }

    /// How often the table compares two openings, and how many places it has.
    fn is_small(&self) -> bool {
        let count = self.all.len();
        let same: usize = (0..self.runs())
            .map(|run| self.of_run(run).len().pow(2))
            .sum();
        let steps = (count * count - same + count).saturating_mul(1 << self.runs().min(32));
        self.runs() <= EXACT_RUNS && steps <= EXACT_STEPS
    }
}

/// What came before a place in a table.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Before {
    /// One of the ways that the pass before ended; meaningless for the first pass.
    Finish(usize),
    /// Another place in the table.
    Place(usize),
}

/// One way that a pass may end.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Finish {
    at: Point,
    /// The travel up to here from the start of the loading.
    travel: f64,
    place: usize,
}

/// A pass solved: the ways that it may end and how each comes about.
#[derive(Debug, Clone, PartialEq)]
struct Solved {
    finishes: Vec<Finish>,
    /// The opening stitched at each place of the table, and what came before.
    table: Vec<(usize, Before)>,
    exact: bool,
}

impl Solved {
    /// The openings in order up to a place, and the finish of the pass before that they start from.
    fn trace(&self, mut place: usize) -> (Vec<usize>, usize) {
        let mut order = Vec::new();
        loop {
            let (opening, before) = self.table[place];
            order.push(opening);
            match before {
                Before::Place(earlier) => place = earlier,
                Before::Finish(finish) => {
                    order.reverse();
                    return (order, finish);
                }
            }
        }
    }
}

/// The travel of a loading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Travel {
    pub(super) length: f64,
    pub(super) exactness: Exactness,
}

/// Puts the runs of each pass in order and turns and opens them, so that travel is little.
///
/// `ends` gives an atom's start and end on the cloth as loaded; pass k takes `tops[k]` off their y.
/// Each pass has a run. No travel is counted to the first run of all.
///
/// # Complexity
///
/// Up to [`EXACT_STEPS`] for each pass, or as `nearby` for a larger one.
pub(super) fn order_runs(
    passes: &mut [Vec<Run>],
    tops: &[f64],
    ends: impl Fn(usize) -> [Point; 2],
) -> Travel {
    let openings: Vec<Openings> = passes
        .iter()
        .zip(tops)
        .map(|(runs, &top)| {
            let lifted = Vector::new(0.0, top);
            Openings::of(runs, |atom| ends(atom).map(|point| point - lifted))
        })
        .collect();
    let mut solved: Vec<Solved> = Vec::with_capacity(passes.len());
    for openings in &openings {
        let before = solved.last().map_or(&[][..], |pass| &pass.finishes);
        solved.push(if openings.is_small() {
            subsets(openings, before)
        } else {
            any_order(openings, before)
        });
    }
    let finishes = solved.last().map_or(&[][..], |pass| &pass.finishes);
    let Some(best) = finishes.iter().min_by(|a, b| a.travel.total_cmp(&b.travel)) else {
        let (length, exactness) = (0.0, Exactness::Exact);
        return Travel { length, exactness };
    };
    let length = best.travel;
    let mut place = best.place;
    for at in (0..passes.len()).rev() {
        let (order, finish) = solved[at].trace(place);
        let chosen = order.iter().map(|&opening| openings[at].all[opening]);
        passes[at] = chosen.map(|opening| opened(&passes[at], opening)).collect();
        if at > 0 {
            place = solved[at - 1].finishes[finish].place;
        }
    }
    let exactness = if solved.iter().all(|pass| pass.exact) {
        Exactness::Exact
    } else {
        bounded(length, &openings)
    };
    Travel { length, exactness }
}

/// How near a travel is to the least, by trees within passes and shortest ways between them.
fn bounded(length: f64, passes: &[Openings]) -> Exactness {
    let within: f64 = passes.iter().map(tree).sum();
    let between = |pair: &[Openings]| {
        let ways = pair[0].all.iter().flat_map(|from| {
            let to = pair[1].all.iter();
            to.map(|to| (to.entry - from.exit).norm_squared())
        });
        ways.fold(f64::INFINITY, f64::min).sqrt()
    };
    let lower = within + passes.windows(2).map(between).sum::<f64>();
    // Both are sums of the same lengths, in another order.
    if length <= lower * (1.0 + 1e-12) {
        return Exactness::Exact;
    }
    let ratio = length / lower;
    Exactness::Bound { lower, ratio }
}

/// A run stitched in this way.
fn opened(runs: &[Run], opening: Opening) -> Run {
    let mut run = runs[opening.run].clone();
    run.steps.rotate_left(opening.at);
    if opening.reversed {
        run.steps.reverse();
        for step in &mut run.steps {
            step.reversed = !step.reversed;
        }
    }
    run
}

/// The travel from the ways that the pass before ended, the least of all, and which one that is.
fn from_before(before: &[Finish], entry: Point) -> (f64, Before) {
    let reach = |finish: &Finish| finish.travel + (entry - finish.at).norm();
    let ways = before.iter().map(reach).enumerate();
    let (finish, travel) = ways.min_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or((0, 0.0));
    (travel, Before::Finish(finish))
}

/// Exact: the least travel for each set of runs and each way to stitch the last of them.
fn subsets(openings: &Openings, before: &[Finish]) -> Solved {
    let (count, runs) = (openings.all.len(), openings.runs());
    let mut travel = vec![f64::INFINITY; count << runs];
    let mut table = vec![(0, Before::Finish(0)); count << runs];
    for (at, opening) in openings.all.iter().enumerate() {
        let place = (count << opening.run) + at;
        let (length, from) = from_before(before, opening.entry);
        travel[place] = length;
        table[place] = (at, from);
    }
    let all = (1usize << runs) - 1;
    for done in 1..all {
        for (at, last) in openings.all.iter().enumerate() {
            let place = done * count + at;
            let so_far = travel[place];
            if so_far.is_infinite() {
                continue;
            }
            for run in (0..runs).filter(|run| done >> run & 1 == 0) {
                for next in openings.of_run(run) {
                    let length = so_far + (openings.all[next].entry - last.exit).norm();
                    let to = (done | 1 << run) * count + next;
                    if length < travel[to] {
                        travel[to] = length;
                        table[to] = (next, Before::Place(place));
                    }
                }
            }
        }
    }
    let finish = |at: usize| Finish {
        at: openings.all[at].exit,
        travel: travel[all * count + at],
        place: all * count + at,
    };
    Solved {
        finishes: (0..count).map(finish).collect(),
        table,
        exact: true,
    }
}
