//! The folder of a plan at the frame: the plan solved as it was, and how far the quilt is.

use std::fs;
use std::path::{Path, PathBuf};

use quiltpath_core::frame::Progress;
use quiltpath_core::io::json::{read_progress, read_quilt, write_progress, write_quilt};
use quiltpath_core::io::lines::LineFormat;
use quiltpath_core::plan::{PlannedPass, Solved, Stitching};
use quiltpath_core::worksheet::AtFrame;
use quiltpath_core::worksheet::files::{PROGRESS, STITCHED, progress_anew};

use crate::failure::Failure;
use crate::files::{label, quilt_file_in, read_file, save};
use crate::source::Source;

/// How far a quilt is, by this file.
pub(crate) fn progress_in(path: &Path) -> Result<Progress, Failure> {
    let bytes = read_file(path).map_err(|error| Failure::file(path, "can't be read", &error))?;
    read_progress(&bytes).map_err(|error| Failure::Data(error.in_file(label(path))))
}

/// A plan's folder, opened.
pub(crate) struct PlanFolder {
    pub(crate) path: PathBuf,
    pub(crate) source: Source,
    pub(crate) solved: Solved,
    pub(crate) stitching: Stitching,
    /// What happened at the frame; nothing where there is no such file.
    pub(crate) progress: Progress,
}

impl PlanFolder {
    /// Opens a folder that `plan --out` wrote, and solves its plan again.
    pub(crate) fn open(path: &Path) -> Result<Self, Failure> {
        let plan = path.join("plan.json");
        if !plan.is_file() {
            return Err(Failure::File(format!(
                "{}: has no plan.json; name the folder that \"quiltpath plan --out\" wrote",
                label(path)
            )));
        }
        let source = Source::open(&plan)?;
        let around = path.join(STITCHED);
        let before = around.exists().then(|| progress_in(&around)).transpose()?;
        let solved = source.solve((before, None))?.solved;
        let stitching = source.stitch(&solved)?;
        let file = path.join(PROGRESS);
        let progress = match file.exists() {
            true => progress_in(&file)?,
            false => progress_anew(&solved, &stitching)?,
        };
        if !progress.is_of(&solved, &stitching) {
            return Err(Failure::File(format!(
                "{}: is of another plan: plan.json beside it, or a drawing, has changed since; plan what is left with \"quiltpath plan --stitched {}\", or move the file away",
                label(&file),
                label(&file)
            )));
        }
        Ok(Self {
            path: path.to_owned(),
            source,
            solved,
            stitching,
            progress,
        })
    }

    /// Writes how far the quilt is, whole or not at all; into its one file, too, where the folder
    /// still has that.
    pub(crate) fn save(&self) -> Result<(), Failure> {
        let text = write_progress(&self.progress)?;
        save(&self.path.join(PROGRESS), true, text.as_bytes())?;
        let Some(file) = quilt_file_in(&self.path) else {
            return Ok(());
        };
        let bytes = read_file(&file).map_err(|e| Failure::file(&file, "can't be read", &e))?;
        let in_file = |error: quiltpath_core::Error| Failure::Data(error.in_file(label(&file)));
        let mut quilt = read_quilt(&bytes).map_err(in_file)?;
        quilt.progress = Some(self.progress.clone());
        save(&file, true, write_quilt(&quilt)?.as_bytes())
    }

    /// The pass of this number, from 1, and its number from 0.
    pub(crate) fn pass(&self, number: usize) -> Result<(usize, &PlannedPass), Failure> {
        let passes = &self.stitching.passes;
        let index = number.checked_sub(1);
        let found = index.and_then(|index| Some((index, passes.get(index)?)));
        found.ok_or_else(|| {
            Failure::Usage(match passes.len() {
                1 => format!("--pass {number}: the plan has one pass; give 1"),
                count => format!("--pass {number}: the plan has {count} passes; give 1 to {count}"),
            })
        })
    }

    /// The number of a run, from 0 over all passes, given as the sheet numbers it; it has to be one
    /// of this pass, whose number is from 1.
    pub(crate) fn run(&self, pass: usize, run: usize) -> Result<usize, Failure> {
        let runs = &self.pass(pass)?.1.runs;
        let number = run.wrapping_sub(1);
        match runs.contains(&number) {
            true => Ok(number),
            false => Err(Failure::Usage(format!(
                "--run {run}: pass {pass} has the runs {} to {}",
                runs.start + 1,
                runs.end
            ))),
        }
    }

    /// The plan at the frame.
    pub(crate) fn at_frame(&self) -> AtFrame<'_> {
        AtFrame::new(&self.source.spec, &self.solved, &self.stitching)
    }

    /// SVG and JSON, the formats that the plan was written in, and those asked for.
    pub(crate) fn formats(&self, asked: &[LineFormat]) -> Vec<LineFormat> {
        let mut all = vec![LineFormat::Svg, LineFormat::Json];
        let written = |format: LineFormat| {
            let files = fs::read_dir(self.path.join("paths"));
            let mut files = files
                .into_iter()
                .flatten()
                .flatten()
                .map(|file| file.path());
            files.any(|path| path.extension().is_some_and(|own| own == format.name()))
        };
        for format in [LineFormat::JsonLines, LineFormat::Dxf, LineFormat::Gcode] {
            if asked.contains(&format) || written(format) {
                all.push(format);
            }
        }
        all
    }
}
