//! The files of a solved plan.

use quiltpath_core::io::json::{PointList, PointPath, write_plan, write_points, write_result};
use quiltpath_core::io::picture::write_picture;
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::{PlanSpec, Solved};
use quiltpath_core::units::Unit;

use crate::failure::Failure;
use crate::folder::Folder;
use crate::lengths::change_unit;
use crate::svg::to_svg;

/// The name of the picture.
pub(super) const PICTURE: &str = "quilt.svg";

/// Writes the numbers, the picture, the plan, every piece and every path of several pieces.
pub(super) fn write(folder: &Folder, spec: &PlanSpec, solved: &Solved) -> Result<(), Failure> {
    folder.add("result.json", &write_result(solved))?;
    folder.add(PICTURE, &write_picture(solved))?;
    folder.add("plan.json", &write_plan(spec))?;
    for (piece, number) in solved.pieces.iter().zip(1..) {
        let name = format!("pieces/{number:02}-{}", piece.name);
        drawing(folder, &name, &piece.motif, &piece.name, solved)?;
    }
    let paths = solved.paths.iter().filter(|path| path.pieces.len() > 1);
    for (path, number) in paths.zip(1..) {
        let border = file_name(&solved.frames[path.border].name);
        let name = format!("paths/{number:02}-{border}");
        drawing(folder, &name, &path.motif, &border, solved)?;
    }
    Ok(())
}

fn drawing(
    folder: &Folder,
    file: &str,
    motif: &Motif,
    name: &str,
    solved: &Solved,
) -> Result<(), Failure> {
    let list = PointList {
        unit: solved.unit,
        paths: vec![path(motif, name, solved)],
    };
    folder.add(&format!("{file}.json"), &write_points(&list))?;
    let svg = to_svg(&list, None, Some(name))?;
    folder.add(&format!("{file}.svg"), &svg)
}

/// A line of the plan in the plan's unit.
fn path(motif: &Motif, name: &str, solved: &Solved) -> PointPath {
    PointPath {
        name: Some(name.to_owned()),
        points: change_unit(motif.points().to_vec(), Unit::Mm, solved.unit),
    }
}

/// The name with everything but letters, digits, `-` and `_` changed to `-`, as in piece names.
fn file_name(name: &str) -> String {
    let keep = |c: char| c.is_alphanumeric() || c == '_';
    name.chars()
        .map(|c| if keep(c) { c } else { '-' })
        .collect()
}
