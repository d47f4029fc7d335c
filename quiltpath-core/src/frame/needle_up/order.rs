//! An order of a few places with little travel, the first one first.
//!
//! Method: always the nearest place that is left; then stretches of the way are turned round while
//! that makes it shorter (2-opt: G. A. Croes, "A method for solving traveling-salesman problems",
//! 1958). Guarantee: no stretch turned round makes it shorter.

use super::nearest::SAME;
use crate::geom::Point;

/// The numbers of the places in order.
///
/// # Complexity
///
/// O(n²) for each stretch that is turned; meant for a dozen places.
pub(super) fn short_way(places: &[Point]) -> Vec<usize> {
    // In steps, so that which of equally near places comes first doesn't hang on the last bit.
    let far = |one: usize, other: usize| ((places[one] - places[other]).norm() / SAME).round();
    let mut way: Vec<usize> = (0..places.len()).collect();
    for at in 1..way.len() {
        let here = way[at - 1];
        let nearest =
            (at..way.len()).min_by(|&a, &b| far(here, way[a]).total_cmp(&far(here, way[b])));
        way.swap(at, nearest.unwrap_or(at));
    }
    // The sum falls by more than rounding each time, so this comes to an end.
    while let Some([from, to]) = shorter(&way, far) {
        way[from..=to].reverse();
    }
    way
}

/// A stretch of the way that is better turned round.
fn shorter(way: &[usize], far: impl Fn(usize, usize) -> f64) -> Option<[usize; 2]> {
    for from in 1..way.len() {
        for to in from + 1..way.len() {
            let after = |end: usize| way.get(to + 1).map_or(0.0, |&next| far(end, next));
            let now = far(way[from - 1], way[from]) + after(way[to]);
            let then = far(way[from - 1], way[to]) + after(way[from]);
            if then < now * (1.0 - 1e-9) {
                return Some([from, to]);
            }
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn length(way: &[usize], places: &[Point]) -> f64 {
        let steps = way
            .windows(2)
            .map(|pair| (places[pair[0]] - places[pair[1]]).norm());
        steps.sum()
    }

    proptest! {
        #[test]
        fn each_place_comes_once_and_the_way_is_near_the_best(
            places in prop::collection::vec((-9.0..9.0f64, -9.0..9.0f64), 1..7),
        ) {
            let places: Vec<Point> = places.into_iter().map(|(x, y)| Point::new(x, y)).collect();
            let way = short_way(&places);
            let mut sorted = way.clone();
            sorted.sort_unstable();
            prop_assert_eq!(sorted, (0..places.len()).collect::<Vec<_>>());
            prop_assert_eq!(way[0], 0);
            let mut best = f64::INFINITY;
            let mut all = vec![vec![0]];
            while let Some(begun) = all.pop() {
                if begun.len() == places.len() {
                    best = best.min(length(&begun, &places));
                }
                for next in (0..places.len()).filter(|next| !begun.contains(next)) {
                    let mut more = begun.clone();
                    more.push(next);
                    all.push(more);
                }
            }
            prop_assert!(length(&way, &places) <= 1.5 * best + 1e-9);
        }
    }
}
