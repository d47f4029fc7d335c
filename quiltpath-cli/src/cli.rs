//! The whole command line: which subcommands there are, and what runs each of them.

use clap::{CommandFactory, Parser, Subcommand};

use crate::commands::{
    convert, corner, fit, generate, measure, plan, rank, stitch, template, transform, trim,
};
use crate::failure::Failure;

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
            Self::Completions(args) => generate::completions(args, Cli::command()),
            Self::Man(args) => generate::man(args, Cli::command()),
        }
    }
}
