//! What was found in a picture of a drawing, in words.

use super::short::counted;
use crate::geom::Point;
use crate::plan::Severity;
use crate::raster::{DoubtKind, ScanReport, ScanSize};
use crate::units::Unit;

/// What a sentence about a picture is about, so that a program can add what changes it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum ScanTopic {
    /// Where the size comes from, and how wide the pen is.
    Size,
    /// Specks, short side lines and the like that were left out.
    LeftOut,
    /// Marks of drawing paper that were taken for a part of the drawing.
    Marks,
    /// Gaps that were filled.
    Gaps,
    /// Filled shapes that were outlined.
    Fills,
    /// Too few pixels for the pen.
    Rough,
    /// Places to look at.
    Doubt(DoubtKind),
}

/// A sentence about a picture.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct ScanSentence {
    /// What it is about.
    pub topic: ScanTopic,
    /// A warning where the line may be wrong.
    pub severity: Severity,
    /// The sentence, without a full stop.
    pub text: String,
}

/// What was found in a picture, a sentence each, lengths and places in this unit.
///
/// ```
/// use quiltpath_core::io::words::{ScanTopic, scanned};
/// use quiltpath_core::raster::{Grey, ScanOptions, scan};
/// use quiltpath_core::units::Unit;
///
/// let pixel = |at: usize| if (48..52).contains(&(at / 200)) { 20 } else { 250 };
/// let picture = Grey::new(200, 100, (0..20_000).map(pixel).collect())?;
/// let found = scan("stem", &picture, &ScanOptions::default().with_width_mm(80.0)?)?;
/// let words = scanned(&found.report, Unit::Mm);
/// assert_eq!(words[0].topic, ScanTopic::Size);
/// assert!(words[0].text.starts_with("the width is as given"), "{}", words[0].text);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[must_use]
pub fn scanned(report: &ScanReport, unit: Unit) -> Vec<ScanSentence> {
    let mut out = Vec::new();
    let mut say = |topic, severity, text| {
        out.push(ScanSentence {
            topic,
            severity,
            text,
        });
    };
    let (note, warning) = (Severity::Note, Severity::Warning);
    let per_inch = 25.4 / report.pixel_mm;
    let pen = pen(report.pen_mm, unit);
    let size = match (&report.size, &report.blank) {
        (ScanSize::Given, _) => "the width is as given".to_owned(),
        (ScanSize::Marks, Some(blank)) => format!(
            "by the marks this is paper for a {} {} deep and {} long",
            blank.kind().name(),
            unit.readable(blank.depth_mm()),
            unit.readable(blank.length_mm())
        ),
        _ => "no marks of drawing paper are in the picture, so its size is a guess".to_owned(),
    };
    let tilt = match report.blank {
        None => "; a tilted picture isn't squared up without marks",
        Some(_) => "",
    };
    say(
        ScanTopic::Size,
        note,
        format!("{size}: {per_inch:.0} pixels an inch, pen {pen}{tilt}"),
    );
    if report.marks > 0 {
        say(
            ScanTopic::Marks,
            warning,
            format!(
                "{} of drawing paper, with its code, {} taken as a part of the drawing, since not all can be read; cut the picture to the drawing",
                counted(report.marks, "mark"),
                if report.marks == 1 { "is" } else { "are" }
            ),
        );
    }
    let left_out = left_out(report, unit);
    if !left_out.is_empty() {
        say(
            ScanTopic::LeftOut,
            note,
            format!("left out: {}", left_out.join(", ")),
        );
    }
    if !report.bridged.is_empty() {
        let widths = report.bridged.iter().map(|[from, to]| (to - from).norm());
        let text = format!(
            "{} filled, the widest {}",
            counted(report.bridged.len(), "gap"),
            unit.readable(widths.fold(0.0, f64::max))
        );
        say(ScanTopic::Gaps, note, text);
    }
    if report.filled > 0 {
        let shapes = counted(report.filled, "filled shape");
        say(ScanTopic::Fills, note, format!("{shapes} outlined"));
    }
    if report.pen_mm < 3.0 * report.pixel_mm {
        let text = "the pen is under three pixels wide, so lines are rough; scan at 200 dpi or more, or photograph from nearer by";
        say(ScanTopic::Rough, warning, text.to_owned());
    }
    for kind in [
        DoubtKind::Close,
        DoubtKind::UnsureBridge,
        DoubtKind::OpenGap,
    ] {
        let places = report.doubts.iter().filter(|doubt| doubt.kind == kind);
        let places: Vec<Point> = places.map(|doubt| doubt.at).collect();
        if !places.is_empty() {
            let text = format!("{}, at {}", doubt(kind), listed(&places, unit));
            say(ScanTopic::Doubt(kind), warning, text);
        }
    }
    out
}

fn doubt(kind: DoubtKind) -> &'static str {
    match kind {
        DoubtKind::Close => "lines closer than the pen were read as one",
        DoubtKind::UnsureBridge => "a gap was filled, though another end was nearly as likely",
        DoubtKind::OpenGap => "ends face each other across a gap too wide to fill",
    }
}

fn left_out(report: &ScanReport, unit: Unit) -> Vec<String> {
    let mut out = Vec::new();
    let mut count = |count: usize, noun: &str, place: &str| {
        if count > 0 {
            out.push(counted(count, noun) + place);
        }
    };
    count(report.spurs, "short side line", "");
    count(report.specks, "speck", "");
    count(report.edges, "dark shape", " at the edge");
    if report.guides_mm > 0.0 {
        out.push(format!(
            "{} of printed guides",
            unit.readable(report.guides_mm)
        ));
    }
    out
}

/// The width of a pen, which sixteenths can't show.
fn pen(mm: f64, unit: Unit) -> String {
    match unit.is_metric() {
        true => format!("{mm:.1} mm"),
        false => format!("{:.3} in", mm / Unit::In.in_mm()),
    }
}

/// The first few places, and how many more there are.
fn listed(places: &[Point], unit: Unit) -> String {
    const LISTED: usize = 3;
    let place = |at: &Point| format!("{}, {}", unit.readable(at.x), unit.readable(at.y));
    let first: Vec<String> = places.iter().take(LISTED).map(place).collect();
    match places.len().saturating_sub(LISTED) {
        0 => first.join("; "),
        more => format!("{} and {more} more", first.join("; ")),
    }
}
