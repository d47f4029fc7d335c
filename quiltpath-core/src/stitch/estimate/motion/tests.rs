use super::*;
use crate::geom::measure::length;
use proptest::prelude::*;
use std::f64::consts::PI;

fn limits(top_speed: f64, acceleration: f64) -> MachineLimits {
    MachineLimits {
        top_speed,
        acceleration,
        corner_deviation: 0.05,
        seconds_per_start: 0.0,
        seconds_per_tie_off: 0.0,
        seconds_per_cut: 0.0,
    }
}

fn seconds(points: &[Point], limits: &MachineLimits) -> f64 {
    motion_seconds(points, limits).expect("seconds")
}

#[test]
fn a_point_that_rounding_made_is_no_turn() {
    let line = [(0.0, 0.0), (50.0, 0.0), (100.0, 0.0)].map(|(x, y)| Point::new(x, y));
    let limits = limits(200.0, 400.0);
    let plain = seconds(&line, &limits);
    for way in [(0.0, 1.0), (-1.0, 0.0), (0.6, -0.8)] {
        for size in [1e-16, 1e-14, 1e-12, 1e-9] {
            let mut dusty = line.to_vec();
            dusty.insert(2, Point::new(50.0 + size * way.0, size * way.1));
            assert!((seconds(&dusty, &limits) - plain).abs() < 1e-7, "{size}");
        }
    }
}

#[test]
fn a_straight_line_takes_the_textbook_time() {
    // Elementary kinematics: above v²/a the profile is a trapezoid, L/v + v/a; below it a
    // triangle, 2 √(L/a). However many points stand on the line.
    for (top, a, size) in [
        (200.0, 400.0, 1000.0),
        (200.0, 400.0, 100.0),
        (200.0, 400.0, 60.0),
        (1.0, 3.0, 0.01),
    ] {
        let textbook = if size >= top * top / a {
            size / top + top / a
        } else {
            2.0 * f64::sqrt(size / a)
        };
        for parts in [1, 2, 3, 50, 1001] {
            let points: Vec<Point> = (0..=parts)
                .map(|at| Point::new(0.0, size * f64::from(at) / f64::from(parts)))
                .collect();
            let found = seconds(&points, &limits(top, a));
            assert!(
                (found - textbook).abs() < 1e-9 * textbook,
                "{found} {textbook}"
            );
        }
    }
}

#[test]
fn a_reversal_is_a_standstill() {
    let there = [Point::new(0.0, 0.0), Point::new(90.0, 0.0)];
    let and_back = [there[0], there[1], there[0]];
    let limits = limits(100.0, 300.0);
    let (one, two) = (seconds(&there, &limits), seconds(&and_back, &limits));
    assert!((two - 2.0 * one).abs() < 1e-9 * two);
}

#[test]
fn a_circle_is_followed_at_the_speed_of_its_radius_however_densely_drawn() {
    // Elementary kinematics: a circle of radius r holds v² = a r.
    let limits = limits(1000.0, 400.0);
    let radius = 25.0;
    for parts in [60, 600, 6000] {
        let turns = 20;
        let points: Vec<Point> = (0..=parts * turns)
            .map(|at| f64::from(at) * 2.0 * PI / f64::from(parts))
            .map(|angle| Point::new(radius * angle.cos(), radius * angle.sin()))
            .collect();
        let cruise = f64::sqrt(400.0 * radius);
        let textbook = length(&points) / cruise + cruise / 400.0;
        let found = seconds(&points, &limits);
        assert!(
            (found - textbook).abs() < 0.03 * textbook,
            "{parts}: {found} {textbook}"
        );
    }
}

#[test]
fn a_sharper_corner_is_slower_and_so_is_a_smaller_deviation() {
    let bend = |degrees: f64| {
        let (sin, cos) = degrees.to_radians().sin_cos();
        [
            Point::new(-90.0, 0.0),
            Point::origin(),
            Point::new(90.0 * cos, 90.0 * sin),
        ]
    };
    let limits = limits(200.0, 400.0);
    let times = (0..=18).map(|at| seconds(&bend(f64::from(at) * 10.0), &limits));
    let times: Vec<f64> = times.collect();
    assert!(times.windows(2).all(|pair| pair[0] <= pair[1]));
    let tight = MachineLimits {
        corner_deviation: 0.01,
        ..limits
    };
    assert!(seconds(&bend(90.0), &tight) > seconds(&bend(90.0), &limits));
    // A right angle: v² = a d cos45°/(1 − cos45°) = 2.414 a d, by hand.
    let square = corner(&bend(90.0), &limits);
    assert!((square - 400.0 * 0.05 * 2.414_213_562).abs() < 1e-6);
}

#[test]
fn fewer_than_two_points_and_equal_points_take_no_time() {
    let limits = limits(200.0, 400.0);
    let p = Point::new(3.0, 4.0);
    for points in [&[][..], &[p], &[p, p], &[p, p, p]] {
        assert_eq!(seconds(points, &limits), 0.0);
    }
    let double = [Point::origin(), p, p, p * 2.0];
    let plain = [Point::origin(), p * 2.0];
    assert!((seconds(&double, &limits) - seconds(&plain, &limits)).abs() < 1e-12);
    // A corner drawn twice is the same corner.
    let turned = Point::new(-4.0, 3.0);
    let (once, twice) = (
        [Point::origin(), p, turned],
        [Point::origin(), p, p, turned],
    );
    assert_eq!(seconds(&once, &limits), seconds(&twice, &limits));
}

#[test]
fn lines_are_added_up_with_their_starts_tie_offs_and_cuts() {
    let limits = MachineLimits {
        seconds_per_start: 20.0,
        seconds_per_tie_off: 3.0,
        seconds_per_cut: 10.0,
        ..limits(200.0, 400.0)
    };
    let line = [Point::new(0.0, 0.0), Point::new(500.0, 0.0)];
    let time = stitching_time(&[&line, &line, &line], &limits).expect("time");
    assert!((time.moving - 3.0 * seconds(&line, &limits)).abs() < 1e-12);
    assert_eq!(time.standing, 3.0 * 36.0);
    assert_eq!(time.minutes() * 60.0, time.seconds());
    let none: [&[Point]; 0] = [];
    let none = stitching_time(&none, &limits).expect("nothing");
    assert_eq!(none.seconds(), 0.0);
}

#[test]
fn numbers_out_of_range_are_refused() {
    let line = [Point::new(0.0, 0.0), Point::new(500.0, 0.0)];
    let wrong = |change: fn(&mut MachineLimits)| {
        let mut limits = limits(200.0, 400.0);
        change(&mut limits);
        let error = stitching_time(&[&line], &limits).expect_err("out of range");
        assert!(error.is_geometry());
        error.to_string()
    };
    assert_eq!(
        wrong(|l| l.top_speed = 0.0),
        "the top speed is 0; give a number above 0"
    );
    assert!(wrong(|l| l.acceleration = f64::NAN).starts_with("the acceleration is NaN"));
    assert!(wrong(|l| l.corner_deviation = -1.0).starts_with("the corner deviation is -1"));
    assert_eq!(
        wrong(|l| l.seconds_per_cut = -1.0),
        "the number of seconds for a cut is -1; give 0 or more"
    );
    let bad = [line[0], Point::new(f64::NAN, 0.0)];
    let error = stitching_time(&[&line, &bad], &limits(1.0, 1.0)).expect_err("NaN");
    assert!(
        error
            .to_string()
            .starts_with("line 1: point 1 has the coordinate NaN")
    );
}

/// The greatest speed at the middle of three points, squared.
fn corner(three: &[Point], limits: &MachineLimits) -> f64 {
    let segment = |from: Point, to: Point| ((to - from).normalize(), (to - from).norm());
    corner_square(
        [segment(three[0], three[1]), segment(three[1], three[2])],
        limits,
    )
}

/// The greatest speed at each point, squared, of a line without equal points.
fn reachable(points: &[Point], limits: &MachineLimits) -> Vec<f64> {
    let mut steps = reached(points, limits);
    slow_down(&mut steps, limits);
    (steps.iter().map(|step| step.square).chain([0.0])).collect()
}

/// The square of a speed that nothing exceeds over this length from standstill to standstill.
fn reach(size: f64, limits: &MachineLimits) -> f64 {
    limits.top_speed.powi(2).min(limits.acceleration * size)
}

/// The least time by trying speeds on a grid of squares at every point (dynamic programming).
///
/// A step of the grid is feasible when the acceleration can bring it about over the segment.
fn brute_force(points: &[Point], limits: &MachineLimits, steps: usize) -> f64 {
    let top = reach(length(points), limits);
    let mut grid: Vec<f64> = (0..=steps)
        .map(|at| top * at as f64 / steps as f64)
        .collect();
    // Our own speeds stand among the others, so that only better ones can make a difference.
    grid.extend(reachable(points, limits));
    let mut best = vec![f64::INFINITY; grid.len()];
    best[0] = 0.0;
    for at in 1..points.len() {
        let size = (points[at] - points[at - 1]).norm();
        let limit = match points.get(at - 1..=at + 1) {
            Some(three) => corner(three, limits),
            None => 0.0,
        };
        let mut next = vec![f64::INFINITY; grid.len()];
        for (to, &square) in grid
            .iter()
            .enumerate()
            .filter(|(_, square)| **square <= limit)
        {
            for (from, &other) in grid.iter().enumerate() {
                if (square - other).abs() <= 2.0 * limits.acceleration * size + 1e-9 {
                    // By small steps of speed instead of the closed form: the best peak of many.
                    next[to] =
                        next[to].min(best[from] + best_peak(size, [other, square], top, limits));
                }
            }
        }
        best = next;
    }
    best[0]
}

/// The least time over a segment among many peak speeds, by the textbook time of each profile.
fn best_peak(size: f64, [from, to]: [f64; 2], top: f64, limits: &MachineLimits) -> f64 {
    let (a, low) = (limits.acceleration, from.max(to));
    (0..=200)
        .map(|at| low + (top - low) * f64::from(at) / 200.0)
        .filter(|peak| (2.0 * peak - from - to) / (2.0 * a) <= size + 1e-9)
        .map(|peak| {
            let speed = peak.sqrt();
            let ramps = (2.0 * speed - from.sqrt() - to.sqrt()) / a;
            let left = (size - (2.0 * peak - from - to) / (2.0 * a)).max(0.0);
            if left > 1e-12 {
                ramps + left / speed
            } else {
                ramps
            }
        })
        .fold(f64::INFINITY, f64::min)
}

fn polyline() -> impl Strategy<Value = Vec<Point>> {
    prop::collection::vec((-9.0..9.0f64, -9.0..9.0f64), 2..40)
        .prop_map(|points| points.iter().map(|&(x, y)| Point::new(x, y)).collect())
}

proptest! {
    #[test]
    fn never_below_length_over_speed_and_monotone(points in polyline(), top in 0.5..50.0f64, a in 0.5..90.0f64, more in 1.0..3.0f64) {
        let base = seconds(&points, &limits(top, a));
        prop_assert!(base >= length(&points) / top * (1.0 - 1e-12));
        prop_assert!(seconds(&points, &limits(top * more, a)) <= base * (1.0 + 1e-9));
        prop_assert!(seconds(&points, &limits(top, a * more)) <= base * (1.0 + 1e-9));
        let mut reversed = points.clone();
        reversed.reverse();
        prop_assert!((seconds(&reversed, &limits(top, a)) - base).abs() <= 1e-9 * base);
    }

    #[test]
    fn speeds_are_feasible(points in polyline(), top in 0.5..50.0f64, a in 0.5..90.0f64) {
        let limits = limits(top, a);
        let squares = reachable(&points, &limits);
        prop_assert_eq!((squares[0], squares[points.len() - 1]), (0.0, 0.0));
        for at in 1..points.len() {
            let most = 2.0 * a * (points[at] - points[at - 1]).norm();
            prop_assert!((squares[at] - squares[at - 1]).abs() <= most * (1.0 + 1e-9) + 1e-9);
            prop_assert!(squares[at] <= top * top);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(24)))]
    #[test]
    fn no_motion_on_a_grid_of_speeds_is_faster(
        steps in prop::collection::vec((0.2..4.0f64, -2.5..2.5f64), 2..6),
        top in 2.0..9.0f64,
        a in 2.0..30.0f64,
    ) {
        let mut heading: f64 = 0.0;
        let mut points = vec![Point::origin()];
        for (size, turn) in steps {
            heading += turn;
            let last = points[points.len() - 1];
            points.push(last + crate::geom::Vector::new(heading.cos(), heading.sin()) * size);
        }
        // Corners are kept loose, so that the grid has speeds between standstill and the limit.
        let limits = MachineLimits { corner_deviation: 1.0, ..limits(top, a) };
        let found = seconds(&points, &limits);
        let brute = brute_force(&points, &limits, 60);
        prop_assert!(found <= brute * (1.0 + 1e-9), "{found} {brute}");
        // The bound is not idle: but for the grid of peaks our own motion is among those tried.
        prop_assert!(brute <= found * 1.01, "{found} {brute}");
    }
}
