//! Lengths in squares against cutting every segment at every square; places, limits and refusals.

use super::*;
use crate::geom::measure;
use proptest::prelude::*;

fn lines(list: &[Vec<Point>]) -> Lines {
    let views: Vec<&[Point]> = list.iter().map(Vec::as_slice).collect();
    Lines::new(&views, 0.0).expect("lines")
}

/// The length of a segment in a box: the range of it that is within all four edges.
fn cut([a, b]: [Point; 2], low: Point, high: Point) -> f64 {
    let step = b - a;
    let (mut from, mut to) = (0.0f64, 1.0f64);
    for axis in [0, 1] {
        let [one, other] = [low[axis], high[axis]].map(|level| (level - a[axis]) / step[axis]);
        if step[axis] != 0.0 {
            from = from.max(one.min(other));
            to = to.min(one.max(other));
        } else if a[axis] < low[axis] || a[axis] >= high[axis] {
            return 0.0;
        }
    }
    (to - from).max(0.0) * step.norm()
}

fn rows(apart: f64, count: u32) -> Vec<Vec<Point>> {
    let row = |k: u32| {
        let y = (f64::from(k) + 0.5) * apart;
        vec![Point::new(0.0, y), Point::new(100.0, y)]
    };
    (0..count).map(row).collect()
}

#[test]
fn rows_a_sixteenth_apart_just_meet_the_default() {
    let found = |list: &[Vec<Point>]| {
        density(&lines(list), &DensityLimit::default())
            .expect("limits")
            .places
    };
    assert_eq!(found(&rows(25.4 / 16.0, 64)), []);
    let dense = found(&rows(25.4 / 17.0, 68));
    assert_eq!(dense.len(), 1);
    assert!((dense[0].length - 17.0 * 25.4).abs() < 1e-9);
    // A square needs all 17 rows, on 16/17 of its width: from 1.5 before the rows' start to 23.9
    // before their end, and from the first row to the 52nd. Quarters of a side start each 6.35.
    let columns = -1..=11;
    let down = 0..=12;
    assert_eq!(dense[0].squares, columns.count() * down.count());
    assert_eq!(dense[0].area.min, Point::new(-25.4 / 32.0, 0.0));
    assert_eq!(dense[0].lines.len(), 17);
    assert!(
        dense[0]
            .lines
            .iter()
            .all(|(_, length)| (length - 25.4).abs() < 1e-9)
    );
}

#[test]
fn places_apart_are_listed_one_by_one_the_fullest_first() {
    let scribble = |x: f64, count: u32| -> Vec<Point> {
        (0..=count)
            .map(|k| Point::new(x + 10.0 * f64::from(k % 2), 3.0 + 0.01 * f64::from(k)))
            .collect()
    };
    let limit = DensityLimit {
        side: 20.0,
        length: 300.0,
    };
    let list = [
        scribble(103.0, 40),
        scribble(503.0, 60),
        scribble(303.0, 20),
        scribble(113.5, 40),
    ];
    let found = density(&lines(&list), &limit).expect("limits").places;
    assert_eq!(found.len(), 2);
    // From 103 to 123 lie the first scribble and 9.5 of the 10 across of the last; squares start at
    // multiples of 5/8.
    assert!((found[0].length - 780.0).abs() < 1.0 && (found[1].length - 600.0).abs() < 1.0);
    assert_eq!(
        found[0]
            .lines
            .iter()
            .map(|share| share.0)
            .collect::<Vec<_>>(),
        [0, 3]
    );
    assert_eq!(found[1].lines[0].0, 1);
    // Squares that hold all of it start at 493 to 503, and the one in their middle is told.
    assert!(
        (found[1].at - Point::new(508.0, 3.3)).norm() < 5.0,
        "{:?}",
        found[1].at
    );
}

#[test]
fn a_full_square_inch_is_found_wherever_it_lies() {
    // 19 rows of an inch, within an inch: 19 in of line in that, and little in any neighbour.
    for (x, y) in [
        (0.0, 0.0),
        (0.25, 0.25),
        (0.3, 0.7),
        (0.51, 0.99),
        (0.015, 0.484),
    ] {
        let rows = (0..38u32).map(|k| {
            let across = 0.999 * f64::from(k.div_ceil(2) % 2);
            Point::new(x + across, y + 0.999 * f64::from(k / 2) / 18.0) * 25.4
        });
        let rows: Vec<Point> = rows.collect();
        let found = density(&lines(&[rows]), &DensityLimit::default())
            .expect("limits")
            .places;
        assert_eq!(found.len(), 1, "{x} {y}");
        assert!(found[0].length > 18.0 * 25.4, "{x} {y} {}", found[0].length);
    }
}

#[test]
fn a_line_along_an_edge_counts_once_in_each_square() {
    let edge = vec![Point::new(10.0, 0.0), Point::new(10.0, 40.0)];
    let limit = DensityLimit {
        side: 20.0,
        length: 15.0,
    };
    let found = density(&lines(&[edge]), &limit).expect("limits").places;
    // Squares that start from -9.375 to 10 hold it, in 5 quarters of a side; those from -4.375 to
    // 24.375 down hold more than 15 of it, in 6.
    assert_eq!((found.len(), found[0].squares), (1, 30));
    assert!((found[0].length - 20.0).abs() < 1e-9);
}

#[test]
fn what_cannot_be_counted_is_refused() {
    let list = lines(&[vec![Point::new(-1e9, 0.0), Point::new(1e9, 1e9)]]);
    let error = density(&list, &DensityLimit::default()).expect_err("far");
    assert!(
        error.is_check() && error.to_string().contains("up to 4194304 are accepted"),
        "{error}"
    );
    let wide = DensityLimit {
        side: 1e6,
        length: 1e6,
    };
    assert!(!density(&list, &wide).expect("few tiles").places.is_empty());
    for (side, length) in [
        (0.0, 1.0),
        (1e-7, 1.0),
        (f64::NAN, 1.0),
        (1.0, -1.0),
        (1.0, f64::INFINITY),
    ] {
        assert!(
            density(&list, &DensityLimit { side, length })
                .expect_err("refused")
                .is_geometry()
        );
    }
}

#[test]
fn far_from_the_origin_tiles_keep_their_places() {
    for far in [-1e9, 1e9 - 10.0] {
        let line = vec![Point::new(far, far), Point::new(far + 5.0, far + 5.0)];
        let limit = DensityLimit {
            side: 1.0,
            length: 1.2,
        };
        let found = density(&lines(std::slice::from_ref(&line)), &limit)
            .expect("limits")
            .places;
        assert_eq!((found.len(), found[0].lines[0].0), (1, 0));
        assert!((found[0].at - line[0]).norm() < 8.0);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn cutting_at_every_square_agrees(
        list in prop::collection::vec(prop::collection::vec((-9.0..9.0f64, -9.0..9.0f64), 2..20), 1..4),
        side in 4.0..8.0f64, share in 0.0..1.0f64, whole: bool,
    ) {
        // On whole numbers, points and segments lie on edges.
        let side = if whole { (side / 4.0).round() * 4.0 } else { side };
        let round = |v: f64| if whole { v.round() } else { v };
        let list: Vec<Vec<Point>> = list.iter().map(|line| line.iter().map(|&(x, y)| Point::new(round(x), round(y))).collect()).collect();
        let lines = lines(&list);
        let segments: Vec<[Point; 2]> = list.iter().flat_map(|line| line.windows(2)).map(|pair| [pair[0], pair[1]]).collect();
        let held = |corner: Point| -> f64 {
            segments.iter().map(|pair| cut(*pair, corner, corner + Vector::repeat(side))).sum()
        };
        // The fullest of the 64 squares that start in each quarter of a side.
        let quarters = (-18..10).flat_map(|x| (-18..10).map(move |y| [x, y]));
        let fullest: Vec<(Tile, f64)> = quarters.map(|tile: Tile| {
            let parts = (0..64).map(|part| Vector::new(f64::from(part % 8), f64::from(part / 8)) / 8.0);
            let corners = parts.map(|part| Point::from((Vector::new(tile[0] as f64, tile[1] as f64) + part) * (side / 4.0)));
            (tile, corners.map(held).fold(0.0, f64::max))
        }).collect();
        let tiles = Tiles::of(&lines, side / 4.0).expect("few");
        let blocks: Vec<Tile> = fullest.iter().map(|square| square.0).collect();
        let fine = Fine::of(&lines, &tiles, &blocks);
        for (tile, length) in &fullest {
            let ours = fine.fullest(*tile).length;
            prop_assert!((ours - length).abs() < 1e-6, "{:?} {} {}", tile, ours, length);
        }
        // The same over a limit, but for those that rounding decides.
        let most = fullest.iter().map(|square| square.1).fold(0.0, f64::max);
        let limit = most * share + 1e-3;
        let over = tiles.blocks_over(limit);
        prop_assert!(fullest.iter().all(|(tile, length)| *length <= limit || over.contains(tile)));
        let places = density(&lines, &DensityLimit { side, length: limit }).expect("limits").places;
        let sure = fullest.iter().filter(|square| square.1 > limit + 1e-6).count();
        let maybe = fullest.iter().filter(|square| square.1 > limit - 1e-6).count();
        let found = places.iter().map(|place| place.squares).sum::<usize>();
        prop_assert!((sure..=maybe).contains(&found), "{} {} {}", sure, found, maybe);
        prop_assert!(places.is_sorted_by(|a, b| a.length >= b.length));
        for place in &places {
            let shares: f64 = place.lines.iter().map(|share| share.1).sum();
            prop_assert!((shares - place.length).abs() < 1e-6);
            prop_assert!((held(place.at - Vector::repeat(side / 2.0)) - place.length).abs() < 1e-6);
        }
    }
}

proptest! {
    /// A square of 31/32 of the side, anywhere, lies in one that is looked at.
    #[test]
    fn no_spot_falls_between_squares(x in -50.0..50.0f64, y in -50.0..50.0f64) {
        let size = 31.0 / 32.0 * 8.0;
        let spot: Vec<Point> = (0..=40)
            .map(|k| Point::new(x + size * f64::from(k % 2), y + size * f64::from(k) / 40.0))
            .collect();
        let length = measure::length(&spot);
        let limit = DensityLimit { side: 8.0, length: length * (1.0 - 1e-6) };
        let places = density(&lines(&[spot]), &limit).expect("limits").places;
        prop_assert_eq!(places.len(), 1);
        prop_assert!((places[0].length - length).abs() < 1e-6);
    }
}
