//! Clipping held against brute force: integer grids, touches, runs along sides, slivers.

use proptest::prelude::*;

use super::*;
use crate::geom::BoxCorner;
use crate::geom::region::Perimeter;
use crate::leg::l_region;
use crate::transform::Transform;

fn line(points: &[(f64, f64)]) -> Polyline {
    Polyline::new(points.iter().map(|&(x, y)| Point::new(x, y)).collect()).expect("a line")
}

/// 8 x 8, legs 3 deep, elbow at the origin; corners at 0, 8, 11, 16, 21 and 24 along the boundary.
fn l() -> Region {
    l_region(BoxCorner::TopLeft, 8.0, 8.0, 3.0).expect("an L")
}

type Plain = (Vec<(f64, f64)>, EndOn, EndOn);

fn pieces(points: &[(f64, f64)]) -> Vec<Plain> {
    let clipped = clip(&line(points), &l(), 0.0).expect("some inside");
    let plain = |piece: &ClippedPiece| piece.line.points().iter().map(|p| (p.x, p.y)).collect();
    clipped
        .pieces
        .iter()
        .map(|piece| (plain(piece), piece.start, piece.end))
        .collect()
}

#[test]
fn a_line_all_inside_stays_as_it_is() {
    for points in [
        vec![(0.1, 0.2), (7.9, 0.3), (1.0, 2.9)],
        vec![(0.0, 0.0), (8.0, 0.0), (8.0, 3.0), (3.0, 3.0), (3.0, 8.0)],
    ] {
        let clipped = clip(&line(&points), &l(), 1e3).expect("inside");
        assert_eq!(clipped.pieces.len(), 1);
        assert_eq!(clipped.pieces[0].line, line(&points));
    }
}

/// Two sides meet at a corner that from + (to - from) does not hit: a line through the corner's
/// height passed beside both.
#[test]
fn a_corner_that_rounding_moves_is_one_corner_all_the_same() {
    let corners = [
        (11.0, -3.75),
        (14.5, -5e-60),
        (-5e-11, 26.5),
        (-29.75, -24.5),
    ];
    let corners = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
    let region = Region::new(corners).expect("a region");
    let clipped = clip(&line(&[(60.0, 0.0), (0.0, 0.0)]), &region, 0.0).expect("inside");
    assert!((clipped.length() - 14.5).abs() < 1e-9, "{clipped:?}");
}

#[test]
fn touches_neither_cut_nor_make_a_piece() {
    // From inside to the side, into the inner corner, along it, and back.
    let inside = [
        (1.0, 1.0),
        (4.0, 0.0),
        (2.0, 2.0),
        (3.0, 3.0),
        (3.0, 5.0),
        (1.0, 1.0),
    ];
    assert_eq!(pieces(&inside).len(), 1);
    // From outside to the corner, to the middle of a side, and through the inner corner's point.
    let outside = [
        (-1.0, 1.0),
        (1.0, -1.0),
        (4.0, 0.0),
        (9.0, -1.0),
        (9.0, 1.0),
    ];
    let error = clip(&line(&outside), &l(), 0.0).expect_err("only touches");
    assert!(error.to_string().contains("10 x 2 at (-1, -1)"), "{error}");
}

#[test]
fn a_run_along_a_side_stays() {
    let run = pieces(&[(-2.0, -2.0), (2.0, 0.0), (5.0, 0.0), (6.0, -4.0)]);
    let expected = vec![(2.0, 0.0), (5.0, 0.0)];
    assert_eq!(
        run,
        [(expected, EndOn::Boundary(2.0), EndOn::Boundary(5.0))]
    );
    let beyond = pieces(&[(-2.0, 0.0), (10.0, 0.0)]);
    let expected = vec![(0.0, 0.0), (8.0, 0.0)];
    assert_eq!(
        beyond,
        [(expected, EndOn::Boundary(0.0), EndOn::Boundary(8.0))]
    );
    let inner = pieces(&[(1.0, 3.0), (9.0, 3.0), (9.0, 8.0), (1.0, 8.0)]);
    assert_eq!(inner.len(), 2);
    assert_eq!(inner[0].0, [(1.0, 3.0), (8.0, 3.0)]);
    assert_eq!(inner[1].1, EndOn::Boundary(21.0));
    assert_eq!(inner[1].2, EndOn::Boundary(25.0 - 2.0));
}

#[test]
fn the_inner_corner_and_vertices_on_sides_cut_once() {
    let through = pieces(&[(1.0, 5.0), (5.0, 1.0)]);
    assert_eq!(through.len(), 1, "{through:?}");
    let vertices = pieces(&[(1.0, 1.0), (5.0, 3.0), (5.0, 5.0), (3.0, 5.0), (1.0, 7.0)]);
    let ends: Vec<_> = vertices.iter().map(|piece| (piece.1, piece.2)).collect();
    assert_eq!(
        ends,
        [
            (EndOn::Inside, EndOn::Boundary(14.0)),
            (EndOn::Boundary(18.0), EndOn::Inside)
        ]
    );
}

#[test]
fn a_run_beyond_a_corner_of_a_turned_region_ends_there() {
    let map = Transform::rotate_degrees(30.0);
    let region = l_region(BoxCorner::TopRight, 8.0, 8.0, 3.0).expect("an L");
    let region = region.map(|p| map.apply(p)).expect("an L");
    let run = line(&[(8.0, 6.0), (8.0, -1.0)])
        .map(|p| map.apply(p))
        .expect("a line");
    let clipped = clip(&run, &region, 0.0).expect("inside");
    assert_eq!(clipped.pieces.len(), 1, "{:?}", clipped.pieces);
    assert!(
        (clipped.length() - 6.0).abs() < 1e-9,
        "{:?}",
        clipped.pieces
    );
}

#[test]
fn slivers_are_dropped_and_counted() {
    let sliver = [
        (1.0, 1.0),
        (1.0, -1.0),
        (7.9, -1.0),
        (8.1, 0.1),
        (9.0, 9.0),
        (1.0, 7.0),
    ];
    let kept = clip(&line(&sliver), &l(), 0.0).expect("inside");
    assert_eq!((kept.pieces.len(), kept.slivers), (2, 0));
    let cut = [(7.9, -1.0), (7.9, 0.1), (8.1, 0.1), (9.0, 9.0), (1.0, 7.0)];
    let kept = clip(&line(&cut), &l(), 0.0).expect("inside");
    assert_eq!((kept.pieces.len(), kept.slivers), (2, 0));
    let dropped = clip(&line(&cut), &l(), 0.5).expect("inside");
    assert_eq!((dropped.pieces.len(), dropped.slivers), (1, 1));
    assert!((dropped.lost_length - 0.2).abs() < 1e-12);
    let error = clip(&line(&cut[..3]), &l(), 0.5).expect_err("only slivers");
    assert!(
        error
            .to_string()
            .starts_with("only 1 sliver shorter than 0.5"),
        "{error}"
    );
}

#[test]
fn what_cannot_be_cut_is_refused() {
    let far = line(&[(20.0, 30.0), (22.0, 33.0)]);
    let error = clip(&far, &l(), 0.0).expect_err("outside");
    assert_eq!(
        error.to_string(),
        "the drawing (2 x 3 at (20, 30)) lies entirely outside the region (8 x 8 at (0, 0)); move \
         or scale the drawing so that they overlap"
    );
    for sliver in [-1.0, f64::NAN, f64::INFINITY] {
        assert!(
            clip(&far, &l(), sliver)
                .expect_err("no tolerance")
                .is_geometry()
        );
    }
}

/// Whether each of many samples along the line is covered, by the pieces and by the region.
fn check_samples(line: &Polyline, region: &Region, slack: f64) -> Result<(), TestCaseError> {
    let clipped = match clip(line, region, 0.0) {
        Ok(clipped) => clipped,
        Err(error) => {
            prop_assert!(error.to_string().contains("entirely outside"));
            Clipped {
                pieces: Vec::new(),
                slivers: 0,
                lost_length: 0.0,
            }
        }
    };
    let mut inside_samples = 0.0;
    for pair in line.points().windows(2) {
        for step in 0..64 {
            let share = (f64::from(step) + 0.5) / 64.0;
            let sample = pair[0] + (pair[1] - pair[0]) * share;
            let inside = region.contains(sample) || region.distance_to_boundary(sample) < slack;
            if inside {
                inside_samples += (pair[1] - pair[0]).norm() / 64.0;
                let covered = clipped.pieces.iter().any(|piece| {
                    piece.line.points().windows(2).any(|p| {
                        crate::geom::measure::distance_to_segment(sample, p[0], p[1]) < 1e-9
                    })
                });
                prop_assert!(covered, "{sample} is inside and not covered");
            }
        }
    }
    let step: f64 = line
        .points()
        .windows(2)
        .map(|p| (p[1] - p[0]).norm() / 64.0)
        .sum();
    let cuts = 2.0 * region.corners().len() as f64;
    prop_assert!((clipped.length() - inside_samples).abs() <= step * cuts);
    let boundary = Perimeter::of(region);
    for piece in &clipped.pieces {
        let ends = [
            (piece.start, piece.line.start()),
            (piece.end, piece.line.end()),
        ];
        for (end, point) in ends {
            if let EndOn::Boundary(position) = end {
                prop_assert!((boundary.point_at(position) - point).norm() < 1e-10);
                prop_assert!((0.0..boundary.length()).contains(&position));
            }
        }
        for &point in piece.line.points() {
            prop_assert!(region.contains(point) || region.distance_to_boundary(point) < 1e-10);
        }
        for pair in piece.line.points().windows(2) {
            let middle = nalgebra::center(&pair[0], &pair[1]);
            prop_assert!(region.contains(middle) || region.distance_to_boundary(middle) < 1e-10);
        }
    }
    check_order(line, &clipped)
}

/// Walks the pieces along the line: each point lies on it, never before the one before.
fn check_order(line: &Polyline, clipped: &Clipped) -> Result<(), TestCaseError> {
    let points = line.points();
    let (mut segment, mut along) = (0, 0.0);
    for piece in &clipped.pieces {
        for &point in piece.line.points() {
            loop {
                prop_assert!(segment + 1 < points.len(), "{point} is not on the line");
                let step = points[segment + 1] - points[segment];
                let at = (point - points[segment]).dot(&step) / step.norm();
                let off = crate::geom::measure::distance_to_segment(
                    point,
                    points[segment],
                    points[segment + 1],
                );
                if off < 1e-9 && at > along - 1e-9 {
                    along = at;
                    break;
                }
                (segment, along) = (segment + 1, 0.0);
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(1000)))]

    #[test]
    fn on_an_integer_grid_the_samples_agree(
        points in prop::collection::vec((-1i32..10, -1i32..10), 2..12),
        elbow in 0usize..4,
        degrees in prop::sample::select(vec![0.0, 90.0, 30.0, 17.0]),
        shift in prop::sample::select(vec![0.0, 1000.25]),
    ) {
        let region = l_region(BoxCorner::ALL[elbow], 8.0, 8.0, 3.0).expect("an L");
        let points = points.iter().map(|&(x, y)| Point::new(x.into(), y.into())).collect();
        let Ok(line) = Polyline::new(points) else { return Ok(()) };
        let map = Transform::rotate_degrees(degrees).then(Transform::translate(shift, -shift));
        let turned = line.map(|p| map.apply(p)).expect("a line");
        check_samples(&turned, &region.map(|p| map.apply(p)).expect("an L"), 1e-11)?;
    }

    #[test]
    fn the_union_covers_a_star_of_many_sides(
        radii in prop::collection::vec(2.0..6.0f64, 3..60),
        points in prop::collection::vec((-7.0..7.0f64, -7.0..7.0f64), 2..20),
    ) {
        let step = std::f64::consts::TAU / radii.len() as f64;
        let corners = radii.iter().enumerate().map(|(i, r)| {
            let (sin, cos) = (step * i as f64).sin_cos();
            Point::new(r * cos, r * sin)
        });
        let region = Region::new(corners.collect()).expect("a star-shaped polygon");
        check_samples(&line(&points), &region, 0.0)?;
    }

    #[test]
    fn rigid_motion_and_reversal_change_nothing(
        points in prop::collection::vec((-2.0..10.0f64, -2.0..10.0f64), 2..30),
        degrees in 0.0..360.0f64, x in -50.0..50.0f64, y in -50.0..50.0f64,
    ) {
        let drawing = line(&points);
        let Ok(plain) = clip(&drawing, &l(), 0.1) else { return Ok(()) };
        let map = Transform::rotate_degrees(degrees).then(Transform::translate(x, y));
        let region = l().map(|p| map.apply(p)).expect("an L");
        let moved = clip(&drawing.clone().map(|p| map.apply(p)).expect("a line"), &region, 0.1).expect("inside");
        prop_assert_eq!(plain.pieces.len(), moved.pieces.len());
        prop_assert!((plain.lost_length - moved.lost_length).abs() < 1e-9);
        for (a, b) in plain.pieces.iter().zip(&moved.pieces) {
            prop_assert_eq!(a.line.points().len(), b.line.points().len());
            for (p, q) in a.line.points().iter().zip(b.line.points()) {
                prop_assert!((map.apply(*p) - q).norm() < 1e-9);
            }
        }
        let back = clip(&drawing.reversed(), &l(), 0.1).expect("inside");
        prop_assert_eq!(plain.slivers, back.slivers);
        for (a, b) in plain.pieces.iter().zip(back.pieces.iter().rev()) {
            for (p, q) in a.line.points().iter().zip(b.line.points().iter().rev()) {
                prop_assert!((p - q).norm() < 1e-10);
            }
        }
    }
}
