//! `measure`: what a drawing is: its size, its ends, and whether it can be a repeat or a corner.

mod facts;

use std::path::{Path, PathBuf};

use clap::Args;
use quiltpath_core::io::drawing::ReadOptions;

use self::facts::Facts;
use crate::args::Reading;
use crate::drawing;
use crate::failure::Failure;
use crate::files::{label, print};

/// Tell a drawing's size and ends, and what it can be
#[derive(Args)]
#[command(after_help = "\
Directions: degrees, 0 to the right, positive clockwise, so 90 is down.

Example: quiltpath measure border.svg corner.svg")]
pub(crate) struct MeasureArgs {
    /// Drawings to read (SVG, JSON or JSON Lines), - for stdin
    #[arg(value_name = "DRAWING", required = true)]
    drawings: Vec<PathBuf>,
    /// Print JSON: one object a line for each drawing
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    reading: Reading,
}

pub(crate) fn run(args: MeasureArgs) -> Result<(), Failure> {
    let options = args.reading.check()?;
    let mut failed = false;
    for path in &args.drawings {
        match measure(path, &options) {
            Ok(all) => {
                for facts in all {
                    let text = if args.json {
                        facts.json()
                    } else {
                        facts.text()
                    };
                    print(text.as_bytes())?;
                }
            }
            Err(failure) => {
                failure.report();
                failed = true;
            }
        }
    }
    if failed {
        Err(Failure::Reported)
    } else {
        Ok(())
    }
}

fn measure(path: &Path, options: &ReadOptions) -> Result<Vec<Facts>, Failure> {
    let drawing = drawing::open(path, options)?;
    let unit = drawing.unit();
    let motifs = drawing.motifs(options);
    let motifs = motifs.map_err(|e| e.in_file(label(path)))?;
    let join = options.join_mm / unit.in_mm();
    let facts = motifs
        .iter()
        .map(|motif| Facts::of(&label(path), motif, unit, join));
    Ok(facts.collect())
}
