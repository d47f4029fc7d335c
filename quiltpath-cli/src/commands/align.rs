//! `align`: a pass laid on the cloth as it lies, by readings of its marks.

mod outcome;
mod typed;

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::frame::{Laying, MarkReading, judge, taped};
use quiltpath_core::io::lines::LineFormat;
use quiltpath_core::io::readings::TypedReading;
use quiltpath_core::io::words;
use quiltpath_core::plan::spec::UnitSpec;
use quiltpath_core::plan::{Origin, Severity};
use quiltpath_core::units::Unit;
use quiltpath_core::worksheet::{keep_readings, listed};

use crate::args::{FORMATS, UNITS, choice, counting};
use crate::failure::Failure;
use crate::message::{finding, heading, line, note};
use crate::plan_folder::PlanFolder;

/// Lay a pass on the cloth as it lies, by readings of its marks
#[derive(Args)]
#[command(after_help = "\
Put the needle, up, over each mark; read the machine's x and y. The sheet has the
marks. Without readings, those that were given last are taken again.
Example: quiltpath align out --pass 3 --reading \"A 3.12 4.5\" --reading \"B 50 4 5/8\"")]
pub(crate) struct AlignArgs {
    /// Folder that plan --out wrote
    #[arg(value_name = "DIR")]
    folder: PathBuf,
    /// The pass, as the sheet numbers it
    #[arg(long, value_name = "N", value_parser = counting)]
    pass: usize,
    /// A mark's letter, or its name and a colon; x and y
    #[arg(long, value_name = "MARK X Y")]
    reading: Vec<TypedReading>,
    /// Readings in a JSON file, - for stdin
    #[arg(long, value_name = "FILE")]
    readings: Option<PathBuf>,
    /// Unit of bare readings [default: the machine's]
    #[arg(long, hide_possible_values = true, value_parser = choice(UNITS))]
    unit: Option<UnitSpec>,
    /// Taped from a side's stitched end to the next corner
    #[arg(long, value_name = "SIDE LENGTH")]
    tape: Vec<String>,
    /// Zero of the files: window, start, mark:B, corner:top_left
    #[arg(long, value_name = "PLACE")]
    origin: Option<Origin>,
    /// Write lines in this format too: jsonl, dxf or gcode
    #[arg(long, value_name = "FORMAT", hide_possible_values = true, value_parser = choice(FORMATS))]
    format: Vec<LineFormat>,
}

pub(crate) fn run(args: AlignArgs) -> Result<(), Failure> {
    let mut folder = PlanFolder::open(&args.folder)?;
    let (pass, _) = folder.pass(args.pass)?;
    let (typed, unit) = typed::all(
        &args.reading,
        args.readings.as_deref(),
        args.pass,
        args.unit.map(Unit::from),
    )?;
    let frame = folder.at_frame();
    let mut given = match typed.is_empty() {
        true => frame.kept_readings(pass, &folder.progress),
        false => frame.readings(pass, &typed, unit.unwrap_or(frame.machine_unit())),
    }
    .map_err(|error| typed::named(args.pass, error))?;
    if given.is_empty() {
        return Err(Failure::Usage(format!(
            "give readings of pass {}, for example --reading \"A 3.12 4.50\"; its marks are {}",
            args.pass,
            listed(&frame.marks(pass)?).join(", ")
        )));
    }
    for tape in &args.tape {
        let (border, side, length) = typed::tape(&folder, tape)?;
        let reading = taped(
            &folder.solved,
            &folder.stitching,
            (pass, &given),
            (border, side),
            length,
        );
        given.push(reading.map_err(|error| Failure::Data(error.in_unit(folder.solved.unit)))?);
    }
    let laying = frame.lay(pass, &given, |asked| folder.source.drawing(asked))?;
    let (mut findings, near) = judge(&laying.solved, &folder.stitching, &laying.laid)?;
    findings.extend(laying.findings.iter().cloned());
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    let lettered = frame.lettered(pass, &given)?;
    let written = outcome::write(
        &folder,
        (&laying, &lettered),
        (&findings, &near),
        (args.origin.as_ref().or(frame.origin()), &args.format),
    )?;
    keep_readings(&mut folder.progress, pass, &given);
    folder.save()?;
    report(&folder, &laying, &lettered);
    for one in &findings {
        let text = words::laid(&one.kind, &folder.solved);
        finding(one.severity, one.kind.code(), text);
    }
    for near in &near {
        let length = |mm: f64| folder.solved.unit.readable(mm);
        line(format_args!(
            "{}: the line comes within {} of the seam and {} of the edge, as touched",
            folder.solved.layouts[near.border].name,
            length(near.seam),
            length(near.edge)
        ));
    }
    if findings.iter().any(|one| one.severity == Severity::Error) {
        note(
            "look at the picture before anything moves; take the readings again where it doubts them",
        );
    }
    line(format_args!("open {}", written.display()));
    line("needle up, thread out and hands clear before the machine moves; its manual comes first");
    Ok(())
}

/// How the cloth lies, and each reading against the others.
fn report(folder: &PlanFolder, laying: &Laying, readings: &[(String, MarkReading)]) {
    let (solved, laid) = (&folder.solved, &laying.laid);
    heading(format_args!("pass {}", laid.pass + 1));
    line(words::lies(&laid.strain, laid.aligned.map.trend(), solved));
    for (letter, reading) in readings {
        let mut all = laid.aligned.readings.iter();
        let Some(report) = all.find(|report| report.mark == reading.name) else {
            continue;
        };
        let length = |mm: f64| solved.unit.readable(mm);
        let others = match (reading.mark.is_met(), report.off_others) {
            (true, Some(off)) => format!(
                "met exactly, {} from what the others say",
                length(off.norm())
            ),
            (true, None) => "met exactly".to_owned(),
            (false, Some(off)) => format!(
                "{} from the map, {} from what the others say",
                length(report.off.norm()),
                length(off.norm())
            ),
            (false, None) => "alone".to_owned(),
        };
        line(format_args!("  {letter:<4} {}: {others}", reading.name));
    }
    for side in &laying.refitted {
        note(words::refitted(side, solved));
    }
}
