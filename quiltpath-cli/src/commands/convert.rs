//! `convert`: the same lines in another format or unit.

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::io::words::one_line;
use quiltpath_core::strokes::Gaps;

use crate::args::{InOut, STROKES, choice};
use crate::batch::draw;
use crate::failure::Failure;
use crate::hint::Asker;
use crate::message::note;
use crate::output::point_list;

/// Change a drawing's format or unit; the lines stay as drawn
#[derive(Args)]
#[command(after_help = "\
A folder is converted file by file: give --format, and a folder for --out.
JSON Lines are converted line by line. Drawings that can't be read are reported
and left out, and the exit code is 1.

Example: quiltpath convert leaf.svg --unit mm --out leaf.json
         quiltpath convert leaves --out points --format json")]
pub(crate) struct ConvertArgs {
    /// Drawing (SVG, DXF, JSON, JSON Lines) or folder, - for stdin
    #[arg(value_name = "DRAWING")]
    drawing: PathBuf,
    /// Join all lines end to end into one
    #[arg(long)]
    one: bool,
    /// Strokes: as-drawn, or one-line with the least stitched twice
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(STROKES), conflicts_with = "link")]
    strokes: Option<Gaps>,
    #[command(flatten)]
    in_out: InOut,
}

pub(crate) fn run(args: ConvertArgs) -> Result<(), Failure> {
    let ways = args.in_out.check()?;
    let mut options = ways.reading.clone();
    if let Some(strokes) = args.strokes {
        options.gaps = strokes;
    }
    if options.gaps == Gaps::Link && !args.one {
        return Err(Failure::Usage(
            "--link: lines are linked only where they are joined; give --one too".to_owned(),
        ));
    }
    let one = args.one || options.gaps == Gaps::OneLine;
    draw(Asker::Convert, &args.drawing, ways, |drawing, place| {
        let unit = drawing.unit();
        if !one {
            return Ok(drawing.paths(&options)?);
        }
        let joined = drawing.motif(unit, &options)?;
        if let Some(text) = one_line(&joined, unit) {
            let place = place.map_or(String::new(), |place| format!("{place}: "));
            note(format!("{place}{text}"));
        }
        Ok(point_list(unit, &[joined.motif]))
    })
}
