//! The library held against mathematics, trade arithmetic and libraries from outside the project.

use kurbo::{BezPath, ParamCurveArclen, Shape};
use nalgebra::Vector2;
use proptest::prelude::*;
use quiltpath_core::geom::flatten::flatten;
use quiltpath_core::geom::measure::{length, point_at};
use quiltpath_core::geom::region::Region;
use quiltpath_core::geom::{Point, Polyline};
use quiltpath_core::motif::Motif;
use quiltpath_core::stitch::estimate::lockstitch_thread;
use quiltpath_core::transform::Transform;
use quiltpath_core::units::Unit;

/// The complete elliptic integral of the second kind E(k) by the arithmetic-geometric mean.
///
/// NIST Digital Library of Mathematical Functions, 19.8(i).
fn elliptic_e(k: f64) -> f64 {
    let (mut a, mut g, mut c) = (1.0, (1.0 - k * k).sqrt(), k);
    let (mut sum, mut weight) = (c * c / 2.0, 0.5);
    while c.abs() > 1e-16 {
        (a, g, c) = (f64::midpoint(a, g), (a * g).sqrt(), (a - g) / 2.0);
        weight *= 2.0;
        sum += weight * c * c;
    }
    std::f64::consts::FRAC_PI_2 / a * (1.0 - sum)
}

fn flat_length(path: &BezPath, tolerance: f64) -> f64 {
    flatten(path, tolerance)
        .expect("flat")
        .iter()
        .map(|flat| length(&flat.points))
        .sum()
}

#[test]
fn the_perimeter_of_an_ellipse() {
    // NIST Digital Library of Mathematical Functions, 19.9: the perimeter is 4 a E(k).
    for (a, b) in [(1.0, 1.0), (5.0, 3.0), (8.0, 1.0)] {
        let k = f64::sqrt(1.0 - (b * b) / (a * a));
        let ellipse = kurbo::Ellipse::new((0.0, 0.0), (a, b), 0.3).to_path(1e-9);
        let perimeter = 4.0 * a * elliptic_e(k);
        let found = flat_length(&ellipse, 1e-7);
        assert!(
            (found - perimeter).abs() < 1e-5 * perimeter,
            "{found} {perimeter}"
        );
        assert!(
            found <= perimeter * (1.0 + 1e-9),
            "chords are never longer than their arc"
        );
    }
}

#[test]
fn the_arc_length_of_a_parabola() {
    // Elementary calculus: y = x² from 0 to s is (2 s √(1 + 4 s²) + asinh 2 s) / 4 long.
    for s in [0.5f64, 1.0, 4.0] {
        let mut path = BezPath::new();
        path.move_to((0.0, 0.0));
        path.quad_to((s / 2.0, 0.0), (s, s * s));
        let exact = (2.0 * s * (1.0 + 4.0 * s * s).sqrt() + (2.0 * s).asinh()) / 4.0;
        let found = flat_length(&path, 1e-8);
        assert!((found - exact).abs() < 1e-6 * exact, "{found} {exact}");
    }
}

#[test]
fn the_sagitta_of_a_chord() {
    // Elementary geometry: a chord over the angle t lies r (1 - cos t/2) from the top of its arc,
    // so the longest chords of a circle within a tolerance have just that sagitta.
    let (r, tolerance) = (25.0, 0.01);
    let circle = kurbo::Circle::new((0.0, 0.0), r).to_path(1e-9);
    let flat = &flatten(&circle, tolerance).expect("flat")[0].points;
    for pair in flat.windows(2) {
        let half = (pair[1] - pair[0]).norm() / 2.0;
        let sagitta = r * (1.0 - (half / r).asin().cos());
        assert!(sagitta <= tolerance * 1.001, "{sagitta}");
    }
    let fewest = std::f64::consts::PI / (1.0f64 - tolerance / r).acos();
    assert!(
        (flat.len() as f64) < 1.5 * fewest,
        "{} chords, {fewest} would do",
        flat.len()
    );
}

#[test]
fn the_law_of_cosines_and_bretschneiders_formula() {
    let turned =
        |side: f64, degrees: f64| Transform::rotate_degrees(degrees).apply(Point::new(side, 0.0));
    for (a, b, degrees) in [(3.0, 4.0, 90.0), (5.0, 8.0, 60.0), (7.0, 2.5, 133.0)] {
        let opposite = (turned(a, 17.0) - turned(b, 17.0 + degrees)).norm();
        let law = (a * a + b * b - 2.0 * a * b * f64::to_radians(degrees).cos()).sqrt();
        assert!((opposite - law).abs() < 1e-12 * law);
    }
    // C. A. Bretschneider, 1842: the area of a quadrilateral from its sides and two opposite
    // angles; from memory.
    let corners = [(0.0, 0.0), (8.0, -1.0), (9.0, 6.0), (1.0, 5.0)].map(|(x, y)| Point::new(x, y));
    let side = |at: usize| (corners[(at + 1) % 4] - corners[at]).norm();
    let angle = |at: usize| {
        let (before, after) = (
            corners[(at + 3) % 4] - corners[at],
            corners[(at + 1) % 4] - corners[at],
        );
        before.angle(&after)
    };
    let [a, b, c, d] = [0, 1, 2, 3].map(side);
    let s = (a + b + c + d) / 2.0;
    let half = f64::midpoint(angle(0), angle(2));
    let square = (s - a) * (s - b) * (s - c) * (s - d) - a * b * c * d * half.cos().powi(2);
    let area = Region::new(corners.to_vec()).expect("a region").area();
    assert!((area - square.sqrt()).abs() < 1e-9, "{area}");
}

#[test]
fn trade_arithmetic() {
    // Common practice: a block of side s set on point spans s √2.
    let block = [(0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0), (0.0, 0.0)];
    let block = block.iter().map(|&(x, y)| Point::new(x, y)).collect();
    let block = Motif::from_points("block", block).expect("a motif");
    let on_point = block
        .transformed(&Transform::rotate_degrees(45.0))
        .expect("turned")
        .bounds();
    assert!((on_point.width() - 9.0 * 2.0f64.sqrt()).abs() < 1e-12);
    assert!((on_point.height() - 9.0 * 2.0f64.sqrt()).abs() < 1e-12);
    // Common practice: 10 stitches per inch are 2.54 mm each.
    assert!((Unit::In.in_mm() / 10.0 - 2.54).abs() < 1e-12);
    // textilecalculations.com, "Calculate amount of sewing thread consumption": T = 0.01 in and
    // S = 10 per inch give 2.2 of thread per length of seam.
    let thread = lockstitch_thread(1.0, 0.01, 10.0).expect("thread");
    assert!((thread.total() - 2.2).abs() < 1e-12);
    // The published table ratio for stitch type 301 is 2.5, half needle and half bobbin:
    // a seam of 220 cm takes 550 cm. It is T S = 0.25.
    let thread = lockstitch_thread(220.0, 0.05, 5.0).expect("thread");
    assert!((thread.total() - 550.0).abs() < 1e-9);
    assert_eq!(thread.needle, thread.bobbin);
}

#[test]
fn a_border_of_width_w_has_corner_squares_of_side_w() {
    use quiltpath_core::io::json::read_plan;
    use quiltpath_core::plan::{Quilt, layouts};
    // Common practice: a border of finished width w has corner squares of finished side w, cut
    // w + 1/2 in for a seam allowance of 1/4 in on either side. The plan measures to the raw
    // edge, where the binding covers 1/4 in, so the finished square is 1/4 in less.
    let plan = read_plan(
        br#"{"unit":"in","quilt":{"width":60,"height":80},"borders":[{"width":6,
        "corner":{"style":"open","gap":0},"side":{"motif":"a"}}]}"#,
    )
    .expect("a plan");
    let quilt = Quilt::of(&plan).expect("a quilt");
    let band = &layouts(&plan, &quilt).expect("layouts")[0].band;
    let square = band.seam.corners()[0] - band.edge.corners()[0];
    assert_eq!(square, Vector2::new(6.0 * 25.4, 6.0 * 25.4));
}

/// Where lyon's walk along the points sets down, each step this far from the one before.
fn walked_by_lyon(points: &[Point], step: f64) -> Vec<lyon_path::math::Point> {
    let mut builder = lyon_path::Path::builder();
    let at = |p: &Point| lyon_path::math::point(p.x as f32, p.y as f32);
    builder.begin(at(&points[0]));
    for point in &points[1..] {
        builder.line_to(at(point));
    }
    builder.end(false);
    let mut walked = Vec::new();
    let mut pattern = lyon_algorithms::walk::RegularPattern {
        callback: |event: lyon_algorithms::walk::WalkerEvent<'_>| {
            walked.push(event.position);
            true
        },
        interval: step as f32,
    };
    lyon_algorithms::walk::walk_along_path(builder.build().iter(), 0.0, 0.01, &mut pattern);
    walked
}

proptest! {
    #[test]
    fn flattened_length_agrees_with_kurbo(c in prop::array::uniform8(-50.0..50.0f64)) {
        let cubic = kurbo::CubicBez::new((c[0], c[1]), (c[2], c[3]), (c[4], c[5]), (c[6], c[7]));
        let exact = cubic.arclen(1e-9);
        let mut path = BezPath::new();
        path.move_to(cubic.p0);
        path.curve_to(cubic.p1, cubic.p2, cubic.p3);
        let found = flat_length(&path, 1e-5);
        prop_assert!(found <= exact * (1.0 + 1e-9));
        prop_assert!(exact - found <= 1e-4 * exact + 1e-3, "{found} {exact}");
    }

    #[test]
    fn even_stitches_agree_with_lyon(parts in 1usize..60, stitches in 1usize..40) {
        // Where no turn is sharp and no curve tight, stitches are nothing but even steps.
        use quiltpath_core::stitch::resample::{StitchOptions, resample};
        let points: Vec<Point> = (0..=parts).map(|at| Point::new(100.0 * at as f64 / parts as f64, 3.0)).collect();
        let line = Polyline::new(points.clone()).expect("a line");
        let step = 100.0 / stitches as f64;
        let own = resample(&line, &StitchOptions::new(step)).expect("stitches");
        prop_assert_eq!(own.count(), stitches);
        let walked = walked_by_lyon(&points, step);
        // lyon may or may not land on the end.
        for (own, other) in own.points.iter().zip(&walked) {
            prop_assert!((own.x - f64::from(other.x)).hypot(own.y - f64::from(other.y)) < 0.01);
        }
        prop_assert!(walked.len().abs_diff(own.points.len()) <= 1);
    }

    #[test]
    fn points_at_a_distance_agree_with_lyon(points in prop::collection::vec((-50.0..50.0f64, -50.0..50.0f64), 2..30), step in 1.0..20.0f64) {
        let points: Vec<Point> = points.into_iter().map(|(x, y)| Point::new(x, y)).collect();
        let walked = walked_by_lyon(&points, step);
        prop_assert!(!walked.is_empty());
        for (count, other) in walked.iter().enumerate() {
            let own = point_at(&points, step * count as f64).expect("points");
            // lyon walks in f32 and adds up its distances.
            prop_assert!((own.x - f64::from(other.x)).hypot(own.y - f64::from(other.y)) < 0.05);
        }
    }

    #[test]
    fn area_and_inside_agree_with_geo(radii in prop::collection::vec(1.0..9.0f64, 3..12), x in -9.0..9.0f64, y in -9.0..9.0f64) {
        use geo::{Area, Contains};
        let turn = std::f64::consts::TAU / radii.len() as f64;
        let star: Vec<(f64, f64)> = radii.iter().enumerate()
            .map(|(at, r)| (r * (turn * at as f64).cos(), r * (turn * at as f64).sin())).collect();
        let region = Region::new(star.iter().map(|&(x, y)| Point::new(x, y)).collect()).expect("a star");
        let polygon = geo::Polygon::new(geo::LineString::from(star), vec![]);
        prop_assert!((region.area() - polygon.unsigned_area()).abs() < 1e-9 * region.area());
        let point = Point::new(x, y);
        prop_assume!(region.distance_to_boundary(point) > 1e-9);
        prop_assert_eq!(region.contains(point), polygon.contains(&geo::Point::new(x, y)));
    }

    #[test]
    fn length_and_box_agree_with_geo(points in prop::collection::vec((-50.0..50.0f64, -50.0..50.0f64), 2..30)) {
        use geo::{BoundingRect, Euclidean, Length};
        let line = Polyline::new(points.iter().map(|&(x, y)| Point::new(x, y)).collect()).expect("a line");
        let other = geo::LineString::from(points);
        prop_assert!((line.length() - Euclidean.length(&other)).abs() < 1e-9);
        let (own, bounds) = (line.bounds(), other.bounding_rect().expect("a box"));
        prop_assert_eq!([own.min.x, own.min.y, own.max.x, own.max.y], [bounds.min().x, bounds.min().y, bounds.max().x, bounds.max().y]);
    }
}
