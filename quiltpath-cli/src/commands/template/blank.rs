//! Paper to draw on, by what is asked for.

use clap::Args;
use quiltpath_core::Error;
use quiltpath_core::error::{ErrorKind, PaperFault};
use quiltpath_core::io::paper::Paper;
use quiltpath_core::io::template::write_blank;
use quiltpath_core::raster::{Blank, BlankKind};
use quiltpath_core::units::{Length, Unit};

use crate::args::{BLANKS, choice, percent, positive_in_unit, usual_paper};
use crate::failure::Failure;
use crate::message;

/// What is to be drawn.
#[derive(Args)]
pub(super) struct BlankArgs {
    /// What will be drawn: repeat or corner
    #[arg(long, help_heading = "Paper to draw on", value_name = "KIND", hide_possible_values = true, value_parser = choice(BLANKS), conflicts_with = "piece", requires = "depth")]
    blank: Option<BlankKind>,
    /// Depth of the band, or of a corner's legs
    #[arg(
        long,
        help_heading = "Paper to draw on",
        value_name = "LENGTH",
        requires = "blank"
    )]
    depth: Option<Length>,
    /// Length of the repeat, or of the whole corner
    #[arg(
        long,
        help_heading = "Paper to draw on",
        value_name = "LENGTH",
        requires = "blank"
    )]
    length: Option<Length>,
    /// How far out the line comes in and goes out [50 %]
    #[arg(long, help_heading = "Paper to draw on", value_name = "PERCENT", value_parser = percent, requires = "blank")]
    height: Option<f64>,
}

impl BlankArgs {
    /// The page; on paper for the unit of the depth where none is asked for.
    pub(super) fn page(&self, bare: Option<Unit>, paper: Option<Paper>) -> Result<String, Failure> {
        let (Some(kind), Some(depth)) = (self.blank, &self.depth) else {
            return Err(Failure::Usage(
                "give a piece to print, or --blank with --depth".to_owned(),
            ));
        };
        let unit = depth.unit.or(bare).unwrap_or(Unit::In);
        let paper = paper.unwrap_or(usual_paper(unit));
        let long = |length, option| positive_in_unit(length, bare, Unit::Mm, option);
        let depth = long(depth, "--depth")?;
        let length = self.length.as_ref().map(|length| long(length, "--length"));
        let length = length.transpose()?;
        let height = self.height.unwrap_or(50.0) / 100.0;
        let options = |error: Error| Failure::Options(error.in_unit(unit));
        let mut page = String::new();
        let mut write = |length: f64| {
            let blank = Blank::new(kind, depth, length)?.with_height(height)?;
            Ok((write_blank(&mut page, unit, &blank, paper)?, blank))
        };
        // A repeat half as long again as deep, a corner whose legs are as long as deep.
        let usual = depth * if kind == BlankKind::Repeat { 1.5 } else { 2.0 };
        let mut made = write(length.unwrap_or(usual));
        let room = made.as_ref().err().and_then(|error| room(error, kind));
        if let (None, Some(room)) = (length, room.filter(|room| *room >= 1.2 * depth)) {
            // Rounded down to what a ruler shows.
            let step = match unit.is_metric() {
                true => 5.0,
                false => Unit::In.in_mm() / 4.0,
            };
            let shorter = (room / step).floor() * step;
            made = write(shorter);
            message::note(format_args!(
                "{} long rather than {}, to fit on one sheet of {} paper; --length sets it",
                unit.readable(shorter),
                unit.readable(usual),
                paper.name()
            ));
        }
        let (sheet, blank) = made.map_err(options)?;
        message::heading(format_args!(
            "paper for a {} {} deep and {} long, on {}{}",
            kind.name(),
            unit.readable(blank.depth_mm()),
            unit.readable(blank.length_mm()),
            paper.name(),
            if sheet.sideways { " on its side" } else { "" }
        ));
        Ok(page)
    }
}

/// How long a motif as deep as this one may be on one sheet, where it was too long.
fn room(error: &Error, kind: BlankKind) -> Option<f64> {
    let ErrorKind::Paper(PaperFault::BlankTooLarge { size, accepted, .. }) = error.kind() else {
        return None;
    };
    let long = accepted.iter().filter_map(|&[wide, high]| match kind {
        BlankKind::Corner => Some(wide.min(high)),
        _ => (high >= size[1]).then_some(wide),
    });
    long.reduce(f64::max)
}
