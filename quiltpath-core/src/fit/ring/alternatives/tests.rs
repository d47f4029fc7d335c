//! Each way out holds, and none nearer or shorter does: held against a grid.

use super::super::tests::{bound, is_allowed, log_worst, side};
use super::super::{DepthRange, fit_ring};
use super::*;
use crate::fit::span::Parity;
use proptest::prelude::*;
use proptest::test_runner::Config;

const TEN: f64 = 0.1;

fn limit() -> StretchLimit {
    StretchLimit::either_way(TEN)
}

fn holds(fit: &GroupFit) -> bool {
    fit.sides.iter().all(|side| limit().allows(side.stretch))
}

/// Whether some allowed numbers hold at this depth.
fn can_hold(group: &DepthGroup, depth: f64) -> bool {
    group.sides.iter().enumerate().all(|(index, side)| {
        (1..200).any(|n| {
            group
                .sides
                .iter()
                .filter(|other| {
                    std::ptr::eq(*other, side) || (side.tie.is_some() && other.tie == side.tie)
                })
                .all(|other| {
                    is_allowed(group, index, n) && limit().allows(other.ratio(depth) / n as f64)
                })
        })
    })
}

#[test]
fn a_fit_within_the_limit_needs_none() {
    let group = DepthGroup {
        limit: None,
        depth: DepthRange::new(3.5, 4.5),
        sides: vec![side(60.0, 4.0, 1.0)],
    };
    let fit = fit_ring(&group).expect("a ring");
    assert_eq!(alternatives(&group, &fit, limit()), Ok(vec![]));
}

#[test]
fn each_way_has_its_numbers() {
    // 9 in between the corners for repeats of 6 in: 1 is drawn out by half, 2 are squeezed by
    // a quarter.
    let mut group = DepthGroup {
        limit: None,
        depth: DepthRange::fixed(4.0),
        sides: vec![side(9.0, 0.0, 1.5), side(60.0, 0.0, 1.5)],
    };
    group.sides[0].count.parity = Parity::Odd;
    let fit = fit_ring(&group).expect("a ring");
    assert_eq!((fit.sides[0].repeats, fit.sides[0].stretch), (1, 1.5));
    let ways = alternatives(&group, &fit, limit()).expect("ways");

    let Alternative::Depth(depth) = &ways[0] else {
        panic!("{ways:?}")
    };
    assert!(holds(depth));
    // One repeat at 1.1: 9 / (1.5 · 1.1).
    assert!((depth.depth - 9.0 / 1.65).abs() < 1e-6, "{depth:?}");
    let counts = ways.iter().find_map(|way| match way {
        Alternative::Counts(fit) => Some(fit),
        _ => None,
    });
    assert_eq!(counts.expect("free numbers").sides[0].repeats, 2);
    assert!(ways.contains(&Alternative::Ease {
        sides: vec![(0, 1.5)]
    }));
    let leg = ways.iter().find_map(|way| match way {
        Alternative::LongerLeg {
            ring: 0,
            extra,
            sides,
        } => Some((*extra, sides)),
        _ => None,
    });
    let (extra, sides) = leg.expect("longer legs");
    // Two legs leave 6.6 in of 9 in: one repeat at 1.1.
    assert!((extra - 1.2).abs() < 1e-6, "{extra}");
    assert_eq!((sides[0].1.repeats, sides[1].1.repeats), (1, 10));
    let Some(Alternative::Spacers { sides }) = ways.last() else {
        panic!("{ways:?}")
    };
    assert_eq!(sides.len(), 1);
    assert!((sides[0].1 - 2.4).abs() < 1e-6, "{sides:?}");
}

#[test]
fn a_limit_that_is_none_and_a_fit_of_another_group_are_refused() {
    let group = DepthGroup {
        limit: None,
        depth: DepthRange::fixed(4.0),
        sides: vec![side(9.0, 0.0, 1.5)],
    };
    let fit = fit_ring(&group).expect("a ring");
    for fraction in [-0.1, 1.0, f64::NAN, f64::INFINITY] {
        let limit = StretchLimit::either_way(fraction);
        assert!(
            alternatives(&group, &fit, limit)
                .expect_err("no limit")
                .is_fit()
        );
    }
    let other = GroupFit {
        sides: vec![],
        ..fit
    };
    assert!(
        alternatives(&group, &other, limit())
            .expect_err("another")
            .is_fit()
    );
}

#[test]
fn other_numbers_that_hold_at_the_same_depth_are_one_way() {
    // 9.933 repeats of an odd number: 9 are nearer in proportion, 1.1037, but 11 hold, 0.9030.
    let mut odd = side(9.933, 0.0, 1.0);
    odd.count.parity = Parity::Odd;
    let group = DepthGroup {
        limit: None,
        depth: DepthRange::fixed(1.0),
        sides: vec![odd],
    };
    let fit = fit_ring(&group).expect("a fit");
    assert_eq!(fit.sides[0].repeats, 9);
    let ways = alternatives(&group, &fit, limit()).expect("ways");
    let depths: Vec<&GroupFit> = (ways.iter())
        .filter_map(|way| match way {
            Alternative::Depth(fit) => Some(fit),
            _ => None,
        })
        .collect();
    assert_eq!(depths.len(), 1);
    assert_eq!((depths[0].depth, depths[0].sides[0].repeats), (1.0, 11));
}

proptest! {
    #![proptest_config(Config::with_cases(crate::cases(500)))]
    #[test]
    fn all_hold_and_none_nearer_does(group in bound(4)) {
        let Ok(fit) = fit_ring(&group) else { return Ok(()) };
        let ways = alternatives(&group, &fit, limit()).expect("ways");
        prop_assert_eq!(ways.is_empty(), holds(&fit));
        let mut nearest = [fit.depth / MAX_DEPTH_CHANGE, fit.depth * MAX_DEPTH_CHANGE];
        for way in &ways {
            match way {
                Alternative::Depth(depth) => {
                    prop_assert!(holds(depth), "{depth:?}");
                    log_worst(&DepthGroup { depth: DepthRange::new(0.1, 9.0), ..group.clone() }, depth);
                    if (depth.depth - fit.depth).abs() < 1e-9 * fit.depth {
                        nearest = [fit.depth; 2];
                    } else {
                        nearest[usize::from(depth.depth > fit.depth)] = depth.depth;
                    }
                }
                Alternative::Counts(free) => prop_assert!(free.worst < fit.worst),
                Alternative::Ease { sides } => {
                    for &(side, stretch) in sides {
                        prop_assert_eq!(stretch, fit.sides[side].stretch);
                        prop_assert!(!limit().allows(stretch));
                    }
                }
                Alternative::LongerLeg { ring, extra, sides } => {
                    let at = |extra: f64| {
                        let mut longer = group.clone();
                        for side in longer.sides.iter_mut().filter(|side| side.ring == *ring) {
                            side.fixed -= 2.0 * extra;
                        }
                        // Sides of another ring that are tied to none of this one don't matter.
                        let of_ring: Vec<_> = (group.sides.iter())
                            .filter(|side| side.ring == *ring)
                            .filter_map(|side| side.tie)
                            .collect();
                        longer.sides.retain(|side| {
                            side.ring == *ring || side.tie.is_some_and(|tie| of_ring.contains(&tie))
                        });
                        can_hold(&longer, fit.depth)
                    };
                    prop_assert!(at(extra * (1.0 + 1e-12)));
                    prop_assert!(*extra < 1e-6 || (1..100).all(|k| !at((extra - 1e-6) * f64::from(k) / 99.0)));
                    prop_assert!(sides.iter().all(|(_, side)| limit().allows(side.stretch)));
                }
                Alternative::Spacers { sides } => {
                    for &(index, length, choice) in sides {
                        prop_assert!(length >= 0.0 && limit().allows(choice.stretch));
                        let side = &group.sides[index];
                        let filled = choice.stretch * choice.repeats as f64 * side.pitch_at(fit.depth);
                        prop_assert!((filled + length - side.span(fit.depth)).abs() < 1e-9);
                        let with = |length: f64, n: usize| {
                            is_allowed(&group, index, n)
                                && limit().allows((side.span(fit.depth) - length) / (side.pitch_at(fit.depth) * n as f64))
                        };
                        if side.tie.is_none() {
                            let shorter = |k: u32| (length - 1e-6) * f64::from(k) / 99.0;
                            prop_assert!(length < 1e-6 || (0..100).all(|k| (1..99).all(|n| !with(shorter(k), n))));
                        }
                    }
                }
            }
        }
        if !ways.is_empty() {
            for step in 1..400 {
                let share = f64::from(step) / 400.0;
                for bound in nearest {
                    let depth = fit.depth + (bound - fit.depth) * share;
                    let close = (bound - depth).abs() < 1e-6;
                    prop_assert!(close || !can_hold(&group, depth), "{depth} holds, {nearest:?}");
                }
            }
        }
    }
}
