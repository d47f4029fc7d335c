//! What easing could not do, in words.

use super::short::percent;
use crate::fit::EaseReport;
use crate::plan::ease_is_limited;

/// What to report where the stems of an eased repeat could not take its stretch; `None` when its
/// loops stay round within a fiftieth.
#[must_use]
pub fn ease_limited(report: &EaseReport) -> Option<String> {
    ease_is_limited(report).then(|| limited(report))
}

/// The same for stems that could not.
pub(super) fn limited(report: &EaseReport) -> String {
    let [least, most] = report.takes.map(percent);
    let taken = (1.0 - report.unabsorbed) * 100.0;
    let loops = percent(report.loops.unwrap_or(1.0));
    let stems = if report.absorbing > 0.0 {
        format!(
            "the stems between the loops could take a stretch of {least} to {most}, so they take only {taken:.0} % of it and the rest is spread evenly"
        )
    } else {
        "the repeat has no stem between its loops, so its stretch is spread evenly".to_owned()
    };
    format!(
        "{stems}: loops are stretched by {loops}; choose numbers of repeats with less stretch, or draw more stem between the loops"
    )
}
