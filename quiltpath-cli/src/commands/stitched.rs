//! `stitched`: what is stitched of a plan is taken down in its folder.

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::plan::PlannedRun;

use crate::args::counting;
use crate::failure::Failure;
use crate::laying::laid_again;
use crate::message::line;
use crate::plan_folder::PlanFolder;
use crate::words::counted;

/// Say that a pass, or runs of it, are stitched
#[derive(Args)]
#[command(after_help = "\
What is stitched stays as it is: \"quiltpath plan --stitched out/progress.json\"
solves the rest of a changed plan round it.
Example: quiltpath stitched out --pass 3")]
pub(crate) struct StitchedArgs {
    /// Folder that plan --out wrote
    #[arg(value_name = "DIR")]
    folder: PathBuf,
    /// The pass, as the sheet numbers it
    #[arg(long, value_name = "N", value_parser = counting)]
    pass: usize,
    /// Only this run of it, as the sheet numbers it
    #[arg(long, value_name = "N", value_parser = counting)]
    run: Vec<usize>,
    /// Take it back: it is not stitched
    #[arg(long)]
    undo: bool,
}

pub(crate) fn run(args: StitchedArgs) -> Result<(), Failure> {
    let mut folder = PlanFolder::open(&args.folder)?;
    let (index, pass) = folder.pass(args.pass)?;
    let numbers = pass.runs.clone();
    for run in &args.run {
        folder.run(args.pass, *run)?;
    }
    let (solved, runs) = laid_again(&folder, index)?;
    let chosen = |number: &usize| args.run.is_empty() || args.run.contains(&(number + 1));
    let chosen: Vec<(usize, &PlannedRun)> = numbers
        .clone()
        .zip(&runs)
        .filter(|(number, _)| chosen(number))
        .collect();
    let stitched = &mut folder.progress.stitched;
    for (number, run) in &chosen {
        let done = match args.undo {
            true => stitched.remove(&solved, run),
            false => stitched.add(&solved, run),
        };
        done.map_err(|error| Failure::Data(error.in_element(format!("run {}", number + 1))))?;
    }
    let within: Vec<usize> = chosen
        .iter()
        .map(|(number, _)| number - numbers.start)
        .collect();
    let stopped = folder.progress.stopped;
    if stopped.is_some_and(|at| at.pass == index && within.contains(&at.run)) {
        folder.progress.stopped = None;
    }
    folder.save()?;
    let all = folder.solved.length();
    let done = folder.progress.stitched.length();
    line(format_args!(
        "{} of pass {} {}; stitched so far: {} of {} of line ({:.0} %)",
        counted(chosen.len(), "run"),
        args.pass,
        if args.undo { "taken back" } else { "stitched" },
        folder.solved.unit.readable_line(done),
        folder.solved.unit.readable_line(all),
        100.0 * done / all
    ));
    Ok(())
}
