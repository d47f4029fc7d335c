//! Where bobbins run out along the runs, and good places to change them before.
//!
//! Problem: a bobbin that runs out in the open leaves stitches of one thread; find for each bobbin
//! where it will be empty, and a place before that where a start and an end show least.
//! Method: bobbin thread is used up as the job counts it: each stitch its length and the thickness
//! of the layers, each start and end of a run a tail, all of it more by the share of waste. A
//! bobbin is changed before its reserve is touched, in the stretch that takes as much thread as the
//! reserve again: between runs, else where pieces join, else at a cusp, else where the stretch
//! crosses itself, each as late as can be; else at the last stitch before the reserve. To finish a
//! run, half of the reserve may be spent. The next bobbin starts there.
//! Guarantee: no bobbin has to give more than it holds, unless it holds too little for a single
//! stitch with its tail; of the ways that change bobbins where the rules above say, there is only
//! this one. Without a reserve there are as many bobbins as the job counts, or a stitch's thread
//! more each; with one, each is used up but for twice the reserve.
//! Failure: tie-offs and tails of a change in the middle of a run are not counted by the job; they
//! come out of the share of waste and the reserve.

mod spent;

use super::progress::Progress;
use crate::error::Error;
use crate::geom::Point;
use crate::plan::{Piece, Solved, Stitching, check_whole};
use spent::Spent;

/// The most changes that are listed.
const MOST: usize = 999;

/// What is good about a place for changing the bobbin, the best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[non_exhaustive]
pub enum ChangeAt {
    /// A run starts there; the one before it is done.
    RunStart,
    /// Two pieces join there.
    Join,
    /// The line turns sharply.
    Cusp,
    /// The line crosses itself.
    Crossing,
    /// Nothing: it is the last stitch before the reserve.
    Line,
}

/// A place on a run.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct RunPlace {
    /// The number of the run, from 0.
    pub run: usize,
    /// The length of its line up to there, in millimetres.
    pub length: f64,
    /// The point on the quilt, in millimetres.
    pub at: Point,
}

/// Where a bobbin is to be changed.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct BobbinChange {
    /// Where to change it.
    pub place: RunPlace,
    /// Why there.
    pub why: ChangeAt,
    /// Where it would be empty; `None` when it would suffice to the end.
    pub empty: Option<RunPlace>,
}

/// Where bobbins are to be changed.
#[derive(Debug, Clone, PartialEq, Default)]
#[non_exhaustive]
pub struct BobbinChanges {
    /// The changes in order, 999 at the most.
    pub changes: Vec<BobbinChange>,
    /// How many more there are.
    pub more: usize,
}

impl BobbinChanges {
    /// How many changes there are; a plan that is stitched at all takes one bobbin more.
    #[must_use]
    pub fn count(&self) -> usize {
        self.changes.len() + self.more
    }
}

/// Where the bobbins of a plan are to be changed; none where the length on a bobbin isn't known.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::frame::{ChangeAt, bobbin_changes};
/// use quiltpath_core::io::json::read_plan;
/// use quiltpath_core::plan::{solve, stitch_plan};
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}],
///     "thread": {"bobbin": "3 m"}}"#)?;
/// let solved = solve(&plan, wave)?;
/// let changes = bobbin_changes(&solved, &stitch_plan(&plan, &solved)?)?.changes;
/// assert!(changes[0].why <= ChangeAt::Line && changes[0].place.length >= 0.0);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A plan error when the plan or its stitching refers to what is not there; a geometry error when
/// an option is out of its range.
///
/// # Complexity
///
/// O(points + stitches).
pub fn bobbin_changes(solved: &Solved, stitching: &Stitching) -> Result<BobbinChanges, Error> {
    let whole = Whole::of(solved, stitching)?;
    Ok(whole.map_or_else(BobbinChanges::default, |whole| whole.changes(0.0, 0.0)))
}

/// Where bobbins are still to be changed, counted from the last fresh one that the progress has.
///
/// Changes before the place where the machine stopped are taken as made; those after it count from
/// the last fresh bobbin, or from the start of the plan. None where the length on a bobbin isn't
/// known.
///
/// ```
/// # use quiltpath_core::{geom::Point, motif::Motif};
/// use quiltpath_core::frame::{Progress, Stopped, bobbin_changes, changes_to_come};
/// use quiltpath_core::io::json::read_plan;
/// use quiltpath_core::plan::{solve, stitch_plan};
///
/// # let wave = |_: &_| {
/// #     let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)].map(|(x, y)| Point::new(x, y));
/// #     Ok(Motif::from_points("wave", wave.to_vec())?.into())
/// # };
/// let plan = read_plan(br#"{"unit": "in", "quilt": {"width": 40, "height": 60}, "borders": [
///     {"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave"}}],
///     "thread": {"bobbin": "3 m"}}"#)?;
/// let solved = solve(&plan, wave)?;
/// let stitching = stitch_plan(&plan, &solved)?;
/// // The first bobbin was empty after half a metre: the next one comes sooner.
/// let mut progress = Progress::of(&solved, &stitching);
/// progress.change_bobbin(&stitching, Stopped::new(0, 0, 500.0))?;
/// let next = changes_to_come(&solved, &stitching, &progress)?.changes[0].place;
/// assert!(next.length < bobbin_changes(&solved, &stitching)?.changes[0].place.length + 500.0);
/// assert!(next.run > 0 || next.length > 500.0);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`bobbin_changes`]; a plan error when the progress stopped in a pass or a run that the plan
/// hasn't.
///
/// # Complexity
///
/// O(points + stitches).
pub fn changes_to_come(
    solved: &Solved,
    stitching: &Stitching,
    progress: &Progress,
) -> Result<BobbinChanges, Error> {
    let Some(whole) = Whole::of(solved, stitching)? else {
        return Ok(BobbinChanges::default());
    };
    let fresh = progress.bobbins.last();
    let fresh = fresh.map_or(0.0, |&length| whole.spent_along(length));
    let stopped = progress.stopped.map(|at| at.along(stitching)).transpose()?;
    Ok(whole.changes(fresh, stopped.unwrap_or(0.0)))
}

struct Whole<'a> {
    runs: Vec<Spent<'a>>,
    bobbin: f64,
    reserve: f64,
}

impl<'a> Whole<'a> {
    /// `None` where the length on a bobbin isn't known.
    fn of(solved: &Solved, stitching: &'a Stitching) -> Result<Option<Self>, Error> {
        check_whole(solved, Some(stitching))?;
        stitching.options.check()?;
        let thread = &stitching.options.thread;
        let Some(bobbin) = thread.bobbin else {
            return Ok(None);
        };
        let pieces: Vec<f64> = solved.pieces.iter().map(Piece::length).collect();
        let mut start = 0.0;
        let runs = (stitching.runs.iter().zip(&stitching.job.lines)).map(|(run, line)| {
            let spent = Spent::of(run, line, &pieces, thread, start);
            start = spent.end;
            spent
        });
        Ok(Some(Self {
            runs: runs.collect(),
            bobbin,
            reserve: thread.reserve * bobbin,
        }))
    }

    /// The thread spent up to a length of line over all runs in their order.
    fn spent_along(&self, length: f64) -> f64 {
        let mut left = length;
        for run in &self.runs {
            if left < run.whole() {
                return run.up_to(left);
            }
            left -= run.whole();
        }
        self.runs.last().map_or(0.0, |run| run.end)
    }

    /// The length of line up to a place, over all runs in their order.
    fn along(&self, place: RunPlace) -> f64 {
        let before = self.runs[..place.run].iter().map(Spent::whole);
        before.sum::<f64>() + place.length
    }

    /// The changes of bobbins when one was put in after so much thread, without those before
    /// `here`, a length of line over all runs.
    fn changes(&self, start: f64, here: f64) -> BobbinChanges {
        let mut found = BobbinChanges::default();
        let total = self.runs.last().map_or(0.0, |run| run.end);
        let mut start = start;
        // What rounding makes of a need that just fits is no reason for another bobbin.
        while total > start + (self.bobbin - self.reserve) * (1.0 + 1e-12) {
            let (spent, change) = self.next(start, total);
            start = spent;
            // Who stops right where a bobbin is to be changed has yet to change it.
            if self.along(change.place) < here * (1.0 - 1e-9) {
                continue;
            }
            match found.changes.len() < MOST {
                true => found.changes.push(change),
                false => found.more += 1,
            }
        }
        found
    }

    /// The change of a bobbin that was put in when so much thread was spent, and how much is then.
    fn next(&self, start: f64, total: f64) -> (f64, BobbinChange) {
        let latest = start + self.bobbin - self.reserve;
        let window = (latest - self.reserve).max(start)..=latest;
        let empty = start + self.bobbin;
        let empty = (empty < total).then(|| self.place(empty));
        let between_runs = *window.start()..=latest + self.reserve / 2.0;
        let starts = self.runs.iter().enumerate().skip(1).rev();
        let found = starts
            .map(|(at, run)| (run.start, at))
            .find(|(spent, _)| *spent > start && between_runs.contains(spent));
        let (spent, run, length, why) = match found {
            Some((spent, run)) => (spent, run, 0.0, ChangeAt::RunStart),
            None => self.within(start, window),
        };
        let place = self.on_run(run, length);
        (spent, BobbinChange { place, why, empty })
    }

    /// The best place of the stretch within the run that is stitched at the end of the window.
    fn within(
        &self,
        start: f64,
        window: std::ops::RangeInclusive<f64>,
    ) -> (f64, usize, f64, ChangeAt) {
        let latest = *window.end();
        let at = self.runs.partition_point(|run| run.start <= latest);
        let at = at.saturating_sub(1);
        let run = &self.runs[at];
        // Nothing is stitched yet of a run whose first tail the reserve would have to give.
        if latest < run.needles[0] && run.start > start {
            return (run.start, at, 0.0, ChangeAt::RunStart);
        }
        let along = &run.line.stitches.along;
        let good = |spent: f64| spent > start && window.contains(&spent);
        let latest_of = |lengths: &[f64]| {
            let places = lengths
                .iter()
                .map(|&length| (run.at_length(length), length));
            let places = places.filter(|(spent, _)| good(*spent));
            places.max_by(|a, b| a.0.total_cmp(&b.0))
        };
        if let Some((spent, length)) = latest_of(&run.joins) {
            return (spent, at, length, ChangeAt::Join);
        }
        let cusp = run.cusp_before(latest);
        if let Some(cusp) = cusp.filter(|&cusp| good(run.needles[cusp])) {
            return (run.needles[cusp], at, along[cusp], ChangeAt::Cusp);
        }
        let stretch = [*window.start(), latest].map(|spent| run.length_at(spent));
        if let Some((spent, length)) = latest_of(&run.crossings(stretch)) {
            return (spent, at, length, ChangeAt::Crossing);
        }
        // However short the bobbin, a stitch is made with it.
        let last = run.needles.len() - 1;
        let needle = run.needle_before(latest);
        let needle = match run.needles[needle] > start {
            true => needle,
            false => (run.needle_before(start) + 1).min(last),
        };
        match run.needles[needle] > start {
            true => (run.needles[needle], at, along[needle], ChangeAt::Line),
            false => {
                let next = (at + 1).min(self.runs.len() - 1);
                (run.end, next, 0.0, ChangeAt::RunStart)
            }
        }
    }

    /// Where so much thread is spent.
    fn place(&self, spent: f64) -> RunPlace {
        let at = self.runs.partition_point(|run| run.start <= spent);
        let at = at.saturating_sub(1);
        self.on_run(at, self.runs[at].length_at(spent))
    }

    fn on_run(&self, run: usize, length: f64) -> RunPlace {
        let at = self.runs[run].point_at(length);
        RunPlace { run, length, at }
    }
}

#[cfg(test)]
mod tests;
