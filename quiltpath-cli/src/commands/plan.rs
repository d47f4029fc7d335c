//! `plan`: from a measured quilt and its motifs to a folder with a picture, numbers and paths.

mod flags;
mod outcome;
mod paths;
mod summary;

use std::path::{Path, PathBuf};

use clap::Args;
use quiltpath_core::Error;
use quiltpath_core::io::json::{read_plan, write_result};
use quiltpath_core::motif::Joined;
use quiltpath_core::plan::{MotifRequest, PlanSpec, Severity, Solved, solve};
use quiltpath_core::units::Unit;

use self::flags::PlanFlags;
use crate::args::{ReadOptions, Reading};
use crate::choices::{SEVERITIES, choice};
use crate::drawing::Drawing;
use crate::failure::{Failure, reason};
use crate::files::{folder_of, is_stream, label, print, read};
use crate::folder::Folder;

/// Fit a quilt's borders: repeats and corners to paths to load
#[derive(Args)]
#[command(after_help = "\
Writes DIR/quilt.svg (the picture), result.json (all numbers), plan.json (the
plan as used), pieces/ and paths/ (lines to load, as SVG and JSON).

Example: quiltpath plan --quilt \"64 1/4 x 80 in\" --border \"6 in\" \\
         --side border.svg --corner corner.svg --out out")]
pub(crate) struct PlanArgs {
    /// Plan to carry out, - for stdin; or give the flags below
    #[arg(value_name = "PLAN.json", conflicts_with_all = ["PlanFlags", "Reading"])]
    plan: Option<PathBuf>,
    /// Folder to write, - for result.json alone on stdout
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
    /// Replace the folder of an earlier plan
    #[arg(long)]
    force: bool,
    /// Exit code 3 from this on: note, warning or error
    #[arg(long, value_name = "SEVERITY", hide_possible_values = true, value_parser = choice(SEVERITIES))]
    fail_on: Option<Severity>,
    #[command(flatten)]
    flags: PlanFlags,
    #[command(flatten)]
    reading: Reading,
}

/// A plan with the folder that its motifs' paths start from.
struct Source {
    spec: PlanSpec,
    folder: PathBuf,
    /// The plan's file, when it has one.
    file: Option<String>,
}

pub(crate) fn run(args: PlanArgs) -> Result<(), Failure> {
    let source = match &args.plan {
        Some(path) => from_file(path)?,
        None => Source {
            spec: args.flags.spec(&args.reading)?,
            folder: PathBuf::from("."),
            file: None,
        },
    };
    let folder = if is_stream(&args.out) {
        None
    } else {
        Some(Folder::start(&args.out, args.force)?)
    };
    let solved = source.solve()?;
    match folder {
        Some(folder) => {
            let spec = paths::seen_from(folder.place(), &source)?;
            outcome::write(&folder, &spec, &solved)?;
            folder.swap_in(args.force)?;
            summary::tell(&solved);
            summary::open(&args.out.join(outcome::PICTURE));
        }
        None => {
            summary::tell(&solved);
            print(write_result(&solved).as_bytes())?;
        }
    }
    fail_on(&solved, args.fail_on)
}

fn from_file(path: &Path) -> Result<Source, Failure> {
    let spec = read_plan(&read(path)?).map_err(|e| e.in_file(label(path)))?;
    Ok(Source {
        spec,
        folder: folder_of(path).to_owned(),
        file: Some(label(path)),
    })
}

fn fail_on(solved: &Solved, limit: Option<Severity>) -> Result<(), Failure> {
    let Some(limit) = limit else { return Ok(()) };
    let severe = |severity: Severity| severity >= limit;
    match solved
        .findings
        .iter()
        .filter(|f| severe(f.severity))
        .count()
    {
        0 => Ok(()),
        count => Err(Failure::Findings { count, limit }),
    }
}

impl Source {
    fn solve(&self) -> Result<Solved, Failure> {
        let solve = || {
            let tolerances = self.spec.tolerances()?;
            solve(&self.spec, |request| {
                let options = ReadOptions {
                    unit: Some(Unit::from(self.spec.unit)),
                    flattening_mm: tolerances.flattening,
                    join_mm: tolerances.join,
                    gaps: request.gaps,
                };
                self.motif(request, &options)
            })
        };
        Ok(solve().map_err(|error| match &self.file {
            Some(file) => error.in_file(file.clone()),
            None => error,
        })?)
    }

    fn motif(&self, request: &MotifRequest, options: &ReadOptions) -> Result<Joined, Error> {
        let path = self.path(&request.name);
        let bytes = std::fs::read(&path).map_err(|error| {
            let reason = format!("{} at {}", reason(&error), path.display());
            Error::motif_unreadable(&request.name, reason)
        })?;
        let drawing = Drawing::parse(&path, &bytes, options);
        let motif = drawing.and_then(|drawing| drawing.motif(Unit::Mm, options));
        motif.map_err(|e| e.in_file(label(&path)))
    }

    /// Where the motif of this name lies.
    fn path(&self, name: &str) -> PathBuf {
        if self.folder == Path::new(".") {
            PathBuf::from(name)
        } else {
            self.folder.join(name)
        }
    }
}
