//! `trim`: a drawing cut to a shape and joined again to one line.

mod cut;

use std::path::PathBuf;

use crate::words::counted;
use clap::Args;
use quiltpath_core::Error;
use quiltpath_core::geom::region::{Perimeter, Region};
use quiltpath_core::motif::Motif;
use quiltpath_core::strokes::DEFAULT_JOIN_MM;
use quiltpath_core::trim::{
    Exactness, JoinOrder, RouteOptions, TrimOptions, TrimReport, trim_to_region,
};
use quiltpath_core::units::{Length, Unit};

use crate::args::{ORDERS, Reading, Writing, choice, from_0_in_unit};
use crate::drawing;
use crate::failure::Failure;
use crate::files::label;
use crate::hint::Asker;
use crate::message;
use crate::output::point_list;
use cut::{Cut, ShapeArgs};

/// Cut a drawing to an L or another shape and rejoin it into one line
#[derive(Args)]
#[command(
    override_usage = "quiltpath trim [OPTIONS] --to <SHAPE> --out <FILE> <DRAWING>",
    after_help = "\
Bare numbers are in the drawing's unit.
Example: quiltpath trim block.svg --to l --leg-depth 4.5 --out corner.svg"
)]
pub(crate) struct TrimArgs {
    /// Drawing to cut (SVG, DXF, JSON, PNG, JPEG), - for stdin
    #[arg(value_name = "DRAWING")]
    drawing: PathBuf,
    #[command(flatten)]
    shape: ShapeArgs,
    /// Order of pieces: free, reverse, keep [default: free]
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(ORDERS))]
    order: Option<JoinOrder>,
    /// Never stitch a line twice
    #[arg(long)]
    no_restitch: bool,
    /// Cut the thread instead of making a longer link
    #[arg(long, value_name = "LENGTH")]
    max_link: Option<Length>,
    /// How far inside the edge links run [default: 0]
    #[arg(long, value_name = "LENGTH")]
    inset: Option<Length>,
    #[command(flatten)]
    reading: Reading,
    #[command(flatten)]
    writing: Writing,
}

impl TrimArgs {
    pub(crate) fn asker(&self) -> Asker {
        Asker::Trim {
            polygon: self.shape.is_polygon(),
        }
    }
}

pub(crate) fn run(args: TrimArgs) -> Result<(), Failure> {
    let mut reading = args.reading.check()?;
    args.shape.check_use()?;
    let drawing = drawing::open(&args.drawing, &reading)?;
    let unit = drawing.unit();
    // What is cut is measured on the drawing, so bare numbers are in its unit.
    reading.unit = Some(unit);
    let target = args.writing.check(reading.unit)?;
    let in_file = |e: Error| e.measured_in(unit).in_file(label(&args.drawing));
    let joined = drawing.motif(unit, &reading).map_err(in_file)?;
    drawing::report_strokes(None, &joined.report, unit);
    let motif = joined.motif;
    let cut = Cut::new(&args.shape, &motif, unit, &reading);
    let cut = cut.map_err(|failure| failure.measured_in(unit))?;
    let length = |typed: &Option<Length>, option: &str| {
        let read = |typed| from_0_in_unit(typed, reading.unit, unit, option);
        typed.as_ref().map(read).transpose()
    };
    let mm = unit.in_mm();
    let route = RouteOptions::default()
        .with_order(args.order.unwrap_or_default())
        .with_terminals(cut.terminals)
        .with_restitch(!args.no_restitch)
        .with_max_link(length(&args.max_link, "--max-link")?)
        .with_inset(length(&args.inset, "--inset")?.unwrap_or(0.0));
    let options = TrimOptions::default();
    let options = options.with_sliver(options.sliver / mm).with_route(route);
    let trimmed = trim_to_region(&motif, &cut.region, &options).map_err(in_file)?;
    report(&trimmed.report, trimmed.motifs.len(), unit);
    missed(&trimmed.motifs, &cut.region, &route, unit);
    target.write(&point_list(unit, &trimmed.motifs))
}

fn report(report: &TrimReport, paths: usize, unit: Unit) {
    let readable = |length: f64| unit.readable(length * unit.in_mm());
    let line = |length: f64| unit.readable_line(length * unit.in_mm());
    // Next to no line at all has no share.
    let percent = Some(report.share() * 100.0).filter(|percent| *percent < 1e6);
    let share = percent.map_or_else(String::new, |percent| format!(" ({percent:.1} %)"));
    message::heading(format_args!(
        "{} of line, {} added{share} by {}, {}",
        line(report.own_length),
        line(report.added_length),
        counted(report.links, "link"),
        counted(paths, "path")
    ));
    if report.restitched_length > 0.0 {
        let over = readable(report.restitched_length);
        message::line(format_args!("  stitched over a second time: {over}"));
    }
    if report.slivers > 0 {
        message::line(format_args!(
            "  dropped: {} of {} in all",
            counted(report.slivers, "sliver"),
            readable(report.lost_length)
        ));
    }
    match (report.least_added(), report.exactness) {
        (None, _) => {}
        (_, Exactness::Exact) => message::line("  no way of joining in this order adds less"),
        (Some(least), _) => message::line(format_args!(
            "  no way of joining in this order adds less than {}",
            readable(least)
        )),
    }
}

/// Reports where the line doesn't start or end on the leg's end as it should, and what keeps it
/// away.
fn missed(motifs: &[Motif], region: &Region, route: &RouteOptions, unit: Unit) {
    let (Some(first), Some(last)) = (motifs.first(), motifs.last()) else {
        return;
    };
    // With an inset links run inside the boundary, and so do the ends.
    let room = route.inset * unit.in_mm() + DEFAULT_JOIN_MM;
    let boundary = Perimeter::of(region);
    let ends = [
        ("start", route.terminals.start, first.start().point),
        ("end", route.terminals.end, last.end().point),
    ];
    for (what, asked, found) in ends {
        let off = asked.map_or(0.0, |asked| (boundary.point_at(asked) - found).norm());
        let off = off * unit.in_mm();
        if off > room {
            let helps = match route.max_link {
                Some(_) => "give a longer --max-link",
                None => "leave --no-restitch out, or give --free-ends",
            };
            message::warning(format_args!(
                "the line doesn't {what} on its leg's end: it is {} away; {helps}",
                unit.readable(off)
            ));
        }
    }
}
