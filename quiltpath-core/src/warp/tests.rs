//! Properties of the band maps: inverses, lengths along, folds, and chords within the tolerance.

use super::*;
use crate::geom::{Point, Vector};
use proptest::prelude::*;

mod steps;

/// Stations along a wavy band about 60 long and 5 deep, travelled to the right.
fn wavy(waves: &[f64]) -> Vec<[Point; 2]> {
    let step = 60.0 / (waves.len() / 4 - 1) as f64;
    waves
        .chunks_exact(4)
        .enumerate()
        .map(|(k, by)| {
            let x = step * k as f64;
            [
                Point::new(x + by[0], 5.0 + by[1]),
                Point::new(x + by[2], by[3]),
            ]
        })
        .collect()
}

fn waves() -> impl Strategy<Value = Vec<[Point; 2]>> {
    prop::collection::vec(-0.6..0.6f64, 8..60).prop_map(|mut waves| {
        waves.truncate(waves.len() / 4 * 4);
        wavy(&waves)
    })
}

fn derivative_is_right(band: &dyn BandMap, s: f64, t: f64) -> bool {
    let h = 1e-5;
    let along = (band.place(s + h, t) - band.place(s - h, t)) / (2.0 * h);
    let across = (band.place(s, t + h) - band.place(s, t - h)) / (2.0 * h);
    (along - band.place_vector_at(s, t, 1.0, 0.0)).norm() < 1e-5
        && (across - band.place_vector_at(s, t, 0.0, 1.0)).norm() < 1e-5
}

/// The greatest distance of the image of a strip line from the chords that it is divided into.
fn worst_chord(
    band: &dyn BandMap,
    from: (f64, f64),
    to: (f64, f64),
    tolerance: f64,
) -> (f64, usize) {
    let mut strip = vec![from];
    subdivide(band, from, to, tolerance, 100_000, |s, t| {
        strip.push((s, t))
    })
    .expect("few points");
    strip.push(to);
    let mut worst: f64 = 0.0;
    for pair in strip.windows(2) {
        let [a, b] = [pair[0], pair[1]].map(|(s, t)| band.place(s, t));
        for k in 1..40 {
            let share = f64::from(k) / 40.0;
            let (s, t) = (
                pair[0].0 + share * (pair[1].0 - pair[0].0),
                pair[0].1 + share * (pair[1].1 - pair[0].1),
            );
            let away = crate::geom::measure::distance_to_segment(band.place(s, t), a, b);
            worst = worst.max(away);
        }
    }
    (worst, strip.len() - 1)
}

#[test]
fn a_fold_is_found() {
    let station = |a: f64, b: f64, c: f64, d: f64| [Point::new(a, b), Point::new(c, d)];
    // The second ruling crosses the first on the inner side.
    let crossed = [station(0.0, 5.0, 0.0, 0.0), station(-1.0, 5.0, 8.0, 0.0)];
    assert!(!RuledBand::new(&crossed).expect("a band").no_fold());
    assert!(!SplineBand::new(&crossed).expect("a band").no_fold());
    // Inner and outer line change places on the way.
    let swapped = [station(0.0, 5.0, 0.0, 0.0), station(9.0, 0.0, 9.0, 5.0)];
    assert!(!RuledBand::new(&swapped).expect("a band").no_fold());
    // A triangle is not strictly convex.
    let triangle = [station(0.0, 5.0, 0.0, 0.0), station(0.0, 5.0, 9.0, 0.0)];
    assert!(!RuledBand::new(&triangle).expect("a band").no_fold());
    // A seam that bends round tighter than the band is deep: the stations are well apart, but the
    // smooth inner line turns back between them.
    let tight: Vec<_> = [0.0, 1.2, 2.4]
        .map(|angle: f64| {
            let (sin, cos) = angle.sin_cos();
            station(0.4 * cos, 0.4 * sin, -5.0 * cos, -5.0 * sin)
        })
        .to_vec();
    assert!(!SplineBand::new(&tight).expect("a band").no_fold());
    let wide: Vec<_> = [0.0, 0.4, 0.8]
        .map(|angle: f64| {
            let (sin, cos) = angle.sin_cos();
            station(2.0 * cos, 2.0 * sin, 7.0 * cos, 7.0 * sin)
        })
        .to_vec();
    assert!(SplineBand::new(&wide).expect("a band").no_fold());
    assert!(RuledBand::new(&wide).expect("a band").no_fold());
}

#[test]
fn stations_that_make_no_band_are_named() {
    let pair = |x: f64| [Point::new(x, 5.0), Point::new(x, 0.0)];
    let refused = |pairs: &[[Point; 2]]| {
        let error = RuledBand::new(pairs).expect_err("refused");
        assert!(SplineBand::new(pairs).is_err());
        error.to_string()
    };
    assert!(refused(&[pair(0.0)]).contains("1 station can't make a band"));
    assert!(
        refused(&[pair(0.0), pair(1.0), pair(1.0)]).starts_with("stations[2]: this station lies")
    );
    let flat = [Point::new(1.0, 1.0); 2];
    assert!(refused(&[pair(0.0), flat]).contains("no depth"));
    assert!(refused(&[pair(0.0), pair(f64::NAN)]).starts_with("stations[1]"));
    assert!(refused(&[pair(0.0), pair(1e300)]).starts_with("stations[1]"));
    let gaps = inset_stations(&[pair(0.0), pair(1.0)], 2.0, 3.0).expect_err("no band");
    assert!(
        gaps.to_string().contains("the gaps take 5 together"),
        "{gaps}"
    );
    assert!(inset_stations(&[pair(0.0), pair(1.0)], f64::NAN, 3.0).is_err());
    let back = [pair(0.0), pair(10.0), pair(0.001), pair(10.0)];
    let turns = SplineBand::new(&back).expect_err("turns back");
    assert!(turns.to_string().contains("too sharply"), "{turns}");
}

#[test]
fn a_strip_takes_a_direction_of_any_length_and_refuses_what_is_no_band() {
    let (origin, across) = (Point::new(1.0, 2.0), Vector::new(0.0, -4.0));
    let strip = |along: Vector, across: Vector| Strip::new(origin, along, across);
    let unit = strip(Vector::new(1.0, 0.0), across).expect("a strip");
    let long = strip(Vector::new(2.0, 0.0), across).expect("a strip");
    assert_eq!(unit, long);
    assert_eq!(long.place(9.0, 0.0), Point::new(10.0, 2.0));
    // A unit vector with a rounded length stays as it is.
    let slant = Vector::new(0.6, 0.8).normalize();
    assert_eq!(strip(slant, across).expect("a strip").along(), slant);
    let right = Vector::new(1.0, 0.0);
    for (along, across) in [
        (Vector::zeros(), across),
        (Vector::new(f64::NAN, 0.0), across),
        (right, Vector::zeros()),
        (right, Vector::new(3.0, 0.0)),
        (right, Vector::new(0.0, f64::INFINITY)),
    ] {
        assert!(strip(along, across).expect_err("no band").is_geometry());
    }
    assert!(Strip::new(Point::new(0.0, 1e300), right, across).is_err());
    for depth in [0.0, -1.0, f64::NAN, 1e300] {
        assert!(Strip::level(depth).is_err());
    }
}

#[test]
fn a_strip_between_cross_lines_ends_on_them() {
    let strip = Strip::of_unit(
        Point::new(0.0, 4.0),
        Vector::new(1.0, 0.0),
        Vector::new(0.0, -4.0),
    );
    let line = |x: f64, y: f64, dx: f64, dy: f64| CrossLine {
        through: Point::new(x, y),
        direction: Vector::new(dx, dy),
    };
    let band = RuledBand::between(
        &strip,
        [line(10.0, 3.0, 1.0, 2.0), line(50.0, 1.0, 0.5, -1.0)],
    )
    .expect("a band");
    let at = |s: f64, t: f64| band.place(s, t);
    assert!((at(0.0, 0.25) - Point::new(10.0, 3.0)).norm() < 1e-12);
    assert!((at(0.0, 1.0) - Point::new(8.5, 0.0)).norm() < 1e-12);
    assert!((at(band.length(), 0.75) - Point::new(50.0, 1.0)).norm() < 1e-12);
    assert!(band.no_fold() && (band.depth() - 4.0).abs() < 1e-12);
    let refused = |first, second| RuledBand::between(&strip, [first, second]).is_err();
    assert!(refused(
        line(10.0, 3.0, 1.0, 0.0),
        line(50.0, 1.0, 0.0, 1.0)
    ));
    assert!(refused(
        line(10.0, 3.0, 0.0, 0.0),
        line(50.0, 1.0, 0.0, 1.0)
    ));
    assert!(refused(line(10.0, 3.0, 0.0, 1.0), line(9.0, 1.0, 0.0, 1.0)));
    assert!(refused(
        line(10.0, 3.0, 0.0, 1.0),
        line(13.0, 0.0, 2.0, -1.0)
    ));
    assert!(refused(
        line(f64::NAN, 3.0, 0.0, 1.0),
        line(13.0, 0.0, 2.0, -1.0)
    ));
}

#[test]
fn length_along_a_smooth_band_is_that_of_its_middle_line() {
    let waves: Vec<f64> = (0..48).map(|k| 0.5 * f64::from(k * k % 7) - 1.5).collect();
    let band = SplineBand::new(&wavy(&waves)).expect("a band");
    let steps = 200_000;
    let at = |k: i32| band.place(band.length() * f64::from(k) / f64::from(steps), 0.5);
    let sum: f64 = (0..steps).map(|k| (at(k + 1) - at(k)).norm()).sum();
    assert!(
        (sum - band.length()).abs() < 1e-7,
        "{} {sum}",
        band.length()
    );
    let longest = (0..steps)
        .map(|k| (at(k + 1) - at(k)).norm())
        .fold(0.0, f64::max);
    assert!(longest <= band.length() / f64::from(steps) + 1e-9);
}

proptest! {
    #[test]
    fn locating_undoes_placing(s in -90.0..90.0f64, t in -1.0..2.0f64, depth in 0.5..20.0f64, turn in 0.0..6.2f64) {
        let along = Vector::new(turn.cos(), turn.sin());
        let strip = Strip::of_unit(Point::new(3.0, -4.0), along, Vector::new(along.y, -along.x) * depth);
        let (s_back, t_back) = strip.locate(strip.place(s, t));
        prop_assert!((s - s_back).abs() < 1e-9 && (t - t_back).abs() < 1e-9);
        prop_assert!((strip.depth() - depth).abs() < 1e-9);
    }

    #[test]
    fn locating_undoes_placing_on_any_band(stations in waves(), share in -0.02..1.02f64, t in 0.0..1.0f64) {
        let ruled = RuledBand::new(&stations).expect("a band");
        let smooth = SplineBand::new(&stations).expect("a band");
        for (band, length, no_fold) in [
            (&ruled as &dyn BandMap, ruled.length(), ruled.no_fold()),
            (&smooth, smooth.length(), smooth.no_fold()),
        ] {
            if !no_fold {
                continue;
            }
            let s = share * length;
            let (s_back, t_back) = band.locate(band.place(s, t)).expect("in the band");
            prop_assert!((s - s_back).abs() < 1e-9 && (t - t_back).abs() < 1e-9, "{s} {s_back} {t} {t_back}");
        }
    }

    #[test]
    fn derivatives_are_right_and_stations_are_met(stations in waves(), share in -0.1..1.1f64, t in 0.0..1.0f64) {
        let smooth = SplineBand::new(&stations).expect("a band");
        prop_assert!(derivative_is_right(&smooth, share * smooth.length(), t));
        let ruled = RuledBand::new(&stations).expect("a band");
        let s = share * ruled.length();
        if ruled.breaks().iter().all(|at| (at - s).abs() > 1e-4) {
            prop_assert!(derivative_is_right(&ruled, s, t));
        }
        for (k, [inner, outer]) in stations.iter().enumerate() {
            for (t, point) in [(0.0, inner), (1.0, outer)] {
                prop_assert!((smooth.place(smooth.along()[k], t) - point).norm() < 1e-12);
                prop_assert!((ruled.place(ruled.along()[k], t) - point).norm() < 1e-12);
            }
        }
        // The derivative has no jump at a station.
        for s in smooth.along() {
            let side = |by: f64| smooth.place_vector_at(s + by, t, 1.0, 0.0);
            prop_assert!((side(1e-9) - side(-1e-9)).norm() < 1e-6);
        }
    }

    /// At either end the band leaves as the parabola through the three stations there does, by
    /// knots that are the square roots of the chords; the parabola is solved for here.
    #[test]
    fn the_ends_leave_along_the_parabola_through_three_stations(stations in waves(), t in 0.0..1.0f64) {
        prop_assume!(stations.len() > 2);
        let smooth = SplineBand::new(&stations).expect("a band");
        let back: Vec<_> = stations.iter().rev().copied().collect();
        for (stations, s, sign) in [(&stations, 0.0, 1.0), (&back, smooth.length(), -1.0)] {
            let middles = [0, 1, 2].map(|k| nalgebra::center(&stations[k][0], &stations[k][1]));
            let rulings = [0, 1, 2].map(|k| stations[k][1] - stations[k][0]);
            let first = (middles[1] - middles[0]).norm().sqrt();
            let second = first + (middles[2] - middles[1]).norm().sqrt();
            // Values at the knots from the coefficients of 1, u, u².
            let powers = nalgebra::Matrix3::from_rows(&[0.0, first, second].map(|u| {
                nalgebra::RowVector3::new(1.0, u, u * u)
            }));
            let slope = |values: [Vector; 3]| {
                let values = nalgebra::Matrix3x2::from_rows(&values.map(|v| v.transpose()));
                let coefficients = powers.lu().solve(&values).expect("knots differ");
                coefficients.row(1).transpose()
            };
            let (middle, ruling) = (slope(middles.map(|point| point.coords)), slope(rulings));
            let expected = (middle + ruling * (t - 0.5)) / middle.norm();
            let found = smooth.place_vector_at(s, t, sign, 0.0);
            prop_assert!((found - expected).norm() < 1e-9, "{found} {expected}");
        }
    }

    #[test]
    fn a_fold_by_sampling_is_a_fold_by_proof(stations in prop::collection::vec(-2.8..2.8f64, 24)) {
        let stations = wavy(&stations);
        let ruled = RuledBand::new(&stations).expect("a band");
        let smooth = SplineBand::new(&stations);
        let least = |band: &dyn BandMap, length: f64| {
            let mut least = f64::INFINITY;
            for k in 0..1000 {
                let s = length * (f64::from(k) + 0.5) / 1000.0;
                for t in [0.0, 0.5, 1.0] {
                    let along = band.place_vector_at(s, t, 1.0, 0.0);
                    least = least.min(-along.perp(&band.place_vector_at(s, t, 0.0, 1.0)));
                }
            }
            least
        };
        let sampled = least(&ruled, ruled.length());
        prop_assume!(sampled.abs() > 0.2);
        prop_assert_eq!(ruled.no_fold(), sampled > 0.0);
        if let Ok(smooth) = smooth {
            let sampled = least(&smooth, smooth.length());
            if sampled.abs() > 0.2 {
                prop_assert_eq!(smooth.no_fold(), sampled > 0.0);
            }
        }
    }

    #[test]
    fn chords_stay_within_the_tolerance(
        stations in waves(), from in (-2.0..62.0f64, 0.0..1.0f64), to in (-2.0..62.0f64, 0.0..1.0f64), tolerance in 1e-3..0.2f64,
    ) {
        let ruled = RuledBand::new(&stations).expect("a band");
        let smooth = SplineBand::new(&stations).expect("a band");
        for band in [&ruled as &dyn BandMap, &smooth] {
            let (worst, _) = worst_chord(band, from, to, tolerance);
            prop_assert!(worst <= tolerance * (1.0 + 1e-9) + 1e-12, "{worst} {tolerance}");
        }
    }

    #[test]
    fn a_smooth_band_through_stations_of_a_ruled_strip_is_that_strip(
        ends in prop::array::uniform8(-3.0..3.0f64), shares in prop::collection::vec(0.05..1.0f64, 1..8), share in 0.0..1.0f64, t in 0.0..1.0f64,
    ) {
        let corner = |k: usize, x: f64, y: f64| Point::new(x + ends[2 * k], y + ends[2 * k + 1]);
        let ends = [[corner(0, 0.0, 9.0), corner(1, 0.0, 0.0)], [corner(2, 60.0, 9.0), corner(3, 60.0, 0.0)]];
        let ruled = RuledBand::new(&ends).expect("a band");
        let total: f64 = shares.iter().sum();
        let mut stations = vec![ends[0]];
        let mut sum = 0.0;
        for step in &shares {
            sum += step / total;
            stations.push([0, 1].map(|k| ends[0][k] + (ends[1][k] - ends[0][k]) * sum));
        }
        let smooth = SplineBand::new(&stations).expect("a band");
        let s = share * ruled.length();
        prop_assert!((smooth.length() - ruled.length()).abs() < 1e-9);
        prop_assert!((smooth.place(s, t) - ruled.place(s, t)).norm() < 1e-9);
        prop_assert!((smooth.depth() - ruled.depth()).abs() < 1e-9);
        prop_assert!((smooth.depth_at(s) - ruled.depth_at(s)).abs() < 1e-9);
        prop_assert!(ruled.no_fold() && smooth.no_fold());
    }
}
