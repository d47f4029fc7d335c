//! A limit of the stretch goes before the least worst one.

use super::*;

/// The best that a depth gives by trying all numbers: whether all sides are within the limit, and
/// the worst stretch, each tie by itself.
fn tried(group: &DepthGroup, limit: StretchLimit, depth: f64, most: usize) -> Option<(bool, f64)> {
    let mut ties: Vec<Vec<usize>> = Vec::new();
    for (index, side) in group.sides.iter().enumerate() {
        let same =
            |tie: &&mut Vec<usize>| side.tie.is_some() && group.sides[tie[0]].tie == side.tie;
        match ties.iter_mut().find(same) {
            Some(tie) => tie.push(index),
            None => ties.push(vec![index]),
        }
    }
    let best = |tie: &Vec<usize>| {
        let cost = |number: usize| {
            let stretch = |&side: &usize| group.sides[side].ratio(depth) / number as f64;
            let beyond = !tie.iter().map(stretch).all(|stretch| limit.allows(stretch));
            let worst = tie.iter().map(|side| stretch(side).ln().abs());
            (beyond, worst.fold(0.0, f64::max))
        };
        let numbers = (1..=most).filter(|&number| is_allowed(group, tie[0], number));
        numbers
            .map(cost)
            .min_by(|a, b| a.partial_cmp(b).expect("numbers"))
    };
    let costs: Option<Vec<(bool, f64)>> = ties.iter().map(best).collect();
    let costs = costs?.into_iter();
    Some(costs.fold((false, 0.0), |all, one| {
        (all.0 || one.0, f64::max(all.1, one.1))
    }))
}

proptest! {
    #![proptest_config(Config::with_cases(crate::cases(1000)))]
    #[test]
    fn none_is_beyond_it_while_a_grid_finds_one_within(group in bound(5), fraction in 0.02..0.4f64) {
        let limit = StretchLimit::either_way(fraction);
        let group = group.with_limit(limit);
        let Ok(fit) = fit_ring(&group) else { return Ok(()) };
        let beyond = !fit.sides.iter().all(|side| limit.allows(side.stretch));
        let worst = log_worst(&group, &fit);
        let DepthRange { min, max, .. } = group.depth;
        let inside = StretchLimit::either_way(fraction - 1e-8);
        for step in 0..=200 {
            let depth = min + (max - min) * f64::from(step) / 200.0;
            if group.sides.iter().any(|side| side.span(depth) <= 0.0) {
                continue;
            }
            let Some((theirs, cost)) = tried(&group, inside, depth, 80) else { continue };
            prop_assert!(!beyond || theirs, "{depth}: {fit:?}");
            if beyond == theirs {
                prop_assert!(worst <= cost + 1e-6, "{depth}, {cost}: {fit:?}");
            }
        }
    }
}
