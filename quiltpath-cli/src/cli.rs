//! The whole command line: which subcommands there are, and what runs each of them.

use clap::{Arg, CommandFactory, FromArgMatches, Parser, Subcommand};

use crate::commands::{
    align, compare, convert, corner, fit, generate, measure, plan, rank, resume, scan, stitch,
    stitched, template, transform, trim,
};
use crate::failure::Failure;
use crate::hint::Asker;

/// Plan the stitching round a quilt, with borders and corners that meet
#[derive(Parser)]
#[command(
    name = "quiltpath",
    version,
    max_term_width = 80,
    disable_help_subcommand = true,
    after_help = "\
Also: schema (of plan files), completions (for shells), man (manual pages).
Lengths: \"4 1/2 in\", 4.5in, 114mm; bare numbers need --unit. - is stdin/stdout.
Exit codes: 0 done, 1 bad data or file, 2 bad usage, 3 findings (--fail-on).
Example: quiltpath plan quilt.json --out out"
)]
pub(crate) struct Cli {
    #[command(subcommand)]
    pub(crate) command: Command,
}

impl Cli {
    /// Reads the arguments that the command was called with.
    pub(crate) fn read() -> Result<Self, clap::Error> {
        // A negative number is a value, not an option: whoever reads it explains what is accepted.
        let take_negative = |arg: Arg| match takes_numbers(&arg) {
            true => arg.allow_hyphen_values(true),
            false => arg,
        };
        let command = Self::command().mut_subcommands(|command| command.mut_args(take_negative));
        Self::from_arg_matches(&command.try_get_matches()?)
    }
}

/// True for an option whose value is, or begins with, a number.
fn takes_numbers(arg: &Arg) -> bool {
    const NUMBERS: [&str; 9] = [
        "DEGREES",
        "LENGTH",
        "N",
        "N x LENGTH",
        "PERCENT",
        "S, S, S",
        "SHARE",
        "SIZE",
        "X, Y",
    ];
    let names = arg.get_value_names().unwrap_or_default();
    names.iter().any(|name| NUMBERS.contains(&name.as_str()))
}

#[derive(Subcommand)]
pub(crate) enum Command {
    Plan(Box<plan::PlanArgs>),
    Compare(compare::CompareArgs),
    Align(align::AlignArgs),
    Stitched(stitched::StitchedArgs),
    Resume(resume::ResumeArgs),
    Measure(measure::MeasureArgs),
    Convert(convert::ConvertArgs),
    Transform(transform::TransformArgs),
    Fit(fit::FitArgs),
    Corner(corner::CornerArgs),
    Trim(trim::TrimArgs),
    Stitch(Box<stitch::StitchArgs>),
    Rank(rank::RankArgs),
    Template(Box<template::TemplateArgs>),
    Scan(Box<scan::ScanArgs>),
    /// Print the JSON Schema of plan files
    #[command(
        hide = true,
        after_help = "Example: quiltpath schema > plan.schema.json"
    )]
    Schema,
    /// Print help, of a command or of all
    #[command(hide = true, after_help = "Example: quiltpath help plan")]
    Help {
        #[arg(value_name = "COMMAND")]
        command: Option<String>,
    },
    #[command(hide = true)]
    Completions(generate::CompletionsArgs),
    #[command(hide = true)]
    Man(generate::ManArgs),
}

impl Command {
    /// What decides which options help with an error.
    pub(crate) fn asker(&self) -> Asker {
        match self {
            Self::Plan(_) => Asker::Plan,
            Self::Measure(_) => Asker::Measure,
            Self::Convert(_) => Asker::Convert,
            Self::Transform(_) => Asker::Transform,
            Self::Fit(_) => Asker::Fit,
            Self::Corner(_) => Asker::Corner,
            Self::Trim(args) => args.asker(),
            Self::Stitch(_) => Asker::Stitch,
            Self::Rank(args) => args.asker(),
            Self::Template(_) => Asker::Template,
            Self::Scan(_) => Asker::Scan,
            Self::Align(_) | Self::Stitched(_) | Self::Resume(_) => Asker::Frame,
            Self::Compare(_)
            | Self::Help { .. }
            | Self::Schema
            | Self::Completions(_)
            | Self::Man(_) => Asker::Other,
        }
    }

    pub(crate) fn run(self) -> Result<(), Failure> {
        match self {
            Self::Plan(args) => plan::run(*args),
            Self::Compare(args) => compare::run(args),
            Self::Align(args) => align::run(args),
            Self::Stitched(args) => stitched::run(args),
            Self::Resume(args) => resume::run(args),
            Self::Measure(args) => measure::run(args),
            Self::Convert(args) => convert::run(args),
            Self::Transform(args) => transform::run(args),
            Self::Fit(args) => fit::run(args),
            Self::Corner(args) => corner::run(args),
            Self::Trim(args) => trim::run(args),
            Self::Stitch(args) => stitch::run(*args),
            Self::Rank(args) => rank::run(args),
            Self::Template(args) => template::run(*args),
            Self::Scan(args) => scan::run(*args),
            Self::Help { command } => generate::help(command.as_deref(), Cli::command()),
            Self::Schema => generate::schema(),
            Self::Completions(args) => generate::completions(args, Cli::command()),
            Self::Man(args) => generate::man(args, Cli::command()),
        }
    }
}
