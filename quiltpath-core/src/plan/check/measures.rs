//! Measures of the quilt that do not agree with one another, and what stands in for missing ones.

use crate::geom::near_square::odd_one_out;
use crate::geom::quad::{NAMES, Residual};
use crate::plan::finding::{Finding, FindingKind, OddMeasure, Severity};
use crate::plan::lay::quilt::Quilt;
use crate::plan::practice::DISAGREEMENT_MM;

/// Looks for measures of the quilt that do not agree with one another.
pub(in crate::plan) fn disagreeing(quilt: &Quilt) -> Option<Finding> {
    let measured = quilt.measured.as_ref()?;
    let off = measured
        .residuals
        .iter()
        .map(|residual| residual.off().abs());
    let by = off.fold(0.0, f64::max);
    let severity = match by {
        by if by > DISAGREEMENT_MM => Severity::Warning,
        // A sixteenth of an inch is as fine as lengths are shown.
        by if by > DISAGREEMENT_MM / 4.0 => Severity::Note,
        _ => return None,
    };
    let odd = odd(&measured.residuals);
    Some(Finding::new(
        severity,
        FindingKind::MeasuresDisagree { by, odd },
    ))
}

/// The measure that stands out, which needs not be the one that is farthest off: the nearest quilt
/// spreads what is wrong with one over all.
fn odd(residuals: &[Residual]) -> Option<OddMeasure> {
    let given: Vec<f64> = residuals.iter().map(|residual| residual.given).collect();
    let (at, implied) = <[f64; 6]>::try_from(given).ok().and_then(odd_one_out)?;
    Some(OddMeasure {
        what: NAMES[at],
        given: residuals[at].given,
        implied,
    })
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

    const SIDE: f64 = 1000.0;

    /// What is found where the measures of a square are these, each as given and as found.
    fn finding(lengths: [(f64, f64); 6]) -> Option<Finding> {
        let corners = [(0.0, 0.0), (60.0, 0.0), (60.0, 80.0)].map(|(x, y)| Point::new(x, y));
        let residual = |(what, (given, found))| Residual { what, given, found };
        let measured = Measured {
            residuals: NAMES.into_iter().zip(lengths).map(residual).collect(),
            rms: 0.0,
            change: 0.0,
            moves: [0.0; 4],
            squarest: None,
        };
        disagreeing(&Quilt {
            outline: ConvexPolygon::new(corners.to_vec()).expect("an outline"),
            measured: Some(measured),
            round: None,
            scallops: None,
        })
    }

    /// A square as given, with one side that comes out so much longer or shorter.
    fn off(by: f64) -> [(f64, f64); 6] {
        let across = SIDE * 2.0_f64.sqrt();
        [SIDE, SIDE, SIDE, SIDE + by, across, across].map(|found| match found {
            found if found == SIDE + by => (SIDE, found),
            found => (found, found),
        })
    }

    #[test]
    fn over_a_quarter_of_an_inch_is_a_warning_and_over_a_sixteenth_a_note() {
        let severity = |by: f64| finding(off(by)).map(|found| found.severity);
        for sign in [1.0, -1.0] {
            assert_eq!(severity(sign * 6.4), Some(Severity::Warning));
            assert_eq!(severity(sign * 6.3), Some(Severity::Note));
            assert_eq!(severity(sign * 1.6), Some(Severity::Note));
            assert_eq!(severity(sign * 1.5), None);
        }
    }

    #[test]
    fn a_measure_is_named_where_the_others_agree_without_it_and_nowhere_else() {
        let kind = |lengths| finding(lengths).expect("found").kind;
        // A diagonal of a square 20 too long: the nearest quilt takes each measure a little off.
        let across = SIDE * 2.0_f64.sqrt();
        let given = [SIDE, SIDE, SIDE, SIDE, across, across + 20.0];
        let FindingKind::MeasuresDisagree { by, odd } =
            kind(given.map(|given| (given, given + 7.0)))
        else {
            panic!("another finding");
        };
        let odd = odd.expect("one stands out");
        assert_eq!(
            (odd.what, odd.given),
            ("the rising diagonal", across + 20.0)
        );
        assert!((odd.implied - across).abs() < 1e-6 && (by - 7.0).abs() < 1e-9);
        // Both diagonals too long alike: neither is to blame more than the other.
        let given = [SIDE, SIDE, SIDE, SIDE, across + 12.0, across + 12.0];
        let FindingKind::MeasuresDisagree { odd, .. } =
            kind(given.map(|given| (given, given + 7.0)))
        else {
            panic!("another finding");
        };
        assert_eq!(odd, None);
    }
}
