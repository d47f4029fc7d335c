//! Easing held against ellipses, random changes and random motifs.

mod properties;

use super::*;
use crate::chain::{Alternate, ChainOptions, Ends, Repeat, Terminal, chain_repeats};
use crate::geom::{Point, Vector};
use crate::motif::Motif;
use crate::warp::Strip;
use nalgebra::{Matrix5, Vector5};
use proptest::prelude::*;
use std::f64::consts::TAU;

fn eased(points: &[(f64, f64)], aspect: f64, stretch: f64) -> Ease {
    let stiffness = Stiffness::of(points, aspect).expect("a repeat");
    Ease::new(&stiffness, stretch, &EaseLimits::default()).expect("a map")
}

/// Two full circles of 0.45 depths radius, standing on a wave that joins them, and the indices
/// of their points; 4 depths long, y up, symmetrical about its middle.
fn two_circles() -> (Vec<Point>, [std::ops::Range<usize>; 2]) {
    let mut points = Vec::new();
    let mut ranges = [0..0, 0..0];
    // Level where the circles stand, at 1 and 3.
    let wave = |x: f64| Point::new(x, 0.1 + 0.1 * (TAU * x / 2.0).cos());
    let stem = |points: &mut Vec<Point>, from: f64, to: f64| {
        points.extend((0..=100).map(|k| wave(from + (to - from) * f64::from(k) / 100.0)));
    };
    let mut at = 0.0;
    for (range, x) in ranges.iter_mut().zip([1.0, 3.0]) {
        stem(&mut points, at, x);
        let first = points.len();
        points.extend((1..=360).map(|k| {
            // The second circle the other way round, for the symmetry.
            let angle = TAU * f64::from(k) / 360.0 * if x < 2.0 { 1.0 } else { -1.0 };
            Point::new(x + 0.45 * angle.sin(), 0.45 - 0.45 * angle.cos())
        }));
        *range = first..points.len();
        at = x;
    }
    stem(&mut points, at, 4.0);
    (points, ranges)
}

/// The axes of the ellipse a·x² + b·xy + c·y² + d·x + e·y = 1 through points, by least squares:
/// the longer by the shorter, less 1.
fn out_of_round(points: &[Point]) -> f64 {
    let centre = points.iter().map(|p| p.coords).sum::<Vector>() / points.len() as f64;
    let (mut left, mut right) = (Matrix5::zeros(), Vector5::zeros());
    for point in points {
        // Off the centre, or the constant could not be 1.
        let (x, y) = (point.x - centre.x + 2.0, point.y - centre.y + 2.0);
        let row = Vector5::new(x * x, x * y, y * y, x, y);
        left += row * row.transpose();
        right += row;
    }
    let s = left.lu().solve(&right).expect("an ellipse");
    let (middle, half) = ((s[0] + s[2]) / 2.0, ((s[0] - s[2]) / 2.0).hypot(s[1] / 2.0));
    ((middle.abs() + half) / (middle.abs() - half)).sqrt() - 1.0
}

#[test]
fn circles_stay_round_and_stems_take_the_stretch() {
    let (points, circles) = two_circles();
    let motif = Motif::from_points("circles", points).expect("a motif");
    let repeat = Repeat::new(&motif).expect("a repeat");
    let height = 0.9;
    let aspect = repeat.pitch(1.0);
    assert!((aspect - 4.0 / height).abs() < 1e-12);
    for stretch in [1.12, 0.88] {
        let ease = eased(repeat.points(), aspect, stretch);
        for circle in &circles {
            let image = |map: &dyn Fn(f64) -> f64| -> Vec<Point> {
                let points = repeat.points()[circle.clone()].iter();
                points
                    .map(|&(u, t)| Point::new(map(u) * aspect * stretch, t))
                    .collect()
            };
            let uniform = out_of_round(&image(&|u| u));
            assert!(
                (uniform - (stretch.max(1.0 / stretch) - 1.0)).abs() < 1e-9,
                "{uniform}"
            );
            let error = out_of_round(&image(&|u| ease.apply(u)));
            assert!(error <= 0.005, "{error}");
        }
        let report = ease.report();
        assert!(
            report.roundness() > 0.995 && report.unabsorbed < 0.02,
            "{report:?}"
        );
        assert!((0.4..0.6).contains(&report.absorbing), "{report:?}");
        assert!(report.objective < 0.1 * report.uniform_objective);
    }
}

#[test]
fn a_chain_of_eased_copies_meets_as_the_plain_one_does() {
    let (points, _) = two_circles();
    let repeat =
        Repeat::new(&Motif::from_points("circles", points).expect("a motif")).expect("a repeat");
    let ease = eased(repeat.points(), repeat.pitch(1.0), 1.12);
    let copy = repeat.eased(&ease, 1e-4);
    assert_eq!(copy.offsets(None), repeat.offsets(None));
    let strip = Strip::of_unit(
        Point::origin(),
        Vector::new(1.0, 0.0),
        Vector::new(0.0, -1.0),
    );
    let room = 3.0 * 1.12 * repeat.pitch(1.0);
    let terminals = [0.0, room].map(Terminal::new);
    for alternate in [Alternate::None, Alternate::LeftRight, Alternate::TopBottom] {
        let options = ChainOptions {
            repeats: 3,
            alternate,
            ends: Ends::Link,
            join_tolerance: 1e-9,
            flattening: 0.01,
        };
        let chain = |repeat: &Repeat| {
            chain_repeats(repeat, &strip, terminals, &options)
                .expect("a chain")
                .motif
        };
        let (plain, eased) = (chain(&repeat), chain(&copy));
        assert_eq!(eased.end().point, plain.end().point);
        assert_eq!(eased.start().point, plain.start().point);
        let bounds = [plain.bounds(), eased.bounds()];
        assert_eq!(
            (bounds[0].min.y, bounds[0].max.y),
            (bounds[1].min.y, bounds[1].max.y)
        );
    }
}

#[test]
fn a_slope_that_runs_through_the_seam_gets_no_kink() {
    let wave = |k: i32| {
        let x = f64::from(k) / 100.0;
        // Steep at the ends, which lie in the middle of a wave.
        Point::new(x, 0.5 * (TAU * x / 4.0).sin() + 0.2 * (TAU * x / 2.0).sin())
    };
    let motif = Motif::from_points("wave", (0..=400).map(wave).collect()).expect("a motif");
    let repeat = Repeat::new(&motif).expect("a repeat");
    let ease = eased(repeat.points(), repeat.pitch(1.0), 1.3);
    let slopes = (0..100).map(|k| ease.slope(f64::from(k) / 100.0));
    assert!(slopes.fold(0.0, f64::max) > 1.02, "not even");
    let copy = repeat.eased(&ease, 1e-4);
    let turn = |a: (f64, f64), b: (f64, f64), c: (f64, f64)| {
        let steps = [(a, b), (b, c)].map(|(from, to)| Vector::new(to.0 - from.0, to.1 - from.1));
        steps[0]
            .perp(&steps[1])
            .atan2(steps[0].dot(&steps[1]))
            .abs()
    };
    let points = copy.points();
    let inside = points.windows(3).map(|p| turn(p[0], p[1], p[2]));
    let largest = inside.fold(0.0, f64::max);
    let next = (1.0 + points[1].0, points[1].1);
    let seam = turn(points[points.len() - 2], points[points.len() - 1], next);
    assert!(seam < 0.1 * largest, "{seam} {largest}");
}

/// How far the chords of an eased line lie from the eased line, by looking at many points.
fn chord_error(repeat: &Repeat, ease: &Ease, tolerance: f64) -> (f64, usize) {
    let length = repeat.pitch(1.0) * ease.stretch();
    let eased = repeat.eased(ease, tolerance);
    let chords: Vec<Point> = (eased.points().iter())
        .map(|&(u, t)| Point::new(u * length, t))
        .collect();
    let mut farthest: f64 = 0.0;
    for pair in repeat.points().windows(2) {
        for step in 0..50 {
            let share = f64::from(step) / 50.0;
            let u = pair[0].0 + (pair[1].0 - pair[0].0) * share;
            let t = pair[0].1 + (pair[1].1 - pair[0].1) * share;
            let point = Point::new(ease.apply(u) * length, t);
            let near = chords
                .windows(2)
                .map(|c| crate::geom::measure::distance_to_segment(point, c[0], c[1]));
            farthest = farthest.max(near.fold(f64::INFINITY, f64::min));
        }
    }
    (farthest, chords.len())
}

#[test]
fn segments_are_split_only_where_they_bend() {
    // A long level stem and a long slope beside a box.
    let points = [
        (0.0, 0.0),
        (3.0, 0.0),
        (3.0, 1.0),
        (2.0, 1.0),
        (2.0, 0.005),
        (4.0, 0.005),
        (6.0, 0.8),
        (7.0, 0.0),
    ];
    let points = points.map(|(x, y)| Point::new(x, -y)).to_vec();
    let repeat =
        Repeat::new(&Motif::from_points("box", points).expect("a motif")).expect("a repeat");
    let ease = eased(repeat.points(), repeat.pitch(1.0), 1.2);
    assert!(ease.report().unabsorbed < 0.01, "{:?}", ease.report());
    for tolerance in [1e-2, 1e-3, 1e-4] {
        let (error, points) = chord_error(&repeat, &ease, tolerance);
        assert!(
            error <= tolerance && points < 10 + (0.6 / tolerance.sqrt()) as usize,
            "{error} {points}"
        );
    }
    let even = eased(repeat.points(), repeat.pitch(1.0), 1.0);
    assert_eq!(repeat.eased(&even, 1e-6), repeat);
}

#[test]
fn a_mirrored_motif_has_the_mirrored_map() {
    let (points, _) = two_circles();
    let strip = |p: &Point| (p.x / 4.0, p.y / 0.9);
    let symmetric: Vec<_> = points.iter().map(strip).collect();
    let ease = eased(&symmetric, 4.0 / 0.9, 1.12);
    let slanted: Vec<_> = (symmetric.iter())
        .map(|&(u, t)| (u, t * (1.0 + u) / 2.0))
        .collect();
    let reversed: Vec<_> = slanted.iter().rev().map(|&(u, t)| (1.0 - u, t)).collect();
    let (one, other) = (eased(&slanted, 4.0, 0.9), eased(&reversed, 4.0, 0.9));
    for step in 0..=1000 {
        let u = f64::from(step) / 1000.0;
        assert!(
            (ease.apply(u) + ease.apply(1.0 - u) - 1.0).abs() < 1e-9,
            "{u}"
        );
        // Where a slope meets the edge of a loop, one sample may fall on either side.
        assert!(
            (one.apply(u) + other.apply(1.0 - u) - 1.0).abs() < 1e-3,
            "{u}"
        );
    }
}

#[test]
fn a_motif_of_loops_alone_says_that_it_takes_nothing() {
    let mut points = vec![(0.0, 0.0)];
    for circle in 0..6 {
        let centre = (f64::from(circle) + 0.5) / 6.0;
        points.extend((0..=200).map(|k| {
            let angle = TAU * f64::from(k) / 200.0;
            (centre + 0.1 * angle.sin(), 0.5 - 0.5 * angle.cos())
        }));
    }
    points.push((1.0, 0.0));
    let stiffness = Stiffness::of(&points, 5.0).expect("a repeat");
    for stretch in [1.12, 0.88] {
        let ease = Ease::new(&stiffness, stretch, &EaseLimits::default()).expect("a map");
        let report = ease.report();
        assert!((report.unabsorbed - 1.0).abs() < 1e-9, "{report:?}");
        assert_eq!((report.absorbing, report.takes), (0.0, [1.0, 1.0]));
        assert!((report.roundness() - 0.88).abs() < 1e-9, "{report:?}");
        assert!((0..100).all(|k| (ease.slope(f64::from(k) / 100.0) - 1.0).abs() < 1e-9));
    }
    assert_eq!(stiffness.loops(), [[0.0, 511.0 / 512.0]]);
}

#[test]
fn stems_too_short_for_the_limits_leave_the_rest_to_the_loops() {
    let (points, _) = two_circles();
    let points: Vec<_> = points.iter().map(|p| (p.x / 4.0, p.y / 0.9)).collect();
    let stiffness = Stiffness::of(&points, 4.0 / 0.9).expect("a repeat");
    let limits = EaseLimits {
        least: 0.9,
        most: 1.1,
    };
    let ease = Ease::new(&stiffness, 1.09, &limits).expect("a map");
    let report = ease.report();
    assert!(
        report.unabsorbed > 0.2 && report.takes[1] < 1.06,
        "{report:?}"
    );
    assert!(report.objective <= report.uniform_objective);
    // Beyond the limits all is spread evenly.
    let even = Ease::new(&stiffness, 1.3, &limits).expect("a map");
    assert!((0..100).all(|k| (even.slope(f64::from(k) / 100.0) - 1.0).abs() < 1e-9));
}

#[test]
fn what_can_not_be_is_refused() {
    let line = [(0.0, 0.0), (1.0, 1.0)];
    for aspect in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(
            Stiffness::of(&line, aspect)
                .expect_err("no length")
                .is_fit()
        );
    }
    for points in [
        &[][..],
        &line[..1],
        &[line[0], line[0]],
        &[line[0], (f64::NAN, 0.0)],
    ] {
        assert!(
            Stiffness::of(points, 1.0)
                .expect_err("no line")
                .is_geometry()
        );
    }
    let stiffness = Stiffness::of(&line, 1.0).expect("a repeat");
    let limits = EaseLimits::default();
    for stretch in [0.0, -1.0, f64::NAN, f64::INFINITY, 5e-324] {
        assert!(
            Ease::new(&stiffness, stretch, &limits)
                .expect_err("none")
                .is_geometry()
        );
    }
    for (least, most) in [
        (0.0, 2.0),
        (1.1, 2.0),
        (0.5, 0.9),
        (f64::NAN, 2.0),
        (0.5, f64::INFINITY),
    ] {
        let limits = EaseLimits { least, most };
        assert!(
            Ease::new(&stiffness, 1.1, &limits)
                .expect_err("no limits")
                .is_geometry()
        );
    }
}
