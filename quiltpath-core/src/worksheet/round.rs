//! A plan solved with what is known of its quilt: what it was solved round before, and what
//! happened at the frame since.

use crate::error::Error;
use crate::frame::Progress;
use crate::plan::{MotifRequest, PlanSpec, Solved, Stitched, solve_around, stitch_plan};
use crate::strokes::Drawing;

/// A solved plan and what is known of its quilt.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Round {
    /// The plan, solved round what is stitched.
    pub solved: Solved,
    /// What it is solved round, where something is stitched.
    pub before: Option<Progress>,
    /// What happened at the frame by this very plan, when something did.
    pub progress: Option<Progress>,
    /// Whether the plan has changed since something happened at the frame.
    pub changed: bool,
}

/// Solves a plan by what is known of its quilt: `before`, what it was solved round, and `progress`,
/// what happened at the frame since.
///
/// Where that happened by another plan, since this one changed, the progress is what this one is
/// solved round, and nothing has happened by it yet; readings alone are forgotten, because they are
/// told by passes of the other plan.
///
/// # Errors
///
/// As [`solve_around`] and [`stitch_plan`]; those of `load`.
pub fn solve_round(
    plan: &PlanSpec,
    (before, progress): (Option<Progress>, Option<Progress>),
    mut load: impl FnMut(&MotifRequest) -> Result<Drawing, Error>,
) -> Result<Round, Error> {
    let mut around = |before: &Option<Progress>| {
        let nothing = Stitched::default();
        let stitched = before.as_ref().map_or(&nothing, |before| &before.stitched);
        solve_around(plan, stitched, &mut load)
    };
    let solved = around(&before)?;
    let changed = match &progress {
        Some(progress) => !progress.is_of(&solved, &stitch_plan(plan, &solved)?),
        None => false,
    };
    if !changed {
        return Ok(Round {
            solved,
            before,
            progress,
            changed,
        });
    }
    let stitched = progress.filter(|progress| !progress.stitched.is_empty());
    let (solved, before) = match stitched {
        Some(progress) => {
            let before = Some(progress);
            (around(&before)?, before)
        }
        None => (solved, before),
    };
    Ok(Round {
        solved,
        before,
        progress: None,
        changed,
    })
}
