//! Windows held against all choices of windows and all orders of stitching.

use super::*;
use crate::graph::fewest_trails;
use proptest::prelude::*;

mod limits;

/// The runs that a choice of windows takes.
fn runs(ends: &[[usize; 2]], vertices: usize, window: &[usize]) -> usize {
    let most = window.iter().max().map_or(0, |most| most + 1);
    let of = |pass: usize| {
        let chosen = (0..ends.len()).filter(move |&atom| window[atom] == pass);
        chosen.map(|atom| ends[atom]).collect::<Vec<_>>()
    };
    (0..most)
        .map(|pass| fewest_trails(&of(pass), vertices).len())
        .sum()
}

/// The fewest runs by trying everything: stitch any atom that is left and within reach of the
/// window, either way; lift the thread where it does not start at the place where the machine is;
/// or advance the quilt, which lifts it too.
fn tried(ends: &[[usize; 2]], vertices: usize, reach: &[Reach]) -> usize {
    let lifted = vertices;
    let places = vertices + 1;
    let mut least = vec![usize::MAX; places << ends.len()];
    least[lifted] = 0;
    let windows = reach.iter().map(|reach| reach.last + 1).max().unwrap_or(0);
    for window in 0..windows {
        for state in 0..least.len() {
            let (done, at, so_far) = (state / places, state % places, least[state]);
            if so_far == usize::MAX {
                continue;
            }
            for (atom, edge) in ends.iter().enumerate() {
                let within = (reach[atom].first..=reach[atom].last).contains(&window);
                if done >> atom & 1 == 1 || !within {
                    continue;
                }
                for [from, to] in [*edge, [edge[1], edge[0]]] {
                    let runs = so_far + usize::from(from != at);
                    let next = &mut least[(done | 1 << atom) * places + to];
                    *next = (*next).min(runs);
                }
            }
        }
        for states in least.chunks_exact_mut(places) {
            let best = *states.iter().min().expect("a place");
            states.fill(usize::MAX);
            states[lifted] = best;
        }
    }
    least[(places << ends.len()) - 1]
}

fn reaches(most: usize, atoms: std::ops::Range<usize>) -> impl Strategy<Value = Vec<Reach>> {
    prop::collection::vec((0..most, 0..most), atoms).prop_map(|pairs| {
        let reach = |(a, b): (usize, usize)| Reach {
            first: a.min(b),
            last: a.max(b),
        };
        pairs.into_iter().map(reach).collect()
    })
}

/// Checks a choice; gives its number of runs and the bound on it.
fn chosen(ends: &[[usize; 2]], vertices: usize, reach: &[Reach]) -> (usize, usize) {
    let Assigned { window, least } = assign(&Net::of(ends, vertices), reach);
    for (window, reach) in window.iter().zip(reach) {
        assert!((reach.first..=reach.last).contains(window));
    }
    (runs(ends, vertices, &window), least)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(2000)))]

    #[test]
    fn no_choice_and_order_take_fewer_runs(
        (ends, reach) in reaches(3, 0..9).prop_flat_map(|reach| {
            let vertex = prop::array::uniform2(0usize..6);
            (prop::collection::vec(vertex, reach.len()), Just(reach))
        }),
    ) {
        let (found, least) = chosen(&ends, 6, &reach);
        prop_assert_eq!(found, tried(&ends, 6, &reach));
        prop_assert_eq!(found, least);
    }

    #[test]
    fn nor_do_they_on_chains_and_rings(
        reach in reaches(4, 1..9), ring in any::<bool>(), second in 0usize..9, turned in any::<u8>(),
    ) {
        let count = reach.len();
        // Two lines when the second starts within; each a ring or a chain.
        let starts = [0, second.min(count), count];
        let mut ends = Vec::new();
        for pair in starts.windows(2) {
            let size = pair[1] - pair[0];
            let first = pair[0] + usize::from(pair[0] > 0);
            for k in 0..size {
                let next = if ring && k + 1 == size { first } else { first + k + 1 };
                let atom = [first + k, next];
                let back = turned >> (pair[0] + k) & 1 == 1;
                ends.push(if back { [atom[1], atom[0]] } else { atom });
            }
        }
        let (found, least) = chosen(&ends, count + 2, &reach);
        prop_assert_eq!(found, tried(&ends, count + 2, &reach));
        prop_assert_eq!(found, least);
    }

    #[test]
    fn as_many_ends_are_paired_as_can_be(reach in reaches(5, 0..8)) {
        let ends: Vec<usize> = (0..reach.len()).map(|atom| 2 * atom).collect();
        let mut used = vec![false; reach.len()];
        let count = pairs(&ends, &reach, |a, b| {
            assert!(!reach[a / 2].and(reach[b / 2]).is_none());
            for atom in [a / 2, b / 2] {
                assert!(!std::mem::replace(&mut used[atom], true));
            }
        });
        fn most(left: &[Reach]) -> usize {
            let Some((first, rest)) = left.split_first() else {
                return 0;
            };
            let with = (0..rest.len()).filter(|&k| !rest[k].and(*first).is_none()).map(|k| {
                let mut rest = rest.to_vec();
                rest.remove(k);
                1 + most(&rest)
            });
            with.max().unwrap_or(0).max(most(rest))
        }
        prop_assert_eq!(count, most(&reach));
    }
}

proptest! {
    // Each search runs to the end of its budget.
    #![proptest_config(ProptestConfig::with_cases(crate::cases(8)))]

    /// Too many choices to try all: what is reported as least is no more than what is found, and no
    /// less than what parity at each place asks for when there is one window only.
    #[test]
    fn a_large_net_ends_with_a_bound(reach in reaches(6, 84..85), one in any::<bool>()) {
        // Seven by seven places, joined along and across.
        let place = |row: usize, column: usize| 7 * row + column;
        let along = (0..7).flat_map(|r| (0..6).map(move |c| [place(r, c), place(r, c + 1)]));
        let across = (0..6).flat_map(|r| (0..7).map(move |c| [place(r, c), place(r + 1, c)]));
        let ends: Vec<[usize; 2]> = along.chain(across).collect();
        let all = Reach { first: 0, last: 0 };
        let reach = if one { vec![all; ends.len()] } else { reach };
        let (found, least) = chosen(&ends, 49, &reach);
        prop_assert!(least <= found);
        if one {
            // The places on the edge but the corners join three: 20 odd ones, 10 runs.
            prop_assert_eq!((found, least), (10, 10));
        }
    }
}

/// A ring of twelve atoms down a quilt and up again, in windows of two: cut at each advance.
#[test]
fn a_ring_is_cut_twice_at_each_advance() {
    let ends: Vec<[usize; 2]> = (0..12).map(|k| [k, (k + 1) % 12]).collect();
    let reach: Vec<Reach> = (0..12)
        .map(|k| {
            let row: usize = if k < 6 { k } else { 11 - k };
            let window = row / 2;
            Reach {
                first: window,
                last: window,
            }
        })
        .collect();
    assert_eq!(chosen(&ends, 12, &reach), (4, 4));
    let all = Reach { first: 0, last: 2 };
    assert_eq!(chosen(&ends, 12, &[all; 12]), (1, 1));
}

/// An opening at the first atom would give one run too many.
#[test]
fn a_ring_is_opened_where_it_has_to_be_cut() {
    let ends: Vec<[usize; 2]> = (0..4).map(|k| [k, (k + 1) % 4]).collect();
    let reach = [(0, 0), (0, 0), (1, 1), (0, 0)].map(|(first, last)| Reach { first, last });
    assert_eq!(chosen(&ends, 4, &reach), (2, 2));
}
