//! `stitch`: lines to needle points, and what stitching them takes.

mod flags;
mod report;

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::Error;
use quiltpath_core::io::json::{PointList, PointPath};
use quiltpath_core::io::lines::LineFormat;
use quiltpath_core::motif::Motif;
use quiltpath_core::stitch::job::{Job, stitch_lines};
use quiltpath_core::units::Unit;

use self::flags::{EstimateFlags, StitchFlags};
use self::report::{as_json, print};
use crate::args::{FORMATS, Reading, choice};
use crate::drawing;
use crate::failure::Failure;
use crate::files::{check_free, label, save};
use crate::output::{Style, Target};

/// Turn lines into needle points; report stitches, minutes and thread
#[derive(Args)]
#[command(
    override_usage = "quiltpath stitch [OPTIONS] <--out <FILE>|--report <FILE>> <DRAWING>",
    // Without the usual blank line above the usage, so that it fits a screen.
    help_template = "{about}\n{usage-heading} {usage}\n\n{all-args}{after-help}",
    after_help = "Example: quiltpath stitch side.svg --spi 11 --out needles.svg"
)]
pub(crate) struct StitchArgs {
    /// Drawing to read (SVG, DXF, JSON, PNG, JPEG), - for stdin
    #[arg(value_name = "DRAWING")]
    drawing: PathBuf,
    #[command(flatten)]
    stitch: StitchFlags,
    #[command(flatten)]
    estimate: EstimateFlags,
    #[command(flatten)]
    reading: Reading,
    #[command(flatten)]
    writing: NeedleWriting,
}

/// Where needle points and the report are written.
#[derive(Args)]
#[command(next_help_heading = "Writing")]
struct NeedleWriting {
    /// File for the needle points, - for stdout
    #[arg(long, value_name = "FILE", required_unless_present = "report")]
    out: Option<PathBuf>,
    /// svg, json, jsonl, dxf or gcode [default: by the name]
    #[arg(long, value_name = "KIND", requires = "out", hide_possible_values = true, value_parser = choice(FORMATS))]
    format: Option<LineFormat>,
    /// File for all numbers, as JSON; - for stdout
    #[arg(long, value_name = "FILE")]
    report: Option<PathBuf>,
    /// Replace existing files
    #[arg(long)]
    force: bool,
}

pub(crate) fn run(args: StitchArgs) -> Result<(), Failure> {
    let reading = args.reading.check_lines()?;
    let options = |unit: Unit| {
        let stitch = args.stitch.options(reading.unit, unit)?;
        args.estimate.options(stitch, reading.unit, unit)
    };
    let stitch_mm = options(Unit::Mm)?.stitch.target;
    let target = args.writing.target(stitch_mm / 4.0)?;
    let drawing = drawing::open(&args.drawing, &reading)?;
    let unit = drawing.unit();
    let options = options(unit)?;
    options
        .check()
        .map_err(|e| Failure::Options(e.measured_in(unit)))?;
    let in_file = |e: Error| e.measured_in(unit).in_file(label(&args.drawing));
    let lines = drawing.joined(&reading).map_err(in_file)?;
    drawing::report_strokes(None, &lines.report, unit);
    let motifs = lines.motifs;
    let job = stitch_lines(&motifs, &options).map_err(in_file)?;
    print(&motifs, &job, &options, unit);
    if let Some(target) = target {
        target.write(&needles(unit, &motifs, &job))?;
    }
    if let Some(path) = &args.writing.report {
        let text = as_json(&motifs, &job, unit);
        save(path, args.writing.force, text.as_bytes())?;
    }
    Ok(())
}

impl NeedleWriting {
    /// Where needle points go, when they are asked for; both places are free.
    fn target(&self, dots_mm: f64) -> Result<Option<Target>, Failure> {
        if self.report.is_some() && self.report == self.out {
            return Err(Failure::Usage(
                "--report: this is where --out goes; give it another name".to_owned(),
            ));
        }
        if let Some(path) = &self.report {
            check_free(path, self.force)?;
        }
        let style = Style {
            dots_mm: Some(dots_mm),
            ..Style::default()
        };
        let target = |out: &PathBuf| Target::new(out.clone(), self.format, self.force, style);
        self.out.as_ref().map(target).transpose()
    }
}

fn needles(unit: Unit, motifs: &[Motif], job: &Job) -> PointList {
    let lines = motifs.iter().zip(&job.lines);
    let paths = lines.map(|(motif, line)| PointPath::new(line.points()).with_name(motif.name()));
    PointList::new(unit, paths.collect())
}
