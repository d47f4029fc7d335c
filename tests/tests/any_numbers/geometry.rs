//! Points, lines, regions, quilts, transforms and lengths.

use quiltpath_core::geom::crossing::{self_crossings, self_crossings_within};
use quiltpath_core::geom::curve_bounds::curve_bounds;
use quiltpath_core::geom::flatten::flatten;
use quiltpath_core::geom::measure::{distance_to_segment, length, point_at};
use quiltpath_core::geom::quad::{Diagonals, QuadMeasures, measure_quad, sensitivity, solve_quad};
use quiltpath_core::geom::region::{Perimeter, Region, Way};
use quiltpath_core::geom::{Bounds, ConvexPolygon, Point, Polyline, Vector};
use quiltpath_core::kurbo::{BezPath, PathEl};
use quiltpath_core::leg::{LegGiven, rough_legs};
use quiltpath_core::strokes::{Drawing, Gaps, OneLineOptions, Stroke};
use quiltpath_core::transform::{Proportions, Transform};
use quiltpath_core::units::{Length, Unit};

use crate::panics::{Panics, told};
use crate::samples::{bounds, points, polygon, square, wave};

#[test]
fn geometry() {
    let mut panics = Panics::default();
    let line = [(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)];
    panics.two("raw lines", |a, b| {
        let mut list = points(&line);
        list.insert(2, Point::new(a, b));
        self_crossings(&list);
        self_crossings_within(&list, u64::MAX);
        self_crossings_within(&list, 0);
        length(&list);
        point_at(&list, a);
        distance_to_segment(list[2], list[0], list[1]);
        distance_to_segment(list[0], list[2], list[2]);
        told(Polyline::new(list.clone()));
        told(Region::new(list.clone()));
        told(ConvexPolygon::new(list.clone()));
        told(Region::rectangle(bounds(a, b)));
        if let Some(all) = Bounds::of(&list) {
            let _ = (all.centre(), all.size(), all.union(&bounds(b, a)));
        }
    });
    panics.two("curves", |a, b| {
        let mut path = BezPath::new();
        path.push(PathEl::MoveTo((0.0, a).into()));
        path.push(PathEl::CurveTo(
            (a, b).into(),
            (b, a).into(),
            (10.0, b).into(),
        ));
        path.push(PathEl::QuadTo((b, b).into(), (a, 3.0).into()));
        path.push(PathEl::ClosePath);
        path.push(PathEl::LineTo((a, b).into()));
        curve_bounds(&path);
        told(flatten(path.iter(), 0.1));
        told(flatten(path.iter().skip(1), 0.1));
        let stroke = Stroke::new("a", path);
        let drawing = Drawing::new("d", vec![stroke.clone(), stroke]);
        drawing.bounds();
        let options = OneLineOptions::default().with_gaps(Gaps::Link);
        told(drawing.one_line(&options));
        told(drawing.fewest_lines(&options));
    });
    panics.one("tolerances", |a| {
        let path = BezPath::from_svg("M0 0 C 0 5 10 5 10 0 M 10.1 0 H 12").expect("a path");
        told(flatten(path.iter(), a));
        let drawing = Drawing::new("d", vec![Stroke::new("a", path)]);
        rough_legs(&drawing, &LegGiven::default().with_turn_degrees(a));
        let options = OneLineOptions::default().with_gaps(Gaps::Link);
        told(drawing.one_line(&options.with_join(a)));
        told(drawing.one_line(&options.with_flattening(a)));
    });
    panics.two("perimeter", |a, b| {
        let around = Perimeter::of(&square());
        for way in [Way::Onward, Way::Back] {
            around.travel(a, b, way);
            around.between(a, b, way);
        }
        around.distance(a, b);
        around.point_at(a);
        around.position_of(Point::new(a, b));
        around.wrap(a);
        let region = square();
        region.contains(Point::new(a, b));
        region.distance_to_boundary(Point::new(a, b));
        told(region.inset(a));
        told(region.map(|point| Point::new(point.x * a, point.y * b)));
        told(polygon().inset(&[a, b, 1.0, 1.0]));
        told(polygon().inset(&[a]));
    });
    panics.count("polygon", |n| {
        let polygon = polygon();
        polygon.corner(n);
        polygon.before(n);
        polygon.after(n);
        polygon.direction(n);
        polygon.side_length(n);
        polygon.angle_degrees(n);
    });
    panics.two("quad", |a, b| {
        for diagonals in [
            Diagonals::Falling(a),
            Diagonals::Rising(b),
            Diagonals::Both {
                falling: a,
                rising: 14.0,
            },
        ] {
            for sides in [[10.0; 4], [b, 10.0, a, 10.0], [a; 4]] {
                let measures = QuadMeasures { sides, diagonals };
                told(solve_quad(&measures));
                told(sensitivity(&measures, b));
            }
        }
        measure_quad(&[Point::new(a, b); 4]);
    });
    panics.two("transforms", |a, b| {
        told(Transform::fit(
            bounds(a, b),
            Some(b),
            Some(a),
            Proportions::Keep,
        ));
        told(Transform::fit(
            bounds(10.0, 10.0),
            Some(b),
            Some(a),
            Proportions::Free,
        ));
        told(Transform::mirror_line(Point::new(a, b), Point::new(b, 0.0)));
        let odd = Transform::new([a, b, b, a, a, b]);
        told(odd.inverse());
        told(wave().transformed(&odd));
        told(wave().transformed(&Transform::rotate_degrees(a)));
        told(wave().start_at(Point::new(a, b)));
        told(wave().end_at(Point::new(a, b)));
        let _ = wave().with_directions([Vector::new(a, b); 2]);
    });
    panics.two("units", |a, b| {
        for unit in Unit::ALL {
            unit.readable(a);
            unit.precise(a);
            unit.readable_line(a);
            unit.readable_thread(a);
            let _ = Length::with(a, *unit).to_string();
            told(Length::with(a, *unit).to_mm(None));
            unit.change_points(vec![Point::new(a, b)], Unit::In);
        }
        told(Length::bare(a).to_mm(None));
    });
    panics.none();
}
