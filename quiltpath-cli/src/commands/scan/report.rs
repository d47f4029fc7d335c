//! What was found in a picture, as text for people and as JSON.

use quiltpath_core::geom::Point;
use quiltpath_core::motif::Motif;
use quiltpath_core::raster::{DoubtKind, ScanReport};
use quiltpath_core::units::Unit;
use serde_json::{Value, json};

use crate::message;
use crate::words::counted;

/// Prints what was read, filled and left out, and what there is to look at.
pub(super) fn print(report: &ScanReport, lines: &[Motif], unit: Unit) {
    let length = lines.iter().map(Motif::length).sum();
    message::heading(format_args!(
        "{} of line in {}, pen {}",
        unit.readable_line(length),
        counted(lines.len(), "path"),
        fine(report.pen_mm, unit)
    ));
    let size = match &report.blank {
        Some(blank) => format!(
            "by the marks: a {} {} deep and {} long",
            blank.kind().name(),
            unit.readable(blank.depth_mm()),
            unit.readable(blank.length_mm())
        ),
        None => "as given; a tilted picture isn't squared up without marks".to_owned(),
    };
    message::line(format_args!("  size      {size}"));
    let per_inch = 25.4 / report.pixel_mm;
    message::line(format_args!("  picture   {per_inch:.0} pixels an inch"));
    let taken = [
        (report.spurs, "short side line"),
        (report.specks, "speck"),
        (report.edges, "dark shape at the edge"),
    ];
    let taken = taken.iter().filter(|(count, _)| *count > 0);
    let mut taken: Vec<String> = taken
        .map(|(count, what)| counted_shape(*count, what))
        .collect();
    if report.guides_mm > 0.0 {
        taken.push(format!(
            "{} of printed guides",
            unit.readable(report.guides_mm)
        ));
    }
    if !taken.is_empty() {
        message::line(format_args!("  left out  {}", taken.join(", ")));
    }
    if !report.bridged.is_empty() {
        message::note(format_args!(
            "{} filled, the widest {}; --bridge sets up to where",
            counted(report.bridged.len(), "gap"),
            fine(widest(&report.bridged), unit)
        ));
    }
    if report.filled > 0 {
        message::note(format_args!(
            "{} outlined; --fills refuse refuses such pictures",
            counted(report.filled, "filled shape")
        ));
    }
    if report.pen_mm < 3.0 * report.pixel_mm {
        message::warning(
            "the pen is under three pixels wide, so lines are rough; scan at 200 dpi or more, or photograph from nearer by",
        );
    }
    let doubts = |wanted: DoubtKind| {
        let found = report.doubts.iter().filter(|doubt| doubt.kind == wanted);
        found.map(|doubt| doubt.at).collect::<Vec<_>>()
    };
    for (kind, words) in [
        (
            DoubtKind::Close,
            "lines closer than the pen were read as one",
        ),
        (
            DoubtKind::UnsureBridge,
            "a gap was filled, though another end was nearly as likely",
        ),
        (
            DoubtKind::OpenGap,
            "ends face each other across a gap too wide to fill, which --bridge changes",
        ),
    ] {
        let places = doubts(kind);
        if !places.is_empty() {
            message::warning(format_args!(
                "{words}, at {}; look at the --overlay",
                listed(&places, unit)
            ));
        }
    }
}

/// `2 dark shapes at the edge`: the plural is on the first noun.
fn counted_shape(count: usize, what: &str) -> String {
    match what.split_once(" at ") {
        Some((noun, place)) => format!("{} at {place}", counted(count, noun)),
        None => counted(count, what),
    }
}

/// The first few places, and how many there are more.
fn listed(places: &[Point], unit: Unit) -> String {
    const LISTED: usize = 3;
    let place = |at: &Point| format!("{}, {}", unit.readable(at.x), unit.readable(at.y));
    let first: Vec<String> = places.iter().take(LISTED).map(place).collect();
    let more = match places.len().saturating_sub(LISTED) {
        0 => String::new(),
        more => format!(
            " and {}",
            counted(more, "more place").replace("more places", "more")
        ),
    };
    first.join("; ") + &more
}

/// A length under a millimetre or two, which sixteenths can't show.
fn fine(mm: f64, unit: Unit) -> String {
    match unit.is_metric() {
        true => format!("{mm:.1} mm"),
        false => format!("{:.3} in", mm / unit.in_mm()),
    }
}

fn widest(gaps: &[[Point; 2]]) -> f64 {
    gaps.iter()
        .map(|[from, to]| (to - from).norm())
        .fold(0.0, f64::max)
}

/// The report as one JSON object; lengths in the unit.
pub(super) fn as_json(report: &ScanReport, lines: &[Motif], unit: Unit) -> String {
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
        "paper": blank,
        "pixels": report.pixels,
        "pixel": long(report.pixel_mm),
        "pen": long(report.pen_mm),
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
