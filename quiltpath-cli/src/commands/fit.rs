//! `fit`: one motif, one span: a whole number of repeats chained to fill it.

use std::path::PathBuf;

use crate::words::{counted, percent};
use clap::Args;
use quiltpath_core::Error;
use quiltpath_core::chain::{
    Alternate, Chain, ChainOptions, Ends, Repeat, Terminal, chain_repeats,
};
use quiltpath_core::fit::{
    Choice, Count, Ease, EaseLimits, EaseReport, Parity, SpanFit, Stiffness, fit_span,
};
use quiltpath_core::io::drawing::ReadOptions;
use quiltpath_core::io::words::ease_limited;
use quiltpath_core::motif::Motif;
use quiltpath_core::units::{Length, Unit};
use quiltpath_core::warp::Strip;

use crate::args::{ALTERNATES, ENDS, InOut, PARITIES, choice, counting, positive_in_unit};
use crate::batch::draw;
use crate::drawing::{for_band, report_strokes};
use crate::failure::Failure;
use crate::hint::Asker;
use crate::message;
use crate::output::point_list;

/// Fill a span with whole repeats of a motif, chained into one line
#[derive(Args)]
#[command(
    override_usage = "quiltpath fit [OPTIONS] --span <LENGTH> --depth <LENGTH> \\\n                     --out <FILE> <MOTIF>",
    after_help = "\
The line starts at x = 0 and ends at x = span; the band's outer line is y = 0.
A folder needs --format, and a folder for --out.

Example: quiltpath fit border.svg --span \"51 1/2 in\" --depth \"5 1/4 in\" \\
         --out side.svg"
)]
pub(crate) struct FitArgs {
    /// Motif (drawn left to right, outside up) or folder, - for stdin
    #[arg(value_name = "MOTIF")]
    motif: PathBuf,
    /// Length of the band to fill
    #[arg(long, value_name = "LENGTH")]
    span: Length,
    /// Depth of the band
    #[arg(long, value_name = "LENGTH")]
    depth: Length,
    /// Use a multiple of N repeats
    #[arg(long, value_name = "N", value_parser = counting)]
    every: Option<usize>,
    /// Use an even or odd number of repeats
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(PARITIES))]
    parity: Option<Parity>,
    /// Use exactly N repeats
    #[arg(long, value_name = "N", value_parser = counting, conflicts_with_all = ["every", "parity"])]
    repeats: Option<usize>,
    /// Mirror repeats: left-right, top-bottom or centred
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(ALTERNATES))]
    alternate: Option<Alternate>,
    /// Stretch stems, so that loops stay round
    #[arg(long)]
    ease: bool,
    /// level or link uneven ends [default: level]
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(ENDS))]
    ends: Option<Ends>,
    #[command(flatten)]
    in_out: InOut,
}

pub(crate) fn run(args: FitArgs) -> Result<(), Failure> {
    let ways = args.in_out.check()?;
    let options = ways.reading.clone();
    let length = |typed, option| positive_in_unit(typed, options.unit, Unit::Mm, option);
    length(&args.span, "--span")?;
    length(&args.depth, "--depth")?;
    let alternate = args.alternate.unwrap_or_default();
    let asked = Asked {
        span: args.span,
        depth: args.depth,
        count: Count::default()
            .with_every(args.every.unwrap_or(1))
            .with_parity(args.parity.unwrap_or_default())
            .with_fixed(args.repeats),
        alternate,
        ease: args.ease,
        ends: args.ends.unwrap_or_default(),
    };
    let fill = |motif: Motif, unit, place: Option<&str>| {
        let filled = asked.fill(&motif, unit, &options)?;
        filled.report(unit, place);
        Ok(filled.chain.motif)
    };
    draw(Asker::Fit, &args.motif, ways, |drawing, place| {
        let unit = drawing.unit();
        let depth = positive_in_unit(&asked.depth, options.unit, Unit::Mm, "--depth")?;
        let reading = for_band(&drawing, depth, &options);
        let motifs = drawing.motifs(&reading)?.into_iter();
        let lines = motifs.map(|joined| {
            report_strokes(place, &joined.report, unit);
            fill(joined.motif, unit, place)
        });
        let lines: Result<Vec<_>, Failure> = lines.collect();
        Ok(point_list(unit, &lines?))
    })
}

/// What a motif has to fill, and how.
struct Asked {
    span: Length,
    depth: Length,
    count: Count,
    alternate: Alternate,
    ease: bool,
    ends: Ends,
}

/// A span filled.
struct Filled {
    fit: SpanFit,
    chain: Chain,
    eased: Option<EaseReport>,
    span: f64,
}

impl Asked {
    /// Fills the span with a motif in this unit.
    fn fill(&self, motif: &Motif, unit: Unit, options: &ReadOptions) -> Result<Filled, Failure> {
        let length = |typed, option| positive_in_unit(typed, options.unit, unit, option);
        let span = length(&self.span, "--span")?;
        let depth = length(&self.depth, "--depth")?;
        let count = self.alternate.count(self.count)?;
        let mut repeat = Repeat::new(motif)?;
        let fit = fit_span(span, repeat.pitch(depth), &count)?;
        let [flattening, join] = options.on_cloth(unit);
        let mut eased = None;
        if self.ease {
            let ease = ease(&repeat, fit.chosen.stretch)?;
            repeat = repeat.eased(&ease, flattening / depth);
            eased = Some(*ease.report());
        }
        let chain = chain(
            &repeat,
            [span, depth],
            &ChainOptions::new(fit.chosen.repeats)
                .with_alternate(self.alternate)
                .with_ends(self.ends)
                .with_join_tolerance(join)
                .with_flattening(flattening),
        )?;
        Ok(Filled {
            fit,
            chain,
            eased,
            span,
        })
    }
}

/// The repeats in a band from x = 0 to the span, its outer line at y = 0.
fn chain(repeat: &Repeat, [span, depth]: [f64; 2], options: &ChainOptions) -> Result<Chain, Error> {
    let strip = Strip::level(depth)?;
    chain_repeats(repeat, &strip, [0.0, span].map(Terminal::new), options)
}

/// The map that puts the stretch of a repeat into its stems.
fn ease(repeat: &Repeat, stretch: f64) -> Result<Ease, Error> {
    let stiffness = Stiffness::of(repeat.points(), repeat.pitch(1.0))?;
    Ease::new(&stiffness, stretch, &EaseLimits::default())
}

impl Filled {
    /// Prints the numbers and what is to be looked at; of one among many only the latter.
    fn report(&self, unit: Unit, place: Option<&str>) {
        let readable = |length: f64| unit.readable(length * unit.in_mm());
        let words = |choice: &Choice| {
            format!(
                "{} of {}, stretched by {}",
                counted(choice.repeats, "repeat"),
                readable(self.span / choice.repeats as f64),
                percent(choice.stretch)
            )
        };
        if place.is_none() {
            message::heading(words(&self.fit.chosen));
            for (word, other) in [("fewer", &self.fit.fewer), ("more", &self.fit.more)] {
                if let Some(other) = other {
                    message::line(format_args!("  {word}: {}", words(other)));
                }
            }
            if let Some(loops) = self.eased.and_then(|report| report.loops) {
                let loops = percent(loops);
                message::line(format_args!("  eased: loops stretched by {loops}"));
            }
        }
        let place = place.map(|place| format!("{place}: ")).unwrap_or_default();
        if let Some(limited) = self.eased.as_ref().and_then(ease_limited) {
            message::note(format_args!("{place}{limited}"));
        }
        let Chain {
            levelled, links, ..
        } = self.chain;
        if levelled > 0.0 && readable(levelled) != readable(0.0) {
            message::note(format_args!(
                "{place}the repeat ends at another height than it starts, so repeats are sheared by up to {} to meet",
                readable(levelled)
            ));
        }
        if links > 0 {
            message::note(format_args!(
                "{place}{} stitched between repeats",
                counted(links, "straight link")
            ));
        }
    }
}
