//! The lines along a border's sides as one closed line that does not cross itself at the corners.
//!
//! Problem: where two sides have waves near their corner, their lines may cross beside it; a closed
//! line that crosses itself bounds no region.
//! Method: of the places where a line crosses the one of the next side the first on its way is
//! taken; both are cut there, and the loop over the corner is dropped.
//! Guarantee: neighbours meet in one point and cross nowhere else, since the line before the cut
//! crosses the next one nowhere. Lines that don't cross stay as they are.
//! Failure: a line that crosses itself, or one that is no neighbour, is not mended.
//!
//! O(points + pairs of segments that lie in the box of the other line), which are those near a
//! corner.

use crate::geom::{Bounds, Point};

/// Joins the lines of all sides, each from its corner to the next; the first point is not repeated.
pub(in crate::plan) fn closed(mut sides: Vec<Vec<Point>>) -> Vec<Point> {
    let count = sides.len();
    for side in 0..count {
        let next = (side + 1) % count;
        let Some((before, after, at)) = crossing(&sides[side], &sides[next]) else {
            continue;
        };
        sides[side].truncate(before + 1);
        sides[side].push(at);
        sides[next].splice(..=after, [at]);
    }
    let mut line: Vec<Point> = Vec::new();
    for side in sides {
        // The next side starts where this one ends.
        line.extend(&side[..side.len() - 1]);
    }
    line.dedup();
    line
}

/// The first segment of a line that crosses the next line, the segment there, and where.
fn crossing(line: &[Point], next: &[Point]) -> Option<(usize, usize, Point)> {
    let [near, beside] = [near(line, next), near(next, line)];
    let corner = (line.len().checked_sub(2)?, 0);
    near.iter().find_map(|&first| {
        let cuts = beside.iter().filter(|&&second| (first, second) != corner);
        let cuts = cuts.filter_map(|&second| {
            let share = share(
                [line[first], line[first + 1]],
                [next[second], next[second + 1]],
            )?;
            Some((share, second))
        });
        let (share, second) = cuts.min_by(|a, b| a.0.total_cmp(&b.0))?;
        let at = line[first] + (line[first + 1] - line[first]) * share;
        Some((first, second, at))
    })
}

/// The segments of a line whose boxes meet the box of another line.
fn near(line: &[Point], other: &[Point]) -> Vec<usize> {
    let Some(bounds) = Bounds::of(other) else {
        return Vec::new();
    };
    let meets = |pair: &[Point]| {
        let (low, high) = (pair[0].inf(&pair[1]), pair[0].sup(&pair[1]));
        low.x <= bounds.max.x
            && low.y <= bounds.max.y
            && high.x >= bounds.min.x
            && high.y >= bounds.min.y
    };
    let segments = line.windows(2).enumerate();
    segments
        .filter_map(|(index, pair)| meets(pair).then_some(index))
        .collect()
}

/// How far along the first segment the second one is met.
fn share([a, b]: [Point; 2], [c, d]: [Point; 2]) -> Option<f64> {
    let (along, other, between) = (b - a, d - c, c - a);
    let turn = along.perp(&other);
    let (on_first, on_second) = (between.perp(&other) / turn, between.perp(&along) / turn);
    let within = |share: f64| (0.0..=1.0).contains(&share);
    (within(on_first) && within(on_second)).then_some(on_first)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::region::Region;
    use proptest::prelude::*;

    fn points(points: &[(f64, f64)]) -> Vec<Point> {
        points.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn neighbours_are_cut_where_they_cross_and_others_stay() {
        let sides = vec![
            // Both dip inwards next to the corner that they share.
            points(&[(0.0, 0.0), (5.0, 0.0), (9.5, 2.0), (10.0, 0.0)]),
            points(&[(10.0, 0.0), (8.0, 0.5), (10.0, 5.0), (10.0, 10.0)]),
            points(&[(10.0, 10.0), (0.0, 10.0)]),
            points(&[(0.0, 10.0), (0.0, 0.0)]),
        ];
        let line = closed(sides);
        assert_eq!((line[0], line[1]), (Point::origin(), Point::new(5.0, 0.0)));
        assert_eq!(line.len(), 6);
        // On the line from (5, 0) to (9.5, 2) and on that from (8, 0.5) to (10, 5).
        let at = line[2];
        assert!(((at.x - 5.0) * 2.0 - at.y * 4.5).abs() < 1e-12);
        assert!(((at.x - 8.0) * 4.5 - (at.y - 0.5) * 2.0).abs() < 1e-12);
        assert!(Region::new(line).is_ok());
    }

    proptest! {
        #[test]
        fn no_waves_of_neighbours_cross(
            waves in prop::collection::vec((0.05..0.95f64, -4.0..4.0f64), 4 * 4),
        ) {
            let corners = points(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
            let sides: Vec<Vec<Point>> = waves.chunks(4).enumerate().map(|(side, waves)| {
                let (from, to) = (corners[side], corners[(side + 1) % 4]);
                let along = to - from;
                let mut waves = waves.to_vec();
                waves.sort_by(|a, b| a.0.total_cmp(&b.0));
                let wave = |&(at, by): &(f64, f64)| {
                    from + along * at + crate::geom::Vector::new(-along.y, along.x) * (by / 10.0)
                };
                [from].into_iter().chain(waves.iter().map(wave)).chain([to]).collect()
            }).collect();
            // Opposite sides are 10 apart and wave by 4, so only neighbours may cross.
            prop_assert!(Region::new(closed(sides)).is_ok());
        }
    }
}
