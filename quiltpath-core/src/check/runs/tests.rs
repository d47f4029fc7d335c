//! Runs against joining all sets with all, and against samples of the lines joined step by step.

use super::*;
use crate::geom::near::near_pairs;
use proptest::prelude::*;

fn lines(list: &[Vec<Point>]) -> Lines {
    let views: Vec<&[Point]> = list.iter().map(Vec::as_slice).collect();
    Lines::new(&views, 0.0).expect("lines")
}

fn found(lines: &Lines, distance: f64, least_gap: f64, taken: &[Taken]) -> Vec<Component> {
    let rule = Rule {
        distance,
        gap: [least_gap, f64::INFINITY],
        taken,
    };
    runs(lines, &near_pairs(lines, distance, least_gap).pairs, &rule)
}

/// The reaches of all runs, by comparing every set of every pair of segments with every other.
fn all_with_all(lines: &Lines, distance: f64, least_gap: f64) -> Vec<[[f64; 2]; 2]> {
    let segments: Vec<u32> = lines.segments().collect();
    let mut sets = Vec::new();
    for (index, &first) in segments.iter().enumerate() {
        for &second in &segments[index + 1..] {
            let x = [0.0, lines.span(first)];
            let cell = Cell::new(lines, [first, second], x, [least_gap, f64::INFINITY]);
            if let Some(shape) = cell.shape(distance) {
                sets.push(([first, second], shape, sets.len()));
            }
        }
    }
    let follows = |one: u32, next: u32| one + 1 == next && lines.same_line(one, next);
    loop {
        let mut changed = false;
        for one in 0..sets.len() {
            for other in 0..sets.len() {
                let ((a, from, label), (b, to, second)) = (sets[one], sets[other]);
                let along_q = a[0] == b[0]
                    && follows(a[1], b[1])
                    && from.at_ends_of_q[1].is_some()
                    && to.at_ends_of_q[0].is_some();
                let along_p = a[1] == b[1]
                    && follows(a[0], b[0])
                    && from.at_ends_of_p[1]
                    && to.at_ends_of_p[0];
                if (along_q || along_p) && label != second {
                    let least = label.min(second);
                    (sets[one].2, sets[other].2) = (least, least);
                    changed = true;
                }
            }
        }
        if !changed {
            break;
        }
    }
    let mut labels: Vec<usize> = sets.iter().map(|set| set.2).collect();
    labels.sort_unstable();
    labels.dedup();
    let reach = |label: usize| {
        let mut reach = [[f64::INFINITY, f64::NEG_INFINITY]; 2];
        for (segments, shape, _) in sets.iter().filter(|set| set.2 == label) {
            for (part, range) in [shape.x, shape.y].into_iter().enumerate() {
                let start = lines.reach(segments[part])[0];
                reach[part] = [
                    reach[part][0].min(start + range[0]),
                    reach[part][1].max(start + range[1]),
                ];
            }
        }
        reach
    };
    labels.into_iter().map(reach).collect()
}

/// Pairs of samples of one line within the distance and the gap, joined when both are next to each
/// other, as the ranges of distances along the line.
fn joined_samples(line: &[Point], step: f64, distance: f64, least_gap: f64) -> Vec<[[f64; 2]; 2]> {
    let length = crate::geom::measure::length(line);
    let count = (length / step).ceil() as usize;
    let along = |index: usize| (index as f64 * step).min(length);
    let points: Vec<Point> = (0..=count)
        .map(|index| crate::geom::measure::point_at(line, along(index)).expect("a line"))
        .collect();
    let near = |s: usize, t: usize| {
        along(t) - along(s) >= least_gap && (points[s] - points[t]).norm() <= distance
    };
    let mut seen = vec![false; (count + 1) * (count + 1)];
    let mut ranges = Vec::new();
    for (s, t) in (0..=count).flat_map(|s| (0..=count).map(move |t| (s, t))) {
        if !near(s, t) || std::mem::replace(&mut seen[s * (count + 1) + t], true) {
            continue;
        }
        let mut range = [[along(s); 2], [along(t); 2]];
        let mut open = vec![(s, t)];
        while let Some((s, t)) = open.pop() {
            for (part, index) in [s, t].into_iter().enumerate() {
                range[part] = [
                    range[part][0].min(along(index)),
                    range[part][1].max(along(index)),
                ];
            }
            for (x, y) in (s.saturating_sub(1)..=(s + 1).min(count))
                .flat_map(|x| (t.saturating_sub(1)..=(t + 1).min(count)).map(move |y| (x, y)))
            {
                if near(x, y) && !std::mem::replace(&mut seen[x * (count + 1) + y], true) {
                    open.push((x, y));
                }
            }
        }
        ranges.push(range);
    }
    ranges
}

fn holds(outer: &[[f64; 2]; 2], inner: &[[f64; 2]; 2], slack: f64) -> bool {
    (0..2).all(|part| {
        outer[part][0] <= inner[part][0] + slack && inner[part][1] <= outer[part][1] + slack
    })
}

#[test]
fn a_run_that_is_taken_is_cut_out_and_the_rest_stays() {
    let point = Point::new;
    // On top of one another from 30 to 60, a tenth apart before and after.
    let base = vec![point(0.0, 0.0), point(90.0, 0.0)];
    let over = vec![
        point(0.0, 0.1),
        point(29.9, 0.1),
        point(30.0, 0.0),
        point(60.0, 0.0),
        point(60.1, 0.1),
        point(90.0, 0.1),
    ];
    let lines = lines(&[base, over]);
    let doubled: Vec<Component> = found(&lines, 0.01, 0.02, &[]);
    assert_eq!(doubled.len(), 1);
    assert!((doubled[0].length() - 30.0).abs() < 0.1);
    let taken = Taken {
        segments: doubled[0].segments,
        first: doubled[0].reach[0],
    };
    assert_eq!(found(&lines, 0.2, 0.4, &[]).len(), 1);
    let rest = found(&lines, 0.2, 0.4, &[taken]);
    assert_eq!(rest.len(), 2);
    for (run, [from, to]) in rest.iter().zip([[0.0, 30.0], [60.0, 90.0]]) {
        assert!((run.reach[0][0] - from).abs() < 0.1 && (run.reach[0][1] - to).abs() < 0.1);
    }
}

#[test]
fn a_cut_that_starts_at_a_point_parts_the_run_there() {
    let row = |y: f64| {
        (0..=9)
            .map(|k| Point::new(10.0 * f64::from(k), y))
            .collect::<Vec<_>>()
    };
    // Corners that are hardly any keep the points.
    let bent = |mut row: Vec<Point>| {
        row.iter_mut()
            .skip(1)
            .step_by(2)
            .for_each(|point| point.y += 0.001);
        row
    };
    let lines = lines(&[bent(row(0.0)), bent(row(0.1))]);
    let start = lines.reach(3)[0];
    let taken = Taken {
        segments: [[3, 3], [10, 18]],
        first: [start, start + 5.0],
    };
    let runs = found(&lines, 0.2, 0.4, &[taken]);
    let reach: Vec<[f64; 2]> = runs.iter().map(|run| run.reach[0]).collect();
    assert_eq!(reach, [[0.0, start], [start + 5.0, lines.reach(8)[1]]]);
}

fn walk(steps: &[(f64, f64)]) -> Vec<Point> {
    let mut line = vec![Point::origin()];
    let mut angle = 0.0f64;
    for (turn, length) in steps {
        angle += turn;
        line.push(
            line[line.len() - 1] + crate::geom::Vector::new(angle.cos(), angle.sin()) * *length,
        );
    }
    line
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(96)))]

    #[test]
    fn comparing_all_with_all_agrees(
        list in prop::collection::vec(prop::collection::vec((-2.0..2.0f64, 0.1..1.5f64), 1..24), 1..4), distance in 0.05..1.0f64,
    ) {
        let list: Vec<Vec<Point>> = list.iter().map(|steps| walk(steps)).collect();
        let lines = lines(&list);
        let runs: Vec<_> = found(&lines, distance, 2.0 * distance, &[]).iter().map(|run| run.reach).collect();
        prop_assert_eq!(runs, all_with_all(&lines, distance, 2.0 * distance));
    }

    /// Steps of the samples change a distance by less than twice their length, so that the
    /// samples' runs lie within runs of a little more distance and hold those of a little less.
    #[test]
    fn samples_joined_step_by_step_agree(
        steps in prop::collection::vec((-2.5..2.5f64, 0.2..1.2f64), 3..12), distance in 0.3..1.0f64,
    ) {
        let (line, step) = (walk(&steps), 0.05);
        let lines = lines(std::slice::from_ref(&line));
        let samples = joined_samples(&line, step, distance, 2.0 * distance);
        let reaches = |distance: f64, gap: f64| found(&lines, distance, gap, &[]).into_iter().map(|run| run.reach).collect::<Vec<_>>();
        let more = reaches(distance + 2.0 * step, 2.0 * distance - 2.0 * step);
        for sample in &samples {
            prop_assert!(more.iter().any(|run| holds(run, sample, 1e-9)));
        }
        if distance > 2.0 * step {
            for run in reaches(distance - 2.0 * step, 2.0 * distance + 2.0 * step) {
                prop_assert!(samples.iter().any(|sample| holds(sample, &run, step)));
            }
        }
    }

    #[test]
    fn neither_direction_nor_order_matters(
        list in prop::collection::vec(prop::collection::vec((-2.0..2.0f64, 0.1..1.5f64), 1..24), 1..4), distance in 0.05..1.0f64,
    ) {
        let forward: Vec<Vec<Point>> = list.iter().map(|steps| walk(steps)).collect();
        let backward: Vec<Vec<Point>> = forward.iter().rev().map(|line| line.iter().rev().copied().collect()).collect();
        let sizes = |list: &[Vec<Point>]| {
            let lines = lines(list);
            found(&lines, distance, 2.0 * distance, &[])
                .iter()
                .map(|run| run.reach.map(|[from, to]| to - from))
                .map(|[a, b]| [a.min(b), a.max(b)])
                .collect::<Vec<_>>()
        };
        let (sizes, mut others) = (sizes(&forward), sizes(&backward));
        prop_assert_eq!(sizes.len(), others.len());
        for one in sizes {
            let same = |other: &[f64; 2]| (one[0] - other[0]).abs() < 1e-9 && (one[1] - other[1]).abs() < 1e-9;
            let found = others.iter().position(same);
            prop_assert!(found.is_some(), "{:?} {:?}", one, others);
            others.swap_remove(found.expect("found"));
        }
    }
}
