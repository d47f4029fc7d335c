//! `fit`: one motif, one span: a whole number of repeats chained to fill it.

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::Error;
use quiltpath_core::chain::{Alternate, Chain, ChainOptions, Repeat, Terminal, chain_repeats};
use quiltpath_core::fit::{
    Choice, Count, Ease, EaseLimits, EaseReport, SpanFit, Stiffness, fit_span,
};
use quiltpath_core::geom::{Point, Vector};
use quiltpath_core::plan::findings::{counted, ease_limited, percent};
use quiltpath_core::plan::spec::{AlternateSpec, EndsSpec, ParitySpec};
use quiltpath_core::units::{Typed, Unit};
use quiltpath_core::warp::Strip;

use super::convert::point_list;
use crate::args::{Reading, Writing};
use crate::choices::{ALTERNATES, ENDS, PARITIES, choice};
use crate::drawing;
use crate::failure::Failure;
use crate::files::label;
use crate::lengths::positive_in_unit;
use crate::message;

/// Fill a span with whole repeats of a motif, chained to one line
#[derive(Args)]
#[command(
    override_usage = "quiltpath fit [OPTIONS] --span <LENGTH> --depth <LENGTH> <MOTIF>",
    after_help = "\
The line starts at x = 0 and ends at x = span; the band's outer line is y = 0.

Example: quiltpath fit border.svg --span \"51 1/2 in\" --depth \"5 1/4 in\" \\
         --out side.svg"
)]
pub(crate) struct FitArgs {
    /// Motif to repeat, drawn left to right with the outside up, - for stdin
    #[arg(value_name = "MOTIF")]
    motif: PathBuf,
    /// Length to fill along the band
    #[arg(long, value_name = "LENGTH")]
    span: Typed,
    /// Depth of the band
    #[arg(long, value_name = "LENGTH")]
    depth: Typed,
    /// Repeats have to be a multiple of this
    #[arg(long, value_name = "N")]
    every: Option<usize>,
    /// Repeats have to be even or odd
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(PARITIES))]
    parity: Option<ParitySpec>,
    /// Exactly this many repeats
    #[arg(long, value_name = "N", conflicts_with_all = ["every", "parity"])]
    repeats: Option<usize>,
    /// Mirrored repeats: left-right, top-bottom or centred
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(ALTERNATES))]
    alternate: Option<AlternateSpec>,
    /// Put stretch into stems, so that loops stay round
    #[arg(long)]
    ease: bool,
    /// Uneven ends: level or link [default: level]
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(ENDS))]
    ends: Option<EndsSpec>,
    #[command(flatten)]
    reading: Reading,
    #[command(flatten)]
    writing: Writing,
}

pub(crate) fn run(args: FitArgs) -> Result<(), Failure> {
    let options = args.reading.check()?;
    let length = |typed, unit, option| positive_in_unit(typed, options.unit, unit, option);
    length(&args.span, Unit::Mm, "--span")?;
    length(&args.depth, Unit::Mm, "--depth")?;
    let target = args.writing.check(options.unit)?;

    let drawing = drawing::open(&args.motif, &options)?;
    let unit = drawing.unit();
    let in_file = |e: Error| e.in_file(label(&args.motif));
    let motif = drawing.motif(unit, &options).map_err(in_file)?.motif;
    let span = length(&args.span, unit, "--span")?;
    let depth = length(&args.depth, unit, "--depth")?;
    let alternate = args.alternate.map_or(Alternate::None, Into::into);
    let count = alternate
        .count(Count {
            every: args.every.unwrap_or(1),
            parity: args.parity.map_or_else(Default::default, Into::into),
            fixed: args.repeats,
        })
        .map_err(in_file)?;
    let mut repeat = Repeat::new(&motif).map_err(in_file)?;
    let fit = fit_span(span, repeat.advance(depth), &count).map_err(in_file)?;
    let flattening = options.flattening_mm / unit.in_mm();
    let mut eased = None;
    if args.ease {
        let stretch = fit.chosen.stretch;
        let ease = ease(&repeat, stretch).map_err(in_file)?;
        repeat = repeat.eased(&ease, flattening / depth);
        eased = Some(*ease.report());
    }
    let chain = chain(
        &repeat,
        [span, depth],
        &ChainOptions {
            repeats: fit.chosen.repeats,
            alternate,
            ends: args.ends.map_or_else(Default::default, Into::into),
            join_tolerance: options.join_mm / unit.in_mm(),
            flattening,
        },
    )
    .map_err(in_file)?;
    summary(&fit, &chain, eased.as_ref(), span, unit);
    target.write(&point_list(unit, vec![chain.motif]))
}

/// The repeats in a band from x = 0 to the span, its outer line at y = 0.
fn chain(repeat: &Repeat, [span, depth]: [f64; 2], options: &ChainOptions) -> Result<Chain, Error> {
    let strip = Strip::new(
        Point::new(0.0, depth),
        Vector::new(1.0, 0.0),
        Vector::new(0.0, -depth),
    );
    let terminals = [0.0, span].map(|along| Terminal {
        along,
        across: None,
    });
    chain_repeats(repeat, &strip, terminals, options)
}

/// The map that puts the stretch of a repeat into its stems.
fn ease(repeat: &Repeat, stretch: f64) -> Result<Ease, Error> {
    let stiffness = Stiffness::of(repeat.points(), repeat.advance(1.0))?;
    Ease::new(&stiffness, stretch, &EaseLimits::default())
}

fn summary(fit: &SpanFit, chain: &Chain, eased: Option<&EaseReport>, span: f64, unit: Unit) {
    let readable = |length: f64| unit.readable(length * unit.in_mm());
    let told = |choice: &Choice| {
        format!(
            "{} of {}, stretched by {}",
            counted(choice.repeats, "repeat"),
            readable(span / choice.repeats as f64),
            percent(choice.stretch)
        )
    };
    message::heading(told(&fit.chosen));
    for (word, other) in [("fewer", &fit.fewer), ("more", &fit.more)] {
        if let Some(other) = other {
            message::line(format_args!("  {word}: {}", told(other)));
        }
    }
    if let Some(loops) = eased.and_then(|report| report.loops) {
        message::line(format_args!(
            "  eased: loops stretched by {}",
            percent(loops)
        ));
    }
    if let Some(limited) = eased.and_then(ease_limited) {
        message::note(limited);
    }
    if chain.levelled > 0.0 && readable(chain.levelled) != readable(0.0) {
        message::note(format_args!(
            "ends at different heights are brought together by shearing repeats by up to {}",
            readable(chain.levelled)
        ));
    }
    if chain.links > 0 {
        message::note(format_args!(
            "{} stitched between repeats",
            counted(chain.links, "straight link")
        ));
    }
}
