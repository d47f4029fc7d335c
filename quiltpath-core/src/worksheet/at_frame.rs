//! What is done at the frame with a plan: a pass laid by readings of its marks, runs that are
//! stitched, and how far the quilt is then.

use crate::error::{AlignFault, Error, PlanFault};
use crate::frame::{
    Laying, MarkRead, MarkReading, PassRead, Progress, lay_and_refit, readable_marks,
};
use crate::geom::Point;
use crate::io::YAxis;
use crate::io::readings::TypedReading;
use crate::io::words;
use crate::plan::{
    Mark, MotifRequest, Origin, PlanSpec, PlannedPass, PlannedRun, Solved, Stitching, mark_letter,
};
use crate::strokes::Drawing;
use crate::units::Unit;

/// A plan at the frame: solved, and brought to the machine.
///
/// Passes and runs are counted from 0; runs over all passes, as the sheet numbers them less one.
#[derive(Debug, Clone, Copy)]
#[non_exhaustive]
pub struct AtFrame<'a> {
    /// The plan.
    pub plan: &'a PlanSpec,
    /// The plan, solved.
    pub solved: &'a Solved,
    /// The solved plan, brought to the machine.
    pub stitching: &'a Stitching,
}

/// A mark of a pass that may be read.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct PassMark {
    /// Its letter, of those that were chosen for the pass.
    pub letter: Option<String>,
    /// Its lasting name.
    pub name: String,
    /// The mark.
    pub mark: Mark,
}

impl PassMark {
    /// Its letter, or its name where it has none.
    #[must_use]
    pub fn label(&self) -> &str {
        self.letter.as_deref().unwrap_or(&self.name)
    }
}

impl<'a> AtFrame<'a> {
    /// A plan with what it was solved and stitched to.
    #[must_use]
    pub fn new(plan: &'a PlanSpec, solved: &'a Solved, stitching: &'a Stitching) -> Self {
        Self {
            plan,
            solved,
            stitching,
        }
    }

    /// A pass.
    ///
    /// # Errors
    ///
    /// A plan error when there is none of this number.
    pub fn pass(&self, pass: usize) -> Result<&'a PlannedPass, Error> {
        let fault = PlanFault::NotThere {
            what: "pass",
            number: pass,
            count: self.stitching.passes.len(),
        };
        self.stitching.passes.get(pass).ok_or_else(|| fault.into())
    }

    /// The runs of a pass.
    ///
    /// # Errors
    ///
    /// As [`Self::pass`].
    pub fn runs(&self, pass: usize) -> Result<&'a [PlannedRun], Error> {
        Ok(&self.stitching.runs[self.pass(pass)?.runs.clone()])
    }

    /// Where the plan asks the zero of files to lie.
    #[must_use]
    pub fn origin(&self) -> Option<&'a Origin> {
        self.plan.machine.as_ref()?.origin.as_ref()
    }

    /// The unit in which the machine shows places.
    #[must_use]
    pub fn machine_unit(&self) -> Unit {
        self.plan.machine_axes().unit
    }

    /// Which way y points in moves that count as the machine does.
    #[must_use]
    pub fn machine_y(&self) -> YAxis {
        match self.plan.machine_axes().y_up {
            true => YAxis::Up,
            false => YAxis::Down,
        }
    }

    /// A place that the machine shows, in millimetres, as plans count: y down.
    #[must_use]
    pub fn from_machine(&self, [x, y]: [f64; 2]) -> Point {
        match self.machine_y() {
            YAxis::Up => Point::new(x, -y),
            YAxis::Down => Point::new(x, y),
        }
    }

    /// The marks of a pass that may be read: those chosen for it with their letters, then others.
    ///
    /// # Errors
    ///
    /// As [`Self::pass`].
    pub fn marks(&self, pass: usize) -> Result<Vec<PassMark>, Error> {
        let chosen = self.pass(pass)?.marks.len();
        let all = readable_marks(self.solved, self.stitching, pass)?;
        let named = all.into_iter().enumerate().map(|(at, mark)| PassMark {
            letter: (at < chosen).then(|| mark_letter(at)),
            name: words::mark(&mark, self.solved),
            mark,
        });
        Ok(named.collect())
    }

    /// Readings as they were typed, with the marks that they are of: by letter, with or without the
    /// number of the pass, or by name. Bare numbers are taken in `unit`.
    ///
    /// # Errors
    ///
    /// As [`Self::pass`]; an align error for a mark that the pass doesn't have, with those it has.
    pub fn readings(
        &self,
        pass: usize,
        typed: &[TypedReading],
        unit: Unit,
    ) -> Result<Vec<MarkReading>, Error> {
        let marks = self.marks(pass)?;
        let number = (pass + 1).to_string();
        let reading = |typed: &TypedReading| {
            let wanted = typed.mark.trim();
            let bare = wanted.strip_prefix(number.as_str()).unwrap_or(wanted);
            let found = marks.iter().find(|own| {
                let letter = own.letter.as_deref().unwrap_or_default();
                letter.eq_ignore_ascii_case(bare) || own.name.eq_ignore_ascii_case(wanted)
            });
            let Some(PassMark { name, mark, .. }) = found else {
                return Err(AlignFault::NoSuchMark {
                    mark: wanted.to_owned(),
                    marks: listed(&marks),
                }
                .into());
            };
            let read = self.from_machine(typed.in_mm(unit));
            Ok(MarkReading::new(name.clone(), *mark, read))
        };
        typed.iter().map(reading).collect()
    }

    /// The readings of a pass that a progress holds; what is of no mark of the pass was taped.
    ///
    /// # Errors
    ///
    /// As [`Self::pass`].
    pub fn kept_readings(
        &self,
        pass: usize,
        progress: &Progress,
    ) -> Result<Vec<MarkReading>, Error> {
        let Some(read) = progress.passes.iter().find(|read| read.pass == pass) else {
            return Ok(Vec::new());
        };
        let marks = self.marks(pass)?;
        let known = read.readings.iter().map(|one| {
            let own = marks.iter().find(|own| own.name == one.mark);
            let mark = own.map_or_else(|| Mark::taped(one.planned), |own| own.mark);
            MarkReading::new(one.mark.clone(), mark, one.read)
        });
        Ok(known.collect())
    }

    /// Readings with the letter of the mark, or a dash where it has none.
    ///
    /// # Errors
    ///
    /// As [`Self::pass`].
    pub fn lettered(
        &self,
        pass: usize,
        readings: &[MarkReading],
    ) -> Result<Vec<(String, MarkReading)>, Error> {
        let marks = self.marks(pass)?;
        let letter = |reading: &MarkReading| {
            let own = marks.iter().find(|own| own.name == reading.name);
            own.and_then(|own| own.letter.clone())
                .unwrap_or_else(|| "-".to_owned())
        };
        let lettered = readings.iter().map(|one| (letter(one), one.clone()));
        Ok(lettered.collect())
    }

    /// A pass laid by these readings.
    ///
    /// # Errors
    ///
    /// As [`lay_and_refit`], lengths in the plan's unit.
    pub fn lay(
        &self,
        pass: usize,
        readings: &[MarkReading],
        load: impl FnMut(&MotifRequest) -> Result<Drawing, Error>,
    ) -> Result<Laying, Error> {
        let plan = (self.solved, self.stitching);
        lay_and_refit(self.plan, plan, pass, readings, load)
            .map_err(|error| error.in_unit(self.solved.unit))
    }

    /// Takes down runs of a pass as stitched, or back: as laid, where the progress holds readings
    /// of the pass, or as planned.
    ///
    /// A stop in the middle of one of them is over then.
    ///
    /// # Errors
    ///
    /// A plan error for a run that is none of the pass; as [`Self::lay`];
    /// as [`Stitched::add`](crate::plan::Stitched::add), in the element of the run. The progress is
    /// then as it was.
    pub fn tick(
        &self,
        (pass, runs): (usize, &[usize]),
        done: bool,
        progress: &mut Progress,
        load: impl FnMut(&MotifRequest) -> Result<Drawing, Error>,
    ) -> Result<(), Error> {
        let numbers = self.pass(pass)?.runs.clone();
        if let Some(&number) = runs.iter().find(|number| !numbers.contains(number)) {
            return Err(PlanFault::NotThere {
                what: "run",
                number,
                count: self.stitching.runs.len(),
            }
            .into());
        }
        let readings = self.kept_readings(pass, progress)?;
        let laying = match readings.is_empty() {
            true => None,
            false => Some(self.lay(pass, &readings, load)?),
        };
        let solved = laying.as_ref().map_or(self.solved, |laying| &laying.solved);
        let mut stitched = progress.stitched.clone();
        for &number in runs {
            let within = number - numbers.start;
            let run = match &laying {
                Some(laying) => &laying.laid.runs[within].planned,
                None => &self.stitching.runs[number],
            };
            let taken = match done {
                true => stitched.add(solved, run),
                false => stitched.remove(solved, run),
            };
            taken.map_err(|error| error.in_element(format!("run {}", number + 1)))?;
        }
        progress.stitched = stitched;
        let over =
            |at: crate::frame::Stopped| at.pass == pass && runs.contains(&(numbers.start + at.run));
        progress.stopped = progress.stopped.filter(|&at| !over(at));
        Ok(())
    }
}

/// Puts the readings of a pass in place of those that the progress holds of it.
pub fn keep_readings(progress: &mut Progress, pass: usize, readings: &[MarkReading]) {
    let read = readings
        .iter()
        .map(|one| MarkRead::new(one.name.clone(), one.mark.point, one.read));
    let read = PassRead::new(pass, read.collect());
    progress.passes.retain(|other| other.pass != pass);
    if !read.readings.is_empty() {
        progress.passes.push(read);
        progress.passes.sort_by_key(|read| read.pass);
    }
}

/// The letters and names of those marks that have a letter.
#[must_use]
pub fn listed(marks: &[PassMark]) -> Vec<String> {
    let named = marks
        .iter()
        .filter_map(|own| Some(format!("{} ({})", own.letter.as_ref()?, own.name)));
    named.collect()
}
