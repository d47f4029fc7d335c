//! What was found in a picture, as text for people and as JSON.

use quiltpath_core::geom::Point;
use quiltpath_core::io::words::{ScanTopic, scanned};
use quiltpath_core::motif::Motif;
use quiltpath_core::plan::Severity;
use quiltpath_core::raster::{DoubtKind, ScanReport};
use quiltpath_core::strokes::{JoinedLines, OneLineReport};
use quiltpath_core::units::Unit;
use serde_json::{Value, json};

use crate::drawing::{StrokeFacts, report_strokes};
use crate::message;
use crate::words::counted;

/// Prints what was read, filled and left out, what became one line, and what there is to look at.
pub(super) fn print(report: &ScanReport, lines: &JoinedLines, unit: Unit) {
    let length = lines.motifs.iter().map(Motif::length).sum();
    message::heading(format_args!(
        "{} of line in {}",
        unit.readable_line(length),
        counted(lines.motifs.len(), "path")
    ));
    report_strokes(None, &in_unit(&lines.report, unit), unit);
    for sentence in scanned(report, unit) {
        let hint = match sentence.topic {
            ScanTopic::Gaps => "; --bridge sets up to where",
            ScanTopic::Fills => "; --fills refuse refuses such pictures",
            ScanTopic::Doubt(DoubtKind::OpenGap) => {
                "; --bridge sets what is filled, and --overlay shows where"
            }
            ScanTopic::Doubt(_) => "; --overlay shows where",
            _ => "",
        };
        let text = format_args!("{}{hint}", sentence.text);
        match sentence.severity {
            Severity::Note => message::note(text),
            _ => message::warning(text),
        }
    }
}

/// What it took to make one line, in this unit rather than millimetres.
fn in_unit(report: &OneLineReport, unit: Unit) -> OneLineReport {
    report.scaled(1.0 / unit.in_mm())
}

/// The report as one JSON object; lengths in the unit.
pub(super) fn as_json(
    report: &ScanReport,
    lines: &[Motif],
    strokes: &OneLineReport,
    unit: Unit,
) -> String {
    let long = |mm: f64| mm / unit.in_mm();
    let place = |at: &Point| json!([long(at.x), long(at.y)]);
    let blank = report.blank.map(|blank| {
        json!({
            "kind": blank.kind().name(),
            "depth": long(blank.depth_mm()),
            "length": long(blank.length_mm()),
            "height": blank.height(),
        })
    });
    let doubts = report.doubts.iter().map(|doubt| {
        let kind = match doubt.kind {
            DoubtKind::Close => "close",
            DoubtKind::UnsureBridge => "unsure_bridge",
            DoubtKind::OpenGap => "open_gap",
            _ => "other",
        };
        json!({ "kind": kind, "at": place(&doubt.at) })
    });
    let bridged = report
        .bridged
        .iter()
        .map(|[from, to]| json!([place(from), place(to)]));
    let value = json!({
        "unit": unit.symbol(),
        "paths": lines.len(),
        "length": long(lines.iter().map(Motif::length).sum()),
        "strokes": (strokes.strokes > 0).then(|| StrokeFacts(in_unit(strokes, unit))),
        "paper": blank,
        "pixels": report.pixels,
        "pixel": long(report.pixel_mm),
        "pen": long(report.pen_mm),
        "marks": report.marks,
        "specks": report.specks,
        "edges": report.edges,
        "outside": report.outside,
        "filled": report.filled,
        "guides": long(report.guides_mm),
        "spurs": report.spurs,
        "crossings": report.crossings,
        "bridged": bridged.collect::<Vec<Value>>(),
        "doubts": doubts.collect::<Vec<Value>>(),
    });
    format!("{value}\n")
}
