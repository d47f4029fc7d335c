//! Stretches of a line as shares of its length: rising, apart from each other, joined and cut.

/// Two stretches together with a third; those that touch within `same` become one.
pub(super) fn with(
    stretches: &[[f64; 2]],
    [mut from, mut to]: [f64; 2],
    same: f64,
) -> Vec<[f64; 2]> {
    if from <= same {
        from = 0.0;
    }
    if to >= 1.0 - same {
        to = 1.0;
    }
    let mut all = Vec::with_capacity(stretches.len() + 1);
    for &[start, end] in stretches {
        if end < from - same || start > to + same {
            all.push([start, end]);
        } else {
            from = from.min(start);
            to = to.max(end);
        }
    }
    let at = all.partition_point(|&[start, _]| start < from);
    all.insert(at, [from, to]);
    all
}

/// What is left of stretches without one; what is no longer than `same` is nothing.
pub(super) fn without(stretches: &[[f64; 2]], [from, to]: [f64; 2], same: f64) -> Vec<[f64; 2]> {
    let parts = stretches.iter().flat_map(|&[start, end]| {
        let before = [start, end.min(from)];
        let after = [start.max(to), end];
        match end <= from || start >= to {
            true => [Some([start, end]), None],
            false => [Some(before), Some(after)],
        }
    });
    let parts = parts.flatten();
    parts.filter(|[start, end]| end - start > same).collect()
}

/// What two sets of stretches have in common, the first piece of it that is longer than `same`.
pub(super) fn common(stretches: &[[f64; 2]], [from, to]: [f64; 2], same: f64) -> Option<[f64; 2]> {
    let shared = stretches
        .iter()
        .map(|&[start, end]| [start.max(from), end.min(to)]);
    shared.into_iter().find(|[start, end]| end - start > same)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const SAME: f64 = 1e-9;

    #[test]
    fn stretches_that_touch_become_one() {
        let two = with(&[[0.0, 0.25]], [0.5, 0.75], SAME);
        assert_eq!(two, [[0.0, 0.25], [0.5, 0.75]]);
        assert_eq!(with(&two, [0.25, 0.5], SAME), [[0.0, 0.75]]);
        assert_eq!(
            with(&two, [0.75 + 1e-10, 1.0 - 1e-10], SAME),
            [[0.0, 0.25], [0.5, 1.0]]
        );
        assert_eq!(without(&two, [0.1, 0.6], SAME), [[0.0, 0.1], [0.6, 0.75]]);
        assert_eq!(common(&two, [0.25, 0.5], SAME), None);
        assert_eq!(common(&two, [0.2, 0.6], SAME), Some([0.2, 0.25]));
    }

    proptest! {
        #[test]
        fn what_is_put_in_and_taken_out_adds_up(
            cuts in prop::collection::btree_set(1u32..1000, 2..12),
            odd in any::<bool>(),
            [a, b] in prop::array::uniform2(0u32..1000),
        ) {
            let cuts: Vec<f64> = cuts.into_iter().map(|cut| f64::from(cut) / 1000.0).collect();
            let pairs: Vec<[f64; 2]> = cuts[usize::from(odd)..]
                .chunks_exact(2)
                .map(|pair| [pair[0], pair[1]])
                .collect();
            let [from, to] = [a.min(b), a.max(b) + 1].map(|at| f64::from(at) / 1000.0);
            let length = |stretches: &[[f64; 2]]| -> f64 {
                stretches.iter().map(|[from, to]| to - from).sum()
            };
            let [joined, left] = [with(&pairs, [from, to], SAME), without(&pairs, [from, to], SAME)];
            prop_assert!((length(&joined) - length(&left) - (to - from)).abs() < 1e-9);
            for stretches in [&joined, &left] {
                prop_assert!(stretches.windows(2).all(|pair| pair[0][1] + SAME < pair[1][0]));
            }
            prop_assert_eq!(common(&left, [from, to], SAME), None);
            let missing = length(&pairs) - length(&left);
            prop_assert_eq!(common(&pairs, [from, to], SAME).is_some(), missing > 1e-9);
        }
    }
}
