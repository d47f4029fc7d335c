//! `rank`: which of many drawings fits a plan, or one span, with the least stretch.

mod table;
mod work;

use std::path::{Path, PathBuf};

use clap::Args;
use quiltpath_core::Error;
use quiltpath_core::chain::Repeat;
use quiltpath_core::fit::{Count, SpanFit, fit_span};
use quiltpath_core::io::drawing::ReadOptions;
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::Ranker;
use quiltpath_core::units::{Typed, Unit};

use crate::args::Reading;
use crate::drawing;
use crate::failure::Failure;
use crate::files::{label, print, read_folder};
use crate::lengths::positive_in_unit;
use crate::source::Source;
use table::{as_json, as_text};
use work::on_all_cores;

/// List drawings by how little they would have to be stretched
#[derive(Args)]
#[command(
    override_usage = "quiltpath rank [OPTIONS] <FOLDER>",
    after_help = "\
The best comes first. A drawing that can't be read or chained is reported and
passed over; all cores are used.

Example: quiltpath rank borders --plan quilt.json"
)]
pub(crate) struct RankArgs {
    /// Folder of border drawings (SVG or JSON)
    #[arg(value_name = "FOLDER")]
    folder: PathBuf,
    /// Plan whose sides they have to fill
    #[arg(long, value_name = "PLAN.json", required_unless_present_all = ["span", "depth"], conflicts_with_all = ["span", "depth", "unit"])]
    plan: Option<PathBuf>,
    /// Or the one length to fill along a band
    #[arg(long, value_name = "LENGTH", requires = "depth")]
    span: Option<Typed>,
    /// Depth of that band
    #[arg(long, value_name = "LENGTH", requires = "span")]
    depth: Option<Typed>,
    /// How many to list [default: all]
    #[arg(long, value_name = "N")]
    top: Option<usize>,
    /// Use this many threads [default: one for each core]
    #[arg(long, value_name = "N")]
    threads: Option<usize>,
    /// Print JSON: one object a line for each drawing
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    reading: Reading,
}

/// What the drawings have to fill.
enum Room {
    Plan(Box<Ranker>),
    Span { span_mm: f64, depth_mm: f64 },
}

/// How one drawing would fill it.
struct Rank {
    name: String,
    /// The stretch farthest from 1.
    stretch: f64,
    sides: Vec<RankedSide>,
}

struct RankedSide {
    /// The border and the side, or none for a span.
    place: Option<(usize, &'static str)>,
    fit: SpanFit,
}

pub(crate) fn run(args: RankArgs) -> Result<(), Failure> {
    let mut options = args.reading.check()?;
    if args.threads == Some(0) {
        return Err(Failure::Usage("--threads: give 1 or more".to_owned()));
    }
    let room = match (&args.plan, &args.span, &args.depth) {
        (Some(plan), ..) => {
            let ranker = Source::open(plan)?.ranker()?;
            options.flattening_mm = ranker.tolerances().flattening;
            options.join_mm = ranker.tolerances().join;
            Room::Plan(Box::new(ranker))
        }
        (None, Some(span), Some(depth)) => {
            let mm = |typed, option| positive_in_unit(typed, options.unit, Unit::Mm, option);
            Room::Span {
                span_mm: mm(span, "--span")?,
                depth_mm: mm(depth, "--depth")?,
            }
        }
        _ => {
            return Err(Failure::Usage(
                "give --plan, or --span and --depth".to_owned(),
            ));
        }
    };
    let files = read_folder(&args.folder, &["svg", "json"])?;
    if files.is_empty() {
        return Err(Failure::File(format!(
            "{}: holds no drawing; give a folder with .svg or .json files",
            label(&args.folder)
        )));
    }
    let rate = |path: &Path| room.rate(path, &options);
    let mut ranks: Vec<Rank> = on_all_cores(&files, args.threads, rate);
    if ranks.is_empty() {
        return Err(Failure::Reported);
    }
    ranks.sort_by(|a, b| {
        let cost = |rank: &Rank| rank.stretch.ln().abs();
        cost(a)
            .total_cmp(&cost(b))
            .then_with(|| a.name.cmp(&b.name))
    });
    ranks.truncate(args.top.unwrap_or(usize::MAX));
    let text = if args.json {
        as_json(&ranks)
    } else {
        as_text(&ranks)
    };
    print(text.as_bytes())
}

impl Room {
    fn rate(&self, path: &Path, options: &ReadOptions) -> Result<Rank, Failure> {
        let drawing = drawing::open(path, options)?;
        let rate = |motif: &Motif| -> Result<(f64, Vec<RankedSide>), Error> {
            match self {
                Self::Plan(ranker) => {
                    let rating = ranker.rate(motif)?;
                    let sides = rating.sides.iter().map(|side| RankedSide {
                        place: Some((side.border, side.side.name())),
                        fit: side.fit,
                    });
                    Ok((rating.worst_stretch, sides.collect()))
                }
                Self::Span { span_mm, depth_mm } => {
                    let advance = Repeat::new(motif)?.advance(*depth_mm);
                    let fit = fit_span(*span_mm, advance, &Count::default())?;
                    Ok((fit.chosen.stretch, vec![RankedSide { place: None, fit }]))
                }
            }
        };
        let rated = drawing
            .motif(Unit::Mm, options)
            .and_then(|joined| rate(&joined.motif));
        let (stretch, sides) = rated.map_err(|e| e.in_file(label(path)))?;
        Ok(Rank {
            name: label(path),
            stretch,
            sides,
        })
    }
}
