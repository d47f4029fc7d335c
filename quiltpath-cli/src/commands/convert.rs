//! `convert`: the same lines in another format or unit.

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::strokes::Gaps;

use crate::args::InOut;
use crate::batch::draw;
use crate::drawing::report_strokes;
use crate::failure::Failure;
use crate::hint::Asker;
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
    /// Make one line of all strokes
    #[arg(long)]
    one: bool,
    #[command(flatten)]
    in_out: InOut,
}

pub(crate) fn run(args: ConvertArgs) -> Result<(), Failure> {
    let one = args.one || args.in_out.wants_one_line();
    let ways = args.in_out.check()?;
    let options = ways.reading.clone();
    if options.gaps == Gaps::Link && !one {
        return Err(Failure::Usage(
            "--link: lines are linked only where they are joined; give --one too".to_owned(),
        ));
    }
    draw(Asker::Convert, &args.drawing, ways, |drawing, place| {
        let unit = drawing.unit();
        if !one {
            return Ok(drawing.paths(&options)?);
        }
        let joined = drawing.motif(unit, &options)?;
        report_strokes(place, &joined, unit);
        Ok(point_list(unit, &[joined.motif]))
    })
}
