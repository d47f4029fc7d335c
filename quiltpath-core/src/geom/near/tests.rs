//! The near pairs against all pairs, and the work on lines that are no drawing.

use super::*;
use crate::check::cell::Cell;
use proptest::prelude::*;

fn lines(list: &[Vec<Point>]) -> Lines {
    let views: Vec<&[Point]> = list.iter().map(Vec::as_slice).collect();
    Lines::new(&views, 0.0).expect("lines")
}

/// All pairs of segments that hold a pair of places which counts.
fn all_pairs(lines: &Lines, distance: f64, least_gap: f64) -> Vec<(u32, u32)> {
    let segments: Vec<u32> = lines.segments().collect();
    let mut pairs = Vec::new();
    for (index, &first) in segments.iter().enumerate() {
        for &second in &segments[index + 1..] {
            let x = [0.0, lines.span(first)];
            let cell = Cell::new(lines, [first, second], x, [least_gap, f64::INFINITY]);
            if cell.shape(distance).is_some() {
                pairs.push((first, second));
            }
        }
    }
    pairs
}

/// A number from 0 to 1 for each count, without order.
fn scattered(count: u32, seed: f64) -> f64 {
    (f64::from(count) * 0.618_033_988_749_894_9 + (f64::from(count) * seed).sin() * 43_758.5)
        .rem_euclid(1.0)
}

#[test]
fn a_scribble_in_one_spot_is_reported_and_not_gone_through() {
    let point = |k: u32| Point::new(scattered(k, 12.9), scattered(k, 78.2));
    let scribble: Vec<Point> = (0..100_000).map(point).collect();
    let lines = lines(&[scribble]);
    let mut search = Search::new(&lines, 1.6, 3.2);
    let near = search.run();
    assert!(search.tests <= search.budget);
    assert!(near.crowded.iter().any(|spot| spot.segments > 90_000));
    assert!((near.crowded[0].at - Point::new(0.5, 0.5)).norm() < 4.0);
}

/// Far points, tiny and long segments, all in one: the work stays near the number of segments.
#[test]
fn far_points_do_not_make_the_grid_useless() {
    let wave = |k: u32| {
        Point::new(
            0.5 * f64::from(k % 300),
            f64::from(k / 300) * 4.0 + (0.3 * f64::from(k)).sin(),
        )
    };
    let rows = (0..30_000u32)
        .step_by(300)
        .map(|row| (row..row + 300).map(wave).collect());
    let mut list: Vec<Vec<Point>> = rows.collect();
    for far in [1e3, 1e6, 1e9] {
        list.push(vec![Point::new(-far, -far), Point::new(-far, far / 2.0)]);
    }
    let across = (0..150).map(|k| {
        vec![
            Point::new(f64::from(k), -9.0),
            Point::new(f64::from(k) - 40.0, 420.0),
        ]
    });
    list.extend(across);
    let lines = lines(&list);
    let mut search = Search::new(&lines, 1.0, 2.0);
    let near = search.run();
    assert!(near.crowded.is_empty());
    assert!(
        search.tests < 60 * lines.points().len() as u64,
        "{}",
        search.tests
    );
    assert!(!near.pairs.is_empty());
}

/// There a coordinate is exact to 1e-7 alone, so a segment may pass near many small squares.
#[test]
fn a_speck_far_from_the_origin_lists_each_segment_in_few_squares() {
    let speck = |k: u32| {
        Point::new(
            1e9 - 1e-5 * scattered(k, 12.9),
            1e9 - 1e-5 * scattered(k, 78.2),
        )
    };
    let lines = lines(&[(0..5_000).map(speck).collect::<Vec<Point>>()]);
    let all: Vec<u32> = lines.segments().collect();
    let area = lines.bounds().expect("a box");
    let grid = Grid::new(&lines, 1e-9, area, &all);
    let (_, entries) = grid.fill(&lines, &all);
    assert!(entries.len() < 16 * all.len(), "{}", entries.len());
}

#[test]
fn no_more_pairs_are_kept_than_can_be() {
    // 100 spots far apart with 200 lines on top of one another have 2 million pairs.
    let spot = |k: u32| {
        let x = 100.0 * f64::from(k / 200);
        vec![Point::new(x, 0.0), Point::new(x + 0.3, 0.0)]
    };
    let lines = lines(&(0..20_000).map(spot).collect::<Vec<_>>());
    let mut search = Search::new(&lines, 0.2, 0.4);
    search.most = 1_000_000;
    let near = search.run();
    assert!((500_000..1_020_000).contains(&near.pairs.len()));
    assert!(near.crowded.len() >= 45 && near.crowded.iter().all(|spot| spot.segments == 200));
    assert_eq!(near_pairs(&lines, 0.2, 0.4).pairs.len(), 1_990_000);
}

proptest! {
    #[test]
    fn no_pair_is_missed(
        list in prop::collection::vec(prop::collection::vec((-9.0..9.0f64, -9.0..9.0f64), 0..40), 1..5),
        distance in 0.01..3.0f64, sizes in prop::array::uniform2(0..5i32),
    ) {
        let scale = sizes.map(|size| 10f64.powi(-size));
        let list: Vec<Vec<Point>> = list
            .iter()
            .map(|line| line.iter().map(|&(x, y)| Point::new(x * scale[0], y * scale[1])).collect())
            .collect();
        let lines = lines(&list);
        let near = near_pairs(&lines, distance, 2.0 * distance);
        prop_assert!(near.pairs.is_sorted() && near.crowded.is_empty());
        for pair in all_pairs(&lines, distance, 2.0 * distance) {
            prop_assert!(near.pairs.binary_search(&pair).is_ok(), "{:?}", pair);
        }
        for (first, second) in near.pairs {
            prop_assert!(squared_distance(lines.ends(first), lines.ends(second)).sqrt() <= distance * 1.001);
        }
    }

    /// Steps that go on and turn slowly, with long ones among them, so that squares are divided.
    #[test]
    fn no_pair_is_missed_along_a_walk(
        steps in prop::collection::vec((-0.6..0.6f64, 0..3i32), 60..300), distance in 0.02..0.4f64, far in 0.0..1e6f64,
    ) {
        let mut line = vec![Point::new(far, -far)];
        let mut angle = 0.0f64;
        for (turn, size) in steps {
            angle += turn;
            let step = Vector::new(angle.cos(), angle.sin()) * 8f64.powi(-size);
            line.push(line[line.len() - 1] + step);
        }
        let lines = lines(&[line]);
        let near = near_pairs(&lines, distance, 2.0 * distance);
        for pair in all_pairs(&lines, distance, 2.0 * distance) {
            prop_assert!(near.pairs.binary_search(&pair).is_ok(), "{:?}", pair);
        }
    }
}
