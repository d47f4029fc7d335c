//! Every cusp a needle point, or reported.

use super::*;
use crate::geom::Vector;
use crate::geom::measure::point_at;

#[test]
fn cusps_are_needle_points() {
    let path = line(&[(0.0, 0.0), (3.3, 0.0), (3.3, 4.2), (8.0, 1.0), (9.0, 1.0)]);
    let stitches = stitched(&path, &plain());
    let cusps: Vec<Point> = stitches
        .anchors
        .iter()
        .map(|&at| stitches.points[at])
        .collect();
    assert_eq!(cusps, path.points()[1..4]);
    assert!(stitches.report.dropped.is_empty());
    assert!(stitches.report.worst_chord_error < 1e-12);
    check(&path, &plain(), &stitches);
}

#[test]
fn a_turn_below_the_angle_is_no_cusp() {
    let bend = |degrees: f64| {
        let (sin, cos) = degrees.to_radians().sin_cos();
        line(&[(0.0, 0.0), (4.6, 0.0), (4.6 + 4.0 * cos, 4.0 * sin)])
    };
    assert!(stitched(&bend(29.0), &plain()).anchors.is_empty());
    assert_eq!(stitched(&bend(31.0), &plain()).anchors, [5]);
}

#[test]
fn a_cusp_too_near_to_another_is_reported_with_its_place() {
    let path = line(&[(0.0, 0.0), (5.0, 0.0), (5.0, 0.2), (10.0, 0.2)]);
    let options = StitchOptions {
        minimum: 0.19,
        ..plain()
    };
    assert_eq!(stitched(&path, &options).anchors.len(), 2);
    let options = StitchOptions {
        minimum: 0.3,
        cusp_degrees: 20.0,
        ..plain()
    };
    let stitches = stitched(&path, &options);
    assert_eq!(stitches.anchors.len(), 1);
    let dropped = stitches.report.dropped[0];
    assert_eq!(dropped.at, Point::new(5.0, 0.2));
    let kept = stitches.anchors[0];
    let (from, to) = (stitches.points[kept], stitches.points[kept + 1]);
    assert!((dropped.distance - distance_to_segment(dropped.at, from, to)).abs() < 1e-12);
    check(&path, &options, &stitches);
}

#[test]
fn a_cusp_too_near_to_the_end_is_reported() {
    let path = line(&[(0.0, 0.0), (5.0, 0.0), (5.0, 0.2)]);
    let stitches = stitched(&path, &plain());
    assert!(stitches.anchors.is_empty());
    assert_eq!(stitches.report.dropped[0].at, Point::new(5.0, 0.0));
    check(&path, &plain(), &stitches);
}

#[test]
fn a_loop_back_to_a_cusp_keeps_both() {
    // A leaf that starts and ends on the stem at one point.
    let path = line(&[
        (0.0, 0.0),
        (5.0, 0.0),
        (4.0, -2.0),
        (5.0, -4.0),
        (6.0, -2.0),
        (5.0, 0.0),
        (10.0, 0.0),
    ]);
    let stitches = stitched(&path, &plain());
    assert_eq!(stitches.anchors.len(), 5);
    assert!(stitches.report.dropped.is_empty());
    check(&path, &plain(), &stitches);
}

#[test]
fn jitter_and_tiny_links_are_no_cusps() {
    let mut points: Vec<Point> = (0..=400)
        .map(|at| Point::new(f64::from(at) * 0.02, if at % 3 == 0 { 0.006 } else { 0.0 }))
        .collect();
    points.insert(200, points[199] + Vector::new(0.0, 0.03));
    let path = Polyline::new(points).expect("a line");
    let stitches = stitched(&path, &plain());
    assert!(stitches.anchors.is_empty() && stitches.report.dropped.is_empty());
    // They are counted all the same: here the tooth of each third point, twice 17 degrees at the
    // foot and 33 at the tip, and the two ends of the link.
    assert!(stitches.report.tiny > 100);
    assert!((8..=9).contains(&stitches.count()));
    check(&path, &plain(), &stitches);
}

/// How far a path turns at a vertex itself, and between arms of this length, in degrees.
fn turns(path: &[Point], at: usize, arm: f64) -> [f64; 2] {
    let back: Vec<Point> = path[..=at].iter().rev().copied().collect();
    let end = |points: &[Point]| point_at(points, arm).expect("a point");
    let turn = |from: Point, to: Point| {
        let degrees = (path[at] - from).angle(&(to - path[at])).to_degrees();
        if degrees.is_nan() { 0.0 } else { degrees }
    };
    [
        turn(path[at - 1], path[at + 1]),
        turn(end(&back), end(&path[at..])),
    ]
}

proptest! {
    #[test]
    fn every_cusp_is_kept_or_reported(path in zigzag(), options in options()) {
        let stitches = stitched(&path, &options);
        let points = path.points();
        let report = &stitches.report;
        let kept: Vec<Point> = stitches.anchors.iter().map(|&at| stitches.points[at]).collect();
        let (mut cusps, mut tiny) = (0, 0);
        for at in 1..points.len() - 1 {
            let [own, arms] = turns(points, at, options.minimum).map(|turn| turn - options.cusp_degrees);
            // Rounding may decide either way on the very angle.
            prop_assume!(own.abs() > 1e-6 && (own < 0.0 || arms.abs() > 1e-6));
            let is_kept = kept.contains(&points[at]);
            let dropped: Vec<_> = report.dropped.iter().filter(|miss| miss.at == points[at]).collect();
            if own > 0.0 && arms > 0.0 {
                cusps += 1;
                prop_assert!(is_kept != (dropped.len() == 1), "{at}");
            } else {
                prop_assert!(!is_kept && dropped.is_empty(), "{at}");
                tiny += usize::from(own > 0.0);
            }
        }
        prop_assert_eq!(kept.len() + report.dropped.len(), cusps);
        prop_assert_eq!(report.tiny, tiny);
    }
}
