//! Bounds of length and chord error on any path, and options that bound nothing.

use super::*;
use std::f64::consts::PI;

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
        error.to_string().contains("up to 10000000 are accepted"),
        "{error}"
    );
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
}
