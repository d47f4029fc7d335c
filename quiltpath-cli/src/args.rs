//! The arguments of the command, and those that several subcommands share.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand};
use quiltpath_core::geom::flatten::DEFAULT_TOLERANCE_MM;
use quiltpath_core::io::drawing::ReadOptions;
use quiltpath_core::io::lines::LineFormat;
use quiltpath_core::motif::{DEFAULT_JOIN_MM, Gaps};
use quiltpath_core::plan::spec::UnitSpec;
use quiltpath_core::units::{Length, Unit};

use crate::choices::{FORMATS, UNITS, choice};
use crate::commands::{
    convert, corner, fit, generate, measure, plan, rank, stitch, template, transform, trim,
};
use crate::failure::Failure;
use crate::lengths::positive_in_unit;
use crate::output::{Destination, Style, Target};

/// Borders and corners that meet: plans the stitching round a quilt
#[derive(Parser)]
#[command(
    name = "quiltpath",
    version,
    max_term_width = 80,
    disable_help_subcommand = true,
    after_help = "\
Also: schema (of plan files), completions (for shells), man (manual pages).
Lengths: \"4 1/2 in\", 4.5in, 114mm; bare ones need --unit. - is stdin or stdout.
Exit codes: 0 done, 1 bad data or file, 2 bad usage, 3 findings (--fail-on).
Example: quiltpath plan quilt.json --out out"
)]
pub(crate) struct Cli {
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Subcommand)]
pub(crate) enum Command {
    Plan(Box<plan::PlanArgs>),
    Measure(measure::MeasureArgs),
    Convert(convert::ConvertArgs),
    Transform(transform::TransformArgs),
    Fit(fit::FitArgs),
    Corner(corner::CornerArgs),
    Trim(trim::TrimArgs),
    Stitch(Box<stitch::StitchArgs>),
    Rank(rank::RankArgs),
    Template(template::TemplateArgs),
    /// Print the JSON Schema of plan files
    #[command(
        hide = true,
        after_help = "Example: quiltpath schema > plan.schema.json"
    )]
    Schema,
    #[command(hide = true)]
    Completions(generate::CompletionsArgs),
    #[command(hide = true)]
    Man(generate::ManArgs),
}

impl Command {
    pub(crate) fn run(self) -> Result<(), Failure> {
        match self {
            Self::Plan(args) => plan::run(*args),
            Self::Measure(args) => measure::run(args),
            Self::Convert(args) => convert::run(args),
            Self::Transform(args) => transform::run(args),
            Self::Fit(args) => fit::run(args),
            Self::Corner(args) => corner::run(args),
            Self::Trim(args) => trim::run(args),
            Self::Stitch(args) => stitch::run(*args),
            Self::Rank(args) => rank::run(args),
            Self::Template(args) => template::run(args),
            Self::Schema => generate::schema(),
            Self::Completions(args) => generate::completions(args),
            Self::Man(args) => generate::man(args),
        }
    }
}

/// How drawings are read.
#[derive(Args)]
#[command(next_help_heading = "Reading")]
pub(crate) struct Reading {
    /// Unit of bare numbers and output: in, mm or cm
    #[arg(long, hide_possible_values = true, value_parser = choice(UNITS))]
    pub(crate) unit: Option<UnitSpec>,
    /// How true curves are kept [default: 0.01 mm]
    #[arg(long, value_name = "LENGTH")]
    pub(crate) flattening: Option<Length>,
    /// Ends that are this close meet [default: 0.1 mm]
    #[arg(long, value_name = "LENGTH")]
    pub(crate) join: Option<Length>,
    /// Link lines that don't meet by straight lines
    #[arg(long)]
    pub(crate) link: bool,
}

impl Reading {
    /// The reading, checked.
    pub(crate) fn check(&self) -> Result<ReadOptions, Failure> {
        let unit = self.unit.map(Unit::from);
        let length = |typed: &Option<Length>, option, default| match typed {
            Some(typed) => positive_in_unit(typed, unit, Unit::Mm, option),
            None => Ok(default),
        };
        Ok(ReadOptions {
            unit,
            flattening_mm: length(&self.flattening, "--flattening", DEFAULT_TOLERANCE_MM)?,
            join_mm: length(&self.join, "--join", DEFAULT_JOIN_MM)?,
            gaps: if self.link { Gaps::Link } else { Gaps::Refuse },
        })
    }
}

/// Where drawings are written, and as what.
#[derive(Args)]
#[command(next_help_heading = "Writing")]
pub(crate) struct Writing {
    /// File to write, - for stdout
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// svg, json, jsonl, dxf, gcode [default: by its name]
    #[arg(long, value_name = "KIND", hide_possible_values = true, value_parser = choice(FORMATS))]
    format: Option<LineFormat>,
    /// Replace a file that exists
    #[arg(long)]
    force: bool,
    /// SVG: fit curves that stay this close to the points
    #[arg(long, value_name = "LENGTH")]
    smooth: Option<Length>,
    /// G-code: how far to move in a minute [default: not said]
    #[arg(long, value_name = "LENGTH")]
    feed: Option<Length>,
}

impl Writing {
    pub(crate) fn check(self, unit: Option<Unit>) -> Result<Target, Failure> {
        let style = self.style(unit)?;
        Target::new(self.out, self.format, self.force, style)
    }

    /// As [`Writing::check`], for many drawings.
    pub(crate) fn check_many(self, unit: Option<Unit>) -> Result<Destination, Failure> {
        let style = self.style(unit)?;
        Destination::new(self.out, self.format, self.force, style)
    }

    fn style(&self, unit: Option<Unit>) -> Result<Style, Failure> {
        let mm = |typed: &Option<Length>, option| {
            let read = |typed| positive_in_unit(typed, unit, Unit::Mm, option);
            typed.as_ref().map(read).transpose()
        };
        Ok(Style {
            smooth_mm: mm(&self.smooth, "--smooth")?,
            feed_mm: mm(&self.feed, "--feed")?,
            dots_mm: None,
        })
    }
}
