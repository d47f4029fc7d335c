//! Borders along a scalloped edge: whole repeats to each scallop, the gap kept, and what is
//! refused.

use proptest::prelude::*;

use crate::geom::{Point, Round, Scallops};
use crate::motif::Motif;
use crate::plan::spec::{BorderSpec, CornerSpec, QuiltSpec, SideSpec, UnitSpec};
use crate::plan::{MarkKind, PieceKind, PlanSpec, Solved, solve, stitch_plan};
use crate::strokes::Drawing;
use crate::{Error, chain::Alternate};

const INCH: f64 = 25.4;

fn wave(_: &crate::plan::MotifRequest) -> Result<Drawing, Error> {
    let points = [(0.0, 1.0), (1.0, 0.0), (3.0, 2.0), (4.0, 1.0)];
    let points = points.map(|(x, y)| Point::new(x, y)).to_vec();
    Ok(Motif::from_points("wave", points)?.into())
}

fn plan(quilt: QuiltSpec, pattern: Alternate, slack: f64) -> PlanSpec {
    let side = SideSpec::new("wave".to_owned()).with_alternate(pattern);
    let border = BorderSpec::new(6.0, CornerSpec::default(), side).with_slack(slack);
    PlanSpec::new(UnitSpec::In, quilt).with_borders([border])
}

fn check(solved: &Solved, curve: &Round, scallops: &Scallops) -> Result<(), TestCaseError> {
    let [piece] = solved.pieces.as_slice() else {
        panic!("{} pieces", solved.pieces.len());
    };
    let PieceKind::Ring(ring) = &piece.kind else {
        panic!("{:?}", piece.kind);
    };
    prop_assert_eq!(piece.start().point, piece.end().point);
    prop_assert_eq!(ring.scallops, scallops.arcs().len());
    prop_assert_eq!(ring.fit.chosen.repeats % ring.scallops, 0);
    let edge = scallops.parallel(0.0).expect("the edge");
    let [mut nearest, mut deepest] = [f64::INFINITY, 0.0_f64];
    for point in piece.points().step_by(11) {
        let point = point / INCH;
        let off = edge.arcs().iter().map(|arc| arc.distance(point));
        nearest = off.fold(nearest, f64::min);
        let foot = curve.at(curve.nearest(point));
        deepest = deepest.max((foot.point - point).dot(&foot.outwards));
    }
    // Half an inch free at the edge, a quarter at the seam.
    prop_assert!(nearest > 0.5 - 1e-3, "{nearest}");
    prop_assert!(deepest < 6.0 - 0.25 + 1e-3, "{deepest}");
    let beyond = ["off_quilt", "over_seam", "outside_band", "under_binding"];
    let found = solved
        .findings
        .iter()
        .find(|finding| beyond.contains(&finding.kind.code()));
    prop_assert!(found.is_none(), "{:?}", found);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn each_scallop_of_an_oval_has_as_many_repeats(width in 30.0..80.0f64, ratio in 0.75..1.0f64, count in 14usize..30, depth in 0.25..1.5f64, slack in 0.0..0.5f64, mirrored: bool) {
        let pattern = if mirrored { Alternate::LeftRight } else { Alternate::None };
        let height = width * ratio;
        let curve = Round::ellipse(Point::new(width / 2.0, height / 2.0), [width / 2.0, height / 2.0]).expect("an ellipse");
        let Ok(scallops) = Scallops::new(&curve, count, depth) else {
            return Err(TestCaseError::reject("too deep"));
        };
        prop_assume!(scallops.parallel(1.0).is_ok());
        let quilt = QuiltSpec::ellipse(width, height).with_scallops(count, depth);
        let solved = solve(&plan(quilt, pattern, slack), wave).expect("solved");
        check(&solved, &curve, &scallops)?;
        if let (true, PieceKind::Ring(ring)) = (mirrored, &solved.pieces[0].kind) {
            prop_assert_eq!(ring.fit.chosen.repeats % 2, 0);
        }
    }

    #[test]
    fn scallops_go_round_rounded_corners(width in 40.0..80.0f64, height in 40.0..80.0f64, radius in 10.0..16.0f64, count in 20usize..40) {
        let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
        let corners = corners.map(|(x, y)| Point::new(x, y)).to_vec();
        let outline = crate::geom::ConvexPolygon::new(corners).expect("an outline");
        let curve = Round::rounded(&outline, radius).expect("an edge");
        let scallops = Scallops::new(&curve, count, 0.75).expect("scallops");
        let quilt = QuiltSpec::rectangle(width, height).with_rounding(radius).with_scallops(count, 0.75);
        let solved = solve(&plan(quilt, Alternate::None, 0.0), wave).expect("solved");
        check(&solved, &curve, &scallops)?;
    }
}

#[test]
fn what_scallops_can_not_do_is_refused_in_its_key() {
    let said = |spec: &PlanSpec| match solve(spec, wave) {
        Ok(_) => panic!("solved"),
        Err(error) => format!("{}: {error}", error.element().unwrap_or_default()),
    };
    let drawn = |quilt: QuiltSpec| plan(quilt, Alternate::None, 0.0);
    let sharp = drawn(QuiltSpec::rectangle(40.0, 40.0).with_scallops(20, 1.0));
    assert!(
        said(&sharp).contains("quilt.scallops: "),
        "{}",
        said(&sharp)
    );
    assert!(said(&sharp).contains("round edge"), "{}", said(&sharp));
    let steep = drawn(QuiltSpec::circle(40.0).with_scallops(20, 4.0));
    assert!(
        said(&steep).contains("quilt.scallops: depth"),
        "{}",
        said(&steep)
    );
    assert!(said(&steep).contains(" in is the most"), "{}", said(&steep));
    let mut narrow = drawn(QuiltSpec::circle(60.0).with_scallops(12, 2.0));
    narrow.borders[0] = BorderSpec::new(2.5, CornerSpec::default(), narrow.borders[0].side.clone());
    assert!(said(&narrow).contains("at the cusps"), "{}", said(&narrow));
    let mut odd = drawn(QuiltSpec::circle(40.0).with_scallops(20, 0.5));
    odd.borders[0].side = odd.borders[0].side.clone().with_repeats(30);
    assert!(said(&odd).contains("give 40"), "{}", said(&odd));
}

#[test]
fn the_needle_finds_the_cusps() {
    let quilt = QuiltSpec::circle(40.0).with_scallops(20, 0.5);
    let spec = plan(quilt, Alternate::None, 0.0);
    let solved = solve(&spec, wave).expect("solved");
    let stitching = stitch_plan(&spec, &solved).expect("stitched");
    let marks = stitching.passes.iter().flat_map(|pass| &pass.marks);
    let cusps: Vec<_> = marks
        .filter_map(|mark| match mark.kind {
            MarkKind::Cusp { number } => Some((number, mark.point)),
            _ => None,
        })
        .collect();
    assert!(cusps.len() >= 2, "{cusps:?}");
    for (number, point) in cusps {
        let turn = std::f64::consts::TAU * number as f64 / 20.0;
        let (sin, cos) = turn.sin_cos();
        let there = Point::new(20.0 + 19.5 * sin, 20.0 - 19.5 * cos) * INCH;
        assert!((point - there).norm() < 1e-6, "{number}");
    }
}
