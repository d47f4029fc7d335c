//! `rank`: which of many drawings fits a plan, or one span, with the least stretch.

mod rating;
mod table;

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::units::{Length, Unit};

use self::rating::{Rank, Room};
use self::table::{as_json, as_text};
use crate::args::{Reading, Threads, counting, positive_in_unit};
use crate::batch::{Input, Lines, Many, Record, Sink, each};
use crate::failure::Failure;
use crate::files::print;
use crate::hint::Asker;
use crate::source::Source;

/// Rank drawings by how little stretch they need
#[derive(Args)]
#[command(
    override_usage = "\
quiltpath rank [OPTIONS] --plan <PLAN.json> <DRAWINGS>
       quiltpath rank [OPTIONS] --span <LENGTH> --depth <LENGTH> <DRAWINGS>",
    after_help = "\
The best comes first. Corner drawings, which are no border repeats, come last,
with the reason. Drawings that can't be read or chained are reported and left
out, and the exit code is 1.

Example: quiltpath rank borders --plan quilt.json"
)]
pub(crate) struct RankArgs {
    /// Folder of border drawings, or JSON Lines; - for stdin
    #[arg(value_name = "DRAWINGS")]
    drawings: PathBuf,
    /// Plan whose sides they are to fill
    #[arg(long, value_name = "PLAN.json", required_unless_present_any = ["span", "depth"], conflicts_with_all = ["span", "depth", "unit", "flattening", "join"])]
    plan: Option<PathBuf>,
    /// Or a length to fill, along one band
    #[arg(long, value_name = "LENGTH", requires = "depth")]
    span: Option<Length>,
    /// Depth of that band
    #[arg(long, value_name = "LENGTH", requires = "span")]
    depth: Option<Length>,
    /// How many to list [default: all]
    #[arg(long, value_name = "N", value_parser = counting)]
    top: Option<usize>,
    /// Print JSON, a line for each drawing
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    threads: Threads,
    #[command(flatten)]
    reading: Reading,
}

impl RankArgs {
    pub(crate) fn asker(&self) -> Asker {
        Asker::Rank {
            plan: self.plan.is_some(),
        }
    }
}

pub(crate) fn run(args: RankArgs) -> Result<(), Failure> {
    let asker = args.asker();
    let mut options = args.reading.check()?;
    let threads = args.threads.check()?;
    let room = match (&args.plan, &args.span, &args.depth) {
        (Some(plan), ..) => {
            let source = Source::open(plan)?;
            let ranker = source.ranker()?;
            options.unit = Some(Unit::from(source.spec.unit));
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
        asker,
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
            // Rounding must not decide; a billionth is far below what shows.
            let cost = |rank: &Rank| (rank.stretch.ln().abs() * 1e9).round();
            let can = a.why_not.is_some().cmp(&b.why_not.is_some());
            let costs = can.then(cost(a).total_cmp(&cost(b)));
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

#[cfg(test)]
mod tests {
    use super::*;

    fn names(ranks: [(&str, f64, Option<&'static str>); 4]) -> Vec<String> {
        let ranks = ranks.map(|(name, stretch, why_not)| Rank {
            name: name.to_owned(),
            line: None,
            stretch,
            why_not,
            sides: Vec::new(),
        });
        let best = Best {
            ranks: ranks.into(),
            top: usize::MAX,
        };
        best.sorted().into_iter().map(|rank| rank.name).collect()
    }

    #[test]
    fn rounding_does_not_decide_and_corners_come_last() {
        let ranked = names([
            ("a-corner", 1.0, Some("an L")),
            ("d", 1.0, None),
            ("c", 0.999_999_999_999_999_9, None),
            ("b", 1.000_001, None),
        ]);
        assert_eq!(ranked, ["c", "d", "b", "a-corner"]);
    }
}
