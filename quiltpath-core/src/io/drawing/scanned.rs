//! A picture of a drawing as its lines.

use super::{Line, LineDrawing, ReadOptions};
use crate::error::Error;
use crate::io::picture_read::read_picture;
use crate::io::words::scanned;
use crate::raster::{ScanOptions, scan};
use crate::units::Unit;

/// Pixels an inch where a picture has no marks: common practice for scans of drawings.
const GUESSED_DPI: f64 = 200.0;

/// Reads the strokes in a picture.
pub(super) fn read(
    name: String,
    bytes: &[u8],
    options: &ReadOptions,
) -> Result<LineDrawing, Error> {
    let how = ScanOptions::default().with_pixel_mm(Unit::In.in_mm() / GUESSED_DPI)?;
    let unit = options.unit.unwrap_or(Unit::Mm);
    let found = scan(&name, &read_picture(bytes)?, &how)?;
    let lines = found
        .drawing
        .strokes
        .into_iter()
        .map(|stroke| Line { name: None, stroke });
    Ok(LineDrawing {
        name,
        unit,
        lines_in: Unit::Mm,
        lines: lines.collect(),
        one_each: false,
        notes: scanned(&found.report, unit)
            .into_iter()
            .map(|sentence| sentence.text)
            .collect(),
        unit_assumed: false,
    })
}
