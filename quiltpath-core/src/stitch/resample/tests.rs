use super::*;
use crate::geom::Vector;
use crate::geom::measure::{distance_to_segment, length};
use proptest::prelude::*;
use std::f64::consts::{PI, SQRT_2};

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

#[test]
fn a_straight_line_of_10_in_at_10_per_inch_is_100_stitches() {
    for (unit, size) in [(Unit::In, 10.0), (Unit::Mm, 254.0), (Unit::Cm, 25.4)] {
        let options = StitchOptions::per_inch(10.0, unit).expect("options");
        for parts in [1, 7, 100, 12_345] {
            let points =
                (0..=parts).map(|at| Point::new(size * f64::from(at) / f64::from(parts), 1.0));
            let path = Polyline::new(points.collect()).expect("a line");
            let stitches = stitched(&path, &options);
            assert_eq!(stitches.count(), 100, "{unit} in {parts}");
            let report = &stitches.report;
            assert!(report.longest - report.shortest < 1e-9 * size);
            assert!((length(&stitches.points) - size).abs() < 1e-9 * size);
            check(&path, &options, &stitches);
        }
    }
}

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

#[test]
fn a_circle_is_followed_within_the_chord_error_and_closed() {
    for radius in [0.6, 1.0, 2.0, 7.0, 30.0] {
        let points = (0..=720).map(|at| {
            let (sin, cos) = (f64::from(at % 720) * PI / 360.0).sin_cos();
            Point::new(radius * cos, radius * sin)
        });
        let path = Polyline::new(points.collect()).expect("a circle");
        let options = plain();
        let stitches = stitched(&path, &options);
        assert_eq!(stitches.points[0], stitches.points[stitches.count()]);
        assert!(stitches.report.strayed.is_empty());
        assert!(stitches.anchors.is_empty());
        // Elementary geometry: a chord of length c lies c²/(8 r) from its arc, near enough.
        let longest = options
            .target
            .min((8.0 * radius * options.chord_error).sqrt());
        let fewest = 2.0 * PI * radius / longest;
        let count = stitches.count() as f64;
        assert!(
            count > 0.8 * fewest && count < 1.3 * fewest + 1.0,
            "{radius}: {count} {fewest}"
        );
        // Even all the way round: nothing had to be split.
        assert!(
            stitches.report.longest < 1.02 * stitches.report.shortest,
            "{radius}"
        );
        check(&path, &options, &stitches);
    }
}

#[test]
fn a_path_shorter_than_one_stitch_is_one_stitch() {
    for size in [1e-300, 1e-9, 0.1, 0.24, 0.3, 0.99] {
        let path = line(&[(0.0, size), (size, 0.0)]);
        let stitches = stitched(&path, &plain());
        assert_eq!(stitches.points, path.points());
        assert!((stitches.report.shortest - path.length()).abs() <= 1e-12);
        check(&path, &plain(), &stitches);
    }
}

#[test]
fn a_closed_path_smaller_than_the_minimum_is_its_two_ends() {
    let path = line(&[(0.0, 0.0), (0.1, 0.0), (0.1, 0.1), (0.0, 0.0)]);
    let stitches = stitched(&path, &plain());
    assert_eq!(stitches.points, [path.start(), path.end()]);
    assert_eq!(stitches.report.shortest, 0.0);
    assert_eq!(stitches.report.dropped.len(), 2);
    assert!((stitches.report.worst_chord_error - 0.1 * SQRT_2).abs() < 1e-12);
    // Somewhat larger, the farthest point is a needle point.
    let path = line(&[(0.0, 0.0), (0.3, 0.0), (0.0, 0.0)]);
    let stitches = stitched(&path, &plain());
    assert_eq!(stitches.points, path.points());
}

#[test]
fn the_minimum_wins_over_the_chord_error_and_that_is_reported() {
    // A hook of radius 0.3 at the end of a leg: no stitch of 0.7 follows it.
    let mut points = vec![Point::new(-5.0, 0.0)];
    points.extend((0..=20).map(|at| {
        let (sin, cos) = (f64::from(at) * PI / 20.0).sin_cos();
        Point::new(0.3 * sin, 0.3 - 0.3 * cos)
    }));
    points.push(Point::new(-0.5, 0.6));
    let path = Polyline::new(points).expect("a hook");
    let options = StitchOptions {
        minimum: 0.7,
        chord_error: 0.05,
        ..plain()
    };
    let stitches = stitched(&path, &options);
    assert!(!stitches.report.strayed.is_empty());
    let worst = stitches
        .report
        .strayed
        .iter()
        .map(|miss| miss.distance)
        .fold(0.0, f64::max);
    assert_eq!(worst, stitches.report.worst_chord_error);
    check(&path, &options, &stitches);
    check_errors(&path, &options, &stitches);
}

#[test]
fn options_out_of_range_are_refused() {
    let path = line(&[(0.0, 0.0), (5.0, 0.0)]);
    let wrong = |change: fn(&mut StitchOptions)| {
        let mut options = plain();
        change(&mut options);
        let error = resample(&path, &options).expect_err("out of range");
        assert!(error.is_geometry());
        error.to_string()
    };
    assert_eq!(
        wrong(|o| o.target = f64::NAN),
        "the target stitch is NaN; give a number above 0"
    );
    assert!(wrong(|o| o.target = 0.0).starts_with("the target stitch is 0;"));
    assert!(wrong(|o| o.minimum = f64::NAN).starts_with("the minimum stitch is NaN"));
    assert!(wrong(|o| o.minimum = 0.71).contains("at most 0.7071 times"));
    assert!(wrong(|o| o.chord_error = f64::INFINITY).starts_with("the chord error is inf"));
    assert!(wrong(|o| o.cusp_degrees = f64::NAN).starts_with("the turn of a cusp is NaN"));
    assert!(wrong(|o| o.cusp_degrees = 180.0).contains("below 180"));
    assert!(StitchOptions::per_inch(0.0, Unit::In).is_err());
    let error = resample(&line(&[(0.0, 0.0), (1e9, 0.0)]), &StitchOptions::new(1e-9));
    let error = error.expect_err("too many");
    assert!(error.is_stitch());
    assert!(
        error.to_string().contains("up to 50000000 are accepted"),
        "{error}"
    );
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

proptest! {
    #[test]
    fn waves_hold(path in wave(), options in options()) {
        let stitches = stitched(&path, &options);
        check(&path, &options, &stitches);
        check_errors(&path, &options, &stitches);
    }

    #[test]
    fn zigzags_hold(path in zigzag(), options in options()) {
        let stitches = stitched(&path, &options);
        check(&path, &options, &stitches);
        check_errors(&path, &options, &stitches);
    }

    #[test]
    fn scribbles_and_closed_paths_hold(
        points in prop::collection::vec((-2.0..2.0f64, -2.0..2.0f64), 2..60),
        scale in prop::sample::select(vec![0.05, 0.3, 1.0, 5.0]),
        closed in any::<bool>(),
        options in options(),
    ) {
        let mut points: Vec<Point> = points.iter().map(|&(x, y)| Point::new(x * scale, y * scale)).collect();
        if closed {
            points.push(points[0]);
        }
        let path = Polyline::new(points).expect("points differ");
        let stitches = stitched(&path, &options);
        check(&path, &options, &stitches);
        for needle in &stitches.points {
            let near = path.points().windows(2).map(|pair| distance_to_segment(*needle, pair[0], pair[1]));
            prop_assert!(near.fold(f64::INFINITY, f64::min) < 1e-9);
        }
    }

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

    #[test]
    fn scaling_path_and_options_scales_the_stitches(path in wave(), options in options(), power in -20i32..20) {
        // Powers of 2 scale without rounding.
        let scale = 2f64.powi(power);
        let scaled = StitchOptions {
            target: options.target * scale,
            minimum: options.minimum * scale,
            chord_error: options.chord_error * scale,
            ..options
        };
        let image = path.clone().map(|point| point * scale).expect("scaled");
        let (own, other) = (stitched(&path, &options), stitched(&image, &scaled));
        prop_assert_eq!(own.points.iter().map(|p| p * scale).collect::<Vec<_>>(), other.points);
    }
}
