//! The options that say how drawings are read.

use clap::Args;
use quiltpath_core::io::drawing::ReadOptions;
use quiltpath_core::plan::spec::{StrokesSpec, UnitSpec};
use quiltpath_core::strokes::Gaps;
use quiltpath_core::units::{Length, Unit};

use super::choices::{STROKES, UNITS, choice};
use super::lengths::positive_in_unit;
use crate::failure::Failure;

/// How drawings are read.
#[derive(Args)]
#[command(next_help_heading = "Reading")]
pub(crate) struct Reading {
    /// Unit of bare numbers and output: in, mm or cm
    #[arg(long, hide_possible_values = true, value_parser = choice(UNITS))]
    pub(crate) unit: Option<UnitSpec>,
    /// How closely to follow curves [default: 0.01 mm]
    #[arg(long, value_name = "LENGTH")]
    pub(crate) flattening: Option<Length>,
    /// How close ends are that meet [default: 0.1 mm]
    #[arg(long, value_name = "LENGTH")]
    pub(crate) join: Option<Length>,
    /// Several strokes: one-line, as-drawn or apart
    #[arg(long, value_name = "HOW", hide_possible_values = true, value_parser = choice(STROKES), conflicts_with = "link")]
    pub(crate) strokes: Option<StrokesSpec>,
    /// Link lines that don't meet with straight lines, as they are drawn
    #[arg(long, hide = true)]
    pub(crate) link: bool,
    /// Read this layer alone; may be given again
    #[arg(long = "layer", value_name = "NAME")]
    pub(crate) layers: Vec<String>,
}

/// What becomes of strokes that don't meet where several lines will do: as drawn they stay apart.
pub(crate) fn gaps_of_lines(strokes: StrokesSpec, link: bool) -> Gaps {
    match strokes {
        StrokesSpec::AsDrawn if !link => Gaps::Apart,
        strokes => strokes.gaps(link),
    }
}

impl Reading {
    /// The reading for what can do with several lines, checked: they stay apart unless one line is
    /// asked for.
    pub(crate) fn check_lines(&self) -> Result<ReadOptions, Failure> {
        let strokes = self.strokes.unwrap_or(StrokesSpec::AsDrawn);
        self.checked(gaps_of_lines(strokes, self.link))
    }

    /// The reading for what needs one line, checked.
    pub(crate) fn check(&self) -> Result<ReadOptions, Failure> {
        if self.strokes == Some(StrokesSpec::Apart) {
            return Err(Failure::Usage(
                "--strokes apart: this takes one line; give one-line or as-drawn".to_owned(),
            ));
        }
        self.checked(self.strokes.unwrap_or_default().gaps(self.link))
    }

    fn checked(&self, gaps: Gaps) -> Result<ReadOptions, Failure> {
        let unit = self.unit.map(Unit::from);
        let length = |typed: &Option<Length>, option| {
            let mm = |typed| positive_in_unit(typed, unit, Unit::Mm, option);
            typed.as_ref().map(mm).transpose()
        };
        let mut options = ReadOptions::default().with_unit(unit).with_gaps(gaps);
        options.layers.clone_from(&self.layers);
        options.flattening_mm = length(&self.flattening, "--flattening")?;
        options.join_mm = length(&self.join, "--join")?;
        Ok(options)
    }
}
