//! A picture of a drawing as its lines.

use crate::error::Error;
use crate::io::picture_read::read_picture;
use crate::io::words::scanned;
use crate::raster::{ScanOptions, scan};
use crate::strokes::Stroke;
use crate::units::Unit;

/// Pixels an inch where a picture has no marks: common practice for scans of drawings.
const GUESSED_DPI: f64 = 200.0;

/// The strokes in a picture, in millimetres, and what is to be noted about it in this unit.
pub(super) fn read(
    name: &str,
    bytes: &[u8],
    unit: Unit,
) -> Result<(Vec<Stroke>, Vec<String>), Error> {
    let how = ScanOptions::default().with_pixel_mm(Unit::In.in_mm() / GUESSED_DPI)?;
    let found = scan(name, &read_picture(bytes)?, &how)?;
    let sentences = scanned(&found.report, unit).into_iter();
    let notes = sentences.map(|sentence| sentence.text).collect();
    Ok((found.drawing.strokes, notes))
}
