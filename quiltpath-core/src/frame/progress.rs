//! How far a quilt is: what was read and stitched at the frame since its plan was solved.

use crate::error::{Error, PlanFault};
use crate::geom::Point;
use crate::plan::{PlannedRun, Solved, Stitched, Stitching, plan_hash};

/// How far a quilt is; lengths in millimetres, passes and runs counted from 0.
///
/// ```
/// use quiltpath_core::frame::Progress;
/// # use quiltpath_core::plan::{solve, stitch_plan};
/// # use quiltpath_core::{geom::Point, io::json::read_plan, motif::Motif};
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)];
/// #     let points = wave.map(|(x, y)| Point::new(x, y)).to_vec();
/// #     Ok(Motif::from_points("wave", points)?.into())
/// # };
/// # let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
/// #     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}]}"#)?;
/// let solved = solve(&plan, wave)?;
/// let stitching = stitch_plan(&plan, &solved)?;
/// let mut progress = Progress::of(&solved, &stitching);
/// progress.stitched.add(&solved, &stitching.runs[0])?;
/// assert!(progress.is_of(&solved, &stitching) && !progress.stitched.is_empty());
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
#[non_exhaustive]
pub struct Progress {
    /// The plan that passes, runs and lengths are told by, as [`plan_hash`] has it.
    pub plan: String,
    /// What was read, pass by pass.
    pub passes: Vec<PassRead>,
    /// What is stitched, where it lies in that plan.
    pub stitched: Stitched,
    /// Where the machine stopped in the middle of a run, when it did.
    pub stopped: Option<Stopped>,
    /// The lengths of line at which fresh bobbins began, over all runs of this plan in their order,
    /// rising.
    pub bobbins: Vec<f64>,
}

/// The readings of one pass.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct PassRead {
    /// The number of the pass, from 0.
    pub pass: usize,
    /// The marks read, in the order in which they were.
    pub readings: Vec<MarkRead>,
}

/// A mark as it was read.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct MarkRead {
    /// The lasting name of the mark.
    pub mark: String,
    /// Where the plan has it on the quilt.
    pub planned: Point,
    /// Where the machine's needle was on it: x to the right, y down.
    pub read: Point,
}

/// Where the machine stopped.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Stopped {
    /// The number of the pass, from 0.
    pub pass: usize,
    /// The number of the run within the pass, from 0.
    pub run: usize,
    /// The length along the run that is stitched.
    pub length: f64,
}

impl Progress {
    /// Nothing done yet of this plan.
    #[must_use]
    pub fn of(solved: &Solved, stitching: &Stitching) -> Self {
        Self {
            plan: plan_hash(solved, stitching),
            ..Self::default()
        }
    }

    /// Whether its passes, runs and lengths are those of this plan.
    #[must_use]
    pub fn is_of(&self, solved: &Solved, stitching: &Stitching) -> bool {
        self.plan == plan_hash(solved, stitching)
    }

    /// Takes down that a fresh bobbin begins at this place.
    ///
    /// Any that the progress has there or further on is forgotten: what lies beyond is not stitched
    /// yet.
    ///
    /// # Errors
    ///
    /// As [`Stopped::along`]; nothing is taken down then.
    pub fn change_bobbin(&mut self, stitching: &Stitching, at: Stopped) -> Result<(), Error> {
        let along = at.along(stitching)?;
        self.bobbins.retain(|&other| other < along);
        self.bobbins.push(along);
        Ok(())
    }
}

impl PassRead {
    /// A pass of this number, from 0, with these readings.
    #[must_use]
    pub fn new(pass: usize, readings: Vec<MarkRead>) -> Self {
        Self { pass, readings }
    }
}

impl MarkRead {
    /// A mark of this name, where the plan has it and where it was read.
    #[must_use]
    pub fn new(mark: impl Into<String>, planned: Point, read: Point) -> Self {
        let mark = mark.into();
        Self {
            mark,
            planned,
            read,
        }
    }
}

impl Stopped {
    /// In this pass and run, both from 0, with this length of the run stitched.
    #[must_use]
    pub fn new(pass: usize, run: usize, length: f64) -> Self {
        Self { pass, run, length }
    }

    /// The length of line up to there, over all runs of a plan in their order.
    ///
    /// # Errors
    ///
    /// A plan error when the plan has no such pass, or the pass no such run.
    pub fn along(&self, stitching: &Stitching) -> Result<f64, Error> {
        let not_there = |what, number, count| PlanFault::NotThere {
            what,
            number,
            count,
        };
        let passes = &stitching.passes;
        let pass = passes
            .get(self.pass)
            .ok_or_else(|| not_there("pass", self.pass, passes.len()))?;
        let run = pass.runs.start + self.run;
        if !pass.runs.contains(&run) {
            return Err(not_there("run of the pass", self.run, pass.runs.len()).into());
        }
        let lengths = |runs: &[PlannedRun]| runs.iter().map(|run| run.motif.length()).sum::<f64>();
        let whole = stitching.runs[run].motif.length();
        Ok(lengths(&stitching.runs[..run]) + self.length.clamp(0.0, whole))
    }
}
