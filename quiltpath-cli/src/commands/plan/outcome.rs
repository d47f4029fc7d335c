//! The files of a solved plan.

use quiltpath_core::io::json::{PointList, PointPath, write_plan, write_result};
use quiltpath_core::io::lines::{LineFormat, LineOptions, write_lines};
use quiltpath_core::io::picture::write_picture;
use quiltpath_core::io::sheet::write_sheet;
use quiltpath_core::io::svg_write::WriteOptions;
use quiltpath_core::motif::Motif;
use quiltpath_core::order::Loading;
use quiltpath_core::plan::{PlanSpec, PlannedPass, Solved, Stitching};
use quiltpath_core::units::Unit;

use crate::failure::Failure;
use crate::folder::Folder;

/// The name of the picture.
pub(super) const PICTURE: &str = "quilt.svg";

/// The name of the sheet.
pub(super) const SHEET: &str = "sheet.html";

/// Writes the numbers, the picture, the sheet, the plan, every piece, every path of several pieces, and every
/// pass where the quilt is advanced or turned; lines as SVG and JSON, and in these formats besides.
pub(super) fn write(
    folder: &Folder,
    spec: &PlanSpec,
    (solved, stitching): (&Solved, &Stitching),
    formats: &[LineFormat],
) -> Result<(), Failure> {
    let mut all = vec![LineFormat::Svg, LineFormat::Json];
    all.extend(formats);
    all.dedup();
    let lines = Lines {
        folder,
        unit: solved.unit,
        formats: all,
    };
    folder.add("result.json", &write_result(solved, Some(stitching)))?;
    folder.add(PICTURE, &write_picture(solved, Some(stitching)))?;
    folder.add(SHEET, &write_sheet(solved, stitching))?;
    folder.add("plan.json", &write_plan(spec))?;
    for (piece, number) in solved.pieces.iter().zip(stitching.piece_numbers()) {
        let name = format!("pieces/{number:02}-{}", piece.name);
        lines.add(&name, &piece.name, [(&piece.motif, piece.name.clone())])?;
    }
    let paths = solved.paths.iter().filter(|path| path.pieces.len() > 1);
    for (path, number) in paths.zip(1..) {
        let border = solved.frames[path.border].file_name();
        let name = format!("paths/{number:02}-{border}");
        lines.add(&name, &border, [(&path.motif, border.clone())])?;
    }
    let turned = |pass: &PlannedPass| pass.loading == Loading::Turned;
    if stitching.throat.is_none() && !stitching.passes.iter().any(turned) {
        return Ok(());
    }
    for (pass, number) in stitching.passes.iter().zip(1..) {
        let loading = pass.loading.name();
        let title = format!("pass {number}, the quilt {loading}");
        let mut runs = Vec::new();
        for index in pass.runs.clone() {
            let run = &stitching.runs[index];
            let border = solved.pieces[run.parts[0].piece].border;
            let name = format!("{}-{}", index + 1, solved.frames[border].file_name());
            runs.push((run.motif.transformed(&pass.to_machine)?, name));
        }
        let runs = runs.iter().map(|(motif, name)| (motif, name.clone()));
        lines.add(&format!("passes/{number:02}-{loading}"), &title, runs)?;
    }
    Ok(())
}

/// Writes lines in millimetres to files of several formats, in the plan's unit.
struct Lines<'a> {
    folder: &'a Folder,
    unit: Unit,
    formats: Vec<LineFormat>,
}

impl Lines<'_> {
    fn add<'m>(
        &self,
        file: &str,
        title: &str,
        motifs: impl IntoIterator<Item = (&'m Motif, String)>,
    ) -> Result<(), Failure> {
        let paths = motifs.into_iter().map(|(motif, name)| PointPath {
            name: Some(name),
            points: Unit::Mm.change_points(motif.points().to_vec(), self.unit),
        });
        let list = PointList {
            unit: self.unit,
            paths: paths.collect(),
        };
        let options = LineOptions {
            svg: WriteOptions {
                title: Some(title),
                ..WriteOptions::default()
            },
            ..LineOptions::default()
        };
        for format in &self.formats {
            let text = write_lines(&list, *format, &options)?;
            self.folder
                .add(&format!("{file}.{}", format.name()), &text)?;
        }
        Ok(())
    }
}
