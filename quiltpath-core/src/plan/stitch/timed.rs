//! The time of each pass, and of all of them.
//!
//! Method: the time of a pass is that of its runs, of the advances from the pass before where the
//! quilt is not loaded anew between them, and of touching its marks. The whole is counted by
//! itself, with the loadings. Guarantee: the passes and the loadings together are the whole, to
//! rounding.

use super::data::PlannedPass;
use super::minutes::{Counted, FrameTime};
use super::options::FrameOptions;
use super::sweeps::{advances, moves};
use crate::stitch::estimate::Time;
use crate::stitch::job::Job;

/// Puts its time into each pass.
pub(super) fn time_passes(
    passes: &mut [PlannedPass],
    job: &Job,
    (frame, throat): (&FrameOptions, f64),
) {
    let times: Vec<FrameTime> = (0..passes.len())
        .map(|at| {
            let pass = &passes[at];
            let own = job.lines[pass.runs.clone()].iter();
            let lines = own.fold(Time::default(), |all, line| all.and(&line.time));
            let with_the_one_before = &passes[at.saturating_sub(1)..=at];
            let counted = Counted {
                loadings: 0,
                marks: pass.marks.len(),
                ..counted(with_the_one_before, throat)
            };
            FrameTime::of(&lines, counted, frame)
        })
        .collect();
    for (pass, time) in passes.iter_mut().zip(times) {
        pass.time = time;
    }
}

/// The time of all passes, with the loadings.
pub(super) fn time_of_all(
    passes: &[PlannedPass],
    job: &Job,
    (frame, throat): (&FrameOptions, f64),
) -> FrameTime {
    FrameTime::of(&job.time, counted(passes, throat), frame)
}

/// What takes time between the lines of these passes.
fn counted(passes: &[PlannedPass], throat: f64) -> Counted {
    let loadings = passes.chunk_by(|one, next| one.loading == next.loading);
    Counted {
        advances: moves(passes).map(|way| advances(way, throat)).sum(),
        marks: passes.iter().map(|pass| pass.marks.len()).sum(),
        loadings: loadings.count(),
    }
}
