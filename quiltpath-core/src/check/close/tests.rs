//! Lines side by side and on top of one another: planted, clean, at the limits, and refused.

use super::*;
use crate::check::{Limits, check_lines};
use crate::geom::lines::LEAST_LENGTH;
use crate::geom::{Point, Vector};
use proptest::prelude::*;

fn points(list: &[(f64, f64)]) -> Vec<Point> {
    list.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

fn both(list: &[&[Point]]) -> (Found<Run>, Found<Run>) {
    let report = check_lines(list, &Limits::default()).expect("lines");
    (report.close, report.twice)
}

#[test]
fn only_lines_that_cross_at_a_sharp_angle_are_side_by_side() {
    // 2 d / sin θ is over the length below arcsin(2 d / length) = 14.48 degrees.
    for (degrees, reported) in [(14.3f64, true), (14.6, false), (45.0, false), (90.0, false)] {
        let way = Vector::new(degrees.to_radians().cos(), degrees.to_radians().sin()) * 60.0;
        let flat = points(&[(-60.0, 0.0), (60.0, 0.0)]);
        let (close, twice) = both(&[&flat, &[Point::origin() - way, Point::origin() + way]]);
        assert_eq!(
            (close.places.len(), twice.places.len()),
            (usize::from(reported), 0),
            "{degrees}"
        );
        if let Some(run) = close.places.first() {
            assert!((run.length - 2.0 * 1.5875 / degrees.to_radians().sin()).abs() < 1e-6);
            assert!(run.at.coords.norm() < 1e-9 && run.nearest < 1e-9);
        }
    }
}

#[test]
fn a_stem_there_and_back_is_stitched_twice_and_nothing_else() {
    let stem = points(&[
        (0.0, 0.0),
        (50.0, 0.0),
        (50.0, 40.0),
        (50.0, 0.0),
        (100.0, 0.0),
    ]);
    let (close, twice) = both(&[&stem]);
    assert!(close.places.is_empty(), "{close:?}");
    let [run] = &twice.places[..] else {
        panic!("{twice:?}")
    };
    assert!((run.length - 39.8).abs() < 0.3, "{run:?}");
    // It reaches the thickness of the thread beyond the foot of the stem.
    assert_eq!(
        (
            run.parts[0].line,
            &run.parts[0].points,
            &run.parts[1].points
        ),
        (0, &(0..=2), &(2..=4))
    );
    assert!((run.parts[0].from - 49.8).abs() < 1e-9 && (run.parts[1].to - 130.2).abs() < 1e-9);
    assert!(run.nearest < 1e-9);
}

#[test]
fn lines_that_part_slowly_are_twice_where_they_touch_and_close_beyond() {
    let base = points(&[(0.0, 0.0), (200.0, 0.0)]);
    // On the base up to 50, then 0.02 away for each unit: within 1/16 in up to 129.
    let parting = points(&[(0.0, 0.0), (50.0, 0.0), (150.0, 2.0), (150.0, 60.0)]);
    let (close, twice) = both(&[&base, &parting]);
    let ([double], [side]) = (&twice.places[..], &close.places[..]) else {
        panic!("{twice:?} {close:?}")
    };
    assert!((double.parts[0].to - 60.0).abs() < 0.1, "{double:?}");
    assert!((side.parts[0].from - 60.0).abs() < 0.1 && (side.parts[0].to - 129.4).abs() < 0.2);
    assert!((side.nearest - 0.2).abs() < 0.01);
}

#[test]
fn rows_too_close_are_one_run_and_far_enough_none() {
    let rows = |apart: f64| -> Vec<Point> {
        let at = |k: u32| {
            Point::new(
                40.0 * f64::from(k.div_ceil(2) % 2),
                apart * f64::from(k / 2),
            )
        };
        (0..20).map(at).collect()
    };
    assert!(both(&[&rows(1.6)]).0.places.is_empty());
    // Rows of 40, each close to the next: the next but one is too far.
    let (close, twice) = both(&[&rows(1.5)]);
    assert_eq!((close.places.len(), twice.places.len()), (9, 0));
    // Where a row is close to the second next, too, all is one.
    let close = both(&[&rows(0.7)]).0;
    assert!(close.places[0].length > 300.0, "{:?}", close.places.len());
}

/// Curls, spirals, cusps and closed lines that a quilter would call clean.
#[test]
fn drawn_lines_are_clean() {
    let curve = |from: f64, to: f64, at: &dyn Fn(f64) -> (f64, f64)| -> Vec<Point> {
        let step = |k: u32| at(from + (to - from) * f64::from(k) / 4000.0);
        (0..=4000)
            .map(step)
            .map(|(x, y)| Point::new(x, y))
            .collect()
    };
    let tau = std::f64::consts::TAU;
    let circle = curve(0.0, tau, &|t| (9.0 * t.cos(), 9.0 * t.sin()));
    let curls = curve(0.0, 20.0 * tau, &|t| {
        (2.0 * t - 4.0 * t.sin(), 4.0 * t.cos())
    });
    let cusps = curve(0.0, 20.0 * tau, &|t| (2.0 * (t - t.sin()), 2.0 * t.cos()));
    let spiral = curve(tau, 9.0 * tau, &|t| (0.3 * t * t.cos(), 0.3 * t * t.sin()));
    let tiny = curve(0.0, tau, &|t| (1.0 * t.cos(), 1.0 * t.sin()));
    let star = points(&[
        (0.0, 0.0),
        (10.0, 20.0),
        (20.0, 0.0),
        (-2.0, 13.0),
        (22.0, 13.0),
        (0.0, 0.0),
    ]);
    for line in [&circle, &curls, &cusps, &spiral, &tiny, &star] {
        let (close, twice) = both(&[line]);
        assert!(
            close.places.is_empty() && twice.places.is_empty(),
            "{close:?} {twice:?}"
        );
    }
    // A spiral whose turns are 1.5 apart is too close from its second turn on.
    let tight = curve(tau, 9.0 * tau, &|t| {
        (1.5 / tau * t * t.cos(), 1.5 / tau * t * t.sin())
    });
    let close = both(&[&tight]).0;
    assert_eq!(close.places.len(), 1);
    assert_eq!(close.places[0].parts[0].from, 0.0);
}

#[test]
fn pieces_that_meet_end_to_start_are_clean() {
    let first = points(&[(0.0, 0.0), (30.0, 5.0)]);
    let second = points(&[(30.0, 5.0), (60.0, 0.0)]);
    let third = points(&[(60.0, 0.0), (0.0, 0.0)]);
    let (close, twice) = both(&[&first, &second, &third]);
    // The angle where the third meets the others is 9.46 degrees: 1.5875 / sin θ is 9.7 of 12.7.
    assert!(
        close.places.is_empty() && twice.places.is_empty(),
        "{close:?}"
    );
}

#[test]
fn limits_that_make_no_sense_are_refused() {
    let line = points(&[(0.0, 0.0), (9.0, 0.0)]);
    let lines = Lines::new(&[&line], 0.0).expect("a line");
    for (distance, length) in [
        (0.0, 9.0),
        (f64::NAN, 9.0),
        (1.0, f64::INFINITY),
        (LEAST_LENGTH / 2.0, 9.0),
    ] {
        let limit = RunLimit { distance, length };
        assert!(
            close(&lines, &limit, &RunLimit::TWICE_MM)
                .expect_err("refused")
                .is_geometry()
        );
        assert!(close(&lines, &RunLimit::CLOSE_MM, &limit).is_err());
    }
    let short = RunLimit {
        distance: 1.0,
        length: 1.9,
    };
    let error = close(&lines, &short, &RunLimit::TWICE_MM).expect_err("crossings");
    assert_eq!(
        error.to_string(),
        "the length of lines side by side is 1.9; give at least twice the distance, or plain crossings are reported"
    );
}

#[test]
fn nothing_is_found_on_nothing() {
    let one = points(&[(1.0, 1.0)]);
    let same = vec![Point::new(5.0, 5.0); 100];
    for list in [
        vec![],
        vec![&[][..]],
        vec![&one[..], &one[..]],
        vec![&same[..], &same[..]],
    ] {
        let report = check_lines(&list, &Limits::default()).expect("no fault");
        assert!(report.close.places.is_empty() && report.twice.places.is_empty());
        assert!(report.density.places.is_empty() && report.loops.places.is_empty());
    }
}

#[test]
fn repeated_points_keep_their_numbers() {
    let base = points(&[
        (0.0, 0.0),
        (0.0, 0.0),
        (40.0, 0.0),
        (40.0, 0.0),
        (40.0, 0.0),
    ]);
    let over = points(&[(0.0, 9.0), (0.0, 1.0), (0.0, 1.0), (40.0, 1.0), (40.0, 9.0)]);
    let close = both(&[&base, &over]).0;
    assert_eq!(close.places[0].parts[0].points, 0..=4);
    assert_eq!(
        (
            *close.places[0].parts[1].points.start(),
            close.places[0].parts[1].line
        ),
        (0, 1)
    );
}

#[test]
fn more_places_than_are_listed_are_counted() {
    let row = |k: u32| {
        points(&[
            (0.0, 5.0 * f64::from(k / 2) + f64::from(k % 2)),
            (20.0, 5.0 * f64::from(k / 2) + f64::from(k % 2)),
        ])
    };
    let rows: Vec<Vec<Point>> = (0..2400).map(row).collect();
    let views: Vec<&[Point]> = rows.iter().map(Vec::as_slice).collect();
    let close = both(&views).0;
    assert_eq!(
        (close.places.len(), close.left_out),
        (crate::check::found::MAX_PLACES, 200)
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(64)))]

    /// A line beside another is found over its length, wherever it lies and however it is turned.
    #[test]
    fn a_planted_run_is_found_at_its_place(
        apart in 0.3..1.5f64, length in 14.0..60.0f64, from in 5.0..30.0f64, turn in 0.0..7.0f64, far in -1e6..1e6f64, reversed: bool,
    ) {
        let (sin, cos) = turn.sin_cos();
        let place = |(x, y): (f64, f64)| Point::new(far + cos * x - sin * y, far / 3.0 + sin * x + cos * y);
        let base: Vec<Point> = [(0.0, 0.0), (100.0, 0.0)].map(place).to_vec();
        let mut beside: Vec<Point> = [(from, 30.0), (from, apart), (from + length, apart), (from + length, 30.0)].map(place).to_vec();
        if reversed {
            beside.reverse();
        }
        let (close, twice) = both(&[&base, &beside]);
        prop_assert_eq!((close.places.len(), twice.places.len()), (1, 0));
        let run = &close.places[0];
        // The base is near the corners up to where the legs are too far.
        prop_assert!((run.parts[0].from - from).abs() < 1.6 && (run.parts[0].to - from - length).abs() < 1.6);
        prop_assert!((run.nearest - apart).abs() < 1e-6);
        let at = (run.at - place((from, 0.0))).norm().min((run.at - place((from + length, 0.0))).norm());
        prop_assert!(at < length);
    }
}
