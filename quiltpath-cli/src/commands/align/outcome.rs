//! The files of a laid pass: its lines on the machine, its picture, its numbers.

use std::path::PathBuf;

use quiltpath_core::frame::{Clearance, LaidFinding, Laying, MarkReading, check_laid};
use quiltpath_core::geom::Point;
use quiltpath_core::io::gcode::{GcodeOptions, Needle};
use quiltpath_core::io::json::{PointList, write_laid};
use quiltpath_core::io::laid_picture::write_laid_picture;
use quiltpath_core::io::lines::{LineFormat, LineOptions, write_lines};
use quiltpath_core::io::svg_write::WriteOptions;
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::Origin;
use quiltpath_core::transform::Transform;

use crate::failure::Failure;
use crate::files::Folder;
use crate::plan_folder::PlanFolder;

/// The name of the check's files and of its line.
const NEEDLE_UP: &str = "needle-up";

/// Writes the folder of a laid pass, and says where its picture is.
pub(super) fn write(
    folder: &PlanFolder,
    (laying, readings): (&Laying, &[(String, MarkReading)]),
    judged: (&[LaidFinding], &[Clearance]),
    (origin, formats): (Option<&Origin>, &[LineFormat]),
) -> Result<PathBuf, Failure> {
    let laid = &laying.laid;
    let place = folder.path.join(format!("laid/{:02}", laid.pass + 1));
    let out = Folder::start_laid(&place)?;
    let marks = readings
        .iter()
        .map(|(letter, one)| (letter.clone(), one.read));
    let marks: Vec<(String, Point)> = marks.collect();
    let shift = match origin {
        Some(origin) => {
            let lines = laid.runs.iter().map(|run| &run.motif);
            let window = laid.aligned.map.map(Point::origin());
            origin.shift(lines, Some(window), &marks)?
        }
        None => Transform::identity(),
    };
    let lines: Vec<(Motif, String)> = (laid.runs.iter())
        .map(|run| {
            let name = format!("{}-{}", run.number + 1, run.motif.name());
            Ok((run.motif.transformed(&shift)?, name))
        })
        .collect::<Result<_, quiltpath_core::Error>>()?;
    let formats = folder.formats(formats);
    let unit = folder.source.spec.machine_axes().unit;
    let check = check_laid(&laying.solved, &folder.stitching, laid)?;
    let check = check.path(NEEDLE_UP)?.transformed(&shift)?;
    let check = [(check, NEEDLE_UP.to_owned())];
    let title = format!("pass {}, laid", laid.pass + 1);
    let check_title = format!("{title}: check with the needle up");
    for (name, title, lines, needle) in [
        ("lines", &title, &lines[..], Needle::Stitching),
        (NEEDLE_UP, &check_title, &check[..], Needle::Up),
    ] {
        let named = lines.iter().map(|(motif, name)| (motif, name.as_str()));
        let list = PointList::of_mm(unit, named);
        let gcode = GcodeOptions::default().with_needle(needle);
        let options = LineOptions::default()
            .with_svg(WriteOptions::default().with_title(Some(title)))
            .with_gcode(gcode.with_y(folder.machine_y()));
        for &format in &formats {
            let text = write_lines(&list, format, &options)?;
            out.add(&format!("{name}.{}", format.name()), text.as_bytes())?;
        }
    }
    let picture = write_laid_picture(&laying.solved, &folder.stitching, (laid, readings))?;
    out.add("picture.svg", picture.as_bytes())?;
    out.add(
        "laid.json",
        write_laid(laying, readings, judged)?.as_bytes(),
    )?;
    out.swap_in(true)?;
    Ok(place.join("picture.svg"))
}
