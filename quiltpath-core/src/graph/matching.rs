//! Vertices in pairs at the least cost.
//!
//! Problem: pair an even number of vertices so that the costs of the pairs add up to the least.
//! Method: Edmonds' blossom algorithm, from `integer-blossom`, on costs made whole numbers.
//! Guarantee: exact for costs as whole multiples of 2⁻⁴⁴ of the largest; so the sum is the least
//! but for half of that a pair. Checked against brute force and, up to 600 vertices, networkx.
//! Failure cases: none; pairs that mustn't be are given a cost beyond all others.
//!
//! Source: J. Edmonds, "Paths, trees, and flowers" (1965).

use integer_blossom::min_weight_perfect_matching;

/// The largest cost as a whole number.
const STEPS: f64 = (1_u64 << 44) as f64;

/// The partner of each of `count` vertices; an even number, and costs that are not below 0.
///
/// # Complexity
///
/// O(count³).
pub(super) fn least_pairs(count: usize, mut cost: impl FnMut(usize, usize) -> f64) -> Vec<usize> {
    if count < 4 {
        return (0..count).map(|at| at ^ 1).collect();
    }
    let mut costs = vec![0.0; count * count];
    for one in 0..count {
        for other in one + 1..count {
            costs[one * count + other] = cost(one, other);
        }
    }
    let largest = costs.iter().fold(0.0_f64, |most, &cost| most.max(cost));
    // As shares first: a step for costs near 0 would be no number.
    let largest = if largest > 0.0 { largest } else { 1.0 };
    let whole: Vec<i64> = costs
        .iter()
        .map(|cost| (cost / largest * STEPS).round() as i64)
        .collect();
    min_weight_perfect_matching(&whole, count)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The least cost of pairing all of these, by trying all ways.
    fn tried(left: &[usize], cost: &dyn Fn(usize, usize) -> f64) -> f64 {
        let Some((&one, rest)) = left.split_first() else {
            return 0.0;
        };
        let ways = (0..rest.len()).map(|at| {
            let mut others = rest.to_vec();
            let other = others.remove(at);
            cost(one, other) + tried(&others, cost)
        });
        ways.fold(f64::INFINITY, f64::min)
    }

    /// Sums by networkx 3, made by `tests/references/matching.py`.
    const NETWORKX: [(usize, f64); 5] = [
        (50, 2489.567097047),
        (100, 3305.818552980),
        (200, 4608.470213424),
        (400, 6702.082032551),
        (600, 8016.527768997),
    ];

    #[test]
    fn hundreds_of_points_are_paired_as_networkx_pairs_them() {
        for (count, least) in NETWORKX {
            let mut state = count as u64;
            let mut next = || {
                state = state
                    .wrapping_mul(6_364_136_223_846_793_005)
                    .wrapping_add(1_442_695_040_888_963_407);
                (state >> 33) as f64 / 2.0_f64.powi(31) * 1000.0
            };
            let points: Vec<(f64, f64)> = (0..count).map(|_| (next(), next())).collect();
            let far =
                |a: usize, b: usize| (points[a].0 - points[b].0).hypot(points[a].1 - points[b].1);
            let pairs = least_pairs(count, far);
            let sum: f64 = pairs
                .iter()
                .enumerate()
                .map(|(a, &b)| far(a, b) / 2.0)
                .sum();
            assert!((sum - least).abs() < 1e-6, "{count}: {sum} {least}");
        }
    }

    #[test]
    fn costs_of_any_size_are_paired_alike() {
        let places = [0.0_f64, 9.0, 1.0, 8.0, 4.0, 5.0];
        for unit in [5e-324, 1e-310, 1e-290, 1.0, 1e300] {
            let cost = |a: usize, b: usize| (places[a] - places[b]).abs() * unit;
            assert_eq!(least_pairs(6, cost), [2, 3, 0, 1, 5, 4], "{unit}");
        }
        assert_eq!(least_pairs(4, |_, _| 0.0).len(), 4);
    }

    proptest! {
        #[test]
        fn no_pairs_cost_less(
            half in 1..5usize,
            costs in prop::collection::vec(prop_oneof![0.0..9.0f64, Just(1.0), Just(0.0)], 100),
        ) {
            let count = 2 * half;
            let cost = |a: usize, b: usize| costs[a.min(b) * 10 + a.max(b)];
            let pairs = least_pairs(count, cost);
            let mut sum = 0.0;
            for (one, &other) in pairs.iter().enumerate() {
                prop_assert!(pairs[other] == one && other != one);
                sum += cost(one, other) / 2.0;
            }
            let all: Vec<usize> = (0..count).collect();
            prop_assert!((sum - tried(&all, &cost)).abs() < 1e-9);
        }
    }
}
