//! The second sweep of a loading: back up the quilt, so that it is rolled back pass by pass.
//!
//! Problem: some atoms are to be stitched before all others, corners before the sides that end at
//! them. Two sweeps down the quilt would roll it back as a whole between them. Method: each sweep
//! is put in order by itself, from the top, and the second is taken from its end: the last pass
//! first, in it the last run first, each run from its end. Windows, cuts and the ways from run to
//! run are the same either way. Where one window takes the last pass down and the first pass back,
//! both are stitched in it, so that the quilt stays there. Guarantee: passes and cuts are as few as
//! each sweep takes by itself. Failure: the way from the last run down to the first one back is
//! counted, but not looked for; nor is what a window that is moved to be shared does to the ways
//! from it. A bound holds for either.

use super::atom::Atom;
use super::options::OrderOptions;
use super::ordered::{Loaded, Pass, Run, RunStep};
use super::passes::fits;
use crate::geom::Point;
use crate::trim::Exactness;

/// Takes a sweep from its end, after the last run of another in the same loading.
pub(super) fn back_up(
    before: &mut Loaded,
    mut loaded: Loaded,
    atoms: &[Atom],
    options: &OrderOptions,
) -> Loaded {
    loaded.back = true;
    loaded.passes.reverse();
    for pass in &mut loaded.passes {
        pass.runs.reverse();
        for run in &mut pass.runs {
            run.steps.reverse();
            for step in &mut run.steps {
                step.reversed = !step.reversed;
            }
        }
    }
    let turn = [before.passes.len() - 1, 0];
    share_window([before, &mut loaded], turn, atoms, options);
    let from = ends_of(&before.passes[turn[0]], atoms);
    let to = ends_of(&loaded.passes[turn[1]], atoms);
    if let Some(([_, from], [to, _])) = from.zip(to) {
        let way = (to - from).norm();
        if way > 0.0 {
            let least = least(&loaded);
            loaded.travel += way;
            bound(&mut loaded, least);
        }
    }
    loaded
}

/// Moves the windows of two passes to one place, where they both fit.
fn share_window(
    sweeps: [&mut Loaded; 2],
    passes: [usize; 2],
    atoms: &[Atom],
    options: &OrderOptions,
) {
    let loading = sweeps[0].loading;
    let both = [0, 1].map(|k| &sweeps[k].passes[passes[k]]);
    let steps = both.into_iter().flat_map(|pass| &pass.runs);
    let spans = steps
        .flat_map(|run| &run.steps)
        .map(|step| options.below_top(loading, &atoms[step.atom].bounds));
    let [top, bottom] = spans.fold([f64::INFINITY, f64::NEG_INFINITY], |all, one| {
        [all[0].min(one[0]), all[1].max(one[1])]
    });
    let reach = options.throat.reach(top);
    if !fits([top, bottom], reach) {
        return;
    }
    for (loaded, at) in sweeps.into_iter().zip(passes) {
        let pass = &mut loaded.passes[at];
        let moved = (pass.top - top).abs();
        let [to_machine, to_cloth] = loading.machine(&options.quilt, top);
        (pass.top, pass.reach) = (top, reach);
        (pass.to_machine, pass.to_cloth) = (to_machine, to_cloth);
        if moved > 0.0 && loaded.passes.len() > 1 {
            // One way, to or from this window, changes by no more than it moved.
            let least = least(loaded) - moved;
            loaded.travel = travel(&loaded.passes, atoms);
            bound(loaded, least.max(0.0));
        }
    }
}

/// What no order of these runs travels less than.
fn least(loaded: &Loaded) -> f64 {
    match loaded.exactness {
        Exactness::Exact => loaded.travel,
        Exactness::Bound { lower, .. } => lower,
    }
}

fn bound(loaded: &mut Loaded, lower: f64) {
    let ratio = match lower {
        0.0 => f64::INFINITY,
        lower => loaded.travel / lower,
    };
    loaded.exactness = Exactness::Bound { lower, ratio };
}

/// The ways from run to run on the machine.
fn travel(passes: &[Pass], atoms: &[Atom]) -> f64 {
    let ends = passes.iter().flat_map(|pass| {
        pass.runs
            .iter()
            .filter_map(|run| ends([run, run], pass, atoms))
    });
    let ends: Vec<[Point; 2]> = ends.collect();
    let ways = ends.windows(2).map(|pair| (pair[1][0] - pair[0][1]).norm());
    ways.sum()
}

/// Where the stitching of a pass starts and ends on the machine.
fn ends_of(pass: &Pass, atoms: &[Atom]) -> Option<[Point; 2]> {
    ends([pass.runs.first()?, pass.runs.last()?], pass, atoms)
}

/// Where the first of two runs of a pass starts and the second ends, on the machine.
fn ends([first, last]: [&Run; 2], pass: &Pass, atoms: &[Atom]) -> Option<[Point; 2]> {
    let place = |step: &RunStep, end: bool| {
        let atom = &atoms[step.atom];
        pass.to_machine.apply(match step.reversed != end {
            true => atom.end,
            false => atom.start,
        })
    };
    let (first, last) = (first.steps.first()?, last.steps.last()?);
    Some([place(first, false), place(last, true)])
}
