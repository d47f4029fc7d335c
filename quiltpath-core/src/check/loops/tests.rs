//! Small loops: of known length, planted, none where none is, and against all pairs.

use super::*;
use crate::check::cell::Cell;
use crate::geom::Vector;
use proptest::prelude::*;
use std::f64::consts::{FRAC_PI_2, PI, TAU};

fn points(list: &[(f64, f64)]) -> Vec<Point> {
    list.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

fn found(line: &[Point], limit: &LoopLimit) -> Vec<Loop> {
    let lines = Lines::new(&[line], 0.001).expect("a line");
    loops(&lines, limit).expect("a limit").places
}

/// In along x, three quarters of a circle round, out along y: the crossing closes a loop of two
/// tangents and the arc, 2 r + 3 π r / 2, at a right angle.
fn curl(radius: f64) -> Vec<Point> {
    let arc = |k: u32| {
        let angle = FRAC_PI_2 - 1.5 * PI * f64::from(k) / 600.0;
        Point::new(radius * angle.cos(), -radius + radius * angle.sin())
    };
    let mut line = points(&[(-30.0, 0.0), (-10.0, 0.0)]);
    line.extend((0..=600).map(arc));
    line.push(Point::new(-radius, 40.0));
    line
}

#[test]
fn a_curl_has_the_length_of_its_arc_and_tangents() {
    let limit = LoopLimit {
        length: 7.0,
        tolerance: 0.01,
    };
    for radius in [0.1, 0.5, 1.0] {
        let [curl] = &found(&curl(radius), &limit)[..] else {
            panic!("one loop of radius {radius}")
        };
        let length = (2.0 + 1.5 * PI) * radius;
        // At a right angle the tolerance takes itself over cos 45 degrees.
        let expected = length - limit.tolerance / (PI / 4.0).cos();
        assert!(
            (curl.length - expected).abs() < 2e-3,
            "{} {expected}",
            curl.length
        );
        assert!((curl.at - Point::new(-radius, 0.0)).norm() < 0.02);
        assert!((curl.part.length() - curl.length).abs() < 1e-12);
    }
    assert!(found(&curl(1.1), &limit).is_empty(), "7.4 long");
}

#[test]
fn what_comes_back_without_leaving_a_loop_is_none() {
    let limit = LoopLimit::default();
    let stem = points(&[(0.0, 0.0), (5.0, 0.0), (5.0, 2.0), (5.0, 0.0), (9.0, 0.0)]);
    let fine_stem: Vec<Point> = (0..=400)
        .map(|k| Point::new(0.0, 2.0 - 0.01 * f64::from((k - 200i32).abs())))
        .collect();
    let spike = points(&[(0.0, 0.0), (2.0, 0.05), (0.0, 0.1)]);
    let zigzag: Vec<Point> = (0..200)
        .map(|k| Point::new(0.05 * f64::from(k), f64::from(k % 2)))
        .collect();
    let wave: Vec<Point> = (0..4000)
        .map(|k| 0.01 * f64::from(k))
        .map(|x| Point::new(x, 0.5 * (4.0 * x).sin()))
        .collect();
    for line in [&stem, &fine_stem, &spike, &zigzag, &wave] {
        assert_eq!(found(line, &limit), []);
    }
    assert_eq!(found(&[], &limit), []);
}

/// A lens on a stem: the line leaves and comes back to within the tolerance without crossing.
#[test]
fn a_line_that_nearly_closes_is_a_loop() {
    let lens = points(&[
        (0.0, 0.0),
        (9.0, 0.0),
        (9.7, 1.0),
        (10.4, 0.0),
        (9.7, -1.0),
        (9.05, -0.05),
        (9.0, -9.0),
    ]);
    let [closed] = &found(&lens, &LoopLimit::default())[..] else {
        panic!("one loop")
    };
    assert!((closed.length - 4.8).abs() < 0.2 && (closed.at - lens[1]).norm() < 0.15);
    assert!(
        found(
            &lens,
            &LoopLimit {
                tolerance: 0.02,
                ..LoopLimit::default()
            }
        )
        .is_empty()
    );
}

#[test]
fn a_closed_line_is_a_loop_when_it_is_small() {
    let ring = |radius: f64| -> Vec<Point> {
        let at = |k: u32| TAU * f64::from(k % 90) / 90.0;
        (0..=90)
            .map(at)
            .map(|t| Point::new(radius * t.cos(), radius * t.sin()))
            .collect()
    };
    let small = found(&ring(0.6), &LoopLimit::default());
    assert_eq!(small.len(), 1);
    assert!((small[0].length - 0.6 * TAU).abs() < 0.12);
    assert!(found(&ring(0.9), &LoopLimit::default()).is_empty());
}

#[test]
fn loops_of_two_lines_are_not_looked_for() {
    let (flat, steep) = (
        points(&[(0.0, 0.0), (9.0, 0.0)]),
        points(&[(4.0, 1.0), (4.0, -1.0)]),
    );
    let lines = Lines::new(&[&flat, &steep], 0.0).expect("lines");
    assert!(
        loops(&lines, &LoopLimit::default())
            .expect("a limit")
            .places
            .is_empty()
    );
    for limit in [(0.0, 0.1), (5.0, f64::NAN), (f64::INFINITY, 0.1)] {
        let limit = LoopLimit {
            length: limit.0,
            tolerance: limit.1,
        };
        assert!(loops(&lines, &limit).expect_err("refused").is_geometry());
    }
}

#[test]
fn a_scribble_is_gone_through_so_far_and_reported() {
    let point = |k: u32| {
        Point::new(
            0.02 * (f64::from(k) * 2.4).cos(),
            0.02 * (f64::from(k) * 2.4).sin(),
        )
    };
    let scribble: Vec<Point> = (0..20_000).map(point).collect();
    let lines = Lines::new(&[&scribble], 0.0).expect("a line");
    let length = 1000.0;
    let (pairs, crowded) = returns(
        &lines,
        &LoopLimit {
            length,
            tolerance: 0.001,
        },
    );
    assert!(pairs.len() <= 20_000 * WINDOW as usize);
    assert_eq!(crowded[0].segments, WINDOW as usize);
    assert!(
        (30..60).contains(&crowded.len()),
        "one for each 512 segments"
    );
}

/// All pairs of segments, with those next to each other, joined by comparing all sets with all.
fn all_with_all(lines: &Lines, limit: &LoopLimit) -> Vec<f64> {
    let segments: Vec<u32> = lines.segments().collect();
    let mut sets = Vec::new();
    for &first in &segments {
        for &second in segments.iter().filter(|&&second| second > first) {
            let x = [0.0, lines.span(first)];
            let cell = Cell::new(lines, [first, second], x, [0.0, limit.length]);
            if let Some(shape) = cell.shape(limit.tolerance) {
                // The pairs (s, s) of both segments are in the set of neighbours: label 0.
                let label = if second == first + 1 {
                    0
                } else {
                    sets.len() + 1
                };
                sets.push((first, second, shape, label));
            }
        }
    }
    let mut changed = true;
    while changed {
        changed = false;
        for one in 0..sets.len() {
            for other in 0..sets.len() {
                let ((a, b, from, label), (c, d, to, second)) = (sets[one], sets[other]);
                let along_q = a == c
                    && b + 1 == d
                    && from.at_ends_of_q[1].is_some()
                    && to.at_ends_of_q[0].is_some();
                let along_p = b == d && a + 1 == c && from.at_ends_of_p[1] && to.at_ends_of_p[0];
                if (along_q || along_p) && label != second {
                    (sets[one].3, sets[other].3) = (label.min(second), label.min(second));
                    changed = true;
                }
            }
        }
    }
    let mut labels: Vec<usize> = sets
        .iter()
        .map(|set| set.3)
        .filter(|&label| label > 0)
        .collect();
    labels.sort_unstable();
    labels.dedup();
    let least = |label: usize| {
        let of_label = sets.iter().filter(|set| set.3 == label);
        let gap = |set: &(u32, u32, crate::check::cell::Shape, usize)| {
            lines.reach(set.1)[0] - lines.reach(set.0)[0] + set.2.gap.0
        };
        of_label.map(gap).fold(f64::INFINITY, f64::min)
    };
    let mut lengths: Vec<f64> = labels.into_iter().map(least).collect();
    lengths.sort_by(f64::total_cmp);
    lengths
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(128)))]

    #[test]
    fn all_pairs_agree(steps in prop::collection::vec((-2.5..2.5f64, 0.05..1.0f64), 1..40), length in 0.5..12.0f64, tolerance in 0.01..0.3f64) {
        let mut line = vec![Point::origin()];
        let mut angle = 0.0f64;
        for (turn, size) in steps {
            angle += turn;
            line.push(line[line.len() - 1] + Vector::new(angle.cos(), angle.sin()) * size);
        }
        let limit = LoopLimit { length, tolerance };
        let lines = Lines::new(&[&line], 0.0).expect("a line");
        let lengths: Vec<f64> = loops(&lines, &limit).expect("a limit").places.iter().map(|l| l.length).collect();
        prop_assert_eq!(lengths, all_with_all(&lines, &limit));
    }

    /// As the tolerance goes, the loops are the self-crossings with little line between.
    #[test]
    fn loops_are_the_self_crossings(steps in prop::collection::vec((0.3..1.2f64, 0.2..1.0f64), 3..30), length in 1.0..9.0f64) {
        let mut line = vec![Point::origin()];
        let mut angle = 0.0f64;
        for (turn, size) in steps {
            angle += turn;
            line.push(line[line.len() - 1] + Vector::new(angle.cos(), angle.sin()) * size);
        }
        let along = |segment: usize, point: Point| crate::geom::measure::length(&line[..=segment]) + (point - line[segment]).norm();
        let crossings = crate::geom::crossing::self_crossings(&line);
        let mut expected: Vec<f64> = crossings.iter().map(|c| along(c.second, c.point) - along(c.first, c.point)).collect();
        expected.sort_by(f64::total_cmp);
        // Near the limit the tolerance decides.
        prop_assume!(expected.iter().all(|l| (l - length).abs() > 1e-3));
        expected.retain(|l| *l < length);
        let found = found(&line, &LoopLimit { length, tolerance: LEAST });
        prop_assert_eq!(found.len(), expected.len());
        for (found, expected) in found.iter().zip(&expected) {
            prop_assert!((found.length - expected).abs() < 1e-3, "{} {}", found.length, expected);
        }
    }
}

const LEAST: f64 = crate::geom::lines::LEAST_LENGTH;
