//! A whole job: lines to needle points with tie-offs, and what stitching all of them takes.
//!
//! Each line is stitched by itself: a start, a tie-off, its stitches, a tie-off, a thread cut. The
//! machine is taken to move along the drawn lines, the thread to follow the stitches; the way from
//! one line to the next is in the seconds of a start.

use super::estimate::{
    MachineLimits, ThreadNeed, ThreadOptions, Time, stitching_time, thread_need,
};
use super::resample::{StitchOptions, StitchReport, Stitches, resample};
use super::tie_off::{TieOffOptions, TieOffs, tie_off};
use crate::error::Error;
use crate::geom::Point;
use crate::geom::measure::length;
use crate::motif::Motif;
use crate::units::Unit;

/// All that is asked of a job; lengths in the unit of its lines, times in seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct JobOptions {
    /// How lines become stitches.
    pub stitch: StitchOptions,
    /// How their ends are secured.
    pub tie_off: TieOffOptions,
    /// What the machine can do.
    pub machine: MachineLimits,
    /// What thread is spent on.
    pub thread: ThreadOptions,
}

impl JobOptions {
    /// 10 stitches per inch and the defaults of each part, for lines in this unit.
    #[must_use]
    pub fn new(unit: Unit) -> Self {
        let own = |mm: f64| mm / unit.in_mm();
        let (tie_off, machine) = (TieOffOptions::default(), MachineLimits::default());
        let thread = ThreadOptions::default();
        Self {
            stitch: StitchOptions::new(own(Unit::In.in_mm()) / 10.0),
            tie_off: TieOffOptions {
                length: own(tie_off.length),
                ..tie_off
            },
            machine: MachineLimits {
                top_speed: own(machine.top_speed),
                acceleration: own(machine.acceleration),
                corner_deviation: own(machine.corner_deviation),
                ..machine
            },
            thread: ThreadOptions {
                thickness: own(thread.thickness),
                tail: own(thread.tail),
                spool: thread.spool.map(own),
                bobbin: thread.bobbin.map(own),
                ..thread
            },
        }
    }

    /// The same options with another way that lines become stitches.
    #[must_use]
    pub fn with_stitch(mut self, stitch: StitchOptions) -> Self {
        self.stitch = stitch;
        self
    }

    /// The same options with other tie-offs.
    #[must_use]
    pub fn with_tie_off(mut self, tie_off: TieOffOptions) -> Self {
        self.tie_off = tie_off;
        self
    }

    /// The same options for another machine.
    #[must_use]
    pub fn with_machine(mut self, machine: MachineLimits) -> Self {
        self.machine = machine;
        self
    }

    /// The same options with other needs of thread.
    #[must_use]
    pub fn with_thread(mut self, thread: ThreadOptions) -> Self {
        self.thread = thread;
        self
    }

    /// Checks that every number is in its range, as [`stitch_lines`] does first.
    ///
    /// # Errors
    ///
    /// A geometry error that names the first number out of its range, and the range.
    pub fn check(&self) -> Result<(), Error> {
        self.stitch.check()?;
        self.tie_off.check()?;
        self.machine.check()?;
        self.thread.check()
    }
}

impl Default for JobOptions {
    /// 10 stitches per inch and the defaults of each part, for lines in millimetres.
    fn default() -> Self {
        Self::new(Unit::Mm)
    }
}

/// One line of a job, stitched.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct StitchedLine {
    /// Its own needle points and how well they keep to it.
    pub stitches: Stitches,
    /// The tie-offs before and after them.
    pub ties: TieOffs,
    /// The time at the machine for this line.
    pub time: Time,
}

impl StitchedLine {
    /// All needle points in the order of stitching, tie-offs included.
    #[must_use]
    pub fn points(&self) -> Vec<Point> {
        self.ties.around(&self.stitches.points)
    }

    /// How many stitches there are, tie-offs included.
    #[must_use]
    pub fn count(&self) -> usize {
        self.ties.before.len() + self.stitches.count() + self.ties.after.len()
    }

    /// The sum of the lengths of its stitches, tie-offs included, in the unit of the line.
    ///
    /// # Complexity
    ///
    /// O(stitches).
    #[must_use]
    pub fn length(&self) -> f64 {
        let [before, after] = self.ties.lengths;
        // Every stitch of a tie-off goes once between the same two points.
        before * self.ties.before.len() as f64
            + length(&self.stitches.points)
            + after * self.ties.after.len() as f64
    }
}

/// Lines as stitched, and what stitching them takes; lengths in the unit of the lines.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Job {
    /// The lines, in the order given.
    pub lines: Vec<StitchedLine>,
    /// The length of the lines as drawn.
    pub drawn: f64,
    /// The sum of the lengths of all stitches, tie-offs included.
    pub length: f64,
    /// The time at the machine.
    pub time: Time,
    /// The thread.
    pub thread: ThreadNeed,
}

impl Job {
    /// How many stitches there are, tie-offs included.
    #[must_use]
    pub fn count(&self) -> usize {
        self.lines.iter().map(StitchedLine::count).sum()
    }

    /// How many cusps, points where the lines turn sharply, are needle points.
    #[must_use]
    pub fn cusps(&self) -> usize {
        let lines = self.lines.iter();
        lines.map(|line| line.stitches.anchors.len()).sum()
    }

    /// How well the stitches of all lines together keep to what was asked, tie-offs aside; `None`
    /// without lines.
    #[must_use]
    pub fn report(&self) -> Option<StitchReport> {
        let reports = self.lines.iter().map(|line| line.stitches.report.clone());
        reports.reduce(|mut all, one| {
            all.shortest = all.shortest.min(one.shortest);
            all.longest = all.longest.max(one.longest);
            all.worst_chord_error = all.worst_chord_error.max(one.worst_chord_error);
            all.tiny = all.tiny.saturating_add(one.tiny);
            all.dropped.extend(one.dropped);
            all.strayed.extend(one.strayed);
            all
        })
    }
}

/// Stitches lines and adds up what that takes.
///
/// ```
/// use quiltpath_core::geom::Point;
/// use quiltpath_core::motif::Motif;
/// use quiltpath_core::stitch::job::{JobOptions, stitch_lines};
/// use quiltpath_core::units::Unit;
///
/// // 10 in at 10 stitches per inch, with 4 stitches to tie off either end.
/// let line = Motif::from_points("line", vec![Point::new(0.0, 0.0), Point::new(10.0, 0.0)])?;
/// let job = stitch_lines([&line], &JobOptions::new(Unit::In))?;
/// assert_eq!(job.count(), 4 + 100 + 4);
/// assert_eq!(job.lines[0].points().len(), job.count() + 1);
/// assert_eq!(job.thread.bobbins, Some(1));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when an option is out of its range, or when the time or the thread comes to no
/// finite number; a stitch error that names the line when it would take more than 10 million
/// stitches.
///
/// # Complexity
///
/// As [`resample`], for all lines together.
pub fn stitch_lines<'a>(
    motifs: impl IntoIterator<Item = &'a Motif>,
    options: &JobOptions,
) -> Result<Job, Error> {
    options.check()?;
    let mut machine = options.machine;
    if options.tie_off.stitches == 0 {
        machine.seconds_per_tie_off = 0.0;
    }
    let mut lines = Vec::new();
    let mut drawn = 0.0;
    let mut time = Time::default();
    for motif in motifs {
        let named = |error: Error| error.in_element(motif.name());
        let own = stitching_time(&[motif.points()], &machine).map_err(named)?;
        lines.push(StitchedLine {
            stitches: resample(motif.line(), &options.stitch).map_err(named)?,
            ties: tie_off(motif.line(), &options.tie_off).map_err(named)?,
            time: own,
        });
        time = time.and(&own);
        drawn += length(motif.points());
    }
    let stitches = lines.iter().map(StitchedLine::count).sum();
    let length = lines.iter().map(StitchedLine::length).sum();
    let faster = "fewer seconds, or a greater speed and acceleration";
    finite("the time at the machine", time.seconds(), faster)?;
    let thread = thread_need(length, stitches, lines.len(), &options.thread)?;
    let less = "thinner layers, a shorter tail or a smaller share of waste";
    finite("the thread", thread.thread.total(), less)?;
    Ok(Job {
        drawn,
        length,
        time,
        thread,
        lines,
    })
}

/// Refuses a sum that numbers in range make too large to be one.
fn finite(what: &'static str, value: f64, accepted: &'static str) -> Result<(), Error> {
    if value.is_finite() {
        return Ok(());
    }
    Err(Error::bad_number(what, value, accepted))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn motif(points: &[(f64, f64)]) -> Motif {
        let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
        Motif::from_points("line", points).expect("a line")
    }

    #[test]
    fn a_straight_line_by_hand() {
        // 254 mm at 10 per inch: 100 stitches and twice 4 of 1 mm, 262 mm in all. 3 s at 75 mm/s
        // and 0.3 s to speed up and slow down (trapezoid: L/v + v/a), 20 + 3 + 3 + 10 s standing.
        // Each thread: 262 along the seam, 2 mm through the layers 108 times, 2 tails of 100,
        // a tenth more.
        let line = motif(&[(0.0, 5.0), (254.0, 5.0)]);
        let job = stitch_lines([&line], &JobOptions::new(Unit::Mm)).expect("a job");
        assert_eq!((job.count(), job.cusps()), (108, 0));
        assert!((job.length - 262.0).abs() < 1e-9 && job.drawn == 254.0);
        assert!((job.time.moving - (254.0 / 75.0 + 75.0 / 250.0)).abs() < 1e-9);
        assert_eq!(job.time.standing, 36.0);
        let each = (262.0 + 2.0 * 108.0 + 200.0) * 1.1;
        assert!((job.thread.thread.needle - each).abs() < 1e-9);
        assert_eq!(job.thread.thread.needle, job.thread.thread.bobbin);
        assert_eq!((job.thread.bobbins, job.thread.spools), (Some(1), None));
        // The same line in inches is the same job.
        let inches = motif(&[(0.0, 0.2), (10.0, 0.2)]);
        let other = stitch_lines([&inches], &JobOptions::new(Unit::In)).expect("a job");
        assert_eq!(other.count(), 108);
        assert!((other.time.seconds() - job.time.seconds()).abs() < 1e-9);
        assert!((other.thread.thread.needle * 25.4 - each).abs() < 1e-9);
    }

    #[test]
    fn without_tie_offs_none_is_stitched_nor_waited_for() {
        let line = motif(&[(0.0, 0.0), (50.8, 0.0)]);
        let mut options = JobOptions::new(Unit::Mm);
        options.tie_off.stitches = 0;
        let job = stitch_lines([&line, &line], &options).expect("a job");
        assert_eq!((job.count(), job.lines[1].points().len()), (40, 21));
        assert_eq!(job.time.standing, 60.0);
        let none = stitch_lines([], &options).expect("nothing");
        assert_eq!((none.count(), none.report()), (0, None));
        assert_eq!(none.time.seconds() + none.thread.thread.total(), 0.0);
    }

    #[test]
    fn every_option_is_checked() {
        let line = motif(&[(0.0, 0.0), (50.8, 0.0)]);
        let wrong = |change: fn(&mut JobOptions)| {
            let mut options = JobOptions::new(Unit::Mm);
            change(&mut options);
            let error = stitch_lines([&line], &options).expect_err("out of range");
            assert_eq!(options.check(), Err(error.clone()));
            error.to_string()
        };
        assert!(wrong(|o| o.stitch.minimum = 2.0).starts_with("the minimum stitch is 2;"));
        assert!(wrong(|o| o.tie_off.stitches = 101).contains("give 0 to 100"));
        assert!(wrong(|o| o.machine.top_speed = 0.0).starts_with("the top speed is 0;"));
        assert!(wrong(|o| o.thread.bobbin = Some(0.0)).starts_with("the length on a bobbin"));
        let far = motif(&[(0.0, 0.0), (1e9, 0.0)]);
        let error = stitch_lines([&far], &JobOptions::new(Unit::In)).expect_err("too long");
        assert!(error.is_stitch() && error.to_string().starts_with("line: the path would take"));
    }

    #[test]
    fn sums_beyond_all_numbers_are_refused() {
        let line = motif(&[(0.0, 0.0), (50.8, 0.0)]);
        let wrong = |change: fn(&mut JobOptions)| {
            let mut options = JobOptions::new(Unit::Mm);
            change(&mut options);
            let error = stitch_lines([&line], &options).expect_err("infinite");
            error.to_string()
        };
        let slow = wrong(|o| o.machine.seconds_per_tie_off = 1e308);
        assert!(slow.starts_with("the time at the machine is inf; give fewer seconds"));
        assert!(wrong(|o| o.machine.top_speed = 1e-308).contains("a greater speed"));
        assert!(wrong(|o| o.thread.waste = 1e308).starts_with("the thread is inf; give thinner"));
    }

    proptest! {
        #[test]
        fn a_job_is_the_sum_of_its_lines(
            lines in prop::collection::vec(prop::collection::vec((-90.0..90.0f64, -90.0..90.0f64), 2..12), 1..4),
            ties in 0usize..6,
        ) {
            let lines: Vec<Motif> = lines.iter().map(|line| motif(line)).collect();
            let mut options = JobOptions::new(Unit::Mm);
            options.tie_off.stitches = ties;
            let job = stitch_lines(&lines, &options).expect("a job");
            let walked: Vec<Vec<Point>> = job.lines.iter().map(StitchedLine::points).collect();
            let gaps: f64 = walked.iter().map(length).sum();
            prop_assert!((job.length - gaps).abs() < 1e-9 * gaps);
            prop_assert_eq!(job.count(), walked.iter().map(|points| points.len() - 1).sum::<usize>());
            let each: Vec<Job> = lines.iter().map(|line| stitch_lines([line], &options).expect("a job")).collect();
            let sum = |number: fn(&Job) -> f64| each.iter().map(number).sum::<f64>();
            prop_assert!((job.drawn - sum(|j| j.drawn)).abs() < 1e-9 * job.drawn);
            prop_assert!((job.time.seconds() - sum(|j| j.time.seconds())).abs() < 1e-9 * job.time.seconds());
            for (line, alone) in job.lines.iter().zip(&each) {
                prop_assert_eq!(line.time, alone.time);
            }
            // The thread follows the stitches: 2 + 2 T S of every length of seam, and the tails.
            let seam = gaps + options.thread.thickness * job.count() as f64;
            let thread = (seam + 200.0 * lines.len() as f64) * 1.1;
            prop_assert!((job.thread.thread.needle - thread).abs() < 1e-9 * thread);
            let report = job.report().expect("lines");
            let shortest = each.iter().map(|j| j.lines[0].stitches.report.shortest);
            prop_assert_eq!(report.shortest, shortest.fold(f64::INFINITY, f64::min));
            prop_assert_eq!(job.cusps(), each.iter().map(Job::cusps).sum::<usize>());
        }
    }
}
