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
    // Rows 100 long leave 6 squares in each of 7 rows of squares full: 3 1/2 squares across hold
    // the whole length of a row, the fourth not.
    assert_eq!(dense[0].squares, 6 * 7);
    assert_eq!(dense[0].area.min, Point::new(0.0, 0.0));
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
    // From 100 to 120 lie the first scribble and 6.5 of the 10 across of the last.
    assert!((found[0].length - 660.0).abs() < 1.0 && (found[1].length - 600.0).abs() < 1.0);
    assert_eq!(
        found[0]
            .lines
            .iter()
            .map(|share| share.0)
            .collect::<Vec<_>>(),
        [0, 3]
    );
    assert_eq!((found[1].lines[0].0, found[1].at.x), (1, 510.0));
    // The last square that holds the scribble from 500 on begins at 500, or half a side before.
    assert_eq!((found[1].area.min.x, found[1].area.max.x), (490.0, 520.0));
}

#[test]
fn a_line_along_an_edge_counts_once_in_each_square() {
    let edge = vec![Point::new(10.0, 0.0), Point::new(10.0, 40.0)];
    let limit = DensityLimit {
        side: 20.0,
        length: 15.0,
    };
    let found = density(&lines(&[edge]), &limit).expect("limits").places;
    // Two columns of squares hold it, at 0 and at 10; three rows of them hold 20 of it.
    assert_eq!(
        (found.len(), found[0].squares, found[0].length),
        (1, 6, 20.0)
    );
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
    #[test]
    fn cutting_at_every_square_agrees(
        list in prop::collection::vec(prop::collection::vec((-9.0..9.0f64, -9.0..9.0f64), 2..20), 1..4),
        side in 1.0..8.0f64, share in 0.0..1.0f64, whole: bool,
    ) {
        // On whole numbers, points and segments lie on edges.
        let side = if whole { side.round() * 2.0 } else { side };
        let round = |v: f64| if whole { v.round() } else { v };
        let list: Vec<Vec<Point>> = list.iter().map(|line| line.iter().map(|&(x, y)| Point::new(round(x), round(y))).collect()).collect();
        let lines = lines(&list);
        let tiles = Tiles::of(&lines, side / 2.0).expect("few");
        let total: f64 = tiles.shares.iter().map(|share| share.length).sum();
        prop_assert!((total - list.iter().map(measure::length).sum::<f64>()).abs() < 1e-9);
        let mut squares = Vec::new();
        for place in (-22..22).flat_map(|x| (-22..22).map(move |y| [x, y])) {
            let low = Point::new(place[0] as f64, place[1] as f64) * (side / 2.0);
            let high = low + Vector::repeat(side);
            let pairs = list.iter().flat_map(|line| line.windows(2));
            squares.push((place, pairs.map(|pair| cut([pair[0], pair[1]], low, high)).sum::<f64>()));
        }
        for (place, length) in &squares {
            let ours: f64 = tiles.square(*place).map(|share| share.length).sum();
            prop_assert!((ours - length).abs() < 1e-9, "{:?} {} {}", place, ours, length);
        }
        // The same squares over a limit, but for those that rounding decides.
        let fullest = squares.iter().map(|square| square.1).fold(0.0, f64::max);
        let limit = fullest * share + 1e-3;
        let over: Vec<Place> = tiles.squares_over(limit).iter().map(|square| square.0).collect();
        for (place, length) in squares {
            prop_assert!((length - limit).abs() < 1e-6 || over.contains(&place) == (length > limit));
        }
        let places = density(&lines, &DensityLimit { side, length: limit }).expect("limits").places;
        prop_assert_eq!(places.iter().map(|place| place.squares).sum::<usize>(), over.len());
        prop_assert!(places.is_sorted_by(|a, b| a.length >= b.length));
        for place in &places {
            let shares: f64 = place.lines.iter().map(|share| share.1).sum();
            prop_assert!((shares - place.length).abs() < 1e-9);
        }
    }

    /// A square of three quarters of the side, anywhere, lies in one that is looked at.
    #[test]
    fn no_spot_falls_between_squares(x in -50.0..50.0f64, y in -50.0..50.0f64) {
        let size = 0.75 * 8.0;
        let spot: Vec<Point> = (0..=40)
            .map(|k| Point::new(x + size * f64::from(k % 2), y + size * f64::from(k) / 40.0))
            .collect();
        let length = measure::length(&spot);
        let limit = DensityLimit { side: 8.0, length: length * 0.4 };
        let places = density(&lines(&[spot]), &limit).expect("limits").places;
        // Half a side is 4, so that at most 2 of the 6 are lost each way between whole squares; the
        // best one loses nothing when the spot starts in the first quarter of a tile.
        prop_assert_eq!(places.len(), 1);
    }
}
