//! The raw edge and the seams beside a piece, from the result of the plan that it is a piece of.

use std::path::{Path, PathBuf};

use quiltpath_core::geom::{Bounds, Point};
use quiltpath_core::io::json::result::{Piece, PlanResult, read_result};
use quiltpath_core::io::template::ClothLine;
use quiltpath_core::motif::Motif;
use quiltpath_core::units::Unit;

use crate::failure::Failure;
use crate::files::{is_stream, label, read};
use crate::message;

/// The folder of a plan in which its pieces lie.
const PIECES: &str = "pieces";

/// How far the lines of a file may lie from the piece of the result, in millimetres: files are
/// rounded.
const SAME_MM: f64 = 0.5;

/// The lines of the cloth beside the piece in this file, in `unit`: those of the result that is
/// given, or of the one beside the folder of pieces that the file lies in.
pub(super) fn beside(
    file: &Path,
    result: Option<&Path>,
    lines: &[Motif],
    unit: Unit,
) -> Result<Vec<ClothLine>, Failure> {
    let Some(place) = result.map(Path::to_owned).or_else(|| found(file)) else {
        return Ok(Vec::new());
    };
    let bytes = read(&place)?;
    let read = match read_result(&bytes) {
        Ok(read) => read,
        Err(error) if result.is_some() => return Err(error.in_file(label(&place)).into()),
        Err(error) => {
            left_out(&place, &error.to_string());
            return Ok(Vec::new());
        }
    };
    let piece = read.pieces.iter().find(|piece| is_of(piece, file));
    let reason = match piece {
        Some(piece) if lies_alike(&read, piece, lines, unit) => {
            let cloth = read.cloth_lines(piece);
            if cloth.is_empty() {
                "it has no seams; plan again".to_owned()
            } else {
                message::note(format_args!(
                    "raw edge and seams are those of {}",
                    label(&place)
                ));
                return Ok(in_unit(cloth, read.unit, unit));
            }
        }
        Some(piece) => format!("its piece {} lies elsewhere", piece.name),
        None => format!("it has no piece of the name {}", label(file)),
    };
    if result.is_some() {
        return Err(Failure::Usage(format!(
            "--result {}: {reason}; give a file of its folder {PIECES}",
            label(&place)
        )));
    }
    left_out(&place, &reason);
    Ok(Vec::new())
}

fn left_out(place: &Path, reason: &str) {
    message::note(format_args!(
        "raw edge and seams are left out, for {} doesn't tell them: {reason}",
        label(place)
    ));
}

/// The result beside the folder of pieces that a file lies in.
fn found(file: &Path) -> Option<PathBuf> {
    if is_stream(file) {
        return None;
    }
    let folder = file.parent()?;
    let inside = if folder.as_os_str().is_empty() {
        std::env::current_dir().ok()?
    } else {
        std::path::absolute(folder).ok()?
    };
    let above = match folder.file_name() {
        Some(_) => folder.parent()?.to_owned(),
        None => folder.join(".."),
    };
    let result = above.join("result.json");
    (inside.file_name()? == PIECES && result.is_file()).then_some(result)
}

/// Whether a file has the name of this piece.
fn is_of(piece: &Piece, file: &Path) -> bool {
    let named = format!("{:02}-{}", piece.number, piece.name);
    let stem = file.file_stem().and_then(|stem| stem.to_str());
    stem.is_some_and(|stem| stem == named || stem == piece.name)
}

/// Whether lines lie where a piece of the result does.
fn lies_alike(result: &PlanResult, piece: &Piece, lines: &[Motif], unit: Unit) -> bool {
    let points: Vec<Point> = piece
        .points
        .iter()
        .map(|&[x, y]| Point::new(x, y))
        .collect();
    let own = lines
        .iter()
        .map(Motif::bounds)
        .reduce(|all, one| all.union(&one));
    let (Some(piece), Some(own)) = (Bounds::of(&points), own) else {
        return false;
    };
    let [in_result, here] = [result.unit, unit].map(Unit::in_mm);
    let off = |a: Point, b: Point| (a * in_result - b * here).amax();
    off(piece.min, own.min).max(off(piece.max, own.max)) < SAME_MM
}

fn in_unit(lines: Vec<ClothLine>, from: Unit, to: Unit) -> Vec<ClothLine> {
    let moved = |line: ClothLine| ClothLine {
        corners: from.change_points(line.corners, to),
        ..line
    };
    lines.into_iter().map(moved).collect()
}
