//! `resume`: the rest of a run after a thread break or with a fresh bobbin.

mod outcome;

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::frame::{
    BACK_MM, FARTHEST_MM, Rest, STRANDS_MM, Stop, Stopped, Strand, changes_to_come, rest_of,
    stitched_length, strands_at,
};
use quiltpath_core::io::lines::LineFormat;
use quiltpath_core::io::words;
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::Origin;
use quiltpath_core::plan::spec::UnitSpec;
use quiltpath_core::units::{Length, Unit};
use quiltpath_core::worksheet::MachineLines;

use crate::args::{FORMATS, UNITS, choice, counting, from_0, from_0_in_unit, in_unit, whole};
use crate::failure::Failure;
use crate::message::{heading, line};
use crate::plan_folder::PlanFolder;
use crate::words::counted;

/// Go on with a run that stopped: thread break, empty bobbin
#[derive(Args)]
#[command(
    override_usage = "quiltpath resume [OPTIONS] --pass <N> --run <N> <DIR>\n       \
                      <--at <X> <Y>|--after <LENGTH>|--stitch <N>|--minutes <MINUTES>>",
    group(clap::ArgGroup::new("stop").required(true).multiple(false)
        .args(["at", "after", "stitch", "minutes"])),
    after_help = "\
The rest is written into the folder, as rest/PASS-run-RUN, unless --out names a
file. A pass that was laid by align goes on as laid, another one as planned.
Example: quiltpath resume out --pass 3 --run 5 --at 12.5 3.1"
)]
pub(crate) struct ResumeArgs {
    /// Folder that plan --out wrote
    #[arg(value_name = "DIR")]
    folder: PathBuf,
    /// The pass, as the sheet numbers it
    #[arg(long, value_name = "N", value_parser = counting)]
    pass: usize,
    /// The run, as the sheet numbers it
    #[arg(long, value_name = "N", value_parser = counting)]
    run: usize,
    /// Where it stopped: the machine's x and y there
    #[arg(long, num_args = 2, value_names = ["X", "Y"], allow_hyphen_values = true)]
    at: Vec<Length>,
    /// Or after how much of its line
    #[arg(long, value_name = "LENGTH")]
    after: Option<Length>,
    /// Or after how many of its stitches, tie-offs included
    #[arg(long, value_name = "N", value_parser = whole)]
    stitch: Option<usize>,
    /// Or after how many minutes from its first stitch on
    #[arg(long, allow_hyphen_values = true, value_parser = from_0)]
    minutes: Option<f64>,
    /// A fresh bobbin begins there; later changes count from it
    #[arg(long)]
    new_bobbin: bool,
    /// Begin this much earlier on the stitched line [default: 1/2 in]
    #[arg(long, value_name = "LENGTH")]
    back: Option<Length>,
    /// Unit of bare lengths [default: the machine's]
    #[arg(long, hide_possible_values = true, value_parser = choice(UNITS))]
    unit: Option<UnitSpec>,
    /// Zero of the pass's files, as align had it; --at counts from it
    #[arg(long, value_name = "PLACE")]
    origin: Option<Origin>,
    /// File to write instead, - for stdout
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Write this format: svg, json, jsonl, dxf or gcode
    #[arg(long, value_name = "FORMAT", hide_possible_values = true, value_parser = choice(FORMATS))]
    format: Vec<LineFormat>,
    /// Replace an existing file
    #[arg(long, requires = "out")]
    force: bool,
}

pub(crate) fn run(args: ResumeArgs) -> Result<(), Failure> {
    let mut folder = PlanFolder::open(&args.folder)?;
    let (index, pass) = folder.pass(args.pass)?;
    let within = folder.run(args.pass, args.run)? - pass.runs.start;
    let frame = folder.at_frame();
    let unit = args.unit.map_or(frame.machine_unit(), Unit::from);
    let back = args.back.as_ref();
    let back = back.map(|back| from_0_in_unit(back, Some(unit), Unit::Mm, "--back"));
    let back = back.transpose()?.unwrap_or(BACK_MM);
    let wanted = outcome::Wanted {
        pass: args.pass,
        run: args.run,
        out: args.out.as_deref(),
        format: &args.format,
        force: args.force,
    };
    let target = outcome::target(&wanted)?;
    let origin = args.origin.as_ref().or(frame.origin());
    let load = |asked: &_| folder.source.drawing(asked);
    let lines = MachineLines::of(&frame, (index, &folder.progress), origin, load)?;
    let whole = &lines.motifs[within];
    let of_run = |error: quiltpath_core::Error| {
        Failure::Data(error.in_unit(unit).in_element(format!("run {}", args.run)))
    };
    let stitched = match args.stop(unit)? {
        Known::At(x, y) => {
            let at = frame.from_machine([x, y]);
            let strands = strands_at(whole, at, STRANDS_MM, FARTHEST_MM).map_err(of_run)?;
            one_of(&strands, args.run, unit)?
        }
        Known::Stop(stop) => {
            stitched_length(whole, stop, &folder.stitching.options).map_err(of_run)?
        }
    };
    let rest = rest_of(whole, stitched, back, &folder.stitching.options).map_err(of_run)?;
    let planned = lines.planned_length(&folder.stitching, within, stitched)?;
    let written = outcome::write(&folder, &lines, (&wanted, target), &rest.motif)?;
    let stopped = Stopped::new(index, within, planned);
    folder.progress.stopped = Some(stopped);
    if args.new_bobbin {
        folder
            .progress
            .change_bobbin(&folder.stitching, stopped)
            .map_err(of_run)?;
    }
    folder.save()?;
    report(&folder, &args, &rest, whole);
    line(next_bobbin(&folder, args.new_bobbin)?);
    for file in written {
        line(format_args!("wrote {}", file.display()));
    }
    line("needle up and hands clear before the machine moves; its manual comes first");
    Ok(())
}

/// What was given of where the run stopped, lengths in millimetres.
enum Known {
    /// The machine's x and y.
    At(f64, f64),
    Stop(Stop),
}

impl ResumeArgs {
    fn stop(&self, unit: Unit) -> Result<Known, Failure> {
        if let [x, y] = &self.at[..] {
            // A unit after the second alone counts for both.
            let bare = y.unit.unwrap_or(unit);
            let x = in_unit(x, Some(bare), Unit::Mm, "--at")?;
            let y = in_unit(y, Some(unit), Unit::Mm, "--at")?;
            return Ok(Known::At(x, y));
        }
        let after = self.after.as_ref();
        let after = after.map(|after| from_0_in_unit(after, Some(unit), Unit::Mm, "--after"));
        let stop = after.transpose()?.map(Stop::Length);
        let stop = stop.or(self.stitch.map(Stop::Stitch));
        let stop = stop.or(self.minutes.map(Stop::Minutes));
        let needed = "give --at, --after, --stitch or --minutes";
        stop.map(Known::Stop)
            .ok_or_else(|| Failure::Usage(needed.to_owned()))
    }
}

/// How much is stitched at the one strand there is, or which there are to choose from.
fn one_of(strands: &[Strand], run: usize, unit: Unit) -> Result<f64, Failure> {
    if let [strand] = strands {
        return Ok(strand.length);
    }
    let own = |mm: f64| mm / unit.in_mm();
    let symbol = unit.symbol();
    let each = strands.iter().map(|strand| {
        format!(
            "\n  --after \"{:.3} {symbol}\"  ({:.3} {symbol} from the point)",
            own(strand.length),
            own(strand.distance)
        )
    });
    Err(Failure::File(format!(
        "run {run} comes by that point {} times; follow the line to see which strand has stopped, and give instead of --at:{}",
        strands.len(),
        each.collect::<String>()
    )))
}

/// Where the bobbin is changed next.
fn next_bobbin(folder: &PlanFolder, fresh: bool) -> Result<String, Failure> {
    let (solved, stitching) = (&folder.solved, &folder.stitching);
    let to_come = changes_to_come(solved, stitching, &folder.progress)?;
    let from = if fresh { "a fresh bobbin; " } else { "" };
    let next = match words::next_bobbin(&to_come, solved, stitching) {
        Some(next) => format!("the next change: {next}"),
        None => "no change of the bobbin is left".to_owned(),
    };
    Ok(format!("{from}{next}"))
}

/// What is left and what that takes.
fn report(folder: &PlanFolder, args: &ResumeArgs, rest: &Rest, whole: &Motif) {
    let unit = folder.solved.unit;
    let stitched = rest.from + rest.overlap;
    heading(format_args!("pass {}, run {}", args.pass, args.run));
    line(format_args!(
        "{} of {} of line stitched; the rest begins {} before that, {} of line",
        unit.readable_line(stitched),
        unit.readable_line(whole.length()),
        unit.readable(rest.overlap),
        unit.readable_line(rest.motif.length())
    ));
    let job = &rest.job;
    line(format_args!(
        "{} with tie-offs, about {:.1} minutes, thread: needle {}, bobbin {}",
        counted(job.count(), "stitch"),
        job.time.minutes(),
        unit.readable_thread(job.thread.thread.needle),
        unit.readable_thread(job.thread.thread.bobbin)
    ));
}
