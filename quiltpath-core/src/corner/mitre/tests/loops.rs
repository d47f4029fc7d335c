//! A line that meets the diagonal more than once: what is kept, linked and lost, by plain
//! arithmetic.

use super::*;

/// A line that runs to and fro, so that it often meets the diagonal three times or more.
fn tangled() -> impl Strategy<Value = Repeat> {
    let inner = prop::collection::vec((-1.0..2.5f64, 0.0..1.0f64), 2..7);
    (inner, 0.3..0.7f64).prop_map(|(inner, level)| {
        let mut points = vec![(0.0, level), (0.3, 0.0), (-0.4, 0.6), (0.7, 1.0)];
        points.extend(inner);
        points.push((1.5, level));
        repeat(&points)
    })
}

fn repeats() -> impl Strategy<Value = Repeat> {
    prop_oneof![tangled(), random_repeat(), Just(curly())]
}

/// The chained line from the start of the corner on, far beyond the diagonal.
fn line(period: &Period, legs: usize) -> Vec<Point> {
    let mut points = Vec::new();
    for copy in -(legs as i64)..=60 {
        points.extend((0..=period.segments()).map(|index| period.point(copy, index)));
    }
    points.dedup();
    points
}

/// The line travelled on the leg that is entered, x along from the repeat that is cut.
fn entered(mitred: &MitredCorner, cot: f64) -> Vec<Point> {
    let points = mitred.corner.motif.points();
    let half = points[points.len() / 2..].iter().rev();
    half.map(|p| Point::new(DEPTH * cot + mitred.phase - p.x, DEPTH - p.y))
        .collect()
}

/// The length of a line before the diagonal.
fn length_before(line: &[Point], cot: f64, phase: f64) -> f64 {
    let beyond = |p: Point| p.x - p.y * cot - phase;
    let part = |pair: &[Point]| {
        let (a, b) = (beyond(pair[0]), beyond(pair[1]));
        let share = match (a < 0.0, b < 0.0) {
            (true, true) => 1.0,
            (false, false) => 0.0,
            _ => (a.min(b) / (b - a).abs()).abs(),
        };
        share * (pair[1] - pair[0]).norm()
    };
    line.windows(2).map(part).sum()
}

fn case(
    repeat: &Repeat,
    angle: f64,
    legs: usize,
    extra: ExtraLoops,
) -> (MitredCorner, Period, f64) {
    let options = MitreOptions {
        legs,
        extra,
        ..options()
    };
    let mitred = corner(repeat, angle, &options);
    let period = Period::new(repeat, DEPTH, options.ends, options.join_tolerance);
    let cot = 1.0 / (angle.to_radians() / 2.0).tan();
    (mitred, period.expect("a period"), cot)
}

proptest! {
    #[test]
    fn dropping_keeps_the_line_up_to_its_first_crossing(
        repeat in repeats(), angle in 50.0..140.0f64, legs in 0usize..3,
    ) {
        let (mitred, period, cot) = case(&repeat, angle, legs, ExtraLoops::Drop);
        let beyond = |p: Point| p.x - p.y * cot - mitred.phase;
        let line = line(&period, legs);
        let kept = entered(&mitred, cot);
        let crossing = line.iter().position(|&p| beyond(p) > 1e-9).expect("a crossing");
        prop_assert_eq!(kept.len(), crossing + 1);
        for (kept, drawn) in kept[..crossing].iter().zip(&line) {
            prop_assert!((kept - drawn).norm() < 1e-9);
        }
        let last = kept[crossing];
        prop_assert!(beyond(last).abs() < 1e-9);
        prop_assert!(crate::geom::measure::distance_to_segment(last, line[crossing - 1], line[crossing]) < 1e-9);
        prop_assert_eq!(mitred.linked_length, 0.0);
        let lost = 2.0 * length_before(&line, cot, mitred.phase) - mitred.corner.motif.length();
        prop_assert!((mitred.lost_length - lost).abs() < 1e-6, "{} {lost}", mitred.lost_length);
    }

    #[test]
    fn linking_keeps_all_before_the_diagonal_and_counts_the_links_of_both_legs(
        repeat in repeats(), angle in 50.0..140.0f64, legs in 0usize..3,
    ) {
        let (mitred, period, cot) = case(&repeat, angle, legs, ExtraLoops::Link);
        let own = 2.0 * length_before(&line(&period, legs), cot, mitred.phase);
        prop_assert_eq!(mitred.lost_length, 0.0);
        let linked = mitred.corner.motif.length() - own;
        prop_assert!((mitred.linked_length - linked).abs() < 1e-6, "{} {linked}", mitred.linked_length);
        // Links lie on the diagonal; the loops between them touch it with their ends alone.
        let beyond = |p: &Point| (p.x * (angle.to_radians() / 2.0).sin() - p.y * (angle.to_radians() / 2.0).cos()).abs();
        let on_it = |pair: &&[Point]| pair.iter().all(|p| beyond(p) < 1e-9);
        let along: f64 = mitred.corner.motif.points().windows(2).filter(on_it).map(length).sum();
        prop_assert!((mitred.linked_length - along).abs() < 1e-6, "{} {along}", mitred.linked_length);
    }

    #[test]
    fn of_the_phases_with_fewest_crossings_the_crossing_that_is_kept_turns_least(
        repeat in repeats(), angle in 50.0..140.0f64, drop in any::<bool>(),
    ) {
        let extra = if drop { ExtraLoops::Drop } else { ExtraLoops::Link };
        let (mitred, period, cot) = case(&repeat, angle, 1, extra);
        // The least turn is that of one of the cuts that count as equal.
        let kinks = (0..mitred.cuts).map(|cut| {
            let options = MitreOptions { legs: 1, extra, ..options() };
            corner(&repeat, angle, &options.with_cut(cut)).kink_degrees
        });
        let least = kinks.fold(f64::INFINITY, f64::min);
        prop_assert!(mitred.kink_degrees <= least + EQUAL_KINK.to_degrees() + 1e-6);
        let line = line(&period, 8);
        let q = |p: Point| p.x - p.y * cot;
        for step in 0..300 {
            let phase = 20.0 * period.pitch + (f64::from(step) + 0.5) / 300.0 * period.pitch;
            let crossed: Vec<&[Point]> = line.windows(2).filter(|pair| (q(pair[0]) < phase) != (q(pair[1]) < phase)).collect();
            prop_assert!(crossed.len() >= mitred.crossings);
            if crossed.len() == mitred.crossings {
                let turning = if drop { crossed[0] } else { crossed[crossed.len() - 1] };
                let step = turning[1] - turning[0];
                // The angle between the line, whichever way it runs, and the diagonal's normal.
                let normal = Vector::new(1.0, -cot);
                let kink = 2.0 * step.perp(&normal).abs().atan2(step.dot(&normal).abs()).to_degrees();
                prop_assert!(least <= kink + 1e-6, "{least} {kink}");
            }
        }
    }
}
