//! `stitched`: what is stitched of a plan is taken down in its folder.

use std::path::PathBuf;

use crate::args::counting;
use crate::failure::Failure;
use crate::message::line;
use crate::plan_folder::PlanFolder;
use crate::words::counted;
use clap::Args;

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
    let chosen: Vec<usize> = numbers
        .filter(|number| args.run.is_empty() || args.run.contains(&(number + 1)))
        .collect();
    let mut progress = folder.progress.clone();
    let load = |asked: &_| folder.source.drawing(asked);
    let frame = folder.at_frame();
    frame.tick((index, &chosen), !args.undo, &mut progress, load)?;
    folder.progress = progress;
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
