//! Flattening held against the curves: ends, directions, tolerance, limits.

use super::*;
use kurbo::{BezPath, ParamCurve, ParamCurveNearest, PathSeg};
use proptest::prelude::*;

fn svg(data: &str) -> BezPath {
    BezPath::from_svg(data).expect("path data")
}

#[test]
fn directions_are_those_of_the_curve_not_of_the_chord() {
    let flat = flatten(svg("M0 0 C 0 0 0 9 9 9"), 0.1).expect("flat");
    assert_eq!(flat[0].start_direction, Vector::new(0.0, 1.0));
    assert_eq!(flat[0].end_direction, Vector::new(1.0, 0.0));
    let flat = flatten(svg("M0 0 L 0 0 L 5 0 L 5 0"), 0.1).expect("flat");
    assert_eq!(flat[0].end_direction, Vector::new(1.0, 0.0));
    assert_eq!(flat[0].points.len(), 2);
}

#[test]
fn a_closed_subpath_ends_on_its_start_and_drawing_goes_on_from_there() {
    let flat = flatten(svg("M1 1 H 4 V 5 Z L 0 0"), 0.1).expect("flat");
    assert_eq!(flat.len(), 2);
    assert!(flat[0].closed && !flat[1].closed);
    assert_eq!(flat[0].points.first(), flat[0].points.last());
    assert_eq!(flat[1].points, [Point::new(1.0, 1.0), Point::new(0.0, 0.0)]);
}

#[test]
fn a_bad_tolerance_or_coordinate_is_refused() {
    assert!(flatten(svg("M0 0 H 1"), 0.0).is_err());
    assert!(flatten(svg("M0 0 H 1"), f64::NAN).is_err());
    let error = flatten(svg("M0 0 H 1e308"), 0.1).expect_err("too large");
    assert!(error.to_string().contains("1e308"), "{error}");
}

#[test]
fn what_would_take_too_many_points_is_refused() {
    let arch = svg("M0 0C0 5 9 5 9 0");
    for tolerance in [1e-16, 1e-18, 1e-40, 1e-300, f64::MIN_POSITIVE] {
        let error = flatten(&arch, tolerance).expect_err("too fine").to_string();
        assert!(
            error.contains("give a larger tolerance of flattening"),
            "{error}"
        );
    }
    // What is straight takes no chords, however small the tolerance.
    let straight = flatten(svg("M0 0C3 0 6 0 9 0Q9 4.5 9 9"), 1e-300).expect("flat");
    assert_eq!(straight[0].points.len(), 3);
    assert!(flatten(svg("M0 0C1e9 -1e9 -1e9 1e9 0 0"), 1e-6).is_err());
    // All subpaths count together.
    let mut pen = Pen {
        written: MAX_POINTS,
        ..Pen::new(0.01)
    };
    let refused = arch.iter().try_for_each(|element| pen.draw(0, element));
    assert!(refused.expect_err("full").is_geometry());
}

#[test]
fn memory_is_used_again_and_the_points_are_the_same() {
    let first = BezPath::from_svg("M0 0C0 5 9 5 9 0M1 1Q2 9 3 1M5 5L6 6z").expect("a path");
    let second = BezPath::from_svg("M2 2C2 7 11 7 11 2M0 3").expect("a path");
    let mut flat = Vec::new();
    flatten_into(&first, 0.001, &mut flat).expect("points");
    assert_eq!(flat, flatten(&first, 0.001).expect("points"));
    let place = flat[0].points.as_ptr();
    flatten_into(&second, 0.001, &mut flat).expect("points");
    assert_eq!(flat, flatten(&second, 0.001).expect("points"));
    assert_eq!(flat[0].points.as_ptr(), place);
    flatten_into(&first, 0.0, &mut flat).expect_err("no tolerance");
    assert!(flat.is_empty());
}

proptest! {
    #[test]
    fn chords_stay_within_the_tolerance(c in prop::array::uniform8(-100.0..100.0f64), tolerance in 0.01..1.0f64) {
        let curve = kurbo::CubicBez::new((c[0], c[1]), (c[2], c[3]), (c[4], c[5]), (c[6], c[7]));
        let mut path = BezPath::new();
        path.move_to(curve.p0);
        path.curve_to(curve.p1, curve.p2, curve.p3);
        let flat = flatten(&path, tolerance).expect("flat");
        let points = &flat[0].points;
        prop_assert_eq!(points[0], Point::new(c[0], c[1]));
        prop_assert_eq!(points[points.len() - 1], Point::new(c[6], c[7]));
        for sample in 0..=200 {
            let at = curve.eval(f64::from(sample) / 200.0);
            let off = points
                .windows(2)
                .map(|pair| {
                    let segment = PathSeg::Line(kurbo::Line::new((pair[0].x, pair[0].y), (pair[1].x, pair[1].y)));
                    segment.nearest(at, 1e-9).distance_sq.sqrt()
                })
                .fold(f64::INFINITY, f64::min);
            prop_assert!(off <= tolerance * 1.0001, "{off} over {tolerance}");
        }
    }
}
