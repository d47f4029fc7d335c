//! `rank`: which of many drawings fits a plan, or one span, with the least stretch.

mod table;

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::Error;
use quiltpath_core::chain::Repeat;
use quiltpath_core::fit::{Count, SpanFit, fit_span};
use quiltpath_core::io::drawing::ReadOptions;
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::Ranker;
use quiltpath_core::units::{Length, Unit};

use crate::args::Reading;
use crate::batch::{Input, Lines, Many, Record, Sink, Threads, each};
use crate::failure::Failure;
use crate::files::print;
use crate::lengths::positive_in_unit;
use crate::numbers::counting;
use crate::source::Source;
use table::{as_json, as_text};

/// List drawings by how little they would have to be stretched
#[derive(Args)]
#[command(
    override_usage = "\
quiltpath rank [OPTIONS] --plan <PLAN.json> <DRAWINGS>
       quiltpath rank [OPTIONS] --span <LENGTH> --depth <LENGTH> <DRAWINGS>",
    after_help = "\
The best comes first. A drawing that can't be read or chained is told and left
out, and the exit code is 1.

Example: quiltpath rank borders --plan quilt.json"
)]
pub(crate) struct RankArgs {
    /// Folder of border drawings, or JSON Lines; - for stdin
    #[arg(value_name = "DRAWINGS")]
    drawings: PathBuf,
    /// Plan whose sides they have to fill
    #[arg(long, value_name = "PLAN.json", required_unless_present_all = ["span", "depth"], conflicts_with_all = ["span", "depth", "unit"])]
    plan: Option<PathBuf>,
    /// Or the one length to fill along a band
    #[arg(long, value_name = "LENGTH", requires = "depth")]
    span: Option<Length>,
    /// Depth of that band
    #[arg(long, value_name = "LENGTH", requires = "span")]
    depth: Option<Length>,
    /// How many to list [default: all]
    #[arg(long, value_name = "N", value_parser = counting)]
    top: Option<usize>,
    /// Print JSON: one object a line for each drawing
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    threads: Threads,
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
    /// The line of JSON Lines.
    line: Option<u64>,
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
    let threads = args.threads.check()?;
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
    let (records, count) = Input::open(&args.drawings, Lines::Asked)?.records();
    let many = Many {
        records,
        count,
        data_on_stdout: false,
    };
    let mut best = Best {
        ranks: Vec::new(),
        top: args.top.unwrap_or(usize::MAX),
    };
    let job = |record: &Record| room.rate(record, &options);
    let tally = each(many, threads, job, &mut best)?;
    let ranks = best.sorted();
    if ranks.is_empty() && tally.bad > 0 {
        return tally.result();
    }
    let text = if args.json {
        as_json(&ranks)
    } else {
        as_text(&ranks)
    };
    print(text.as_bytes())?;
    tally.result()
}

/// The best so far: no more than twice as many as are asked for, and a few.
struct Best {
    ranks: Vec<Rank>,
    top: usize,
}

impl Best {
    fn sorted(mut self) -> Vec<Rank> {
        self.tidy();
        self.ranks
    }

    fn tidy(&mut self) {
        self.ranks.sort_by(|a, b| {
            let cost = |rank: &Rank| rank.stretch.ln().abs();
            let costs = cost(a).total_cmp(&cost(b));
            costs.then_with(|| (&a.name, a.line).cmp(&(&b.name, b.line)))
        });
        self.ranks.truncate(self.top);
    }
}

impl Sink<Vec<Rank>> for Best {
    fn take(&mut self, ranks: Vec<Rank>) -> Result<(), Failure> {
        const A_FEW: usize = 1000;
        self.ranks.extend(ranks);
        if self.ranks.len() > self.top.saturating_mul(2).saturating_add(A_FEW) {
            self.tidy();
        }
        Ok(())
    }
}

impl Room {
    /// Rates a drawing: its one motif, or each of JSON Lines.
    fn rate(&self, record: &Record, options: &ReadOptions) -> Result<Vec<Rank>, Failure> {
        let motifs = record.open(options)?.answer_in(Unit::Mm).motifs(options)?;
        let one_file = record.line().is_none() && motifs.len() == 1;
        let ranks = motifs.into_iter().map(|motif| {
            let name = match one_file {
                true => record.file(),
                false => motif.name().to_owned(),
            };
            let (stretch, sides) = self.stretch(&motif)?;
            Ok(Rank {
                name,
                line: record.line(),
                stretch,
                sides,
            })
        });
        ranks.collect()
    }

    /// The stretch farthest from 1, and that of each side, of a motif in millimetres.
    fn stretch(&self, motif: &Motif) -> Result<(f64, Vec<RankedSide>), Error> {
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
                let pitch = Repeat::new(motif)?.pitch(*depth_mm);
                let fit = fit_span(*span_mm, pitch, &Count::default())?;
                Ok((fit.chosen.stretch, vec![RankedSide { place: None, fit }]))
            }
        }
    }
}
