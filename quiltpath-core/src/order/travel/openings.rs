//! The ways to stitch each run of a pass: where it is opened, and in which direction it goes.

use crate::geom::Point;
use crate::order::ordered::{Run, RunStep};

/// The most runs in one pass for which travel is the least possible: 14.
const EXACT_RUNS: usize = 14;

/// The most steps of the table for one pass: 2^24. It takes 2^runs for each pair of ways that two
/// runs follow each other, so 14 open runs are within.
const EXACT_STEPS: u64 = 1 << 24;

/// One way to stitch a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Opening {
    pub(super) run: usize,
    /// The position of the step that comes first, or last when against the run's direction.
    pub(super) at: usize,
    pub(super) reversed: bool,
    pub(super) entry: Point,
    pub(super) exit: Point,
}

/// The runs of a pass with the ways to stitch each.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Openings {
    pub(super) all: Vec<Opening>,
    /// Where the openings of each run start, and their number at the end.
    pub(super) first: Vec<usize>,
}

impl Openings {
    /// The openings of these runs; `ends` gives an atom's start and end as the machine sees them.
    pub(super) fn of(runs: &[Run], ends: impl Fn(usize) -> [Point; 2]) -> Self {
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

    pub(super) fn runs(&self) -> usize {
        self.first.len() - 1
    }

    pub(super) fn of_run(&self, run: usize) -> std::ops::Range<usize> {
        self.first[run]..self.first[run + 1]
    }

    /// How often the table compares two openings, and how many places it has.
    pub(super) fn is_small(&self) -> bool {
        let square = |count: usize| (count as u64).pow(2);
        let same: u64 = (0..self.runs())
            .map(|run| square(self.of_run(run).len()))
            .sum();
        let count = self.all.len();
        let pairs = square(count) - same + count as u64;
        self.runs() <= EXACT_RUNS && pairs << self.runs() <= EXACT_STEPS
    }
}

/// A run stitched in this way.
pub(super) fn opened(runs: &[Run], opening: Opening) -> Run {
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
