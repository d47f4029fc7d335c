//! The files of the rest of a run.

use std::fs;
use std::path::{Path, PathBuf};

use quiltpath_core::io::gcode::GcodeOptions;
use quiltpath_core::io::json::PointList;
use quiltpath_core::io::lines::{LineFormat, LineOptions, write_lines};
use quiltpath_core::io::svg_write::WriteOptions;
use quiltpath_core::motif::Motif;

use super::pass::Lines;
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
    lines: &Lines,
    (args, target): (&Wanted<'_>, Option<Target>),
    (rest, name): (&Motif, &str),
) -> Result<Vec<PathBuf>, Failure> {
    let text = |format: LineFormat| {
        let list = PointList::of_mm(lines.unit, [(rest, name)]);
        let title = format!("pass {}, the rest of run {}", args.pass, args.run);
        let options = LineOptions::default()
            .with_svg(WriteOptions::default().with_title(Some(&title)))
            .with_gcode(GcodeOptions::default().with_y(lines.y));
        write_lines(&list, format, &options)
    };
    if let Some(target) = target {
        let mut draft = target.draft()?;
        draft.write(text(target.format())?.as_bytes())?;
        draft.finish()?;
        let file = target.path().to_owned();
        return Ok(if target.is_stdout() {
            vec![]
        } else {
            vec![file]
        });
    }
    let rests = folder.path.join("rest");
    fs::create_dir_all(&rests).map_err(|error| Failure::file(&rests, "can't be made", &error))?;
    let mut files = Vec::new();
    for format in folder.formats(args.format) {
        let file = format!("{:02}-run-{}.{}", args.pass, args.run, format.name());
        let file = rests.join(file);
        if file.is_dir() {
            let file = label(&file);
            return Err(Failure::File(format!("{file}: is a folder; move it away")));
        }
        save(&file, true, text(format)?.as_bytes())?;
        files.push(file);
    }
    Ok(files)
}
