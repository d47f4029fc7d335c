//! Measures of the quilt that do not agree with one another.

use crate::geom::quad::Residual;
use crate::plan::finding::{Finding, FindingKind, Severity};
use crate::plan::lay::quilt::Quilt;

/// 1/4 in: half of what common practice keeps free at the edge; our own choice.
const LIMIT_MM: f64 = 6.35;

/// Looks for measures of the quilt that do not agree with one another.
pub(in crate::plan) fn disagreeing(quilt: &Quilt) -> Option<Finding> {
    let measured = quilt.measured.as_ref()?;
    let off = |residual: &&Residual| residual.off().abs();
    let worst = measured
        .residuals
        .iter()
        .max_by(|a, b| off(a).total_cmp(&off(b)))?;
    let severity = match off(&worst) {
        by if by > LIMIT_MM => Severity::Warning,
        // A sixteenth of an inch is as fine as lengths are shown.
        by if by > LIMIT_MM / 4.0 => Severity::Note,
        _ => return None,
    };
    let kind = FindingKind::MeasuresDisagree {
        what: worst.what,
        given: worst.given,
        found: worst.found,
    };
    Some(Finding::new(severity, kind))
}
