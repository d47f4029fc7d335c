//! `corner`: a corner that belongs to a border, made from its repeat alone.

use std::path::PathBuf;

use crate::words::counted;
use clap::Args;
use quiltpath_core::Error;
use quiltpath_core::chain::{Ends, Repeat};
use quiltpath_core::corner::{
    BendOptions, BendRadius, DerivedCorner, ExtraLoops, MitreOptions, bent_corner, mitred_corner,
};
use quiltpath_core::units::{Length, Unit};

use crate::args::{
    ENDS, EXTRAS, MADE, MadeStyle, Reading, Writing, choice, degrees, from_0_in_unit,
    positive_in_unit, whole,
};
use crate::drawing::{for_band, open, report_strokes};
use crate::failure::Failure;
use crate::files::label;
use crate::message;
use crate::output::point_list;

/// Make a corner from a border's own repeat, mitred or bent
#[derive(Args)]
#[command(
    override_usage = "quiltpath corner [OPTIONS] --style <STYLE> --depth <LENGTH> \\\n                        --out <FILE> <REPEAT>",
    after_help = "\
The outer point of the elbow is at 0, 0. The line comes in on the leg that
points down (at 90 degrees) and goes out on the leg that points right.

Example: quiltpath corner border.svg --style bent --depth \"5 1/4 in\" \\
         --out corner.svg"
)]
pub(crate) struct CornerArgs {
    /// Motif to repeat, drawn left to right, outside up; - for stdin
    #[arg(value_name = "REPEAT")]
    repeat: PathBuf,
    /// mitred (cut on the diagonal) or bent (on an arc)
    #[arg(long, hide_possible_values = true, value_parser = choice(MADE))]
    style: MadeStyle,
    /// Depth of the band
    #[arg(long, value_name = "LENGTH")]
    depth: Length,
    /// Whole repeats on each leg [default: 0]
    #[arg(long, value_name = "N", value_parser = whole, default_value_t = 0, hide_default_value = true)]
    legs: usize,
    /// Inner angle in degrees, 45 to 150 [default: 90]
    #[arg(
        long,
        value_name = "DEGREES",
        value_parser = degrees,
        default_value_t = 90.0,
        hide_default_value = true
    )]
    angle: f64,
    /// mitred: round off the turn over this length
    #[arg(long, value_name = "LENGTH")]
    smooth_turn: Option<Length>,
    /// mitred: link or drop loops beyond the diagonal [default: link]
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(EXTRAS))]
    extra: Option<ExtraLoops>,
    /// bent: radius of the band's middle [default: lengths change by 33 %]
    #[arg(long, value_name = "LENGTH")]
    radius: Option<Length>,
    /// level or link uneven ends [default: level]
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(ENDS))]
    ends: Option<Ends>,
    #[command(flatten)]
    reading: Reading,
    #[command(flatten)]
    writing: Writing,
}

pub(crate) fn run(args: CornerArgs) -> Result<(), Failure> {
    let only = |option: &str, given: bool, style: MadeStyle, word: &str| {
        if given && args.style != style {
            return Err(Failure::Usage(format!(
                "{option}: only {word} corners use it; leave it out, or give --style {word}"
            )));
        }
        Ok(())
    };
    only(
        "--smooth-turn",
        args.smooth_turn.is_some(),
        MadeStyle::Mitred,
        "mitred",
    )?;
    only("--extra", args.extra.is_some(), MadeStyle::Mitred, "mitred")?;
    only("--radius", args.radius.is_some(), MadeStyle::Bent, "bent")?;
    let options = args.reading.check()?;
    let depth_mm = positive_in_unit(&args.depth, options.unit, Unit::Mm, "--depth")?;
    let target = args.writing.check(options.unit)?;

    let drawing = open(&args.repeat, &options)?;
    let unit = drawing.unit();
    let in_file = |e: Error| e.measured_in(unit).in_file(label(&args.repeat));
    let reading = for_band(&drawing, depth_mm, &options);
    let joined = drawing.motif(unit, &reading).map_err(in_file)?;
    report_strokes(None, &joined.report, unit);
    let motif = joined.motif;
    let repeat = Repeat::new(&motif).map_err(in_file)?;
    let depth = positive_in_unit(&args.depth, options.unit, unit, "--depth")?;
    let ends = args.ends.unwrap_or_default();
    let [flattening, join_tolerance] = options.on_cloth(unit);
    let readable = |length: f64| unit.readable(length * unit.in_mm());
    let corner = match args.style {
        MadeStyle::Mitred => {
            let smooth = match &args.smooth_turn {
                Some(typed) => from_0_in_unit(typed, options.unit, unit, "--smooth-turn")?,
                None => 0.0,
            };
            let mitre = MitreOptions::default()
                .with_legs(args.legs)
                .with_smooth(smooth)
                .with_extra(args.extra.unwrap_or_default())
                .with_ends(ends)
                .with_join_tolerance(join_tolerance)
                .with_flattening(flattening);
            let mitred = mitred_corner(&repeat, depth, args.angle, &mitre).map_err(in_file)?;
            message::heading(format_args!(
                "the line meets the diagonal {} and turns there by {:.1} degrees",
                counted(mitred.crossings, "time"),
                mitred.kink_degrees
            ));
            for (what, length) in [
                ("linked along the diagonal", mitred.linked_length),
                ("dropped beyond it", mitred.lost_length),
            ] {
                if length > 0.0 {
                    message::line(format_args!("  {what}: {}", readable(length)));
                }
            }
            report_smoothing(smooth, mitred.smoothed_length, &readable);
            mitred.corner
        }
        MadeStyle::Bent => {
            let radius = match &args.radius {
                Some(typed) => {
                    BendRadius::Given(positive_in_unit(typed, options.unit, unit, "--radius")?)
                }
                None => BendRadius::default(),
            };
            let bend = BendOptions::default()
                .with_radius(radius)
                .with_legs(args.legs)
                .with_ends(ends)
                .with_join_tolerance(join_tolerance)
                .with_flattening(flattening);
            let bent = bent_corner(&repeat, depth, args.angle, &bend).map_err(in_file)?;
            message::heading(format_args!(
                "{} round a radius of {}, {} deep there; lengths change by up to {:.0} %",
                counted(bent.repeats, "repeat"),
                readable(bent.radius),
                readable(bent.arc_depth),
                bent.length_change * 100.0
            ));
            bent.corner
        }
    };
    report_ends(&corner, unit);
    target.write(&point_list(unit, &[corner.motif]))
}

/// Prints over how much of the line the turn is rounded off, and what keeps it from more.
fn report_smoothing(asked: f64, done: f64, readable: &dyn Fn(f64) -> String) {
    // Rounding alone is not worth a word.
    if done >= asked * (1.0 - 1e-9) {
        if asked > 0.0 {
            let done = readable(done);
            message::line(format_args!("  rounded off over {done} on each leg"));
        }
    } else if done > 0.0 {
        message::note(format_args!(
            "the turn is rounded off over {} on each leg, not over {}: there is no room in the band, or no line, for more",
            readable(done),
            readable(asked)
        ));
    } else {
        message::note("the turn is not rounded off: there is no room for it in the band");
    }
}

fn report_ends(corner: &DerivedCorner, unit: Unit) {
    let readable = |length: f64| unit.readable(length * unit.in_mm());
    let at = |point: quiltpath_core::geom::Point| {
        format!("{}, {}", readable(point.x), readable(point.y))
    };
    message::line(format_args!(
        "  from {} to {}, {} of line",
        at(corner.motif.start().point),
        at(corner.motif.end().point),
        unit.readable_line(corner.motif.length() * unit.in_mm())
    ));
}
