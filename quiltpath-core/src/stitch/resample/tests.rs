//! Needle points held against all that is promised of them, the chord error by dense samples.

mod bounds;
mod cusps;
mod spacing;

use super::*;
use crate::geom::measure::{distance_to_segment, length};
use crate::geom::{Point, Vector};
use crate::units::Unit;
use proptest::prelude::*;
use std::f64::consts::SQRT_2;

fn line(points: &[(f64, f64)]) -> Polyline {
    let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Polyline::new(points).expect("a line")
}

fn stitched(line: &Polyline, options: &StitchOptions) -> Stitches {
    resample(line, options).expect("stitches")
}

/// Stitches of 1, at least 0.25 long, within 0.1 of the path.
fn plain() -> StitchOptions {
    StitchOptions::new(1.0)
}

/// Holds stitches against all that is promised whatever the path is.
fn check(path: &Polyline, options: &StitchOptions, stitches: &Stitches) {
    let points = &stitches.points;
    assert_eq!(points[0], path.start());
    assert_eq!(points[points.len() - 1], path.end());
    let gaps = || points.windows(2).map(|pair| (pair[1] - pair[0]).norm());
    let (least, most) = (
        gaps().fold(f64::INFINITY, f64::min),
        gaps().fold(0.0, f64::max),
    );
    let report = &stitches.report;
    assert!((report.shortest - least).abs() < 1e-9);
    assert!((report.longest - most).abs() < 1e-9);
    assert!(most <= SQRT_2 * options.target * (1.0 + 1e-9), "{most}");
    if points.len() > 2 || (path.end() - path.start()).norm() >= options.minimum {
        assert!(least >= options.minimum * (1.0 - 1e-9), "{least}");
    }
    assert!(length(points) <= path.length() * (1.0 + 1e-9));
    for at in &stitches.anchors {
        assert!(path.points().contains(&points[*at]));
    }
    if report.strayed.is_empty() {
        assert!(report.worst_chord_error <= options.chord_error * (1.0 + 1e-9));
    }
}

/// Finds the needle points on a path that does not cross itself, and the chord error of each
/// stitch by samples of the path, every 500th of its length at most, and all its vertices.
fn sampled_errors(path: &Polyline, needles: &[Point]) -> Vec<f64> {
    let mut errors = vec![];
    let mut next = 1;
    let mut worst: f64 = 0.0;
    let fine = path.length() / 500.0;
    for pair in path.points().windows(2) {
        let step = pair[1] - pair[0];
        let parts = (step.norm() / fine).ceil();
        let mut at = 0.0;
        // Needle points on this segment, and samples between them.
        while next < needles.len() && distance_to_segment(needles[next], pair[0], pair[1]) < 1e-9 {
            let on = (needles[next] - pair[0]).norm() / step.norm();
            assert!(on >= at - 1e-9, "needle points go back");
            for part in 0..=parts as usize {
                let sample = at + (on - at) * part as f64 / parts;
                let sample = pair[0] + step * sample;
                worst = worst.max(distance_to_segment(
                    sample,
                    needles[next - 1],
                    needles[next],
                ));
            }
            errors.push(worst);
            (worst, at) = (0.0, on);
            next += 1;
        }
        if next < needles.len() {
            for part in 0..=parts as usize {
                let sample = pair[0] + step * (at + (1.0 - at) * part as f64 / parts);
                worst = worst.max(distance_to_segment(
                    sample,
                    needles[next - 1],
                    needles[next],
                ));
            }
        }
    }
    assert_eq!(next, needles.len(), "a needle point is not on the path");
    errors
}

/// Holds the reported chord error against samples, on a path that does not cross itself.
fn check_errors(path: &Polyline, options: &StitchOptions, stitches: &Stitches) {
    let errors = sampled_errors(path, &stitches.points);
    let worst = errors.iter().fold(0.0, |a: f64, b| a.max(*b));
    let report = &stitches.report;
    assert!(
        (worst - report.worst_chord_error).abs() < 1e-9 + 1e-6 * worst,
        "{worst} {report:?}"
    );
    let over = |error: &&f64| **error > options.chord_error * (1.0 + 1e-9);
    assert_eq!(errors.iter().filter(over).count(), report.strayed.len());
}

fn options() -> impl Strategy<Value = StitchOptions> {
    (0.05..0.7f64, 0.005..0.5f64, 5.0..90.0f64).prop_map(|(minimum, chord_error, cusp_degrees)| {
        StitchOptions {
            target: 1.0,
            minimum,
            chord_error,
            cusp_degrees,
        }
    })
}

/// A wave that never goes back along x, as dense as `spacing`.
fn wave() -> impl Strategy<Value = Polyline> {
    (
        prop::collection::vec((0.1..3.0f64, 0.3..6.0f64, 0.0..6.3f64), 1..4),
        0.02..0.8f64,
    )
        .prop_map(|(waves, spacing)| {
            let points = (0..=(20.0 / spacing) as usize).map(|at| {
                let x = at as f64 * spacing;
                let y = waves
                    .iter()
                    .map(|(size, rate, phase)| size * (x * rate + phase).sin());
                Point::new(x, y.sum())
            });
            Polyline::new(points.collect()).expect("a wave")
        })
}

/// A zigzag that never goes back along x, its teeth down to far below the minimum.
fn zigzag() -> impl Strategy<Value = Polyline> {
    prop::collection::vec((0.01..1.5f64, -1.0..1.0f64, prop::bool::ANY), 2..60).prop_map(|steps| {
        let mut at = Point::origin();
        let mut points = vec![at];
        for (step, height, fine) in steps {
            let scale = if fine { 0.1 } else { 1.0 };
            at += Vector::new(step * scale, 2.0 * height * scale);
            points.push(at);
        }
        Polyline::new(points).expect("a zigzag")
    })
}
