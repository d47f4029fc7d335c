//! Properties of mitred corners, and the sweep against trying many phases.

mod loops;
mod smoothing;

use super::sweep::{EQUAL_KINK, kink};
use super::*;
use crate::chain::Ends;
use crate::corner::period::Period;
use proptest::prelude::*;

fn repeat(points: &[(f64, f64)]) -> Repeat {
    let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Repeat::new(&Motif::from_points("m", points).expect("a motif")).expect("a repeat")
}

const DEPTH: f64 = 5.0;

/// The corner of this angle in a band of the usual depth.
fn corner(repeat: &Repeat, angle: f64, options: &MitreOptions) -> MitredCorner {
    mitred_corner(repeat, DEPTH, angle, options).expect("mitred")
}

fn options() -> MitreOptions {
    MitreOptions {
        legs: 1,
        cut: 0,
        smooth: 0.0,
        extra: ExtraLoops::Link,
        ends: Ends::Level,
        join_tolerance: 1e-3,
        flattening: 1e-3,
    }
}

fn random_repeat() -> impl Strategy<Value = Repeat> {
    let inner = prop::collection::vec((0.0..1.0f64, 0.0..1.0f64), 3..12);
    (inner, 0.3..0.7f64, 0.3..0.7f64).prop_map(|(mut inner, start, end)| {
        inner.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut points = vec![(0.0, start), (0.0, 0.0), (0.1, 1.0)];
        points.extend(inner.iter().map(|&(x, y)| (0.1 + 1.5 * x, y)));
        points.push((1.7, end));
        repeat(&points)
    })
}

/// A line that curls back so far that every phase cuts it three times.
fn curly() -> Repeat {
    repeat(&[
        (0.0, 0.5),
        (4.0, 0.4),
        (4.0, 0.0),
        (-3.0, 0.3),
        (-3.0, 1.0),
        (1.0, 0.5),
    ])
}

#[test]
fn smoothing_over_next_to_nothing_leaves_the_kink() {
    let wave = repeat(&[(0.0, 0.5), (1.0, 0.0), (3.0, 1.0), (4.0, 0.5)]);
    let sharp = corner(&wave, 90.0, &options());
    for smooth in [f64::MIN_POSITIVE, 1e-300, 1e-20] {
        let asked = MitreOptions {
            smooth,
            ..options()
        };
        let smoothed = corner(&wave, 90.0, &asked);
        assert!((smoothed.corner.motif.length() - sharp.corner.motif.length()).abs() < 1e-9);
    }
}

#[test]
fn a_repeat_that_is_narrow_beyond_measure_is_refused() {
    let spike = repeat(&[(0.0, 0.5), (1.0, 0.0), (3.0, 1e6), (4.0, 0.5)]);
    let error = mitred_corner(&spike, DEPTH, 90.0, &options()).expect_err("refused");
    assert!(error.to_string().contains("at most 1000"), "{error}");
}

#[test]
fn a_line_that_meets_the_diagonal_square_on_has_no_kink() {
    for angle in [60.0f64, 90.0, 120.0] {
        // A line of slope cot(a/2), falling to the inside, runs along the diagonal's normal.
        let slope = 1.0 / (angle / 2.0).to_radians().tan();
        // It climbs back so gently that it never runs against the normal.
        let climb = 2.0 * slope * slope + 2.0;
        let zigzag = repeat(&[
            (0.0, 0.0),
            (1.0, slope),
            (1.0 + climb, -slope),
            (2.0 + climb, 0.0),
        ]);
        let mitred = mitred_corner(&zigzag, 2.0 * slope, angle, &options()).expect("mitred");
        assert_eq!(mitred.crossings, 1);
        assert!(
            mitred.kink_degrees < 1e-6,
            "{angle}: {}",
            mitred.kink_degrees
        );
    }
}

#[test]
fn extra_loops_are_linked_or_dropped_and_counted() {
    let linked = corner(&curly(), 90.0, &options());
    assert!(linked.crossings >= 3 && linked.crossings % 2 == 1);
    assert!(linked.linked_length > 0.0 && linked.lost_length == 0.0);
    let dropping = MitreOptions {
        extra: ExtraLoops::Drop,
        ..options()
    };
    let dropped = corner(&curly(), 90.0, &dropping);
    assert!(dropped.lost_length > 0.0 && dropped.linked_length == 0.0);
}

#[test]
fn what_is_out_of_range_is_refused() {
    let line = repeat(&[(0.0, 0.5), (1.0, 0.0), (2.0, 1.0), (3.0, 0.5)]);
    let refused = |depth, angle, options: MitreOptions| {
        mitred_corner(&line, depth, angle, &options)
            .expect_err("refused")
            .to_string()
    };
    assert!(refused(DEPTH, 30.0, options()).contains("angle is 30; give 45 to 150 degrees"));
    assert!(refused(DEPTH, f64::NAN, options()).contains("NaN"));
    assert!(refused(0.0, 90.0, options()).contains("depth of the band is 0"));
    let negative = refused(DEPTH, 90.0, options().with_smooth(-1.0));
    assert!(negative.contains("smooth over is -1; give 0 or more"));
    assert!(refused(DEPTH, 90.0, options().with_legs(2000)).contains("give 0 to 1000"));
}

#[test]
fn smoothing_takes_the_turn_away_and_keeps_the_ends() {
    let line = repeat(&[(0.0, 0.5), (1.0, 0.2), (2.0, 0.0), (3.0, 1.0), (4.0, 0.5)]);
    let sharp = corner(&line, 120.0, &options());
    let smoothing = MitreOptions {
        smooth: 1.0,
        ..options()
    };
    let smooth = corner(&line, 120.0, &smoothing);
    assert!(sharp.kink_degrees > 5.0, "{}", sharp.kink_degrees);
    assert!(
        smooth.kink_degrees < 0.5 * sharp.kink_degrees,
        "{}",
        smooth.kink_degrees
    );
    assert_eq!(smooth.corner.motif.start(), sharp.corner.motif.start());
    assert_eq!(smooth.corner.motif.end(), sharp.corner.motif.end());
}

#[test]
fn two_stems_in_one_line_are_two_cuts_at_any_size() {
    // The line ends as it starts, so the stems meet in one line and turn alike on the diagonal.
    let drawn = [
        (0.0, 0.0),
        (3.0, 0.0),
        (3.5, 2.0),
        (4.5, -2.0),
        (5.0, 0.0),
        (8.0, 0.0),
    ];
    for size in [1.0, 1.01, 3.7, 25.4, 100.0] {
        let points = drawn.map(|(x, y)| (x * size, y * size));
        let repeat = repeat(&points);
        let period = Period::new(&repeat, DEPTH, Ends::Level, 1e-3).expect("a period");
        let found = cuts(&period, 1.0, ExtraLoops::Link);
        assert_eq!(found.len(), 2, "{size}");
        let phases = found.iter().map(|cut| cut.phase / period.pitch);
        let phases: Vec<f64> = phases.collect();
        assert!((phases[1] - phases[0]).abs() > 0.1, "{phases:?}");
        let ends = [0, 1].map(|cut| corner(&repeat, 90.0, &MitreOptions { cut, ..options() }));
        assert!((ends[0].phase - ends[1].phase).abs() > 0.1 * period.pitch);
    }
}

proptest! {
    #[test]
    fn halves_are_mirror_images_inside_the_band(
        repeat in random_repeat(), angle in prop::sample::select(vec![45.0, 60.0, 90.0, 120.0, 150.0]), legs in 0usize..3, smooth in prop::sample::select(vec![0.0, 0.7]), drop in any::<bool>(),
    ) {
        let extra = if drop { ExtraLoops::Drop } else { ExtraLoops::Link };
        let options = MitreOptions { legs, smooth, extra, ..options() };
        let mitred = corner(&repeat, angle, &options);
        let half = angle.to_radians() / 2.0;
        let mirror = Transform::mirror_line(Point::origin(), Point::new(half.cos(), half.sin())).expect("a line");
        let points = mitred.corner.motif.points();
        for (one, other) in points.iter().zip(points.iter().rev()) {
            prop_assert!((mirror.apply(*one) - other).norm() < 1e-9);
        }
        // Before the diagonal and in the band on the leg that is left: the second half of the
        // points.
        for point in &points[points.len() / 2..] {
            prop_assert!(point.y >= -1e-9 && point.y <= DEPTH + 1e-9);
            let beyond = point.x * half.sin() - point.y * half.cos();
            prop_assert!(beyond >= -1e-9, "{beyond}");
        }
        let [start, end] = repeat.offsets(None);
        let port = (1.0 - f64::midpoint(start, end)) * DEPTH;
        prop_assert!((mitred.corner.motif.end().point.y - port).abs() < 1e-9);
        let period = Period::new(&repeat, DEPTH, options.ends, options.join_tolerance).expect("a period");
        let reach = mitred.corner.motif.end().point.x - DEPTH / half.tan();
        prop_assert!((reach - mitred.phase - legs as f64 * period.pitch).abs() < 1e-9);
    }

    #[test]
    fn no_phase_meets_the_diagonal_less_often_or_turns_less(repeat in random_repeat(), angle in 50.0..140.0f64) {
        let options = options();
        let period = Period::new(&repeat, DEPTH, options.ends, options.join_tolerance).expect("a period");
        let cot = 1.0 / (angle.to_radians() / 2.0).tan();
        let cuts = cuts(&period, cot, ExtraLoops::Link);
        let found = crossings(&period, cot, cuts[0].phase);
        let kinks = cuts.iter().map(|cut| {
            let crossed = crossings(&period, cot, cut.phase);
            assert_eq!(crossed.len(), found.len());
            kink(&period, cot, crossed[crossed.len() - 1].segment)
        });
        let kinks: Vec<f64> = kinks.collect();
        let chosen = kinks.iter().copied().fold(f64::INFINITY, f64::min);
        prop_assert!(kinks.iter().all(|kink| *kink <= chosen + EQUAL_KINK + 1e-9));
        let q = |point: Point| point.x - point.y * cot;
        for step in 0..400 {
            let phase = (f64::from(step) + 0.5) / 400.0 * period.pitch;
            let mut crossed = Vec::new();
            for copy in -9..=9i64 {
                for segment in 0..period.segments() {
                    let (a, b) = (q(period.point(copy, segment)), q(period.point(copy, segment + 1)));
                    if (a < phase) != (b < phase) {
                        crossed.push(segment);
                    }
                }
            }
            prop_assert!(crossed.len() >= found.len());
            if crossed.len() == found.len() {
                let other = kink(&period, cot, crossed[crossed.len() - 1]);
                prop_assert!(chosen <= other + 1e-9);
            }
        }
    }

    #[test]
    fn the_border_chains_on_at_both_legs(repeat in random_repeat(), angle in prop::sample::select(vec![60.0, 90.0, 120.0])) {
        use crate::chain::{Across, ChainOptions, Terminal, chain_repeats};
        use crate::warp::Strip;
        let options = options();
        let mitred = corner(&repeat, angle, &options);
        let (start, end) = (mitred.corner.motif.start(), mitred.corner.motif.end());
        let chained = |strip: Strip, along: f64, towards: bool| {
            let across = Across::At(strip.locate(if towards { start.point } else { end.point }).1);
            let room = 2.0 * repeat.pitch(DEPTH);
            let terminals = if towards { [along - room, along] } else { [along, along + room] };
            let terminals = terminals.map(|along| Terminal::new(along).with_across(across));
            let how = ChainOptions::new(2).with_join_tolerance(1e-3);
            chain_repeats(&repeat, &strip, terminals, &how).expect("a chain").motif
        };
        let turn = angle.to_radians();
        let inner = Point::new(DEPTH / (turn / 2.0).tan(), DEPTH);
        let leaving = Strip::of_unit(inner, Vector::new(1.0, 0.0), Vector::new(0.0, -DEPTH));
        let after = chained(leaving, leaving.locate(end.point).0, false);
        prop_assert!((after.start().point - end.point).norm() < 1e-9);
        let along = Vector::new(turn.cos(), turn.sin());
        let across = Vector::new(-along.y, along.x) * DEPTH;
        let entering = Strip::of_unit(inner, -along, across);
        let before = chained(entering, entering.locate(start.point).0, true);
        prop_assert!((before.end().point - start.point).norm() < 1e-9);
    }
}
