//! Measures of a line of points: its length, the point at a distance along, the distance to it.

use super::point::Point;

/// The sum of the lengths of the segments between the points, 0 for fewer than two.
///
/// ```
/// use quiltpath_core::{geom::{Polyline, measure::length}, motif::Motif};
///
/// let line = Polyline::try_from(vec![(0.0, 0.0), (3.0, 4.0)])?;
/// assert_eq!(length(&line), 5.0);
/// assert_eq!(length(Motif::from(line)), 5.0);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Complexity
///
/// O(n), one pass.
#[must_use]
pub fn length(points: impl AsRef<[Point]>) -> f64 {
    points
        .as_ref()
        .windows(2)
        .map(|pair| (pair[1] - pair[0]).norm())
        .sum()
}

/// The point at this distance along the line, clamped to its ends; `None` without points.
///
/// ```
/// use quiltpath_core::geom::{Point, measure::point_at};
///
/// let line = [Point::new(0.0, 0.0), Point::new(2.0, 0.0), Point::new(2.0, 2.0)];
/// assert_eq!(point_at(&line, 3.0), Some(Point::new(2.0, 1.0)));
/// ```
///
/// # Complexity
///
/// O(n).
#[must_use]
pub fn point_at(points: impl AsRef<[Point]>, distance: f64) -> Option<Point> {
    let points = points.as_ref();
    let mut left = distance.max(0.0);
    for pair in points.windows(2) {
        let step = pair[1] - pair[0];
        let size = step.norm();
        if left <= size && size > 0.0 {
            return Some(pair[0] + step * (left / size));
        }
        left -= size;
    }
    points.last().copied()
}

/// The points of a line from one share of its length to another, each from 0 to 1, the lesser
/// first; places between points are made, and 0 and 1 are its very ends.
pub(crate) fn part_between(points: &[Point], [from, to]: [f64; 2]) -> Vec<Point> {
    let all = length(points);
    let (from, to) = (from * all, to * all);
    let mut part: Vec<Point> = Vec::with_capacity(points.len());
    let mut reached = 0.0;
    for pair in points.windows(2) {
        let step = (pair[1] - pair[0]).norm();
        let next = reached + step;
        let at = |place: f64| pair[0] + (pair[1] - pair[0]) * ((place - reached) / step);
        if part.is_empty() && next > from {
            part.push(if from > reached { at(from) } else { pair[0] });
        }
        if !part.is_empty() && next >= to {
            if to > reached {
                part.push(if to < next { at(to) } else { pair[1] });
            }
            return part;
        }
        if !part.is_empty() {
            part.push(pair[1]);
        }
        reached = next;
    }
    // Sums differ by rounding from the whole.
    if part.is_empty() {
        part.extend(points.last());
    }
    part
}

/// The distance from a point to the segment between two others.
#[must_use]
pub fn distance_to_segment(point: Point, from: Point, to: Point) -> f64 {
    let along = share_on_segment(point, [from, to]);
    (point - (from + (to - from) * along)).norm()
}

/// The place on a segment that is nearest to a point, as a share of it from 0 to 1; 0 where the
/// segment has no length.
pub(crate) fn share_on_segment(point: Point, [from, to]: [Point; 2]) -> f64 {
    let step = to - from;
    let square = step.norm_squared();
    if square > 0.0 {
        ((point - from).dot(&step) / square).clamp(0.0, 1.0)
    } else {
        0.0
    }
}

/// The squared distance between their nearest points, 0 when they cross.
pub(crate) fn squared_distance([a, b]: [Point; 2], [c, d]: [Point; 2]) -> f64 {
    let side = |from: Point, to: Point, point: Point| (to - from).perp(&(point - from));
    if side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0 {
        return 0.0;
    }
    let to_segment = |point: Point, from: Point, to: Point| {
        let part = share_on_segment(point, [from, to]);
        ((point - from) - (to - from) * part).norm_squared()
    };
    let to_first = to_segment(c, a, b).min(to_segment(d, a, b));
    to_first.min(to_segment(a, c, d)).min(to_segment(b, c, d))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_goes_from_one_share_to_the_other() {
        let line = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0)].map(|(x, y)| Point::new(x, y));
        assert_eq!(part_between(&line, [0.0, 1.0]), line);
        assert_eq!(part_between(&line, [0.0, 0.5]), line[..2]);
        assert_eq!(part_between(&line, [0.5, 1.0]), line[1..]);
        let middle = [(2.0, 0.0), (4.0, 0.0), (4.0, 2.0)].map(|(x, y)| Point::new(x, y));
        assert_eq!(part_between(&line, [0.25, 0.75]), middle);
        assert_eq!(
            part_between(&line, [0.25, 0.375]),
            [Point::new(2.0, 0.0), Point::new(3.0, 0.0)]
        );
    }

    #[test]
    fn a_point_beyond_an_end_is_that_end() {
        let line = [Point::new(0.0, 0.0), Point::new(1.0, 0.0)];
        assert_eq!(point_at(line, -3.0), Some(line[0]));
        assert_eq!(point_at(line, 3.0), Some(line[1]));
        assert_eq!(point_at([], 3.0), None);
    }

    #[test]
    fn distance_to_a_segment_is_that_to_its_nearest_point() {
        let (from, to) = (Point::new(0.0, 0.0), Point::new(4.0, 0.0));
        assert_eq!(distance_to_segment(Point::new(2.0, 3.0), from, to), 3.0);
        assert_eq!(distance_to_segment(Point::new(7.0, 4.0), from, to), 5.0);
        assert_eq!(distance_to_segment(Point::new(3.0, 4.0), from, from), 5.0);
    }
}
