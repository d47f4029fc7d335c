//! Borders that run round without a corner: closed, whole, at one depth, and what is refused.

use std::f64::consts::TAU;

use proptest::prelude::*;

use crate::geom::{Point, Round};
use crate::motif::Motif;
use crate::plan::spec::{
    BlocksSpec, BorderSpec, CornerSpec, CornerStyle, DesignSpec, QuiltSpec, SideSpec, UnitSpec,
};
use crate::plan::{PieceKind, PlanSpec, Solved, Stitched, solve, solve_around, stitch_plan};
use crate::strokes::Drawing;
use crate::{Error, chain::Alternate};

const INCH: f64 = 25.4;

fn wave(_: &crate::plan::MotifRequest) -> Result<Drawing, Error> {
    let points = [(0.0, 1.0), (1.0, 0.0), (3.0, 2.0), (4.0, 1.2)];
    let points = points.map(|(x, y)| Point::new(x, y)).to_vec();
    Ok(Motif::from_points("wave", points)?.into())
}

fn side() -> SideSpec {
    SideSpec::new("wave".to_owned())
}

fn plan(quilt: QuiltSpec, side: SideSpec) -> PlanSpec {
    let border = BorderSpec::new(5.0, CornerSpec::default(), side).with_slack(0.5);
    PlanSpec::new(UnitSpec::In, quilt).with_borders([border])
}

/// The one line of a border that runs round, on this edge, in inches.
fn check(solved: &Solved, edge: &Round) -> Result<(), TestCaseError> {
    let [piece] = solved.pieces.as_slice() else {
        panic!("{} pieces", solved.pieces.len());
    };
    let PieceKind::Ring(ring) = &piece.kind else {
        panic!("{:?}", piece.kind);
    };
    prop_assert_eq!(piece.start().point, piece.end().point);
    prop_assert!(solved.paths.len() == 1 && solved.paths[0].closed);
    // The middle of the band keeps its place, whatever the depth: half an inch and a quarter free.
    let middle = 0.5 + (5.0 - 0.75) / 2.0;
    let length = edge.length() - TAU * middle;
    prop_assert!((ring.span / INCH - length).abs() < 1e-9 * length);
    prop_assert!((ring.pitch * ring.fit.chosen.repeats as f64 - ring.span).abs() < 1e-6);
    let outer = middle - piece.depth / INCH / 2.0;
    for point in piece.points().step_by(7) {
        let point = point / INCH;
        let place = edge.at(edge.nearest(point));
        let inside = (place.point - point).dot(&place.outwards);
        let depth = (inside - outer) / (piece.depth / INCH);
        prop_assert!((-1e-6..=1.0 + 1e-6).contains(&depth), "{depth}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn repeats_go_round_an_oval_once_and_meet(width in 24.0..80.0f64, ratio in 0.6..1.0f64, mirrored: bool) {
        let height = width * ratio;
        let pattern = if mirrored { Alternate::LeftRight } else { Alternate::None };
        let plan = plan(QuiltSpec::ellipse(width, height), side().with_alternate(pattern));
        let solved = solve(&plan, wave).expect("solved");
        let centre = Point::new(width / 2.0, height / 2.0);
        let edge = Round::ellipse(centre, [width / 2.0, height / 2.0]).expect("an edge");
        check(&solved, &edge)?;
        if let (true, PieceKind::Ring(ring)) = (mirrored, &solved.pieces[0].kind) {
            prop_assert_eq!(ring.fit.chosen.repeats % 2, 0);
        }
    }

    #[test]
    fn repeats_go_round_rounded_corners(width in 30.0..80.0f64, height in 30.0..80.0f64, radius in 6.0..14.0f64) {
        let quilt = QuiltSpec::rectangle(width, height).with_rounding(radius);
        let solved = solve(&plan(quilt, side()), wave).expect("solved");
        let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
        let corners = corners.map(|(x, y)| Point::new(x, y)).to_vec();
        let outline = crate::geom::ConvexPolygon::new(corners).expect("an outline");
        check(&solved, &Round::rounded(&outline, radius).expect("an edge"))?;
    }
}

#[test]
fn borders_lie_in_one_another_until_a_seam_has_sharp_corners() {
    let border = |name: &str| BorderSpec::new(4.0, CornerSpec::default(), side()).with_name(name);
    let round = PlanSpec::new(UnitSpec::In, QuiltSpec::circle(40.0));
    let nested = round.clone().with_borders([border("rim"), border("ring")]);
    let solved = solve(&nested, wave).expect("solved");
    assert!(
        solved
            .pieces
            .iter()
            .all(|piece| matches!(piece.kind, PieceKind::Ring(_)))
    );
    let PieceKind::Ring(ring) = &solved.pieces[1].kind else {
        panic!("no ring");
    };
    // Inside the rim's 4 in, with 1/4 in free at either seam.
    assert!((ring.span / INCH - TAU * (20.0 - 4.0 - 2.0)).abs() < 1e-9);
    // Corners of 6 in are sharp 8 in inside, so the third border has sides.
    let quilt = QuiltSpec::rectangle(60.0, 60.0).with_rounding(6.5);
    let plan = PlanSpec::new(UnitSpec::In, quilt);
    let plan = plan.with_borders([border("a"), border("b").with_seam_gap(2.0), border("c")]);
    let solved = solve(&plan, wave).expect("solved");
    let kinds: Vec<&str> = solved
        .pieces
        .iter()
        .map(|piece| piece.kind.name())
        .collect();
    assert_eq!(kinds, ["ring", "ring", "side", "side", "side", "side"]);
}

#[test]
fn what_a_round_border_can_not_have_is_refused() {
    let refused = |plan: PlanSpec| match solve(&plan, wave) {
        Ok(_) => panic!("solved"),
        Err(error) => error.to_string(),
    };
    let circle = || QuiltSpec::circle(40.0);
    let with = |border: BorderSpec| PlanSpec::new(UnitSpec::In, circle()).with_borders([border]);
    for style in [CornerStyle::Mitred, CornerStyle::Butted, CornerStyle::Bent] {
        let border = BorderSpec::new(5.0, CornerSpec::new(style), side());
        assert!(
            refused(with(border)).contains("has no corners"),
            "{style:?}"
        );
    }
    // An ellipse of 60 by 30 in bends to a radius of 15 x 15 / 30 in at its ends.
    let border = BorderSpec::new(9.0, CornerSpec::default(), side());
    let oval = PlanSpec::new(UnitSpec::In, QuiltSpec::ellipse(60.0, 30.0));
    let tight = refused(oval.with_borders([border]));
    assert!(tight.contains("radius of 7.5 in"), "{tight}");
    let twice = refused(plan(circle().with_rounding(3.0), side()));
    assert!(twice.contains("no corners to round"), "{twice}");
    let large = refused(plan(
        QuiltSpec::rectangle(20.0, 60.0).with_rounding(11.0),
        side(),
    ));
    assert!(large.contains("10 in is the most"), "{large}");
    let blocks = BlocksSpec::new(2, 2).with_block(DesignSpec::new("wave"));
    assert!(refused(plan(circle(), side()).with_blocks(blocks)).contains("straight seams"));
}

#[test]
fn what_is_stitched_of_a_round_border_stays_or_is_refused() {
    let plan = plan(QuiltSpec::circle(40.0), side());
    let before = solve(&plan, wave).expect("solved");
    let runs = stitch_plan(&plan, &before).expect("stitched").runs;
    let mut stitched = Stitched::default();
    stitched
        .add_between(&before, &runs[0], [0.0, 500.0])
        .expect("added");
    let after = solve_around(&plan, &stitched, wave).expect("solved");
    assert!((after.stitched_length() - 500.0).abs() < 1e-6);
    let mut other = plan.clone();
    other.quilt = QuiltSpec::circle(41.0);
    let refused = solve_around(&other, &stitched, wave).expect_err("refused");
    assert!(
        refused.to_string().contains("has begun to be stitched"),
        "{refused}"
    );
}
