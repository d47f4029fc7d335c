//! The files of the rest of a run.

use std::fs;
use std::path::{Path, PathBuf};

use quiltpath_core::io::lines::LineFormat;
use quiltpath_core::motif::Motif;
use quiltpath_core::worksheet::{MachineLines, REST};

use crate::failure::Failure;
use crate::files::{is_stream, label, save};
use crate::output::{Style, Target};
use crate::plan_folder::PlanFolder;

/// What is asked for of the rest's files.
pub(super) struct Wanted<'a> {
    /// The pass and the run, as the sheet numbers them.
    pub(super) pass: usize,
    pub(super) run: usize,
    /// One file in place of the folder's.
    pub(super) out: Option<&'a Path>,
    pub(super) format: &'a [LineFormat],
    pub(super) force: bool,
}

/// The one file that is asked for, checked to be free; none where the folder takes the rest.
pub(super) fn target(args: &Wanted<'_>) -> Result<Option<Target>, Failure> {
    let Some(out) = args.out else {
        return Ok(None);
    };
    if let [_, _, ..] = args.format {
        let text = "--format: --out is one file, so give one format, or leave --out away";
        return Err(Failure::Usage(text.to_owned()));
    }
    let given = args.format.first().copied();
    let format = given.or(is_stream(out).then_some(LineFormat::Json));
    Target::new(out.to_owned(), format, args.force, Style::default()).map(Some)
}

/// Writes the rest, and says which files that made.
pub(super) fn write(
    folder: &PlanFolder,
    lines: &MachineLines,
    (args, target): (&Wanted<'_>, Option<Target>),
    rest: &Motif,
) -> Result<Vec<PathBuf>, Failure> {
    let of = (args.pass, args.run);
    if let Some(target) = target {
        let mut draft = target.draft()?;
        draft.write(lines.rest_text(of, rest, target.format())?.as_bytes())?;
        draft.finish()?;
        let file = target.path().to_owned();
        return Ok(if target.is_stdout() {
            vec![]
        } else {
            vec![file]
        });
    }
    let rests = folder.path.join(REST);
    fs::create_dir_all(&rests).map_err(|error| Failure::file(&rests, "can't be made", &error))?;
    let mut written = Vec::new();
    for rest in lines.rest_files(of, rest, &folder.formats(args.format)) {
        let file = folder.path.join(rest.name());
        if file.is_dir() {
            let file = label(&file);
            return Err(Failure::File(format!("{file}: is a folder; move it away")));
        }
        save(&file, true, &rest.bytes()?)?;
        written.push(file);
    }
    Ok(written)
}
