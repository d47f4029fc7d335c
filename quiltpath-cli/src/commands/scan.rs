//! `scan`: a picture of a drawing on paper to lines.

mod report;

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::Error;
use quiltpath_core::io::json::PointList;
use quiltpath_core::io::overlay::write_overlay;
use quiltpath_core::io::picture_read::read_picture;
use quiltpath_core::leg::{LegGiven, rough_legs};
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::spec::{StrokesSpec, UnitSpec};
use quiltpath_core::raster::{BlankKind, Fills, Scan, ScanOptions, scan};
use quiltpath_core::strokes::{JoinedLines, LineEnds, OneLineOptions};
use quiltpath_core::units::{Length, Unit};

use self::report::{as_json, print};
use crate::args::{
    FILLS, STROKES, UNITS, Writing, choice, from_0_in_unit, gaps_of_lines, positive_in_unit,
};
use crate::failure::Failure;
use crate::files::{check_free, label, print as print_data, read, save, stem};

/// Read a drawing on paper from a scan or a photo
#[derive(Args)]
#[command(after_help = "\
Drawn on paper made by template --blank, the drawing comes out at true size,
however the picture is turned or tilted. Other drawings take --width.
Look at the --overlay: it has the lines on the picture, and places in doubt.

Example: quiltpath scan photo.jpg --out motif.svg --overlay check.svg
         quiltpath scan page.png --width \"6 in\" --out motif.svg")]
pub(crate) struct ScanArgs {
    /// Picture to read (PNG or JPEG), - for stdin
    #[arg(value_name = "PICTURE")]
    picture: PathBuf,
    /// How wide the drawing is [default: by the marks]
    #[arg(long, value_name = "LENGTH")]
    width: Option<Length>,
    /// Fill gaps of up to this [default: four pens]
    #[arg(long, value_name = "LENGTH")]
    bridge: Option<Length>,
    /// Filled shapes: outline or refuse [default: outline]
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(FILLS))]
    fills: Option<Fills>,
    /// Several strokes: one-line, as-drawn or apart [default: one-line]
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(STROKES))]
    strokes: Option<StrokesSpec>,
    /// Unit of bare numbers and output: in, mm or cm
    #[arg(long, hide_possible_values = true, value_parser = choice(UNITS))]
    unit: Option<UnitSpec>,
    /// Print the report as JSON
    #[arg(long)]
    json: bool,
    /// SVG file for the lines on the picture
    #[arg(long, value_name = "FILE", help_heading = "Writing")]
    overlay: Option<PathBuf>,
    #[command(flatten)]
    writing: Writing,
}

pub(crate) fn run(args: ScanArgs) -> Result<(), Failure> {
    let bare = args.unit.map(Unit::from);
    let mut options = ScanOptions::default().with_fills(args.fills.unwrap_or_default());
    if let Some(width) = &args.width {
        let width = positive_in_unit(width, bare, Unit::Mm, "--width")?;
        options = options.with_width_mm(width).map_err(Failure::Options)?;
    }
    if let Some(bridge) = &args.bridge {
        let bridge = from_0_in_unit(bridge, bare, Unit::Mm, "--bridge")?;
        options = options.with_bridge_mm(bridge).map_err(Failure::Options)?;
    }
    let typed = args.width.as_ref().and_then(|width| width.unit);
    let unit = bare.or(typed).unwrap_or(Unit::Mm);
    let target = args.writing.check(bare)?;
    if args.json && target.is_stdout() {
        return Err(Failure::Usage(
            "--json: the lines go to stdout, too; give --out a file".to_owned(),
        ));
    }
    if let Some(overlay) = &args.overlay {
        if overlay.as_path() == target.path() {
            return Err(Failure::Usage(
                "--overlay: this is where --out goes; give it another name".to_owned(),
            ));
        }
        check_free(overlay, target.force())?;
    }
    let bytes = read(&args.picture)?;
    let in_file = |error: Error| error.in_unit(unit).in_file(label(&args.picture));
    let picture = read_picture(&bytes).map_err(in_file)?;
    drop(bytes);
    let scan = scan(&stem(&args.picture), &picture, &options).map_err(in_file)?;
    let lines = lines(&scan, args.strokes.unwrap_or_default()).map_err(in_file)?;
    print(&scan.report, &lines, unit);
    let (lines, report) = (lines.motifs, lines.report);
    target.write(&list(&lines, unit))?;
    if let Some(overlay) = &args.overlay {
        let mut svg = String::new();
        write_overlay(&mut svg, &picture, &scan).map_err(in_file)?;
        save(overlay, target.force(), svg.as_bytes())?;
    }
    if args.json {
        print_data(as_json(&scan.report, &lines, &report, unit).as_bytes())?;
    }
    Ok(())
}

/// The strokes as one line where that is asked for, with the ends that the paper has.
fn lines(scan: &Scan, strokes: StrokesSpec) -> Result<JoinedLines, Error> {
    let ends = match scan.report.blank.map(|blank| blank.kind()) {
        Some(BlankKind::Repeat) => LineEnds::Across,
        Some(BlankKind::Corner) => {
            rough_legs(&scan.drawing, &LegGiven::default()).map_or(LineEnds::Free, LineEnds::Legs)
        }
        _ => LineEnds::Free,
    };
    let gaps = gaps_of_lines(strokes, false);
    let options = OneLineOptions::default().with_ends(ends).with_gaps(gaps);
    scan.drawing.lines(&options)
}

fn list(lines: &[Motif], unit: Unit) -> PointList {
    PointList::of_mm(unit, lines.iter().map(|line| (line, line.name())))
}
