//! `convert`: the same lines in another format or unit.

use std::path::PathBuf;

use clap::Args;
use quiltpath_core::io::json::{PointList, PointPath};
use quiltpath_core::motif::Motif;
use quiltpath_core::units::Unit;

use crate::args::{Reading, Writing};
use crate::drawing;
use crate::failure::Failure;
use crate::files::label;

/// Change a drawing's format or unit; every line stays as drawn
#[derive(Args)]
#[command(after_help = "Example: quiltpath convert leaf.svg --unit mm --out leaf.json")]
pub(crate) struct ConvertArgs {
    /// Drawing to read (SVG, JSON or JSON Lines), - for stdin
    #[arg(value_name = "DRAWING")]
    drawing: PathBuf,
    /// Join all lines to one, end to end
    #[arg(long)]
    one: bool,
    #[command(flatten)]
    reading: Reading,
    #[command(flatten)]
    writing: Writing,
}

pub(crate) fn run(args: ConvertArgs) -> Result<(), Failure> {
    let options = args.reading.check()?;
    let target = args.writing.check(options.unit)?;
    if args.reading.link && !args.one {
        return Err(Failure::Usage(
            "--link: lines are linked only where they are joined; give --one too".to_owned(),
        ));
    }
    let drawing = drawing::open(&args.drawing, &options)?;
    let unit = drawing.unit();
    let list = if args.one {
        let joined = drawing.motif(unit, &options);
        joined.map(|joined| point_list(unit, vec![joined.motif]))
    } else {
        drawing.paths()
    };
    target.write(&list.map_err(|e| e.in_file(label(&args.drawing)))?)
}

/// Motifs as a point list in their unit.
pub(crate) fn point_list(unit: Unit, motifs: Vec<Motif>) -> PointList {
    let paths = motifs.into_iter().map(|motif| PointPath {
        name: Some(motif.name().to_owned()),
        points: motif.points().to_vec(),
    });
    PointList {
        unit,
        paths: paths.collect(),
    }
}
