//! Small lines, regions and boxes to call with.

use quiltpath_core::geom::region::Region;
use quiltpath_core::geom::{Bounds, ConvexPolygon, Point};
use quiltpath_core::motif::Motif;

pub(crate) fn points(list: &[(f64, f64)]) -> Vec<Point> {
    list.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

pub(crate) fn wave() -> Motif {
    let list = [
        (0.0, 5.0),
        (5.0, 0.0),
        (9.0, 6.0),
        (15.0, 10.0),
        (20.0, 5.0),
    ];
    Motif::from_points("wave", points(&list)).expect("a motif")
}

/// An L of 60 by 60 with legs 20 deep.
pub(crate) fn ell() -> Motif {
    let list = [
        (60.0, 40.0),
        (50.0, 60.0),
        (20.0, 45.0),
        (0.0, 60.0),
        (5.0, 20.0),
        (0.0, 10.0),
        (20.0, 0.0),
    ];
    Motif::from_points("ell", points(&list)).expect("a motif")
}

pub(crate) fn square() -> Region {
    Region::new(points(&[
        (0.0, 0.0),
        (30.0, 0.0),
        (30.0, 30.0),
        (0.0, 30.0),
    ]))
    .expect("a region")
}

pub(crate) fn polygon() -> ConvexPolygon {
    let corners = points(&[(0.0, 0.0), (300.0, 0.0), (300.0, 300.0), (0.0, 300.0)]);
    ConvexPolygon::new(corners).expect("a polygon")
}

pub(crate) fn bounds(a: f64, b: f64) -> Bounds {
    Bounds::of([Point::new(0.0, 0.0), Point::new(a, b)]).unwrap_or_else(|| {
        let mut bounds = wave().bounds();
        (bounds.max.x, bounds.max.y) = (a, b);
        bounds
    })
}
