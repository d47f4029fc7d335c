//! `plan`: from a measured quilt and its motifs to a folder with a picture, numbers and paths.

mod flags;
mod outcome;
mod paths;
mod summary;

use std::fs;
use std::path::{Path, PathBuf};

use clap::Args;
use quiltpath_core::io::lines::LineFormat;
use quiltpath_core::plan::spec::LengthSpec;
use quiltpath_core::plan::{Severity, Solved, Stitching};
use quiltpath_core::units::{Length, Unit};
use quiltpath_core::worksheet::Worksheet;
use quiltpath_core::worksheet::files::{PICTURE, PROGRESS, SHEET, progress_anew};

use self::flags::PlanFlags;
use crate::args::{FORMATS, Reading, SEVERITIES, choice, positive_in_unit};
use crate::failure::Failure;
use crate::files::{Folder, is_stream, label, print};
use crate::message::note;
use crate::plan_folder::progress_in;
use crate::source::Source;

/// Plan a quilt's borders: from motifs to stitch paths
#[derive(Args)]
#[command(
    override_usage = "quiltpath plan [OPTIONS] --out <DIR> <PLAN.json>",
    after_help = "\
Example: quiltpath plan --quilt \"64 x 80 in\" --border 6in --side a.svg --out out"
)]
pub(crate) struct PlanArgs {
    /// Plan or .quilt.json, - for stdin; or the options below
    #[arg(value_name = "PLAN.json", conflicts_with_all = ["PlanFlags", "Reading"])]
    plan: Option<PathBuf>,
    /// Folder to write; - for result.json alone, to stdout
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
    /// Replace the folder of an earlier plan
    #[arg(long)]
    force: bool,
    /// Keep what is stitched, as out/progress.json has it
    #[arg(long, value_name = "FILE")]
    stitched: Option<PathBuf>,
    /// Exit code 3 for findings from: note, warning, error
    #[arg(long, value_name = "SEVERITY", hide_possible_values = true, value_parser = choice(SEVERITIES))]
    fail_on: Option<Severity>,
    /// Write lines in this format too: jsonl, dxf or gcode
    #[arg(long, value_name = "FORMAT", hide_possible_values = true, value_parser = choice(FORMATS))]
    format: Vec<LineFormat>,
    /// How far down a pass reaches [default: all the way]
    #[arg(long, value_name = "LENGTH")]
    throat: Option<Length>,
    /// Turn and reload the quilt for its upright sides
    #[arg(long)]
    turned: bool,
    #[command(flatten)]
    flags: PlanFlags,
    #[command(flatten)]
    reading: Reading,
}

pub(crate) fn run(args: PlanArgs) -> Result<(), Failure> {
    let mut source = match &args.plan {
        Some(path) => Source::open(path)?,
        None => Source::made(args.flags.spec(&args.reading)?),
    };
    if args.turned {
        let machine = source.spec.machine.get_or_insert_default();
        machine.turned = true;
    }
    if let Some(throat) = &args.throat {
        let bare = Unit::from(source.spec.unit);
        let mm = positive_in_unit(throat, Some(bare), Unit::Mm, "--throat")?;
        let machine = source.spec.machine.get_or_insert_default();
        machine.throat = Some(LengthSpec::with(mm, Unit::Mm));
    }
    let before = args.stitched.as_deref().map(progress_in).transpose()?;
    let folder = if is_stream(&args.out) {
        None
    } else {
        let folder = Folder::start(&args.out, args.force)?;
        keeps_progress(&args.out, args.stitched.as_deref())?;
        Some(folder)
    };
    let quilt = source.quilt.as_ref().filter(|_| before.is_none());
    let known = match quilt {
        Some(quilt) => (quilt.before.clone(), quilt.progress.clone()),
        None => (before, None),
    };
    let round = source.solve(known)?;
    if round.changed && round.before.is_some() {
        note("the plan has changed since some of it was stitched, so it is solved round that");
    }
    let solved = &round.solved;
    let stitching = &source.stitch(solved)?;
    match folder {
        Some(folder) => {
            let mut quilt = Worksheet::from(source.gathered()?);
            let anew = || Some(progress_anew(solved, stitching)).filter(|_| round.before.is_some());
            let progress = match &round.progress {
                Some(progress) => Some(progress.clone()),
                None => anew().transpose()?,
            };
            quilt.set_progress(round.before.clone(), progress);
            let spec = paths::seen_from(folder.place(), &source, &quilt)?;
            let files = quilt.files(&spec, (solved, stitching), &args.format)?;
            outcome::write(&folder, &files)?;
            folder.swap_in(args.force)?;
            summary::print(&source.spec, solved, stitching);
            let [sheet, picture] = [SHEET, PICTURE].map(|name| args.out.join(name));
            summary::open(&sheet, &picture);
        }
        None => {
            summary::print(&source.spec, solved, stitching);
            print(outcome::result(solved, stitching)?.as_bytes())?;
        }
    }
    fail_on(solved, stitching, args.fail_on)
}

/// Refuses to replace a folder whose progress is not the one that the plan is solved round: what is
/// stitched would be forgotten.
fn keeps_progress(out: &Path, stitched: Option<&Path>) -> Result<(), Failure> {
    let there = out.join(PROGRESS);
    let Ok(place) = fs::canonicalize(&there) else {
        return Ok(());
    };
    let given = stitched.and_then(|given| fs::canonicalize(given).ok());
    match given == Some(place) {
        true => Ok(()),
        false => Err(Failure::File(format!(
            "{}: says what is stitched, which would be lost; give --stitched {} to solve round it, or move the file away",
            label(&there),
            label(&there)
        ))),
    }
}

fn fail_on(solved: &Solved, stitching: &Stitching, limit: Option<Severity>) -> Result<(), Failure> {
    let Some(limit) = limit else { return Ok(()) };
    let severe = |severity: Severity| severity >= limit;
    match stitching
        .all_findings(solved)
        .filter(|f| severe(f.severity))
        .count()
    {
        0 => Ok(()),
        count => Err(Failure::Findings { count, limit }),
    }
}
