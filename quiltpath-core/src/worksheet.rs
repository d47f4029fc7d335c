//! The worksheet: a plan with its drawings and progress, all in memory, and what becomes of it.
//!
//! What a program does with a plan that lies in files, the worksheet does without any: it reads the
//! drawings that the plan names, solves, stitches, and gives every file that is written of a plan
//! by its name and text ([`files`](mod@files)). The command puts them into a folder, a page into
//! an archive; both get the same bytes.

mod at_frame;
pub mod files;
mod gather;
mod laid_files;
mod machine_lines;
mod round;
#[cfg(test)]
mod tests;

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::error::Error;
use crate::frame::Progress;
use crate::io::drawing::{LineDrawing, ReadOptions};
use crate::io::json::{QuiltFile, check_drawing_name, read_quilt, write_quilt};
use crate::io::lines::LineFormat;
use crate::plan::{MotifRequest, PlanSpec, Solved, Stitching, stitch_plan};
use crate::strokes::Drawing;
use crate::units::Unit;
pub use at_frame::{AtFrame, PassMark, keep_readings, listed};
use files::{DRAWINGS, PlanFile, plan_files, progress_files};
pub use gather::{gather, requests};
pub use laid_files::{LAID_PICTURE, laid_files, laid_folder};
pub use machine_lines::{MachineLines, REST};
pub use round::{Round, solve_round};

/// A plan with its drawings and how far it is at the frame.
///
/// ```
/// use quiltpath_core::worksheet::Worksheet;
///
/// let mut sheet = Worksheet::open(br#"{"plan": {"unit": "in", "quilt": {"width": 64, "height": 80},
///     "borders": [{"width": 6, "corner": {"style": "open"}, "side": {"motif": "wave.json"}}]},
///     "drawings": {}}"#)?;
/// let wave = br#"{"unit": "in", "points": [[0, 1], [1, 0], [3, 2], [4, 1]]}"#;
/// sheet.set_drawing("wave.json", wave.to_vec())?;
/// let solved = sheet.solve()?;
/// assert_eq!(solved.pieces.len(), 4);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug)]
pub struct Worksheet {
    quilt: QuiltFile,
    /// The drawings as read, so that each is read once however often the plan is solved.
    read: RefCell<Vec<Read>>,
}

/// A drawing as it was read.
#[derive(Debug, Clone)]
struct Read {
    request: MotifRequest,
    unit: Unit,
    drawing: Drawing,
    notes: Vec<String>,
}

impl Worksheet {
    /// A plan without drawings.
    #[must_use]
    pub fn new(plan: PlanSpec) -> Self {
        Self::from(QuiltFile::new(plan))
    }

    /// A quilt in one file, as [`Self::text`] writes it.
    ///
    /// # Errors
    ///
    /// As [`read_quilt`].
    pub fn open(bytes: &[u8]) -> Result<Self, Error> {
        read_quilt(bytes).map(Self::from)
    }

    /// The quilt as one file.
    ///
    /// # Errors
    ///
    /// As [`write_quilt`].
    pub fn text(&self) -> Result<String, Error> {
        write_quilt(&self.quilt)
    }

    /// The plan.
    #[must_use]
    pub fn plan(&self) -> &PlanSpec {
        &self.quilt.plan
    }

    /// Puts another plan in place; drawings stay.
    pub fn set_plan(&mut self, plan: PlanSpec) {
        self.quilt.plan = plan;
    }

    /// The drawings by name.
    #[must_use]
    pub fn drawings(&self) -> &BTreeMap<String, Vec<u8>> {
        &self.quilt.drawings
    }

    /// Puts a drawing under this name, in place of one that has it.
    ///
    /// The bytes are read when the plan asks for them.
    ///
    /// # Errors
    ///
    /// A data error as in [`check_drawing_name`].
    pub fn set_drawing(&mut self, name: &str, bytes: Vec<u8>) -> Result<(), Error> {
        check_drawing_name(name)?;
        self.forget(name);
        self.quilt.drawings.insert(name.to_owned(), bytes);
        Ok(())
    }

    /// Takes a drawing out; whether there was one.
    pub fn remove_drawing(&mut self, name: &str) -> bool {
        self.forget(name);
        self.quilt.drawings.remove(name).is_some()
    }

    fn forget(&mut self, name: &str) {
        self.read.get_mut().retain(|read| read.request.name != name);
    }

    /// What the plan is solved round, where some of it was stitched before.
    #[must_use]
    pub fn before(&self) -> Option<&Progress> {
        self.quilt.before.as_ref()
    }

    /// What happened at the frame.
    #[must_use]
    pub fn progress(&self) -> Option<&Progress> {
        self.quilt.progress.as_ref()
    }

    /// Puts down what the plan is solved round, and what happened at the frame since.
    pub fn set_progress(&mut self, before: Option<Progress>, progress: Option<Progress>) {
        self.quilt.before = before;
        self.quilt.progress = progress;
    }

    /// Its parts: plan, drawings, progress.
    #[must_use]
    pub fn into_quilt(self) -> QuiltFile {
        self.quilt
    }

    /// The drawing that a plan asks for, in millimetres.
    ///
    /// # Errors
    ///
    /// A plan error for a name that no drawing has; those of [`LineDrawing::read`], in the file of
    /// that name.
    pub fn drawing(&self, request: &MotifRequest) -> Result<Drawing, Error> {
        self.read(request).map(|read| read.drawing)
    }

    /// What there is to note of the drawings that the plan names: what was left out, or guessed.
    ///
    /// Drawings that can't be read have none; solving says why.
    #[must_use]
    pub fn notes(&self) -> Vec<(String, String)> {
        let mut notes = Vec::new();
        for request in requests(&self.quilt.plan) {
            let Ok(read) = self.read(&request) else {
                continue;
            };
            for note in read.notes {
                let note = (request.name.clone(), note);
                if !notes.contains(&note) {
                    notes.push(note);
                }
            }
        }
        notes
    }

    fn read(&self, request: &MotifRequest) -> Result<Read, Error> {
        let unit = Unit::from(self.quilt.plan.unit);
        let known = self.read.borrow();
        let same = |read: &&Read| read.request == *request && read.unit == unit;
        if let Some(read) = known.iter().find(same) {
            return Ok(read.clone());
        }
        drop(known);
        let Some(bytes) = self.quilt.drawings.get(&request.name) else {
            return Err(missing(&request.name, &self.quilt.drawings));
        };
        let options = ReadOptions::default()
            .with_unit(Some(unit))
            .with_layers(&request.layers);
        let in_file = |error: Error| error.in_file(&request.name);
        let lines = LineDrawing::read(&request.name, bytes, &options).map_err(in_file)?;
        let notes = lines.notes().to_vec();
        let drawing = lines.strokes(Unit::Mm).map_err(in_file)?;
        let read = Read {
            request: request.clone(),
            unit,
            drawing: drawing.with_file(&request.name),
            notes,
        };
        self.read.borrow_mut().push(read.clone());
        Ok(read)
    }

    /// The plan solved, round what is stitched where some is.
    ///
    /// Where something was stitched by the plan as it was before it changed, that plan's progress
    /// becomes what this one is solved round ([`Self::before`]), and nothing has happened at the
    /// frame by this one ([`Self::progress`]).
    ///
    /// # Errors
    ///
    /// As [`solve_round`] and [`Self::drawing`].
    pub fn solve(&mut self) -> Result<Solved, Error> {
        let known = (self.quilt.before.clone(), self.quilt.progress.clone());
        let round = solve_round(self.plan(), known, |request| self.drawing(request))?;
        self.set_progress(round.before, round.progress);
        Ok(round.solved)
    }

    /// A solved plan brought to the machine.
    ///
    /// # Errors
    ///
    /// As [`stitch_plan`].
    pub fn stitch(&self, solved: &Solved) -> Result<Stitching, Error> {
        stitch_plan(self.plan(), solved)
    }

    /// Every file that is written of it, solved and stitched: those of [`plan_files`], how far the
    /// quilt is, the quilt in one file, and each drawing that `plan` looks for in the folder
    /// [`DRAWINGS`], as [`Self::plan_in_folder`] does.
    ///
    /// # Errors
    ///
    /// As [`plan_files`] and [`Self::text`].
    pub fn files<'a>(
        &'a self,
        plan: &'a PlanSpec,
        (solved, stitching): (&'a Solved, &'a Stitching),
        formats: &[LineFormat],
    ) -> Result<Vec<PlanFile<'a>>, Error> {
        let mut files = plan_files(plan, (solved, stitching), formats)?;
        let quilt = &self.quilt;
        files.extend(progress_files(
            quilt.before.as_ref(),
            quilt.progress.as_ref(),
        ));
        let named = requests(plan);
        for (name, bytes) in &quilt.drawings {
            let name = format!("{DRAWINGS}/{name}");
            if named.iter().any(|request| request.name == name) {
                files.push(PlanFile::of_bytes(name, bytes));
            }
        }
        files.push(PlanFile::new(self.file_name(), || write_quilt(quilt)));
        Ok(files)
    }

    /// The plan as it stands beside its drawings in the folder [`DRAWINGS`].
    #[must_use]
    pub fn plan_in_folder(&self) -> PlanSpec {
        let mut plan = self.plan().clone();
        gather::rename(&mut plan, |name| format!("{DRAWINGS}/{name}"));
        plan
    }

    /// The name of its one file, by its title.
    #[must_use]
    pub fn file_name(&self) -> String {
        quilt_name(self.plan().title.as_deref())
    }
}

impl From<QuiltFile> for Worksheet {
    fn from(quilt: QuiltFile) -> Self {
        Self {
            quilt,
            read: RefCell::default(),
        }
    }
}

/// The error for a drawing that a plan names and that is none of these.
#[must_use]
pub fn missing(name: &str, drawings: &BTreeMap<String, Vec<u8>>) -> Error {
    let names: Vec<&str> = drawings.keys().map(String::as_str).collect();
    let reason = match names.as_slice() {
        [] => "no drawing is here yet".to_owned(),
        names => format!("the drawings here are {}", names.join(", ")),
    };
    Error::motif_unreadable(name, reason)
}

/// The name of a quilt's one file, by its title: small letters and digits, with hyphens between.
///
/// ```
/// use quiltpath_core::worksheet::quilt_name;
///
/// assert_eq!(quilt_name(Some("Anna's quilt, 2026")), "anna-s-quilt-2026.quilt.json");
/// assert_eq!(quilt_name(None), "worksheet.quilt.json");
/// ```
#[must_use]
pub fn quilt_name(title: Option<&str>) -> String {
    let words = title.unwrap_or_default().to_lowercase();
    let words = words.split(|c: char| !c.is_alphanumeric());
    let words: Vec<&str> = words.filter(|word| !word.is_empty()).collect();
    let name: String = words.join("-").chars().take(40).collect();
    match name.trim_end_matches('-') {
        "" => format!("worksheet{QUILT_ENDING}"),
        name => format!("{name}{QUILT_ENDING}"),
    }
}

/// How the name of a quilt's one file ends.
pub const QUILT_ENDING: &str = ".quilt.json";
