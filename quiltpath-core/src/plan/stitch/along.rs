//! How far along their pieces points lie, in lengths and in repeats.

use crate::geom::Point;

/// How far along its piece each point lies.
pub(super) fn reached(points: &[Point]) -> Vec<f64> {
    let mut sum = 0.0;
    let steps = points.windows(2).map(|pair| (pair[1] - pair[0]).norm());
    std::iter::once(0.0)
        .chain(steps.map(|step| {
            sum += step;
            sum
        }))
        .collect()
}

/// How many repeats, whole ones and the share of the next one's length, lie before a length along a
/// piece whose repeats end at these points.
pub(super) fn in_repeats(reached: &[f64], ends: &[usize], length: f64) -> f64 {
    let last = reached.len() - 1;
    let whole = ends.partition_point(|&end| reached[end.min(last)] <= length);
    let to = |repeat: usize| ends.get(repeat).map(|&end| reached[end.min(last)]);
    let from = whole.checked_sub(1).and_then(to).unwrap_or(0.0);
    match to(whole) {
        Some(to) if to > from => whole as f64 + (length - from) / (to - from),
        _ => whole as f64,
    }
}
