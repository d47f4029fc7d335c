//! Smoothed turns: in the band and before the diagonal however far they reach, and smooth.

use super::*;

/// Lines that touch both lines of the band again and again, so that much smoothing leads out.
fn restless() -> impl Strategy<Value = Repeat> {
    let step = (0.02..0.5f64, prop_oneof![Just(0.0), Just(1.0), 0.0..1.0f64]);
    (prop::collection::vec(step, 3..14), 0.3..0.7f64).prop_map(|(steps, level)| {
        let mut points = vec![(0.0, level), (0.1, 0.0), (0.3, 1.0)];
        let mut x = 0.3;
        for (dx, y) in steps {
            x += dx;
            points.push((x, y));
        }
        points.push((x + 0.2, level));
        repeat(&points)
    })
}

fn smoothed(repeat: &Repeat, angle: f64, smooth: f64) -> MitredCorner {
    let options = MitreOptions {
        smooth,
        flattening: 1e-6,
        ..options()
    };
    corner(repeat, angle, &options)
}

/// The points on the leg that is left, from the diagonal on.
fn leaving(mitred: &MitredCorner) -> &[Point] {
    let points = mitred.corner.motif.points();
    &points[points.len() / 2..]
}

proptest! {
    #[test]
    fn a_smoothed_turn_stays_in_the_band_and_on_its_side_of_the_diagonal(
        repeat in restless(), angle in 45.0..150.0f64, smooth in 0.1..12.0f64,
    ) {
        let half = angle.to_radians() / 2.0;
        for point in leaving(&smoothed(&repeat, angle, smooth)) {
            prop_assert!((-1e-9..=5.0 + 1e-9).contains(&point.y), "{point}");
            let beyond = point.x * half.sin() - point.y * half.cos();
            prop_assert!(beyond >= -1e-8, "{beyond}");
        }
    }

    #[test]
    fn smoothing_changes_nothing_farther_from_the_diagonal_than_asked(
        repeat in restless(), angle in 45.0..150.0f64, smooth in 0.1..12.0f64,
    ) {
        let smooth_one = smoothed(&repeat, angle, smooth);
        // Of cuts that turn as little, one that can be smoothed comes first: take the same one.
        let sharp = |cut| {
            let sharp = corner(&repeat, angle, &options().with_cut(cut));
            (sharp.phase - smooth_one.phase).abs().lt(&1e-9).then_some(sharp)
        };
        let sharp = (0..smooth_one.cuts).find_map(sharp).expect("the same cut");
        prop_assert_eq!(leaving(&sharp)[0], leaving(&smooth_one)[0]);
        let mut travelled = 0.0;
        let sharp = leaving(&sharp);
        let tail: Vec<&Point> = sharp.iter().enumerate().filter_map(|(k, point)| {
            travelled += if k > 0 { (point - sharp[k - 1]).norm() } else { 0.0 };
            (travelled > smooth + 1e-9).then_some(point)
        }).collect();
        let kept = leaving(&smooth_one);
        prop_assert!(kept.len() >= tail.len());
        for (a, b) in tail.iter().rev().zip(kept.iter().rev()) {
            prop_assert!((*a - b).norm() < 1e-9);
        }
    }
}

/// A line that falls almost onto the diagonal, runs along it and is then cut, nearly square on:
/// bent from the fall on, it would shoot over the diagonal.
fn along_the_diagonal() -> Repeat {
    let heights = [
        (0.0, 2.5),
        (0.3, 0.0),
        (0.9, 5.0),
        (4.3, 0.5),
        (8.3, 4.4),
        (8.7, 4.05),
        (9.5, 2.5),
    ];
    repeat(&heights.map(|(x, y)| (x, 5.0 - y)))
}

#[test]
fn a_turn_that_would_shoot_over_the_diagonal_is_bent_over_less_of_the_line() {
    let line = along_the_diagonal();
    let sharp = smoothed(&line, 90.0, 0.0);
    assert!(sharp.kink_degrees > 5.0, "{}", sharp.kink_degrees);
    for smooth in [0.1, 1.0, 5.92, 8.0, 11.0] {
        let smooth = smoothed(&line, 90.0, smooth);
        for point in leaving(&smooth) {
            assert!((0.0..=5.0).contains(&point.y), "{point}");
            assert!(point.x - point.y >= -1e-8, "{point}");
        }
        assert!(
            smooth.kink_degrees < 0.5 * sharp.kink_degrees,
            "{}",
            smooth.kink_degrees
        );
        assert_eq!(leaving(&smooth)[0], leaving(&sharp)[0]);
    }
}

#[test]
fn the_length_that_is_smoothed_is_reported_and_never_more_than_there_is() {
    let line = along_the_diagonal();
    assert_eq!(smoothed(&line, 90.0, 0.0).smoothed_length, 0.0);
    assert_eq!(smoothed(&line, 90.0, 0.1).smoothed_length, 0.1);
    // What fits is found by halving, from what is asked for or from all of the line.
    let most = smoothed(&line, 90.0, 1e6);
    let all: f64 = {
        let sharp = smoothed(&line, 90.0, 0.0);
        let steps = leaving(&sharp).windows(2);
        steps.map(|pair| (pair[1] - pair[0]).norm()).sum()
    };
    assert!(most.smoothed_length > 0.0);
    let halvings = (all / most.smoothed_length).log2();
    assert!(
        halvings >= 1.0 && (halvings - halvings.round()).abs() < 1e-9,
        "{halvings}"
    );
    assert_eq!(smoothed(&line, 90.0, all), most);
    // As much asked for outright is bent the same way.
    let outright = smoothed(&line, 90.0, most.smoothed_length);
    assert_eq!(outright.corner.motif.points(), most.corner.motif.points());
    assert_eq!(outright.kink_degrees, most.kink_degrees);
}
