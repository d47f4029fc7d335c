//! Even spacing: straight lines, circles, the shortest paths, any scale.

use super::*;
use std::f64::consts::PI;

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
        // Elementary geometry: n equal chords of a circle are 2 n r sin(π/n) long together.
        let chords = 2.0 * count * radius * (PI / count).sin();
        assert!(
            (length(&stitches.points) - chords).abs() < 1e-4 * chords,
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

proptest! {
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
