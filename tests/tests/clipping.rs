//! Clipping held against `geo`'s, and the order of travel walked on lines that cross themselves.

use geo::{BooleanOps, Euclidean, Length, LineString, MultiLineString, Polygon};
use proptest::prelude::*;
use quiltpath_core::geom::region::Region;
use quiltpath_core::geom::{BoxCorner, Point, Polyline};
use quiltpath_core::leg::{l_region, triangle_half};
use quiltpath_core::trim::{Clipped, clip};

fn geo_inside_length(line: &Polyline, region: &Region) -> f64 {
    let string = |points: &[Point]| LineString::from_iter(points.iter().map(|p| (p.x, p.y)));
    let polygon = Polygon::new(string(region.corners()), Vec::new());
    let lines = MultiLineString(vec![string(line.points())]);
    Euclidean.length(&polygon.clip(&lines, false))
}

/// By how much the cuts move in all when every point moves by 1: the flatter a segment crosses a
/// side, the farther its cut moves.
fn condition(line: &Polyline, region: &Region) -> f64 {
    let corners = region.corners();
    let sides = (0..corners.len()).map(|i| corners[(i + 1) % corners.len()] - corners[i]);
    let sides: Vec<_> = sides.zip(corners).collect();
    let mut total = 0.0;
    for pair in line.points().windows(2) {
        let travel = pair[1] - pair[0];
        for (side, corner) in &sides {
            let cross = travel.perp(side);
            let share = (*corner - pair[0]).perp(side) / cross;
            let along = (*corner - pair[0]).perp(&travel) / cross;
            // A little beyond the ends, since there a cut may come and go.
            if (-0.01..=1.01).contains(&share) && (-0.01..=1.01).contains(&along) {
                total += travel.norm() * side.norm() / cross.abs();
            }
        }
    }
    total
}

/// The inside length from every crossing of every segment, in the plainest way.
fn plain_inside_length(line: &Polyline, region: &Region) -> f64 {
    let corners = region.corners();
    let mut total = 0.0;
    for pair in line.points().windows(2) {
        let travel = pair[1] - pair[0];
        let mut shares = vec![0.0, 1.0];
        for (index, corner) in corners.iter().enumerate() {
            let side = corners[(index + 1) % corners.len()] - corner;
            let share = (corner - pair[0]).perp(&side) / travel.perp(&side);
            if share > 0.0 && share < 1.0 {
                shares.push(share);
            }
        }
        shares.sort_by(f64::total_cmp);
        for part in shares.windows(2) {
            if region.contains(pair[0] + travel * f64::midpoint(part[0], part[1])) {
                total += travel.norm() * (part[1] - part[0]);
            }
        }
    }
    total
}

fn inside_length(line: &Polyline, region: &Region) -> f64 {
    clip(line, region, 0.0).map_or(0.0, |clipped| clipped.length())
}

fn region(kind: usize, radii: &[f64]) -> Region {
    if let Some(&elbow) = BoxCorner::ALL.get(kind) {
        return l_region(elbow, 9.0, 8.0, 3.5).expect("an L");
    }
    if kind == 4 {
        return triangle_half(BoxCorner::TopRight, 9.0, 7.0).expect("a half");
    }
    let corners = radii.iter().enumerate().map(|(index, radius)| {
        let angle = std::f64::consts::TAU * index as f64 / radii.len() as f64;
        Point::new(4.5 + radius * angle.cos(), 4.0 + radius * angle.sin())
    });
    Region::new(corners.collect()).expect("a star-shaped polygon")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(quiltpath_tests::cases(500)))]

    #[test]
    fn the_inside_length_is_that_of_geo(
        points in prop::collection::vec((-2.0..11.0f64, -2.0..11.0f64), 2..60),
        kind in 0usize..6,
        radii in prop::collection::vec(1.0..5.0f64, 3..40),
    ) {
        let line = Polyline::new(points.iter().map(|&(x, y)| Point::new(x, y)).collect()).expect("a line");
        let region = region(kind, &radii);
        let found = inside_length(&line, &region);
        let plain = plain_inside_length(&line, &region);
        prop_assert!((found - plain).abs() <= 1e-11 * line.length(), "{found} {plain}");
        // geo computes on a grid of 2^30 steps across the input, so every point may move by that
        // much, and every cut by as much more as the crossing is flat.
        let grid = 13.0 / f64::from(1 << 29);
        let moved = (line.points().len() * 4) as f64 + 4.0 * condition(&line, &region);
        let geo = geo_inside_length(&line, &region);
        prop_assert!((found - geo).abs() <= grid * moved, "{found} {geo}");
    }
}

/// A curve of many loops round a centre: every loop crosses many others.
fn spirograph(count: usize) -> Polyline {
    let points = (0..count).map(|index| {
        let angle = std::f64::consts::TAU * index as f64 / count as f64 * 17.0;
        let (sin, cos) = angle.sin_cos();
        let (fine_sin, fine_cos) = (angle * 39.0 / 17.0).sin_cos();
        Point::new(
            4.5 + 3.3 * cos + 1.9 * fine_cos,
            4.5 + 3.3 * sin - 1.9 * fine_sin,
        )
    });
    Polyline::new(points.collect()).expect("a line")
}

/// Neighbours in a piece are neighbours in the line: each step stays on one of its segments.
fn neighbours_kept(line: &Polyline, clipped: &Clipped) -> usize {
    let points = line.points();
    let mut segment = 0;
    let mut steps = 0;
    for piece in &clipped.pieces {
        for pair in piece.line.points().windows(2) {
            let on = |segment: usize, point: Point| {
                let (from, step) = (points[segment], points[segment + 1] - points[segment]);
                let along = (point - from).dot(&step) / step.norm_squared();
                (point - (from + step * along)).norm() < 1e-9
                    && (-1e-9..=1.0 + 1e-9).contains(&along)
            };
            while !(on(segment, pair[0]) && on(segment, pair[1])) {
                segment += 1;
                assert!(segment + 1 < points.len(), "a step leaves the line's order");
            }
            steps += 1;
        }
    }
    steps
}

#[test]
fn a_spirograph_keeps_its_order() {
    let line = spirograph(20_000);
    for elbow in BoxCorner::ALL {
        let region = l_region(elbow, 9.0, 9.0, 4.0).expect("an L");
        let clipped = clip(&line, &region, 0.0).expect("inside");
        assert!(clipped.pieces.len() > 40);
        assert!(neighbours_kept(&line, &clipped) > 10_000);
        let plain = plain_inside_length(&line, &region);
        assert!((clipped.length() - plain).abs() <= 1e-11 * plain);
        let geo = geo_inside_length(&line, &region);
        assert!(
            (clipped.length() - geo).abs() <= 1e-9 * plain,
            "{geo} {plain}"
        );
        for piece in &clipped.pieces {
            for &point in piece.line.points() {
                assert!(region.contains(point) || region.distance_to_boundary(point) <= 9e-9);
            }
        }
    }
}
