//! Points that stitches leave out: reported when they can be seen, not when rounding alone moves
//! them.

use super::*;
use proptest::prelude::*;

/// A repeat with a hairpin as wide as this many millimetres: two sharp points that near to each
/// other, so that no stitch fits between them.
fn hairpin(wide: f64) -> Motif {
    let mm = wide / INCH;
    motif(&[
        (0.0, 1.0),
        (1.0, 0.0),
        (3.0, 0.6),
        (3.0, 0.6 + mm),
        (1.5, 0.6 + mm),
        (2.0, 2.0),
        (4.0, 1.0),
    ])
}

proptest! {
    #[test]
    fn a_point_beside_its_stitch_by_rounding_is_no_finding(exponent in -11.0..-0.7f64, slant in 0.1..2.0f64) {
        let wide = 10f64.powf(exponent);
        let mut plan = spec(CornerStyle::Open);
        // Bands that are not square to the axes, so that points are rounded.
        plan.quilt = QuiltSpec::rectangle(inches(60.0 + slant), inches(80.0));
        plan.borders[0].width = inches(5.0 + slant).into();
        let solved = solve_with(&plan, &corner(0.5, 0.5), &hairpin(wide)).expect("solved");
        let stitching = stitch_plan(&plan, &solved).expect("stitched");
        let lines = stitching.job.lines.iter();
        let dropped: Vec<f64> = lines
            .flat_map(|line| &line.stitches.report.dropped)
            .map(|miss| miss.distance)
            .collect();
        prop_assert!(!dropped.is_empty(), "no sharp point is left out");
        let reported: Vec<(usize, f64)> = stitching.findings.iter().filter_map(|finding| match finding.kind {
            FindingKind::ShortStitches { count, by, sharp: true } => Some((count, by)),
            _ => None,
        }).collect();
        let seen = dropped.iter().filter(|&&by| by > 1e-6).count();
        prop_assert_eq!(reported.iter().map(|(count, _)| count).sum::<usize>(), seen);
        prop_assert!(reported.iter().all(|(_, by)| *by > 1e-6), "{:?}", reported);
    }
}
