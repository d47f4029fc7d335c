//! The passes of a plan as a page at the frame shows them: pictures, runs, marks, steps.

use serde::Serialize;

use super::LengthSaid;
use crate::error::Error;
use crate::frame::{bobbin_changes, check_pass};
use crate::geom::Point;
use crate::io::pass_figure;
use crate::io::words;
use crate::plan::{PlanSpec, Solved, Stitched, Stitching, mark_letter};
use crate::units::Unit;

/// A pass as a page at the frame shows it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct PassView {
    /// Its number, from 1.
    pub number: usize,
    /// How the quilt is loaded: `upright` or `turned`.
    pub loading: &'static str,
    /// How long it takes, in minutes.
    pub minutes: f64,
    /// The whole quilt with its window, as an SVG.
    pub small: String,
    /// The window as the machine sees it, as an SVG.
    pub figure: String,
    /// What to do, in order.
    pub steps: Vec<String>,
    /// Its runs in order.
    pub runs: Vec<RunView>,
    /// Its marks, by letter.
    pub marks: Vec<MarkView>,
    /// The stops of its needle-up check, in order: what lies at each.
    pub stops: Vec<Vec<String>>,
}

/// A run of a pass.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct RunView {
    /// Its number over all passes, from 1.
    pub number: usize,
    /// The length of its line.
    pub length: LengthSaid,
    /// How many stitches it takes.
    pub stitches: usize,
    /// Where it starts and where it ends, as the plan expects it on the machine.
    pub ends: [[LengthSaid; 2]; 2],
    /// Whether it ends where it starts.
    pub closed: bool,
    /// Whether it is stitched.
    pub stitched: bool,
    /// Where new bobbins are put in: after how much of its line, and in words.
    pub bobbins: Vec<BobbinView>,
}

/// A new bobbin along a run.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct BobbinView {
    /// After how much of the run's line.
    pub after: LengthSaid,
    /// Where the one before would be empty, along the same run, where it would be.
    pub empty: Option<f64>,
    /// Why there.
    pub why: &'static str,
}

/// A mark of a pass.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct MarkView {
    /// Its letter.
    pub letter: String,
    /// Its lasting name.
    pub name: String,
    /// Where the plan expects it on the machine, in the machine's unit and its y.
    pub expected: [LengthSaid; 2],
    /// Whether a stitched line ends there and goes on.
    pub met: bool,
}

/// The passes of a plan, each with what is stitched of it.
///
/// Places are the machine's: in its unit, its y up where the plan says so.
///
/// # Errors
///
/// A plan error when the plan, its stitching and what is stitched don't go together.
///
/// # Complexity
///
/// O(passes · points).
pub fn pass_views(
    plan: &PlanSpec,
    (solved, stitching): (&Solved, &Stitching),
    stitched: &Stitched,
) -> Result<Vec<PassView>, Error> {
    let axes = plan.machine_axes();
    let place = |point: Point| {
        let y = if axes.y_up { -point.y } else { point.y };
        [point.x, y].map(|mm| LengthSaid::of(mm, axes.unit))
    };
    let changes = bobbin_changes(solved, stitching)?.changes;
    let mut views = Vec::new();
    for (index, pass) in stitching.passes.iter().enumerate() {
        let mut runs = Vec::new();
        for number in pass.runs.clone() {
            let run = &stitching.runs[number];
            let own = changes.iter().filter(|change| change.place.run == number);
            let bobbins = own.map(|change| BobbinView {
                after: LengthSaid::of(change.place.length, solved.unit),
                empty: (change.empty)
                    .filter(|empty| empty.run == number)
                    .map(|empty| of_line(empty.length, solved.unit)),
                why: words::change_at(change.why),
            });
            let ends = [run.motif.start(), run.motif.end()];
            runs.push(RunView {
                number: number + 1,
                length: LengthSaid::line(run.motif.length(), solved.unit),
                stitches: stitching.job.lines[number].count(),
                ends: ends.map(|end| place(pass.to_machine.apply(end.point))),
                closed: run.closed,
                stitched: stitched.has(solved, run)?,
                bobbins: bobbins.collect(),
            });
        }
        let marks = pass.marks.iter().enumerate().map(|(at, mark)| MarkView {
            letter: mark_letter(at),
            name: words::mark(mark, solved),
            expected: place(pass.to_machine.apply(mark.point)),
            met: mark.is_met(),
        });
        let stops = check_pass(solved, stitching, index)?.stops.into_iter();
        let said = |there: &_| words::check_stop(there, solved);
        views.push(PassView {
            number: index + 1,
            loading: pass.loading.name(),
            minutes: pass.time.minutes(),
            small: pass_figure::small(solved, stitching, index).into_string(),
            figure: pass_figure::figure(solved, stitching, index).into_string(),
            steps: words::pass_steps(stitching, index),
            runs,
            marks: marks.collect(),
            stops: stops
                .map(|stop| stop.there.iter().map(said).collect())
                .collect(),
        });
    }
    Ok(views)
}

fn of_line(mm: f64, unit: Unit) -> f64 {
    LengthSaid::of(mm, unit).value
}
