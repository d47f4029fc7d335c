//! The place of a line that is nearest to another line, over segments.
//!
//! Method: of a place at some distance, no place less far along the line than that can be nearer
//! than by how far it is along; so all places are passed over that can't be nearer than the nearest
//! so far, and only the segment after them is looked at. Guarantee: the least distance but for
//! [`SAME`], and the first place along the line that has it. Repeats come equally near many times;
//! which of them is nearest must not hang on the last bit of a sine.

use crate::geom::measure::share_on_segment;
use crate::geom::stretches::Stretches;
use crate::geom::{Bounds, Point};

/// Distances that differ by no more than this are one.
pub(super) const SAME: f64 = 1e-6;

/// At about so many places of a line it is seen first how near it comes.
const SAMPLES: usize = 64;

/// A line with the length up to each of its points.
pub(super) struct Reached<'a> {
    points: &'a [Point],
    reach: Vec<f64>,
}

impl<'a> Reached<'a> {
    pub(super) fn of(points: &'a [Point]) -> Self {
        let mut sum = 0.0;
        let steps = points.windows(2).map(|pair| {
            sum += (pair[1] - pair[0]).norm();
            sum
        });
        let reach = std::iter::once(0.0).chain(steps).collect();
        Self { points, reach }
    }
}

/// The least distance of a line from another, if that is below this by more than [`SAME`], and the
/// first place that has it.
pub(super) fn nearest(
    line: &Reached<'_>,
    other: &mut Stretches,
    below: f64,
) -> Option<(f64, Point)> {
    let last = line.points.len() - 1;
    // A few places say how near it comes at least, so that what is far away is passed over at once.
    let few = (0..=last).step_by((last / SAMPLES).max(1));
    let near = few.map(|at| other.distance(line.points[at]));
    let near = near.fold(f64::INFINITY, f64::min);
    let mut least = (below.min(near + 2.0 * SAME), None);
    let mut at = 0;
    while at < last {
        let distance = other.distance(line.points[at]);
        // Places up to here can't be nearer.
        let clear = line.reach[at] + (distance - least.0);
        let after = line.reach[at..].partition_point(|reach| *reach <= clear);
        if after > 1 {
            at += after - 1;
            continue;
        }
        let ends = [line.points[at], line.points[at + 1]];
        for pair in other.near(Bounds::of_nonempty(&ends), least.0) {
            let (distance, place) = between(ends, pair);
            if distance < least.0 - SAME {
                least = (distance, Some(place));
            }
        }
        at += 1;
    }
    least.1.map(|place| (least.0, place))
}

/// The distance of two segments and the place on the first that has it.
fn between([a, b]: [Point; 2], [c, d]: [Point; 2]) -> (f64, Point) {
    let side = |from: Point, to: Point, point: Point| (to - from).perp(&(point - from));
    let (of_a, of_b) = (side(c, d, a), side(c, d, b));
    if of_a * of_b < 0.0 && side(a, b, c) * side(a, b, d) < 0.0 {
        return (0.0, a + (b - a) * (of_a / (of_a - of_b)));
    }
    let on = |point: Point, [from, to]: [Point; 2]| {
        from + (to - from) * share_on_segment(point, [from, to])
    };
    // One of the four ends has the distance.
    let places = [
        (a, on(a, [c, d])),
        (b, on(b, [c, d])),
        (on(c, [a, b]), c),
        (on(d, [a, b]), d),
    ];
    let places = places.map(|(own, other)| ((own - other).norm(), own));
    let first = places[0];
    let nearer = |one: (f64, Point), other: (f64, Point)| match other.0 < one.0 - SAME {
        true => other,
        false => one,
    };
    places.into_iter().fold(first, nearer)
}

/// A line in so many parts of equal length, each with all its points.
pub(super) fn parts(points: &[Point], count: usize) -> Vec<Vec<Point>> {
    let whole = Reached::of(points);
    let Some(&total) = whole.reach.last().filter(|total| **total > 0.0) else {
        return Vec::new();
    };
    let at = |length: f64| {
        let after = whole.reach.partition_point(|reach| *reach <= length);
        let before = after.saturating_sub(1).min(points.len() - 2);
        let step = whole.reach[before + 1] - whole.reach[before];
        let share = ((length - whole.reach[before]) / step).clamp(0.0, 1.0);
        points[before] + (points[before + 1] - points[before]) * share
    };
    (0..count)
        .map(|part| {
            let [from, to] = [part, part + 1].map(|cut| total * cut as f64 / count as f64);
            let within = |index: &usize| whole.reach[*index] > from && whole.reach[*index] < to;
            let inner = (0..points.len()).filter(within).map(|index| points[index]);
            std::iter::once(at(from))
                .chain(inner)
                .chain([at(to)])
                .collect()
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::measure::{distance_to_segment, length, squared_distance};
    use proptest::prelude::*;

    fn line(points: &[(f64, f64)]) -> Vec<Point> {
        points.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    proptest! {
        #[test]
        fn no_place_is_nearer(
            one in prop::collection::vec((-9.0..9.0f64, -9.0..9.0f64), 2..30),
            other in prop::collection::vec((-9.0..9.0f64, 5.0..20.0f64), 2..6),
        ) {
            let (one, other) = (line(&one), line(&other));
            let mut to = Stretches::of(other.clone());
            let (distance, place) = nearest(&Reached::of(&one), &mut to, f64::INFINITY).expect("a place");
            let pairs = one.windows(2).flat_map(|a| other.windows(2).map(move |b| (a, b)));
            let least = pairs.map(|(a, b)| squared_distance([a[0], a[1]], [b[0], b[1]]).sqrt());
            let over = distance - least.fold(f64::INFINITY, f64::min);
            prop_assert!((-1e-9..=SAME).contains(&over));
            let on = |line: &[Point]| line.windows(2).map(|pair| distance_to_segment(place, pair[0], pair[1])).fold(f64::INFINITY, f64::min);
            prop_assert!(on(&one) < 1e-9 && (on(&other) - distance).abs() < 1e-9);
            prop_assert_eq!(nearest(&Reached::of(&one), &mut to, distance), None);
        }

        #[test]
        fn parts_are_the_line(points in prop::collection::vec((-9.0..9.0f64, -9.0..9.0f64), 2..9), count in 1usize..6) {
            let whole = line(&points);
            let cut = parts(&whole, count);
            prop_assert_eq!(cut.len(), count);
            for part in &cut {
                prop_assert!((length(part) - length(&whole) / count as f64).abs() < 1e-9);
            }
            let joined: f64 = cut.iter().map(length).sum();
            prop_assert!((joined - length(&whole)).abs() < 1e-9);
        }
    }

    #[test]
    fn of_places_that_are_equally_near_the_first_is_taken() {
        let mut edge = Stretches::of(line(&[(0.0, 5.0), (40.0, 5.0)]));
        for bit in [-1e-12, 0.0, 1e-12] {
            let own = line(&[
                (0.0, 0.0),
                (10.0, 4.0),
                (20.0, 0.0),
                (30.0, 4.0 + bit),
                (40.0, 0.0),
            ]);
            let found = nearest(&Reached::of(&own), &mut edge, f64::INFINITY).expect("a place");
            assert_eq!(found.1, Point::new(10.0, 4.0));
        }
    }
}
