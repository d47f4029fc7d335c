//! The ring optimum held against grids and brute force.

mod choice;
mod limit;
mod properties;

use super::*;
use crate::fit::{Count, Parity};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

pub(super) fn side(length: f64, reach: f64, pitch: f64) -> RingSide {
    RingSide::between_corners(length, reach, pitch)
}

/// Whether a side may have n repeats; a fixed number goes before all else, also of tied sides.
pub(super) fn is_allowed(group: &DepthGroup, side: usize, n: usize) -> bool {
    let tie = group.sides[side].tie;
    let members = (group.sides.iter().enumerate())
        .filter(|(index, other)| *index == side || (tie.is_some() && other.tie == tie));
    let counts: Vec<Count> = members.map(|(_, side)| side.count).collect();
    if counts.iter().any(|count| count.fixed.is_some()) {
        return counts
            .iter()
            .all(|count| count.fixed.is_none_or(|fixed| n == fixed));
    }
    counts.iter().all(|count| {
        n.is_multiple_of(count.every)
            && match count.parity {
                Parity::Any => true,
                Parity::Even => n.is_multiple_of(2),
                Parity::Odd => !n.is_multiple_of(2),
            }
    })
}

pub(super) fn log_worst(group: &DepthGroup, fit: &GroupFit) -> f64 {
    let logs = (group.sides.iter().zip(&fit.sides).enumerate()).map(|(index, (side, choice))| {
        let stretch = side.ratio(fit.depth) / choice.repeats as f64;
        assert!((stretch - choice.stretch).abs() <= 1e-12 * stretch);
        assert!(is_allowed(group, index, choice.repeats));
        stretch.ln().abs()
    });
    let worst = logs.fold(0.0, f64::max);
    assert!((worst - fit.worst.ln()).abs() < 1e-12);
    let DepthRange { min, max, .. } = group.depth;
    assert!(min <= fit.depth && fit.depth <= max);
    for (i, a) in group.sides.iter().enumerate() {
        for (j, b) in group.sides.iter().enumerate() {
            if a.tie.is_some() && a.tie == b.tie {
                assert_eq!(fit.sides[i].repeats, fit.sides[j].repeats);
            }
        }
    }
    worst
}

/// The least worst over all numbers up to `most` at this depth, by trying them.
fn worst_at(group: &DepthGroup, depth: f64, most: usize) -> f64 {
    let mut worst: f64 = 0.0;
    for (index, side) in group.sides.iter().enumerate() {
        let tied = |other: &&RingSide| side.tie.is_some() && other.tie == side.tie;
        if group.sides[..index].iter().any(|other| tied(&other)) {
            continue;
        }
        let mut members: Vec<&RingSide> = group.sides.iter().filter(tied).collect();
        if members.is_empty() {
            members.push(side);
        }
        let cost = |n: usize| {
            let logs = members
                .iter()
                .map(|m| (m.ratio(depth) / n as f64).ln().abs());
            logs.fold(
                0.0,
                |a: f64, b| if b.is_nan() { f64::INFINITY } else { a.max(b) },
            )
        };
        let allowed = (1..=most).filter(|&n| is_allowed(group, index, n));
        worst = worst.max(allowed.map(cost).fold(f64::INFINITY, f64::min));
    }
    worst
}

/// A ring of a quilt: opposite sides about alike, a depth that may move by up to `slack`.
fn quilt(rings: usize, slack: f64) -> impl Strategy<Value = DepthGroup> {
    let deeper = prop_oneof![3 => Just(0.0), 1 => -0.6..1.0f64];
    let ring = (
        (50.0..110.0f64, 50.0..110.0f64),
        deeper,
        (-0.5..0.5f64, -0.5..0.5f64),
        0.6..3.0f64,
        0.0..3.0f64,
        (0.0..1.0f64, -2.0..0.0f64),
    );
    let rings = prop::collection::vec(ring, rings);
    (rings, 2.0..8.0f64, 0.001..slack).prop_map(|(rings, depth, slack)| DepthGroup {
        limit: None,
        depth: DepthRange::new(depth * (1.0 - slack), depth * (1.0 + slack)),
        sides: rings
            .iter()
            .enumerate()
            .flat_map(
                |(ring, &((w, h), deeper, (dw, dh), pitch, reach, (fixed, per_depth)))| {
                    [w, h, w + dw, h + dh].map(|length| RingSide {
                        deeper: if length == w { deeper } else { 0.0 },
                        fixed: length - fixed,
                        per_depth: per_depth - reach,
                        ring,
                        ..side(length, reach, pitch)
                    })
                },
            )
            .collect(),
    })
}

fn count() -> impl Strategy<Value = Count> {
    let parity = prop::sample::select(vec![Parity::Any, Parity::Even, Parity::Odd]);
    (1usize..4, parity, prop::option::weighted(0.1, 1usize..9)).prop_map(
        |(every, parity, fixed)| Count {
            every: if parity == Parity::Odd {
                every | 1
            } else {
                every
            },
            parity,
            fixed,
        },
    )
}

/// A few sides with bounds on their numbers, some of them tied.
pub(super) fn bound(most: usize) -> impl Strategy<Value = DepthGroup> {
    // Some sides have bands of their own, deeper or shallower than the shared depth.
    let deeper = prop_oneof![3 => Just(0.0), 1 => -0.4..0.6f64];
    let one = (
        5.0..20.0f64,
        -3.0..2.0f64,
        0.7..2.5f64,
        count(),
        0usize..6,
        deeper,
    );
    (
        prop::collection::vec(one, 1..=most),
        1.0..3.0f64,
        0.0..0.4f64,
    )
        .prop_map(|(sides, depth, slack)| DepthGroup {
            limit: None,
            depth: DepthRange::new(depth * (1.0 - slack), depth * (1.0 + slack)),
            sides: sides
                .into_iter()
                .map(|(fixed, per_depth, pitch, count, tie, deeper)| RingSide {
                    fixed,
                    per_depth,
                    deeper,
                    count,
                    tie: (tie < 2).then_some(tie),
                    ring: usize::from(tie % 3 == 0),
                    ..side(fixed, 0.0, pitch)
                })
                .collect(),
        })
}

#[test]
fn no_depth_of_a_fine_grid_is_better_on_1000_random_quilts() {
    let mut runner = TestRunner::new(Config::with_cases(crate::cases(1000)));
    let quilts = (1usize..=3, 0.02..0.12f64).prop_flat_map(|(rings, slack)| quilt(rings, slack));
    runner
        .run(&quilts, |group| {
            let fit = fit_ring(&group).expect("a quilt");
            let worst = log_worst(&group, &fit);
            let DepthRange { min, max, .. } = group.depth;
            for step in 0..2000 {
                let depth = min + (max - min) * f64::from(step) / 1999.0;
                // The best whole number is next to the ratio; two either way are tried.
                let at = group.sides.iter().map(|side| {
                    let ratio = side.ratio(depth);
                    let low = (ratio as usize).saturating_sub(1).max(1);
                    let costs = (low..low + 4).map(|n| (ratio / n as f64).ln().abs());
                    costs.fold(f64::INFINITY, f64::min)
                });
                prop_assert!(worst <= at.fold(0.0, f64::max) + 1e-12);
            }
            Ok(())
        })
        .expect("never beaten");
}

/// The least of the worst over all depths for given numbers: the worst has one minimum, since
/// the stretches all grow with 1/depth, so thirds of the range are cut off.
fn least_for(group: &DepthGroup, counts: &[usize]) -> f64 {
    let cost = |depth: f64| {
        let logs = (group.sides.iter().zip(counts))
            .map(|(side, &n)| (side.ratio(depth).max(1e-300) / n as f64).ln().abs());
        logs.fold(0.0, f64::max)
    };
    let (mut low, mut high) = (group.depth.min, group.depth.max);
    for _ in 0..120 {
        let third = (high - low) / 3.0;
        if cost(low + third) <= cost(high - third) {
            high -= third;
        } else {
            low += third;
        }
    }
    cost(low).min(cost(high))
}

/// All numbers from 1 to `most` on all sides, of those that are allowed and equal where tied.
fn least_of_all(group: &DepthGroup, most: usize) -> f64 {
    let mut best = f64::INFINITY;
    let mut counts = vec![1; group.sides.len()];
    loop {
        let alike = |i: usize, j: usize| {
            let (a, b) = (&group.sides[i], &group.sides[j]);
            a.tie.is_none() || a.tie != b.tie || counts[i] == counts[j]
        };
        let sides = 0..counts.len();
        if (sides.clone()).all(|i| is_allowed(group, i, counts[i]))
            && (sides.clone()).all(|i| sides.clone().all(|j| alike(i, j)))
        {
            best = best.min(least_for(group, &counts));
        }
        let Some(place) = counts.iter().position(|&n| n < most) else {
            return best;
        };
        counts[..place].fill(1);
        counts[place] += 1;
    }
}

#[test]
fn small_rings_equal_brute_force_over_all_numbers() {
    let cases = crate::cases(300);
    let mut runner = TestRunner::new(Config::with_cases(cases));
    let refused = std::cell::Cell::new(0);
    runner
        .run(&bound(3), |mut group| {
            // So that no more than 12 repeats can be best.
            for side in &mut group.sides {
                side.fixed = side.fixed.min(9.0 * side.pitch * group.depth.min);
            }
            let Ok(fit) = fit_ring(&group) else {
                refused.set(refused.get() + 1);
                return Ok(());
            };
            let (found, best) = (log_worst(&group, &fit), least_of_all(&group, 24));
            prop_assert!((found - best).abs() < 1e-9, "{found} {best} {group:?}");
            Ok(())
        })
        .expect("equal");
    // The others have contradictory ties.
    assert!(
        refused.get() < cases / 2,
        "{refused:?} of {cases} are refused"
    );
}

#[test]
fn a_given_depth_is_that_of_single_spans() {
    let group = DepthGroup {
        limit: None,
        depth: DepthRange::fixed(0.3),
        sides: [10.0, 7.3, 1.0, 0.2].map(|l| side(l, 0.1, 1.7)).to_vec(),
    };
    let fit = fit_ring(&group).expect("a ring");
    assert_eq!(fit.depth, 0.3);
    for (side, choice) in group.sides.iter().zip(&fit.sides) {
        let single = crate::fit::fit_span(side.span(0.3), side.pitch * 0.3, &side.count);
        assert_eq!(single.expect("a span").chosen.repeats, choice.repeats);
    }
}

#[test]
fn of_equal_depths_the_one_nearest_to_the_preferred_is_taken() {
    // One side fits exactly at each depth of 12/n.
    for (preferred, repeats) in [(2.9, 4), (2.0, 6), (1.75, 7)] {
        let group = DepthGroup {
            limit: None,
            depth: DepthRange {
                min: 1.0,
                preferred,
                max: 5.0,
            },
            sides: vec![side(12.0, 0.0, 1.0)],
        };
        let fit = fit_ring(&group).expect("a ring");
        assert_eq!(fit.sides[0].repeats, repeats);
        assert!((fit.depth - 12.0 / repeats as f64).abs() < 1e-12);
        assert!(fit.worst < 1.0 + 1e-12);
    }
}

#[test]
fn a_depth_at_which_the_corners_use_up_a_side_is_no_choice() {
    let group = DepthGroup {
        limit: None,
        depth: DepthRange::new(1.0, 8.0),
        sides: vec![side(10.0, 4.0, 1.0), side(40.0, 4.0, 1.0)],
    };
    let fit = fit_ring(&group).expect("a ring");
    assert!(fit.sides.iter().all(|side| side.stretch > 0.0));
    assert!(log_worst(&group, &fit) <= worst_at(&group, 2.0, 60));
}

#[test]
fn what_can_not_be_is_refused_with_its_place() {
    let good = side(60.0, 4.0, 1.0);
    let error = |depth: DepthRange, sides: Vec<RingSide>| {
        let error = fit_rings(&[DepthGroup {
            limit: None,
            depth,
            sides,
        }])
        .expect_err("refused");
        assert!(error.is_fit(), "{error}");
        error.to_string()
    };
    let depth = DepthRange::new(3.0, 4.0);
    assert!(error(depth, vec![]).contains("has no side"));
    for (min, max) in [
        (0.0, 1.0),
        (2.0, 1.0),
        (f64::NAN, 1.0),
        (1.0, f64::INFINITY),
    ] {
        assert!(error(DepthRange::new(min, max), vec![good]).contains("least depth above 0"));
    }
    for fixed in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let text = error(depth, vec![good, RingSide { fixed, ..good }]);
        assert!(text.starts_with("group 0: side 1: the span is"), "{text}");
    }
    for pitch in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let text = error(depth, vec![RingSide { pitch, ..good }]);
        assert!(text.contains("can't be chained"), "{text}");
    }
    assert!(error(depth, vec![side(60.0, 30.0, 1.0)]).contains("give a span above 0"));
    assert!(error(depth, vec![side(60.0, 1.0, 1e-6)]).contains("check the units"));

    let with = |count: Count| RingSide {
        count,
        tie: Some(7),
        ..good
    };
    let parity = |parity| Count {
        parity,
        ..Count::default()
    };
    let fixed = |fixed| Count {
        fixed: Some(fixed),
        ..Count::default()
    };
    for (one, other) in [
        (parity(Parity::Even), parity(Parity::Odd)),
        (fixed(4), fixed(5)),
    ] {
        let text = error(depth, vec![with(one), with(other)]);
        assert!(
            text.contains("side 1") && text.contains("have to be alike"),
            "{text}"
        );
    }
    let every = |every| Count {
        every,
        ..Count::default()
    };
    let text = error(depth, vec![with(every(2)), with(parity(Parity::Odd))]);
    assert!(
        text.contains("no odd number of repeats is a multiple of 2"),
        "{text}"
    );
    assert!(error(depth, vec![with(every(0))]).contains("multiples of 0 "));
    assert!(error(depth, vec![with(fixed(0))]).contains("0 repeats"));
    assert!(
        error(depth, vec![with(fixed(usize::MAX))])
            .contains("repeats are asked for; up to 100000 ")
    );
}
