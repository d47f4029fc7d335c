//! Where the search for the fewest cuts ends: exact within its budget, else a bound.

use super::*;

/// The edges of an octahedron between this place and five that follow `next`: four at each place.
fn octahedron(first: usize, next: &mut usize) -> Vec<[usize; 2]> {
    let places: [usize; 6] = std::array::from_fn(|k| if k == 0 { first } else { *next + k - 1 });
    *next += 5;
    // Each place is joined to all but the one across from it.
    let pairs = (0..6).flat_map(|a| (a + 1..6).map(move |b| (a, b)));
    let edges = pairs.filter(|(a, b)| a + b != 5);
    edges.map(|(a, b)| [places[a], places[b]]).collect()
}

/// Three octahedra that touch in one place each, stitched in windows 0, 1 and 0, which takes a run
/// each, as the first and the last don't touch; and edges from the first with a choice of three
/// windows. The bound only sees that two windows are needed.
fn chosen_with(free: impl Fn(&mut usize) -> Vec<[usize; 2]>) -> (usize, usize) {
    let mut next = 1;
    let mut ends = octahedron(0, &mut next);
    let touch = next - 1;
    ends.extend(octahedron(touch, &mut next));
    ends.extend(octahedron(next - 1, &mut next));
    let mut reach: Vec<Reach> = (0..36)
        .map(|atom| {
            let window = usize::from((12..24).contains(&atom));
            Reach {
                first: window,
                last: window,
            }
        })
        .collect();
    let free = free(&mut next);
    reach.extend(free.iter().map(|_| Reach { first: 0, last: 2 }));
    ends.extend(free);
    chosen(&ends, next, &reach)
}

#[test]
fn a_search_that_reaches_its_limit_reports_the_bound() {
    assert_eq!(chosen_with(|_| Vec::new()), (3, 3));
    // 27 choices of windows.
    let triangle = |next: &mut usize| {
        *next += 2;
        vec![[0, *next - 2], [*next - 2, *next - 1], [*next - 1, 0]]
    };
    assert_eq!(chosen_with(triangle), (3, 3));
    // Half a million choices, of 48 atoms each.
    assert_eq!(chosen_with(|next| octahedron(0, next)), (3, 2));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(16)))]

    #[test]
    fn fourteen_atoms_with_two_windows_are_within_the_budget(
        ends in prop::collection::vec(prop::array::uniform2(0usize..6), 14), reach in reaches(2, 14..15),
    ) {
        let all = vec![Reach { first: 0, last: 1 }; 14];
        for reach in [&reach, &all] {
            let least = tried(&ends, 6, reach);
            prop_assert_eq!(chosen(&ends, 6, reach), (least, least));
        }
    }
}
