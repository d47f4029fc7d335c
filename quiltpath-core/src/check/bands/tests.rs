//! Lines beyond outlines against samples of them, and outlines that are refused.

use super::*;
use crate::error::ErrorKind;
use crate::geom::region::BandRegion;
use proptest::prelude::*;

/// No line at all.
const NONE: [&[Point]; 0] = [];

fn polygon(sides: usize, radius: f64, turn: f64) -> ConvexPolygon {
    let corner = |k: usize| {
        let (sin, cos) = (std::f64::consts::TAU * k as f64 / sides as f64 + turn).sin_cos();
        Point::new(radius * cos, 0.8 * radius * sin)
    };
    ConvexPolygon::new((0..sides).map(corner).collect()).expect("convex")
}

fn nested(outline: &ConvexPolygon, widths: &[f64]) -> Vec<ConvexPolygon> {
    let inset = |width: &f64| outline.inset(&vec![*width; outline.sides()]).expect("room");
    widths.iter().map(inset).collect()
}

#[test]
fn the_most_serious_outline_is_named() {
    let edge = polygon(4, 100.0, 0.8);
    let outer = nested(&edge, &[0.0, 2.0, 4.0]);
    let mut inner = nested(&edge, &[20.0, 18.0]);
    inner.sort_by(|a, b| a.side_length(0).total_cmp(&b.side_length(0)));
    let outlines = Outlines {
        outer: &outer,
        inner: &inner,
    };
    // Along a normal of the first side, from the middle of the quilt through the edge.
    let corners = edge.corners();
    let middle = nalgebra::center(&corners[0], &corners[1]);
    let out = Vector::new(edge.direction(0).y, -edge.direction(0).x);
    let at = |depth: f64| middle - out * depth;
    let found = |from: f64, to: f64| {
        let list = beyond(&[&[at(from), at(to)]], &outlines, 1e-6).expect("nested");
        list.iter()
            .map(|b| (b.way, b.outline, (b.distance * 1e6).round() / 1e6))
            .collect::<Vec<_>>()
    };
    assert_eq!(found(5.0, 17.0), []);
    assert_eq!(found(3.0, 17.0), [(Leaves::Outwards, 2, 1.0)]);
    assert_eq!(found(1.5, 17.0), [(Leaves::Outwards, 1, 0.5)]);
    assert_eq!(found(-0.25, 17.0), [(Leaves::Outwards, 0, 0.25)]);
    assert_eq!(found(5.0, 19.0), [(Leaves::Inwards, 1, 1.0)]);
    assert_eq!(
        found(1.0, 23.0),
        [(Leaves::Outwards, 1, 1.0), (Leaves::Inwards, 0, 3.0)]
    );
}

#[test]
fn outlines_that_are_not_nested_are_refused() {
    let edge = polygon(5, 50.0, 0.0);
    let within = nested(&edge, &[3.0]);
    let outlines = Outlines {
        outer: &within,
        inner: std::slice::from_ref(&edge),
    };
    let error = beyond(&NONE, &outlines, 1e-6).expect_err("wrong way round");
    assert!(error.is_check());
    let ring = within[0].region().expect("region");
    let by = edge
        .corners()
        .iter()
        .map(|&corner| ring.distance_to_boundary(corner))
        .fold(0.0, f64::max);
    let ErrorKind::Check(CheckFault::NotNested {
        outer,
        inner,
        by: reported,
    }) = error.kind()
    else {
        panic!("{error:?}");
    };
    assert!((by - reported).abs() < 1e-9);
    assert_eq!(
        [*outer, *inner],
        [OutlineNumber::Outer(0), OutlineNumber::Inner(0)]
    );
    assert!(
        error.to_string().starts_with("inner outline 0 reaches")
            && error.to_string().contains("beyond outer outline 0"),
        "{error}"
    );
    let line = [Point::new(0.0, f64::NAN)];
    let free = Outlines {
        outer: &[],
        inner: &[],
    };
    let error = beyond(&[&[], &line[..]], &free, 1e-6).expect_err("no geometry");
    assert!(error.to_string().starts_with("line 1: point 0"), "{error}");
    assert!(
        beyond(&NONE, &free, 0.0)
            .expect_err("no tolerance")
            .is_geometry()
    );
}

#[test]
fn single_points_and_empty_lines_are_looked_at() {
    let edge = polygon(4, 50.0, 0.0);
    let inner = nested(&edge, &[10.0]);
    let outlines = Outlines {
        outer: std::slice::from_ref(&edge),
        inner: &inner,
    };
    let (far, centre) = ([Point::new(60.0, 0.0)], [Point::origin()]);
    let found = beyond(&[&[], &far[..], &centre[..]], &outlines, 1e-6).expect("nested");
    let worst: Vec<_> = found.iter().map(|b| (b.line, b.way, b.segment)).collect();
    assert_eq!(worst, [(1, Leaves::Outwards, 0), (2, Leaves::Inwards, 0)]);
}

/// At a corner of 30 degrees the distance is 3.9 times that from the sides.
#[test]
fn beyond_a_sharp_corner_the_distance_counts() {
    let (sin, cos) = 15f64.to_radians().sin_cos();
    let corners = [
        (0.0, 0.0),
        (100.0 * cos, -100.0 * sin),
        (100.0 * cos, 100.0 * sin),
    ];
    let sharp =
        ConvexPolygon::new(corners.map(|(x, y)| Point::new(x, y)).to_vec()).expect("convex");
    let outlines = Outlines {
        outer: std::slice::from_ref(&sharp),
        inner: &[],
    };
    let found = |out: f64| {
        beyond(
            &[&[Point::new(-out, 0.0), Point::new(9.0, 0.0)]],
            &outlines,
            0.5,
        )
        .expect("nested")
    };
    assert_eq!(found(0.499), []);
    assert!((found(0.501)[0].distance - 0.501).abs() < 1e-12);
}

proptest! {
    #[test]
    fn samples_of_the_line_agree(
        sides in 3usize..=8, turn in 0.0..1.0f64, width in 5.0..12.0f64,
        points in prop::collection::vec((-1.2..1.2f64, -1.2..1.2f64), 2..12),
    ) {
        let edge = polygon(sides, 60.0, turn);
        let inner = nested(&edge, &[width]);
        let line: Vec<Point> = points.iter().map(|&(x, y)| Point::new(60.0 * x, 50.0 * y)).collect();
        let outlines = Outlines { outer: std::slice::from_ref(&edge), inner: &inner };
        let found = beyond(&[&line], &outlines, 1e-6).expect("nested");
        let ring = BandRegion { outer: edge.region().expect("region"), inner: inner[0].region().expect("region") };
        let mut worst = [0.0f64; 2];
        for (pair, part) in line.windows(2).flat_map(|pair| (0..=400).map(move |k| (pair, f64::from(k) / 400.0))) {
            let point = pair[0] + (pair[1] - pair[0]) * part;
            let way = usize::from(ring.outer.contains(point));
            worst[way] = worst[way].max(ring.distance_outside(point));
        }
        for (index, way) in [Leaves::Outwards, Leaves::Inwards].into_iter().enumerate() {
            let reported = found.iter().find(|b| b.way == way);
            let distance = reported.map_or(0.0, |b| b.distance);
            // Samples lie up to 0.25 from the summit.
            prop_assert!(distance >= worst[index] - 1e-6 && distance <= worst[index] + 0.3, "{:?} {} {}", way, distance, worst[index]);
            if let Some(reported) = reported {
                prop_assert!((ring.distance_outside(reported.at) - reported.distance).abs() < 1e-9);
                let segment = crate::geom::measure::distance_to_segment(reported.at, line[reported.segment], line[reported.segment + 1]);
                prop_assert!(segment < 1e-9);
            }
        }
    }
}
