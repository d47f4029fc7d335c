//! Measures of the quilt that do not agree with one another, and what stands in for missing ones.

use crate::geom::quad::Residual;
use crate::plan::finding::{Finding, FindingKind, Severity};
use crate::plan::lay::quilt::Quilt;
use crate::plan::practice::DISAGREEMENT_MM;

/// Looks for measures of the quilt that do not agree with one another.
pub(in crate::plan) fn disagreeing(quilt: &Quilt) -> Option<Finding> {
    let measured = quilt.measured.as_ref()?;
    let off = |residual: &&Residual| residual.off().abs();
    let worst = measured
        .residuals
        .iter()
        .max_by(|a, b| off(a).total_cmp(&off(b)))?;
    let severity = match off(&worst) {
        by if by > DISAGREEMENT_MM => Severity::Warning,
        // A sixteenth of an inch is as fine as lengths are shown.
        by if by > DISAGREEMENT_MM / 4.0 => Severity::Note,
        _ => return None,
    };
    let kind = FindingKind::MeasuresDisagree {
        what: worst.what,
        given: worst.given,
        found: worst.found,
    };
    Some(Finding::new(severity, kind))
}

/// Looks whether no diagonal of the quilt was measured.
pub(in crate::plan) fn unmeasured(quilt: &Quilt) -> Option<Finding> {
    let squarest = quilt.measured.as_ref()?.squarest?;
    Some(Finding::note(FindingKind::NoDiagonal {
        diagonals: squarest.diagonals,
        change: squarest.change,
        moves: squarest.moves,
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::{ConvexPolygon, Point};
    use crate::plan::lay::quilt::Measured;

    /// What a side that comes out by so many millimetres too long, or too short, is worth.
    fn severity(off: f64) -> Option<Severity> {
        let corners = [(0.0, 0.0), (60.0, 0.0), (60.0, 80.0)].map(|(x, y)| Point::new(x, y));
        let residual = |what, off: f64| Residual {
            what,
            given: 1000.0,
            found: 1000.0 + off,
        };
        let measured = Measured {
            residuals: vec![residual("top", 0.5), residual("left", off)],
            rms: 0.0,
            change: 0.0,
            moves: [0.0; 4],
            squarest: None,
        };
        let quilt = Quilt {
            outline: ConvexPolygon::new(corners.to_vec()).expect("an outline"),
            measured: Some(measured),
        };
        let finding = disagreeing(&quilt)?;
        let FindingKind::MeasuresDisagree { what, given, found } = finding.kind else {
            panic!("{finding:?}");
        };
        assert_eq!((what, given, found), ("left", 1000.0, 1000.0 + off));
        Some(finding.severity)
    }

    #[test]
    fn over_a_quarter_of_an_inch_is_a_warning_and_over_a_sixteenth_a_note() {
        for sign in [1.0, -1.0] {
            assert_eq!(severity(sign * 6.4), Some(Severity::Warning));
            assert_eq!(severity(sign * 6.3), Some(Severity::Note));
            assert_eq!(severity(sign * 1.6), Some(Severity::Note));
            assert_eq!(severity(sign * 1.5), None);
        }
    }
}
