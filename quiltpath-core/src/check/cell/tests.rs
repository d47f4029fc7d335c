//! The sets of near pairs against dense samples of them, and against closed forms.

use super::*;
use crate::geom::Point;
use crate::geom::measure::squared_distance;
use proptest::prelude::*;
use std::f64::consts::FRAC_PI_2;

fn free(start: Vector, steps: [Vector; 2], spans: [f64; 2]) -> Cell {
    Cell {
        start,
        steps,
        spans,
        x: [0.0, spans[0]],
        gap: [f64::NEG_INFINITY, f64::INFINITY],
    }
}

fn way(angle: f64) -> Vector {
    Vector::new(angle.cos(), angle.sin())
}

/// Two lines that cross at the angle θ are within d of each other for d / sin θ to either side.
#[test]
fn a_crossing_reaches_as_far_as_its_angle_says() {
    for degrees in [3.0f64, 20.0, 60.0, 90.0, 120.0, 177.0] {
        let angle = degrees.to_radians();
        // They cross in the middle of both.
        let start = way(0.0) * -50.0 + way(angle) * 50.0;
        let cell = free(start, [way(0.0), way(angle)], [100.0, 100.0]);
        let shape = cell.shape(0.5).expect("they cross");
        let reach = 0.5 / angle.sin();
        for range in [shape.x, shape.y] {
            assert!(
                (range[0] - (50.0 - reach)).abs() < 1e-9,
                "{degrees}: {range:?}"
            );
            assert!(
                (range[1] - (50.0 + reach)).abs() < 1e-9,
                "{degrees}: {range:?}"
            );
        }
        assert!(shape.nearest.0 < 1e-12 && (shape.nearest.1 - 50.0).abs() < 1e-9);
        assert_eq!(
            (shape.at_ends_of_p, shape.at_ends_of_q),
            ([false; 2], [None; 2])
        );
        // The gap y − x is least at d / cos(θ / 2), half of it on either line.
        let least = -0.5 / (angle / 2.0).cos();
        assert!(
            (shape.gap.0 - least).abs() < 1e-9 * least.abs(),
            "{degrees}"
        );
    }
}

#[test]
fn parallel_lines_are_near_all_along_or_nowhere() {
    let cell = |apart: f64| free(Vector::new(0.0, apart), [way(0.0); 2], [8.0, 8.0]);
    assert!(cell(1.01).shape(1.0).is_none());
    let shape = cell(0.6).shape(1.0).expect("near");
    assert_eq!(
        (shape.x, shape.y, shape.nearest.0),
        ([0.0, 8.0], [0.0, 8.0], 0.6)
    );
    // Q is at the start of its segment while P is up to √(1 − 0.36) past it.
    assert_eq!(shape.at_ends_of_p, [true, true]);
    let [low, high] = shape.at_ends_of_q[0].expect("at its start");
    assert!(low == 0.0 && (high - 0.8).abs() < 1e-12);
    assert!((shape.gap.0 + 0.8).abs() < 1e-12);
}

/// A corner: the set of pairs with at least the gap between them ends where the legs are d apart.
#[test]
fn a_sharp_corner_is_near_itself_as_far_as_its_angle_says() {
    let angle = 0.1f64;
    // P comes in to the corner, Q leaves it at the angle to the way back.
    let cell = Cell {
        gap: [2.0 - 40.0, f64::INFINITY],
        ..free(
            Vector::new(40.0, 0.0),
            [Vector::new(-1.0, 0.0), way(angle)],
            [40.0, 40.0],
        )
    };
    let shape = cell.shape(1.0).expect("sharp");
    assert!((shape.x[0] - (40.0 - 1.0 / angle.sin())).abs() < 1e-9);
    assert!((shape.y[1] - 1.0 / angle.sin()).abs() < 1e-9);
    assert!((shape.gap.0 + 38.0).abs() < 1e-9, "the gap's limit is met");
    // Legs at more than 60 degrees are never within half the gap of each other.
    for (angle, near) in [
        (1.04, true),
        (1.05, false),
        (FRAC_PI_2, false),
        (3.0, false),
    ] {
        let cell = Cell {
            steps: [Vector::new(-1.0, 0.0), way(angle)],
            ..free(Vector::new(40.0, 0.0), [way(0.0); 2], [40.0, 40.0])
        };
        let cell = Cell {
            gap: [2.0 - 40.0, f64::INFINITY],
            ..cell
        };
        assert_eq!(cell.shape(1.0).is_some(), near, "{angle}");
    }
}

#[test]
fn numbers_at_the_limits_of_coordinates_do_no_harm() {
    for scale in [1e-6, 1.0, 1e9] {
        let start = Vector::new(-1.0, -1.0) * scale;
        let cell = free(start, [way(0.7), way(0.8)], [2.0 * scale, 1e-6]);
        if let Some(shape) = cell.shape(1e-6) {
            assert!(shape.x.iter().chain(&shape.y).all(|v| v.is_finite()));
        }
    }
    let still = free(Vector::zeros(), [Vector::zeros(); 2], [1.0, 2.0]);
    let shape = still.shape(0.1).expect("on the spot");
    assert_eq!((shape.x, shape.y), ([0.0, 1.0], [0.0, 2.0]));
}

/// Segment to segment, against the least distance between the points of both.
fn sampled(a: [Point; 2], b: [Point; 2]) -> f64 {
    let at = |[from, to]: [Point; 2], k: u32| from + (to - from) * (f64::from(k) / 200.0);
    let pairs = (0..=200).flat_map(|k| (0..=200).map(move |l| (k, l)));
    pairs
        .map(|(k, l)| (at(a, k) - at(b, l)).norm())
        .fold(f64::INFINITY, f64::min)
}

proptest! {
    #[test]
    fn samples_lie_within_and_reach_every_side(
        start in (-3.0..3.0f64, -3.0..3.0f64), angles in (0.0..7.0f64, 0.0..7.0f64), spans in (0.5..4.0f64, 0.5..4.0f64),
        distance in 0.1..2.0f64, gap in -3.0..3.0f64, width in 0.5..4.0f64,
    ) {
        let cell = Cell {
            gap: [gap, gap + width],
            ..free(Vector::new(start.0, start.1), [way(angles.0), way(angles.1)], [spans.0, spans.1])
        };
        let shape = cell.shape(distance);
        let step = |k: u32| f64::from(k) / 200.0;
        let mut seen: Option<[[f64; 2]; 3]> = None;
        for pair in (0..=200).flat_map(|k| (0..=200).map(move |l| [step(k), step(l)])) {
            let [x, y] = [pair[0] * spans.0, pair[1] * spans.1];
            if cell.apart([x, y]) > distance || !(gap..=gap + width).contains(&(y - x)) {
                continue;
            }
            let shape = shape.as_ref().expect("a sample is near");
            let values = [x, y, y - x];
            let ranges = seen.get_or_insert(values.map(|v| [v, v]));
            for (range, value) in ranges.iter_mut().zip(values) {
                *range = [range[0].min(value), range[1].max(value)];
            }
            prop_assert!(shape.nearest.0 <= cell.apart([x, y]) + 1e-9);
            prop_assert!(pair[1] != 0.0 || shape.at_ends_of_q[0].is_some());
            prop_assert!(pair[1] != 1.0 || shape.at_ends_of_q[1].is_some());
            prop_assert!(pair[0] != 0.0 || shape.at_ends_of_p[0]);
            prop_assert!(pair[0] != 1.0 || shape.at_ends_of_p[1]);
        }
        if let (Some(seen), Some(shape)) = (seen, shape) {
            for (range, sampled) in [shape.x, shape.y].iter().zip(&seen) {
                prop_assert!(range[0] <= sampled[0] + 1e-9 && sampled[1] <= range[1] + 1e-9);
            }
            prop_assert!(shape.gap.0 <= seen[2][0] + 1e-9);
        }
        // What is reported is there: the extremes lie in the closed set of a hair more.
        if let Some(shape) = shape {
            let hair = |extra: f64| Cell {
                x: [(shape.x[0] - extra).max(0.0), (shape.x[0] + extra).min(spans.0)],
                ..free(Vector::new(start.0, start.1), [way(angles.0), way(angles.1)], [spans.0, spans.1])
            };
            let at_least = Cell { gap: [gap - 1e-6, gap + width + 1e-6], ..hair(1e-6) };
            prop_assert!(at_least.shape(distance + 1e-6).is_some());
        }
    }

    #[test]
    fn segments_are_as_far_apart_as_their_nearest_points(ends in prop::array::uniform4((-3.0..3.0f64, -3.0..3.0f64))) {
        let [a, b, c, d] = ends.map(|(x, y)| Point::new(x, y));
        let (exact, near) = (squared_distance([a, b], [c, d]).sqrt(), sampled([a, b], [c, d]));
        prop_assert!(exact <= near + 1e-12 && near - exact < 0.05, "{exact} {near}");
    }
}
