//! Where a line goes over itself again, for pictures.
//!
//! Problem: which stretches of a placed line are stitched for the second time? Method: what is
//! retraced has the very ends of what it retraces, whatever maps both went through; so each segment
//! is looked up by its two ends, on a grid of a thousandth of a millimetre. Guarantee: every
//! segment that repeats an earlier one is found, and no other, unless both round apart on the grid,
//! or two differ by less than it. Failure cases: lines that run along each other with other points
//! are not found; the checks of a plan report those.

use std::collections::HashSet;
use std::ops::RangeInclusive;

use crate::geom::Point;

/// Steps of the grid in a millimetre.
const GRID: f64 = 1e3;

/// The stretches of a line that it has gone along before, each by its first and its last point.
///
/// # Complexity
///
/// O(n) expected.
pub(super) fn gone_over(points: &[Point]) -> Vec<RangeInclusive<usize>> {
    let on_grid = |point: &Point| [point.x, point.y].map(|mm| (mm * GRID).round() as i64);
    let mut known = HashSet::with_capacity(points.len());
    let mut found: Vec<RangeInclusive<usize>> = Vec::new();
    for (at, pair) in points.windows(2).enumerate() {
        let (a, b) = (on_grid(&pair[0]), on_grid(&pair[1]));
        if a == b || known.insert([a.min(b), a.max(b)]) {
            continue;
        }
        match found.last_mut() {
            Some(last) if *last.end() == at => *last = *last.start()..=at + 1,
            _ => found.push(at..=at + 1),
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stem_there_and_back_is_found_and_a_crossing_is_not() {
        let line = [
            (0.0, 0.0),
            (5.0, 0.0),
            (5.0, 3.0),
            (5.2, 6.0),
            (5.0, 3.0),
            (5.0, 0.0),
            (9.0, 0.0),
            (9.0, 2.0),
            (4.0, 2.0),
        ];
        let line: Vec<Point> = line.iter().map(|&(x, y)| Point::new(x, y)).collect();
        assert_eq!(gone_over(&line), [3..=5]);
        assert!(gone_over(&line[..4]).is_empty());
    }
}
