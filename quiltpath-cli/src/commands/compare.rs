//! `compare`: plans side by side on one page, so that one can be chosen.

mod table;

use std::fs;
use std::path::{Path, PathBuf};

use clap::Args;
use quiltpath_core::io::compare::{Compared, check_count, compare, write_comparison};
use quiltpath_core::plan::{Solved, Stitching};

use self::table::{as_json, as_text};
use crate::failure::Failure;
use crate::files::{check_free, check_page_name, is_stream, label, print, save};
use crate::message::{line, note};
use crate::plan_folder::PlanFolder;
use crate::source::Source;

/// Show plans side by side, to choose one of them
#[derive(Args)]
#[command(
    override_usage = "\
quiltpath compare [OPTIONS] --out <FILE> <PLAN> <PLAN>...
       quiltpath compare --json <PLAN> <PLAN>...",
    after_help = "\
The page has the pictures, minutes, thread, the worst stretch, the sharpest turn
and what there is to look at, the least of each marked. Two or three plans print
on one sheet. All lengths are in the unit of the first plan.

Example: quiltpath compare quilt.json bent.json --out compare.html"
)]
pub(crate) struct CompareArgs {
    /// Two to six plans: PLAN.json, .quilt.json, or folders of plan --out
    #[arg(value_name = "PLAN", required = true)]
    plans: Vec<PathBuf>,
    /// HTML file to write, - for stdout
    #[arg(long, value_name = "FILE", required_unless_present = "json")]
    out: Option<PathBuf>,
    /// Replace an existing file
    #[arg(long)]
    force: bool,
    /// Print JSON, a line for each plan
    #[arg(long)]
    json: bool,
}

/// A plan, solved and stitched.
struct Planned {
    name: String,
    solved: Solved,
    stitching: Stitching,
}

pub(crate) fn run(args: CompareArgs) -> Result<(), Failure> {
    check_count(args.plans.len()).map_err(Failure::Options)?;
    check_apart(&args.plans)?;
    if let Some(out) = &args.out {
        if args.json && is_stream(out) {
            return Err(Failure::Usage(
                "--json: the page goes to stdout already; give --out a file, or leave one out"
                    .to_owned(),
            ));
        }
        check_page_name(out, "compare")?;
        check_free(out, args.force)?;
    }
    let plans = args.plans.iter().map(|path| planned(path));
    let plans: Vec<Planned> = plans.collect::<Result<_, Failure>>()?;
    let plans: Vec<Compared<'_>> = plans
        .iter()
        .map(|plan| Compared::new(&plan.name, &plan.solved, &plan.stitching))
        .collect();
    let comparison = compare(&plans)?;
    if let Some(out) = &args.out {
        save(out, args.force, write_comparison(&plans)?.as_bytes())?;
    }
    match args.json {
        true => print(as_json(&comparison).as_bytes()),
        false => {
            as_text(&comparison).lines().for_each(line);
            Ok(())
        }
    }
}

/// Refuses a plan that is given twice: by another path, or by its folder and its file.
fn check_apart(paths: &[PathBuf]) -> Result<(), Failure> {
    let places: Vec<PathBuf> = paths.iter().map(|path| place(path)).collect();
    for (at, one) in places.iter().enumerate() {
        if let Some(other) = places[..at].iter().position(|other| other == one) {
            let [first, second] = [other, at].map(|at| label(&paths[at]));
            return Err(Failure::Usage(match first == second {
                true => format!("{first}: is given twice; give each plan once"),
                false => format!("{first} and {second} are the same plan; give each once"),
            }));
        }
    }
    Ok(())
}

/// The file of a plan, by the same path however it is named; one that isn't there by its name.
fn place(path: &Path) -> PathBuf {
    let file = match path.is_dir() {
        true => path.join(quiltpath_core::worksheet::files::PLAN),
        false => path.to_owned(),
    };
    fs::canonicalize(&file).unwrap_or(file)
}

/// A plan from its file, or from the folder that was made of it.
fn planned(path: &Path) -> Result<Planned, Failure> {
    let name = label(path);
    if path.is_dir() {
        let PlanFolder {
            solved, stitching, ..
        } = PlanFolder::open(path)?;
        return Ok(Planned {
            name,
            solved,
            stitching,
        });
    }
    let source = Source::open(path)?;
    let known = source.quilt.as_ref();
    let known = known.map(|quilt| (quilt.before.clone(), quilt.progress.clone()));
    let round = source.solve(known.unwrap_or_default())?;
    if round.changed && round.before.is_some() {
        note(format_args!(
            "{name}: the plan has changed since some of it was stitched, so it is solved round that"
        ));
    }
    let stitching = source.stitch(&round.solved)?;
    Ok(Planned {
        name,
        solved: round.solved,
        stitching,
    })
}
