//! What a solved plan has to say: notes, warnings and errors, each with its place and a way out.

use super::pieces::{Piece, PieceKind};
use super::quilt::Quilt;
use crate::fit::EaseReport;
use crate::geom::Point;
use crate::geom::quad::Residual;
use crate::units::Unit;

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Good to know.
    Note,
    /// Look at it before stitching.
    Warning,
    /// Not to be stitched like this.
    Error,
}

impl Severity {
    /// The name in data: `note`, `warning` or `error`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

/// One thing that the plan's solution has to say.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// What it is, in one word that stays the same: the guide's chapter on findings lists them.
    pub code: &'static str,
    /// What it is and what to do, in plain words.
    pub message: String,
    /// Where it is on the quilt, in millimetres, when it has one place.
    pub at: Option<Point>,
}

impl Finding {
    pub(crate) fn note(code: &'static str, at: Option<Point>, message: String) -> Self {
        Self::new(Severity::Note, code, at, message)
    }

    pub(crate) fn warning(code: &'static str, at: Option<Point>, message: String) -> Self {
        Self::new(Severity::Warning, code, at, message)
    }

    pub(crate) fn error(code: &'static str, at: Option<Point>, message: String) -> Self {
        Self::new(Severity::Error, code, at, message)
    }

    pub(super) fn new(
        severity: Severity,
        code: &'static str,
        at: Option<Point>,
        message: String,
    ) -> Self {
        Self {
            severity,
            code,
            message,
            at,
        }
    }
}

/// Looks for measures of the quilt that do not agree with one another.
pub(crate) fn disagreeing(quilt: &Quilt, unit: Unit) -> Option<Finding> {
    /// 1/4 in: half of what common practice keeps free at the edge; our own choice.
    const LIMIT_MM: f64 = 6.35;
    let measured = quilt.measured.as_ref()?;
    let off = |residual: &&Residual| residual.off().abs();
    let worst = measured
        .residuals
        .iter()
        .max_by(|a, b| off(a).total_cmp(&off(b)))?;
    let (given, found) = (unit.readable(worst.given), unit.readable(worst.found));
    let severity = match off(&worst) {
        by if by > LIMIT_MM => Severity::Warning,
        // A sixteenth of an inch is as fine as lengths are told.
        by if by > LIMIT_MM / 4.0 => Severity::Note,
        _ => return None,
    };
    Some(Finding::new(
        severity,
        "measures_disagree",
        None,
        format!(
            "no quilt has all these sides and diagonals: {} is taken as {found} instead of {given}, the others by less off; measure again, or leave out the diagonal that you trust less",
            worst.what
        ),
    ))
}

/// Looks at every side whose stretch is beyond the limit, given as a fraction.
pub(crate) fn stretched(pieces: &[Piece], limit: f64) -> Vec<Finding> {
    pieces
        .iter()
        .filter_map(|piece| {
            let PieceKind::Side(side) = &piece.kind else {
                return None;
            };
            let stretch = side.fit.chosen.stretch;
            ((stretch - 1.0).abs() > limit).then(|| {
                let other = if stretch > 1.0 { side.fit.more } else { side.fit.fewer };
                let instead = other.map_or_else(String::new, |choice| {
                    format!(
                        "; {} would be stretched by {}",
                        counted(choice.repeats, "repeat"),
                        percent(choice.stretch)
                    )
                });
                Finding::warning(
                    "stretch",
                    Some(piece.motif.start().point),
                    format!(
                        "{}: {} {} stretched by {}, more than {:.1} %{instead}; change the border's width or gaps, or the corner's size",
                        piece.name,
                        counted(side.fit.chosen.repeats, "repeat"),
                        if side.fit.chosen.repeats == 1 { "is" } else { "are" },
                        percent(stretch),
                        limit * 100.0
                    ),
                )
            })
        })
        .collect()
}

/// A count with its noun as a person reads it: `1 repeat`, `5 repeats`.
#[must_use]
pub fn counted(count: usize, noun: &str) -> String {
    format!("{count} {noun}{}", if count == 1 { "" } else { "s" })
}

/// A stretch factor as a person reads it: `+2.3 %`.
#[must_use]
pub fn percent(stretch: f64) -> String {
    let value = ((stretch - 1.0) * 1000.0).round() / 10.0 + 0.0;
    format!("{value:+.1} %")
}

/// What to say where the stems of an eased repeat could not take its stretch: nothing when they
/// took nine tenths of it, or when the loops stay within a hundredth of round. Both limits are our
/// own choice.
#[must_use]
pub fn ease_limited(report: &EaseReport) -> Option<String> {
    let loops = report.loops?;
    if report.unabsorbed <= 0.1 || report.roundness() >= 0.99 {
        return None;
    }
    let [least, most] = report.takes.map(percent);
    let taken = (1.0 - report.unabsorbed) * 100.0;
    let loops = percent(loops);
    let stems = if report.absorbing > 0.0 {
        format!(
            "the stems between the loops could take a stretch of {least} to {most}, so they take only {taken:.0} % of it and the rest is spread evenly"
        )
    } else {
        "the repeat has no stem between its loops, so its stretch is spread evenly".to_owned()
    };
    Some(format!(
        "{stems}: loops are stretched by {loops}; take numbers of repeats with less stretch, or draw more stem between the loops"
    ))
}
