//! Opposite sides that are to be alike: tied to each other, and to no other side.

use super::{OPEN, refused, side, solved};
use quiltpath_core::plan::Side;

const UNEQUAL: [(&str, usize); 3] = [
    (
        r#"{"top":52,"right":70,"bottom":60,"left":77,"falling":90}"#,
        4,
    ),
    (r#"{"corners":[[0,0],[70,-6],[74,50],[-4,44]]}"#, 4),
    (
        r#"{"corners":[[0,0],[40,-8],[84,10],[80,62],[38,70],[-6,40]]}"#,
        6,
    ),
];

/// The number that is least bad for the worse of two ratios of room to pitch.
fn shared(ratios: [f64; 2]) -> usize {
    let cost = |n: usize| ratios.map(|ratio| (ratio / n as f64).ln().abs());
    let worst = |n: &usize| cost(*n)[0].max(cost(*n)[1]);
    (1..200)
        .min_by(|a, b| worst(a).total_cmp(&worst(b)))
        .expect("numbers")
}

#[test]
fn opposite_sides_share_a_number_and_neighbours_keep_their_own() {
    let (mut changed, mut unlike) = (false, false);
    for (quilt, count) in UNEQUAL {
        let sides = || Side::all(count);
        let numbers = |border: &str| -> Vec<(usize, f64)> {
            let solved = solved(quilt, border);
            sides()
                .map(|k| side(&solved, k))
                .map(|(_, n, stretch)| (n, stretch))
                .collect()
        };
        let free = numbers(OPEN);
        let alike = OPEN.replace(
            r#""motif":"side""#,
            r#""motif":"side","opposite_alike":true"#,
        );
        let alike = numbers(&alike);
        let half = count / 2;
        for k in 0..count {
            let opposite = (k + half) % count;
            let ratio = |k: usize| free[k].0 as f64 * free[k].1;
            let expected = shared([ratio(k), ratio(opposite)]);
            assert_eq!(alike[k].0, expected, "{quilt}: side {k}");
            // The room is the same, so the stretch follows from the number.
            let stretch = ratio(k) / expected as f64;
            assert!((alike[k].1 - stretch).abs() < 1e-9);
            changed |= free[k].0 != alike[k].0;
            unlike |= alike[k].0 != alike[(k + 1) % count].0;
        }
    }
    assert!(changed && unlike, "nothing to tie, or all sides are tied");
}

#[test]
fn an_odd_number_of_sides_has_no_opposite_ones() {
    let triangle = r#"{"corners":[[0,0],[80,0],[40,70]]}"#;
    let border = OPEN.replace(
        r#""motif":"side""#,
        r#""motif":"side","opposite_alike":true"#,
    );
    let error = refused(triangle, &border);
    assert!(error.contains("opposite_alike"), "{error}");
}
