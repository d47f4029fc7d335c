//! The options that say where drawings are written, and as what.

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::io::lines::LineFormat;
use quiltpath_core::units::{Length, Unit};

use super::choices::{FORMATS, choice};
use super::lengths::positive_in_unit;
use crate::failure::Failure;
use crate::output::{Destination, Style, Target};

/// Where drawings are written, and as what.
#[derive(Args)]
#[command(next_help_heading = "Writing")]
pub(crate) struct Writing {
    /// File to write, - for stdout
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// svg, json, jsonl, dxf or gcode [default: by the name]
    #[arg(long, value_name = "KIND", hide_possible_values = true, value_parser = choice(FORMATS))]
    format: Option<LineFormat>,
    /// Replace an existing file
    #[arg(long)]
    force: bool,
    /// SVG: fit curves that stay this close to the points
    #[arg(long, value_name = "LENGTH")]
    smooth: Option<Length>,
    /// G-code: how far to move in a minute [default: none]
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
