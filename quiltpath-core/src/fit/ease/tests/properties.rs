//! What holds of the map for any ink.

use super::*;

/// Random ink with waves and loops, from (0, t) to (1, t).
fn ink() -> impl Strategy<Value = Vec<(f64, f64)>> {
    let wave = (1u32..6, -0.3..0.3f64, -0.3..0.3f64, 0.0..TAU);
    prop::collection::vec(wave, 1..5).prop_map(|waves| {
        (0..=400)
            .map(|k| {
                let s = f64::from(k) / 400.0;
                let sums = waves.iter().map(|&(n, x, y, phase)| {
                    let angle = TAU * f64::from(n) * s;
                    (
                        x * ((angle + phase).cos() - phase.cos()),
                        y * (angle + phase).sin(),
                    )
                });
                sums.fold((s, 0.5), |a, b| (a.0 + b.0, a.1 + b.1))
            })
            .collect()
    })
}

proptest! {
    #[test]
    fn the_map_rises_keeps_its_ends_and_its_slope_has_no_jump(
        points in ink(), aspect in 0.3..8.0f64, stretch in 0.6..1.6f64,
    ) {
        let ease = eased(&points, aspect, stretch);
        let report = *ease.report();
        prop_assert!(report.objective <= report.uniform_objective * (1.0 + 1e-12));
        prop_assert!((0.0..=1.0).contains(&report.unabsorbed));
        prop_assert_eq!((ease.apply(0.0), ease.apply(1.0), ease.apply(-3.0)), (0.0, 1.0, -3.0));
        prop_assert_eq!(ease.slope(0.0), ease.slope(1.0));
        prop_assert_eq!(ease.values().len(), ease.parts() + 1);
        for (knot, value) in ease.values().iter().enumerate() {
            prop_assert!((ease.apply(knot as f64 / ease.parts() as f64) - value).abs() < 1e-12);
        }
        let steps = 4 * KNOTS as i32;
        let mut before = (f64::NEG_INFINITY, ease.slope(-1.0 / f64::from(steps)));
        for step in 0..=2 * steps {
            let u = f64::from(step) / f64::from(steps);
            let (value, slope) = (ease.apply(u), ease.slope(u));
            prop_assert!(value > before.0);
            prop_assert!((0.6 - 1e-9..=1.6 + 1e-9).contains(&ease.local_stretch(u)));
            // The blur spreads even the step from one limit to the other.
            prop_assert!((slope - before.1).abs() < 0.4, "{u}: {slope} after {}", before.1);
            let ahead = (ease.apply(u + 1e-7) - ease.apply(u - 1e-7)) / 2e-7;
            prop_assert!((ahead - slope).abs() < 1e-3 * slope.max(1.0) + 1e-7);
            before = (value, slope);
        }
    }

    #[test]
    fn a_stretch_of_1_changes_no_bit(points in ink(), aspect in 0.3..8.0f64, u in 0.0..1.0f64) {
        let ease = eased(&points, aspect, 1.0);
        prop_assert_eq!((ease.apply(u), ease.slope(u)), (u, 1.0));
        prop_assert_eq!(ease.report().objective, 0.0);
    }

    #[test]
    fn no_change_that_keeps_the_length_is_better(
        points in ink(), stretch in 0.7..1.4f64, changes in prop::collection::vec((0..KNOTS, 0..KNOTS, -0.2..0.2f64), 50),
    ) {
        let stiffness = Stiffness::of(&points, 3.0).expect("a repeat");
        let limits = EaseLimits::default();
        let v: Vec<f64> = solve(stiffness.give(), stretch, [limits.least, limits.most]).iter().map(|extra| 1.0 + extra).collect();
        prop_assert!((v.iter().sum::<f64>() / KNOTS as f64 - stretch).abs() < 1e-9);
        let cost = |knot: usize, v: f64| (v - 1.0).powi(2) / stiffness.give()[knot];
        for (one, other, by) in changes {
            let by = by.min(limits.most - v[one]).max(limits.least - v[one]);
            let by = by.min(v[other] - limits.least).max(v[other] - limits.most);
            if one != other {
                let before = cost(one, v[one]) + cost(other, v[other]);
                let after = cost(one, v[one] + by) + cost(other, v[other] - by);
                prop_assert!(after >= before * (1.0 - 1e-9));
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(40)))]
    #[test]
    fn no_ink_makes_it_panic(
        points in prop::collection::vec((prop::num::f64::ANY, prop::num::f64::ANY), 0..6),
        more in prop::collection::vec((-1e9..1e9f64, -1e9..1e9f64), 2..6),
        aspect in prop::num::f64::ANY, stretch in prop::num::f64::ANY,
    ) {
        for points in [points, more] {
            for aspect in [aspect, 1.0, 1e-3] {
                if let Ok(stiffness) = Stiffness::of(&points, aspect) {
                    prop_assert!(stiffness.give().iter().all(|give| *give > 0.0 && give.is_finite()));
                    let _ = Ease::new(&stiffness, stretch, &EaseLimits::default());
                }
            }
        }
    }
}
