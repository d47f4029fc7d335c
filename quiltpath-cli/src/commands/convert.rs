//! `convert`: the same lines in another format or unit.

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::plan::spec::StrokesSpec;
use quiltpath_core::strokes::{Gaps, LineEnds};
use quiltpath_core::units::{Length, Unit};

use crate::args::{InOut, LineEnd, positive_in_unit};
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
         quiltpath convert spray.svg --strokes one-line --out line.svg
         quiltpath convert leaves --out points --format json")]
pub(crate) struct ConvertArgs {
    /// Drawing (SVG, DXF, JSON, PNG, JPEG) or folder, - for stdin
    #[arg(value_name = "DRAWING")]
    drawing: PathBuf,
    /// Make one line of all strokes
    #[arg(long)]
    one: bool,
    /// Start the one line at X, Y, or left, right, top or bottom
    #[arg(long, value_name = "PLACE")]
    start: Option<LineEnd>,
    /// End it there
    #[arg(long, value_name = "PLACE")]
    end: Option<LineEnd>,
    /// Cut the thread where that saves more line
    #[arg(long, value_name = "LENGTH")]
    cut: Option<Length>,
    #[command(flatten)]
    in_out: InOut,
}

pub(crate) fn run(args: ConvertArgs) -> Result<(), Failure> {
    let strokes = args.in_out.strokes();
    let one = args.one || strokes == Some(StrokesSpec::OneLine);
    let apart = !args.one && strokes == Some(StrokesSpec::Apart);
    let ways = match apart {
        true => args.in_out.check_lines()?,
        false => args.in_out.check()?,
    };
    let mut options = ways.reading.clone();
    let given = [
        ("--start", args.start.is_some()),
        ("--end", args.end.is_some()),
        ("--cut", args.cut.is_some()),
    ];
    match given.iter().find(|(_, given)| *given) {
        Some((option, _)) if !one || options.gaps != Gaps::OneLine => {
            return Err(Failure::Usage(format!(
                "{option}: this is for one line of all strokes; give --strokes one-line too"
            )));
        }
        _ => {}
    }
    if options.gaps == Gaps::Link && !one {
        return Err(Failure::Usage(
            "--link: lines are linked only where they are joined; give --one too".to_owned(),
        ));
    }
    let cut = args.cut.as_ref();
    let cut = cut.map(|cut| positive_in_unit(cut, options.unit, Unit::Mm, "--cut"));
    options.cut_mm = cut.transpose()?;
    draw(Asker::Convert, &args.drawing, ways, |drawing, place| {
        let unit = drawing.unit();
        if !one && !apart {
            return Ok(drawing.paths(&options)?);
        }
        let end = |end: &Option<LineEnd>, option: &str| {
            let place = end
                .as_ref()
                .map(|end| end.place(options.unit, unit, option));
            place.transpose()
        };
        let ends = LineEnds::given(end(&args.start, "--start")?, end(&args.end, "--end")?);
        let lines = drawing.joined(&options.clone().with_ends(ends))?;
        report_strokes(place, &lines.report, unit);
        Ok(point_list(unit, &lines.motifs))
    })
}
