//! Every cusp a needle point, or reported.

use super::*;
use crate::geom::Vector;

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
    assert!((8..=9).contains(&stitches.count()));
    check(&path, &plain(), &stitches);
}

proptest! {
    #[test]
    fn every_cusp_is_kept_or_reported(path in zigzag(), options in options()) {
        let stitches = stitched(&path, &options);
        let accounted = stitches.anchors.len() + stitches.report.dropped.len();
        // What turns sharply between long arms is a cusp by any reading.
        let arms = |at: usize| {
            let p = path.points();
            ((p[at] - p[at - 1]), (p[at + 1] - p[at]))
        };
        let sharp = (1..path.points().len() - 1).filter(|&at| {
            let (a, b) = arms(at);
            a.norm() > options.minimum && b.norm() > options.minimum && a.angle(&b).to_degrees() > options.cusp_degrees + 1e-9
        });
        let mut count = 0;
        for at in sharp {
            count += 1;
            let point = path.points()[at];
            let kept = stitches.anchors.iter().any(|&a| stitches.points[a] == point);
            prop_assert!(kept || stitches.report.dropped.iter().any(|miss| miss.at == point));
        }
        prop_assert!(accounted >= count);
    }
}
