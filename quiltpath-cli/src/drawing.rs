//! Drawings from files and stdin, with notes on what is left out.

use std::path::Path;

use quiltpath_core::Error;
use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::words::one_line;
use quiltpath_core::strokes::{LineEnds, OneLineReport};
use quiltpath_core::units::Unit;
use serde::Serialize;
use serde::ser::SerializeStruct;

use crate::failure::Failure;
use crate::files::{label, read};
use crate::message;

/// Reads a drawing from a file or stdin.
pub(crate) fn open(path: &Path, options: &ReadOptions) -> Result<LineDrawing, Failure> {
    let bytes = read(path)?;
    parse(path, &bytes, options, LAYER).map_err(|e| e.in_file(label(path)).into())
}

/// What chooses layers where drawings are read by options.
pub(crate) const LAYER: &str = "--layer NAME";

/// Reads a drawing that came from this path; `layers` is what chooses layers here.
pub(crate) fn parse(
    path: &Path,
    bytes: &[u8],
    options: &ReadOptions,
    layers: &str,
) -> Result<LineDrawing, Error> {
    let drawing = LineDrawing::read(&path.to_string_lossy(), bytes, options)?;
    let notes = drawing.notes();
    for (at, note) in notes.iter().enumerate() {
        let about_unit = drawing.unit_is_assumed() && at + 1 == notes.len();
        let hint = if about_unit {
            "; --unit does that".to_owned()
        } else if note.ends_with("choose the layers to read") {
            format!("; {layers} does that")
        } else if note.contains("size is a guess") {
            "; quiltpath scan --width sets it".to_owned()
        } else {
            String::new()
        };
        message::note(format_args!("{}: {note}{hint}", label(path)));
    }
    Ok(drawing)
}

/// Notes what it took to make one line of strokes; `place` names the drawing where it is one of
/// many.
pub(crate) fn report_strokes(place: Option<&str>, report: &OneLineReport, unit: Unit) {
    if report.strokes > 0 {
        let place = place.map_or(String::new(), |place| format!("{place}: "));
        message::note(format_args!("{place}{}", one_line(report, unit)));
    }
}

/// What it took to make one line of strokes; lengths in the drawing's unit.
pub(crate) struct StrokeFacts(pub(crate) OneLineReport);

impl Serialize for StrokeFacts {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let report = &self.0;
        let mut facts = serializer.serialize_struct("strokes", 12)?;
        facts.serialize_field("count", &report.strokes)?;
        facts.serialize_field("drawn", &report.drawn)?;
        facts.serialize_field("retraced", &report.retraced)?;
        facts.serialize_field("retraced_share", &report.retraced_share())?;
        facts.serialize_field("links", &report.links)?;
        facts.serialize_field("linked", &report.linked)?;
        facts.serialize_field("least", &report.least)?;
        facts.serialize_field("is_least", &report.is_least())?;
        facts.serialize_field("crossings", &report.crossings)?;
        facts.serialize_field("straight", &report.straight)?;
        facts.serialize_field("overlaid", &report.overlaid)?;
        facts.serialize_field("dropped", &report.dropped)?;
        facts.end()
    }
}

/// How a repeat is read for a band this deep, in millimetres: tolerances hold on the cloth.
pub(crate) fn for_band(drawing: &LineDrawing, depth_mm: f64, options: &ReadOptions) -> ReadOptions {
    let options = options.clone().with_ends(LineEnds::Across);
    match drawing.bounds(Unit::Mm) {
        Some(bounds) => options.enlarged(depth_mm / bounds.height()),
        None => options,
    }
}
