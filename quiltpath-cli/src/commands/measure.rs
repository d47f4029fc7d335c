//! `measure`: a drawing's size, its ends, and whether it can be a repeat or a corner.

mod facts;
mod pair;

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::io::drawing::ReadOptions;

use self::facts::Facts;
use crate::args::{Reading, Threads};
use crate::batch::{Input, Lines, Many, Record, each};
use crate::failure::Failure;
use crate::files::Draft;
use crate::hint::Asker;

/// Report a drawing's size and ends, and what it can be used for
#[derive(Args)]
#[command(after_help = "\
Directions are in degrees: 0 is to the right and 90 is down.
All drawings of a folder are measured, and every line of JSON Lines. Those that
can't be read are reported and left out, and the exit code is 1. Of a border and
a corner it says, too, if they would join better another way.

Example: quiltpath measure border.svg corner.svg
         quiltpath measure borders --json")]
pub(crate) struct MeasureArgs {
    /// Drawings (SVG, DXF, JSON, PNG, JPEG) or folders, - for stdin
    #[arg(value_name = "DRAWING", required = true)]
    drawings: Vec<PathBuf>,
    /// Print JSON, a line for each drawing
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    threads: Threads,
    #[command(flatten)]
    reading: Reading,
}

pub(crate) fn run(args: MeasureArgs) -> Result<(), Failure> {
    let options = args.reading.check()?;
    let threads = args.threads.check()?;
    let lines = match args.json {
        true => Lines::Asked,
        false => Lines::Found,
    };
    let two = <[PathBuf; 2]>::try_from(args.drawings.clone());
    let from_files = |two: &[PathBuf; 2]| two.iter().all(|path| path.is_file());
    let two = two.ok().filter(|two| !args.json && from_files(two));
    // An input is opened when its turn comes; one that can't be is reported in its place.
    let inputs = args.drawings.into_iter().flat_map(move |path| {
        let input = Input::open(&path, lines).map(|input| input.records().0);
        input.unwrap_or_else(|failure| Box::new(std::iter::once(Err(failure))))
    });
    let many = Many {
        records: Box::new(inputs),
        count: None,
        data_on_stdout: true,
        asker: Asker::Measure,
    };
    let job = |record: &Record| {
        let facts = measure(record, &options)?;
        let text = facts.iter().map(|facts| match args.json {
            true => facts.json(),
            false => facts.text(),
        });
        Ok(text.collect::<String>())
    };
    let mut stdout = Draft::stdout();
    let tally = each(many, threads, job, &mut stdout)?;
    if let Some(told) = two.and_then(|two| pair::pair(&two, &options)) {
        stdout.write(told.as_bytes())?;
    }
    stdout.finish()?;
    tally.result()
}

fn measure(record: &Record, options: &ReadOptions) -> Result<Vec<Facts>, Failure> {
    let drawing = record.open(options)?;
    let unit = drawing.unit();
    let reading = drawing.line_options(unit, options);
    let drawings = drawing.drawings(unit).map_err(|e| e.measured_in(unit))?;
    let facts = drawings.iter().map(|drawing| {
        let facts = Facts::of(record, drawing, unit, &reading);
        Ok(facts.map_err(|e| e.measured_in(unit))?)
    });
    facts.collect()
}
