//! What holds of the optimum for any ring.

use super::*;

proptest! {
    #[test]
    fn bounds_and_ties_are_never_beaten_by_a_grid(group in bound(8)) {
        let Ok(fit) = fit_ring(&group) else {
            // Only ties with contradictory numbers, and spans used up, are refused.
            let DepthRange { min, .. } = group.depth;
            prop_assert!(worst_at(&group, min, 200).is_infinite());
            return Ok(());
        };
        let worst = log_worst(&group, &fit);
        for step in 0..200 {
            let DepthRange { min, max, .. } = group.depth;
            let depth = min + (max - min) * f64::from(step) / 199.0;
            prop_assert!(worst <= worst_at(&group, depth, 60) + 1e-12);
        }
    }

    #[test]
    fn more_freedom_is_never_worse(group in quilt(2, 0.1), less in 0.0..1.0f64, more in 0.0..1.0f64) {
        let DepthRange { min, max, preferred } = group.depth;
        let narrow = DepthGroup { limit: None,
            depth: DepthRange {
                min: preferred - (preferred - min) * less,
                max: preferred + (max - preferred) * more,
                preferred,
            },
            sides: group.sides.clone(),
        };
        let wide = fit_ring(&group).expect("a quilt").worst;
        prop_assert!(wide <= fit_ring(&narrow).expect("a quilt").worst + 1e-12);
        let mut tied = group.clone();
        for (index, side) in tied.sides.iter_mut().enumerate() {
            side.tie = Some(index / 4 * 2 + index % 2);
        }
        prop_assert!(wide <= fit_ring(&tied).expect("a quilt").worst + 1e-12);
        let rings: Vec<DepthGroup> = group
            .sides
            .chunks(4)
            .map(|sides| DepthGroup { limit: None, depth: group.depth, sides: sides.to_vec() })
            .collect();
        let own = fit_rings(&rings).expect("a quilt");
        prop_assert!(own.iter().all(|ring| ring.worst <= wide + 1e-12));
    }

    #[test]
    fn no_number_and_no_order_makes_it_panic(
        numbers in prop::collection::vec(prop::num::f64::ANY, 3 * 3),
        depth in prop::array::uniform3(prop::num::f64::ANY),
        count in count(),
    ) {
        let sides = numbers.chunks(3).map(|c| RingSide { count, per_depth: c[1], ..side(c[0], 0.0, c[2]) });
        let [min, preferred, max] = depth;
        let mut group = DepthGroup { limit: None, depth: DepthRange { min, preferred, max }, sides: sides.collect() };
        for _ in 0..2 {
            match fit_ring(&group) {
                Ok(fit) => {
                    prop_assert!(fit.worst.is_finite());
                    let _ = alternatives(&group, &fit, StretchLimit::either_way(0.1));
                }
                Err(error) => prop_assert!(error.is_fit()),
            }
            group.depth = DepthRange::new(1.0, 2.0);
        }
    }
}
