//! The files of a pass that was laid on the cloth: its lines on the machine, its needle-up check,
//! its picture, its numbers.

use super::at_frame::AtFrame;
use super::files::{NEEDLE_UP, PlanFile};
use crate::error::Error;
use crate::frame::{Clearance, LaidFinding, Laying, MarkReading, check_laid};
use crate::geom::Point;
use crate::io::gcode::{GcodeOptions, Needle};
use crate::io::json::{PointList, write_laid};
use crate::io::laid_picture::write_laid_picture;
use crate::io::lines::{LineFormat, LineOptions, write_lines};
use crate::io::svg_write::WriteOptions;
use crate::motif::Motif;
use crate::plan::Origin;
use crate::transform::Transform;

/// The picture of a laid pass.
pub const LAID_PICTURE: &str = "picture.svg";

/// Where the files of a laid pass lie in the folder of a plan; the pass from 0.
#[must_use]
pub fn laid_folder(pass: usize) -> String {
    format!("laid/{:02}", pass + 1)
}

/// The files of a laid pass, named within its folder.
///
/// `readings` come with their letters, `judged` is what [`judge`](crate::frame::judge) found. The
/// zero of the lines lies at `origin`, or where the machine had it as the marks were read.
///
/// # Errors
///
/// As [`Origin::shift`] and [`check_laid`].
pub fn laid_files<'a>(
    frame: &AtFrame<'a>,
    (laying, readings): (&'a Laying, &'a [(String, MarkReading)]),
    judged: (&'a [LaidFinding], &'a [Clearance]),
    origin: Option<&Origin>,
    formats: &[LineFormat],
) -> Result<Vec<PlanFile<'a>>, Error> {
    let laid = &laying.laid;
    let shift = match origin {
        Some(origin) => {
            let marks = readings.iter();
            let marks: Vec<(String, Point)> = marks
                .map(|(letter, one)| (letter.clone(), one.read))
                .collect();
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
        .collect::<Result<_, Error>>()?;
    let check = check_laid(&laying.solved, frame.stitching, laid)?;
    let check = check.path(NEEDLE_UP)?.transformed(&shift)?;
    let check = vec![(check, NEEDLE_UP.to_owned())];
    let title = format!("pass {}, laid", laid.pass + 1);
    let check_title = format!("{title}: check with the needle up");
    let (unit, y) = (frame.machine_unit(), frame.machine_y());
    let mut files = Vec::new();
    for (name, title, lines, needle) in [
        ("lines", title, lines, Needle::Stitching),
        (NEEDLE_UP, check_title, check, Needle::Up),
    ] {
        let lines = std::sync::Arc::new((title, lines));
        for &format in formats {
            let lines = std::sync::Arc::clone(&lines);
            let text = move || {
                let (title, lines) = &*lines;
                let named = lines.iter().map(|(motif, name)| (motif, name.as_str()));
                let list = PointList::of_mm(unit, named);
                let gcode = GcodeOptions::default().with_needle(needle).with_y(y);
                let options = LineOptions::default()
                    .with_svg(WriteOptions::default().with_title(Some(title)))
                    .with_gcode(gcode);
                write_lines(&list, format, &options)
            };
            files.push(PlanFile::new(format!("{name}.{}", format.name()), text));
        }
    }
    let stitching = frame.stitching;
    files.push(PlanFile::new(LAID_PICTURE, move || {
        write_laid_picture(&laying.solved, stitching, (laid, readings))
    }));
    files.push(PlanFile::new("laid.json", move || {
        write_laid(laying, readings, judged)
    }));
    Ok(files)
}
