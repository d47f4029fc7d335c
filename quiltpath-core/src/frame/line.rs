//! A line laid on the cloth: its points mapped, and more of them where the map bends.
//!
//! Problem: the image of a straight segment under a smooth map is a curve; the machine goes
//! straight between points. Method: a segment is halved until the images of its middle and both
//! quarters, and of places every 12.5 mm, lie within half of the tolerance of the straight line
//! between the images of its ends. Guarantee: the chord error is within the tolerance as long as
//! the map does not turn back between such places, which maps of readings, as wide as the pass, do
//! not; points of the line go where the map takes them, so lines that share a point still share it,
//! bit for bit. Failure: none; halving ends after `DEEPEST` steps.

use crate::align::ClothMap;
use crate::geom::Point;
use crate::geom::measure::distance_to_segment;

/// How far a laid line may be from what the map makes of it, in millimetres.
pub const DEFAULT_CHORD_MM: f64 = 0.01;

/// Places of a segment are looked at no farther apart than this, in millimetres.
const LOOKED_AT_MM: f64 = 12.5;

/// A segment is halved at most so often.
const DEEPEST: usize = 16;

/// The points of a line where a map takes them, with more points where it bends; lengths in
/// millimetres.
///
/// # Complexity
///
/// O(points written) for a map of few readings.
pub(super) fn laid_line(points: &[Point], map: &ClothMap, tolerance: f64) -> Vec<Point> {
    let mut laid = Vec::with_capacity(points.len());
    let mut last: Option<[Point; 2]> = None;
    for &point in points {
        let there = map.map(point);
        if let Some(from) = last {
            halve(from, [point, there], map, tolerance, 0, &mut laid);
        }
        laid.push(there);
        last = Some([point, there]);
    }
    laid
}

/// Adds the points between two places, given as planned and as laid.
fn halve(
    from: [Point; 2],
    to: [Point; 2],
    map: &ClothMap,
    tolerance: f64,
    depth: usize,
    laid: &mut Vec<Point>,
) {
    let way = to[0] - from[0];
    let parts = (way.norm() / LOOKED_AT_MM).ceil().clamp(4.0, 64.0);
    let places = (1..parts as usize).map(|at| from[0] + way * (at as f64 / parts));
    let off = |place: Point| distance_to_segment(map.map(place), from[1], to[1]);
    if depth == DEEPEST || places.map(off).all(|off| off <= tolerance / 2.0) {
        return;
    }
    let middle = from[0] + way / 2.0;
    let middle = [middle, map.map(middle)];
    halve(from, middle, map, tolerance, depth + 1, laid);
    laid.push(middle[1]);
    halve(middle, to, map, tolerance, depth + 1, laid);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::align::{Reading, align};

    fn bent() -> ClothMap {
        let places = [
            (0.0, 0.0),
            (700.0, 10.0),
            (1500.0, 0.0),
            (0.0, 400.0),
            (760.0, 390.0),
            (1500.0, 410.0),
            (400.0, 150.0),
        ];
        let read = places.iter().enumerate().map(|(at, &(x, y))| {
            let off = if at == 1 { 6.0 } else { 0.0 };
            let reading = Reading::new(
                at.to_string(),
                Point::new(x, y),
                Point::new(1.004 * x, y + off),
            );
            if at == 6 { reading.exactly() } else { reading }
        });
        align(&read.collect::<Vec<_>>()).expect("a map").map
    }

    #[test]
    fn a_line_is_no_farther_from_its_curve_than_the_tolerance() {
        let map = bent();
        let line = [
            Point::new(0.0, 20.0),
            Point::new(1500.0, 30.0),
            Point::new(1490.0, 400.0),
        ];
        let laid = laid_line(&line, &map, DEFAULT_CHORD_MM);
        assert!(laid.len() > 10 && laid.len() < 1000, "{}", laid.len());
        for pair in line.windows(2) {
            for at in 0..=20_000 {
                let place = pair[0] + (pair[1] - pair[0]) * (f64::from(at) / 20_000.0);
                let there = map.map(place);
                let near = laid
                    .windows(2)
                    .map(|pair| distance_to_segment(there, pair[0], pair[1]));
                let off = near.fold(f64::INFINITY, f64::min);
                assert!(off <= DEFAULT_CHORD_MM, "{place}: {off}");
            }
        }
    }

    #[test]
    fn a_straight_map_adds_no_points() {
        let mark = |x: f64, y: f64| {
            Reading::new(
                format!("{x} {y}"),
                Point::new(x, y),
                Point::new(1.01 * x + 0.01 * y, y),
            )
        };
        let map = align(&[mark(0.0, 0.0), mark(900.0, 0.0), mark(0.0, 400.0)])
            .expect("a map")
            .map;
        let line = [
            Point::new(0.0, 0.0),
            Point::new(2000.0, 300.0),
            Point::new(0.0, 0.0),
        ];
        let laid = laid_line(&line, &map, DEFAULT_CHORD_MM);
        assert_eq!(laid, line.map(|point| map.map(point)));
    }
}
