//! What it took to make one line of a drawing's strokes, in words.

use super::short::counted;
use crate::strokes::OneLineReport;
use crate::units::Unit;

/// What it took to make one line of strokes, lengths in this unit.
///
/// ```
/// use quiltpath_core::io::words::one_line;
/// use quiltpath_core::strokes::{Drawing, OneLineOptions, Stroke};
/// use quiltpath_core::units::Unit;
///
/// let path = kurbo::BezPath::from_svg("M0 0 H 100 M 50 0 V 25").unwrap();
/// let drawing = Drawing::new("branch", vec![Stroke::new("a", path)]);
/// let line = drawing.one_line(&OneLineOptions::default())?;
/// assert_eq!(
///     one_line(&line.report, Unit::Mm),
///     "one line of 2 strokes: 25 mm (20 %) is stitched twice, which is the least; it goes straight on at 0 of 1 crossing"
/// );
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[must_use]
pub fn one_line(report: &OneLineReport, unit: Unit) -> String {
    let long = |length: f64| unit.readable(length * unit.in_mm());
    let mut parts = Vec::new();
    if report.retraced > 0.0 {
        let share = 100.0 * report.retraced_share();
        parts.push(format!(
            "{} ({share:.0} %) is stitched twice",
            long(report.retraced)
        ));
    }
    if report.links > 0 {
        let links = counted(report.links, "link");
        parts.push(format!("{links} of {} in all", long(report.linked)));
    }
    if report.cuts > 0 {
        parts.push(counted(report.cuts, "thread cut"));
    }
    let mut text = match parts.is_empty() {
        true => "nothing is added".to_owned(),
        false if report.is_least() => {
            format!("{}, which is the least", parts.join(", with "))
        }
        false => format!(
            "{}; no line adds less than {}",
            parts.join(", with "),
            long(report.least)
        ),
    };
    if report.crossings > 0 {
        let crossings = counted(report.crossings, "crossing");
        text += &format!(
            "; it goes straight on at {} of {crossings}",
            report.straight
        );
    }
    if report.overlaid > 0.0 {
        text += &format!(
            "; {} drawn on top of other strokes is stitched once",
            long(report.overlaid)
        );
    }
    if report.dropped > 0.0 {
        text += &format!(
            "; {:.2} mm too short to be kept is left out",
            report.dropped * unit.in_mm()
        );
    }
    let lines = match report.cuts {
        0 => "one line".to_owned(),
        cuts => format!("{} lines", cuts + 1),
    };
    format!("{lines} of {}: {text}", counted(report.strokes, "stroke"))
}
