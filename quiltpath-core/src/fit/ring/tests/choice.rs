//! Which fit is taken of several that are equally good, in the order that the head promises.

use super::*;

fn group(min: f64, preferred: f64, max: f64, lengths: &[f64]) -> DepthGroup {
    DepthGroup {
        limit: None,
        depth: DepthRange {
            min,
            preferred,
            max,
        },
        sides: lengths.iter().map(|&l| side(l, 0.0, 1.0)).collect(),
    }
}

fn fitted(group: &DepthGroup) -> (f64, Vec<usize>) {
    let fit = fit_ring(group).expect("a ring");
    let numbers = fit.sides.iter().map(|side| side.repeats).collect();
    (fit.depth, numbers)
}

#[test]
fn of_equal_worsts_the_least_sum_of_squares_goes_before_the_preferred_depth() {
    // The first side holds 1 repeat at 1.25 when 32 deep, 2 at 0.8 when 25 deep, and is the worst
    // either way. The second fits exactly at one of these depths.
    assert_eq!(
        fitted(&group(25.0, 32.0, 32.0, &[40.0, 75.0])),
        (25.0, vec![2, 3])
    );
    assert_eq!(
        fitted(&group(25.0, 25.0, 32.0, &[40.0, 96.0])),
        (32.0, vec![1, 3])
    );
}

#[test]
fn of_equal_squares_the_nearest_to_the_preferred_depth_and_then_the_deepest_is_taken() {
    for (preferred, expected) in [
        (25.0, (25.0, vec![2])),
        (28.0, (25.0, vec![2])),
        (28.5, (32.0, vec![1])),
        (29.0, (32.0, vec![1])),
    ] {
        assert_eq!(fitted(&group(25.0, preferred, 32.0, &[40.0])), expected);
    }
}

#[test]
fn where_two_numbers_are_equally_good_the_smaller_is_taken() {
    // Sides of 1 and 2 repeats, tied: a stretch of 1 and 2, or of 1/2 and 1. Sides of 4 and 9 with
    // an even number: 4 to 8 as 2 to 1 and 9/4 to 9/8; 6 lies nearer to both.
    let tied = |lengths: &[f64], parity: Parity| {
        let mut group = group(1.0, 1.0, 1.0, lengths);
        for side in &mut group.sides {
            side.tie = Some(0);
            side.count.parity = parity;
        }
        fitted(&group).1
    };
    assert_eq!(tied(&[1.0, 2.0], Parity::Any), [1, 1]);
    assert_eq!(tied(&[3.0, 10.0], Parity::Any), [5, 5]);
    assert_eq!(tied(&[4.0, 9.0], Parity::Even), [6, 6]);
    // 3 and 5: worsts of 5/3 and 5/3 for sides of 3 and 5.
    assert_eq!(tied(&[3.0, 5.0], Parity::Odd), [3, 3]);
}

proptest! {
    #[test]
    fn sides_that_are_not_the_worst_decide_between_two_depths(
        narrow in 1.05..1.2f64, share in 0.0..1.0f64, others in prop::collection::vec(4.0..9.0f64, 1..4),
    ) {
        // At the two ends of the range the first side's stretch is s and 1/s with 1 and 2 repeats,
        // s at least 1.17; sides of 4 repeats and more never come near to that.
        let stretch = 2f64.sqrt() / narrow;
        let (max, min) = (1.0, stretch * stretch / 2.0);
        let mut lengths = vec![stretch];
        lengths.extend(&others);
        let preferred = min + share * (max - min);
        let (depth, numbers) = fitted(&group(min, preferred, max, &lengths));
        let squares = |depth: f64| -> f64 {
            let log = |length: &f64| {
                let logs = (1..40).map(|n| (length / depth / f64::from(n)).ln().powi(2));
                logs.fold(f64::INFINITY, f64::min)
            };
            lengths.iter().map(log).sum()
        };
        prop_assume!((squares(min) - squares(max)).abs() > 1e-9);
        let best = if squares(min) < squares(max) { min } else { max };
        prop_assert_eq!(depth, best);
        prop_assert_eq!(numbers[0], if best == max { 1 } else { 2 });
    }
}
