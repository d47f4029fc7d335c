//! Drawings of several strokes: what is stitched twice, linked, and in which order.

use super::*;
use crate::geom::measure::length;
use crate::strokes::EndPlace;
use proptest::prelude::*;

const JOIN: f64 = 0.1;

fn line(points: &[(f64, f64)]) -> Vec<Point> {
    points.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

/// What is made, and the points of its first line.
struct Tried {
    points: Vec<Point>,
    added: Vec<AddedStretch>,
    links: Vec<Gap>,
    report: OneLineReport,
    lines: usize,
}

fn made(strokes: &[Vec<Point>], ends: LineEnds) -> Tried {
    cut(strokes, ends, None)
}

fn cut(strokes: &[Vec<Point>], ends: LineEnds, price: Option<f64>) -> Tried {
    let named: Vec<(&str, &[Point])> = strokes
        .iter()
        .map(|points| ("s", points.as_slice()))
        .collect();
    let mut made = one_line(&named, JOIN, ends, price).expect("one line");
    let report = made.report;
    let sum = report.drawn + report.retraced + report.linked;
    let long: f64 = made.lines.iter().map(|line| length(&line.points)).sum();
    assert!((long - sum).abs() < 1e-6 * sum, "{report:?}");
    assert_eq!(made.lines.len(), report.cuts + 1);
    let linked: f64 = made.links.iter().map(Gap::size).sum();
    assert!((linked - report.linked).abs() < 1e-9);
    assert!(report.least <= report.added() + 1e-6);
    let lines = made.lines.len();
    let MadeLine { points, added } = made.lines.swap_remove(0);
    Tried {
        points,
        added,
        links: made.links,
        report,
        lines,
    }
}

#[test]
fn a_stem_with_leaves_goes_over_the_least() {
    // A stem of 10 with a leaf of 2 at either side, 4 and 7 along it: both leaves are gone over
    // again.
    let strokes = [
        line(&[(0.0, 0.0), (10.0, 0.0)]),
        line(&[(4.0, 0.0), (4.0, 2.0)]),
        line(&[(7.0, -2.0), (7.0, 0.05)]),
    ];
    let made = made(&strokes, LineEnds::Across);
    assert!(
        (made.report.retraced - 4.0).abs() < 1e-9,
        "{:?}",
        made.report
    );
    assert_eq!(
        (made.points[0], made.points[made.points.len() - 1]),
        (Point::new(0.0, 0.0), Point::new(10.0, 0.0))
    );
    assert_eq!(made.report.least, made.report.retraced);
    assert_eq!((made.report.strokes, made.added.len()), (3, 2));
}

#[test]
fn a_ring_as_a_repeat_goes_over_its_shorter_half() {
    let ring = line(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (0.0, 0.0)]);
    let made = made(&[ring], LineEnds::Across);
    let ends = [made.points[0], made.points[made.points.len() - 1]];
    assert_eq!(ends.map(|end| end.y), [0.0, 0.0]);
    assert!(
        (made.report.retraced - 4.0).abs() < 1e-9,
        "{:?}",
        made.report
    );
}

#[test]
fn parts_that_lie_apart_are_linked_where_they_are_nearest() {
    let ring = |x: f64| line(&[(x, 0.0), (x + 4.0, 0.0), (x + 4.0, 4.0), (x, 4.0), (x, 0.0)]);
    let made = made(&[ring(0.0), ring(5.0), ring(10.0)], LineEnds::Free);
    // From the middle ring to the left one and back, and at the end to the right one.
    assert!((made.report.linked - 3.0).abs() < 1e-9, "{:?}", made.report);
    assert_eq!(made.report.retraced, 0.0);
    let far = EndPlace::At(Point::new(14.0, 4.0));
    let given = LineEnds::given(Some(EndPlace::At(Point::new(0.0, 4.0))), Some(far));
    let across = self::made(&[ring(0.0), ring(5.0), ring(10.0)], given);
    assert_eq!(across.points[0], Point::new(0.0, 4.0));
    assert_eq!(
        across.points[across.points.len() - 1],
        Point::new(14.0, 4.0)
    );
}

#[test]
fn the_thread_is_cut_where_that_saves_more_than_its_price() {
    let ring = |x: f64| line(&[(x, 0.0), (x + 4.0, 0.0), (x + 4.0, 4.0), (x, 4.0), (x, 0.0)]);
    let rings = [ring(0.0), ring(5.0), ring(25.0)];
    // 1 there and back or 1 to go on; 17 to the third.
    let linked = cut(&rings, LineEnds::Free, Some(50.0));
    assert_eq!((linked.lines, linked.report.cuts), (1, 0));
    assert!(
        (linked.report.linked - 18.0).abs() < 1e-9,
        "{:?}",
        linked.report
    );
    let apart = cut(&rings, LineEnds::Free, Some(10.0));
    assert_eq!((apart.lines, apart.report.cuts), (2, 1));
    assert!(
        (apart.report.added() - 11.0).abs() < 1e-9,
        "{:?}",
        apart.report
    );
    let all = cut(&rings, LineEnds::Free, Some(0.5));
    assert_eq!((all.lines, all.report.linked), (3, 0.0));
}

#[test]
fn what_is_drawn_twice_is_stitched_once() {
    let circle: Vec<Point> = (0..=200)
        .map(|k| (f64::from(k) * std::f64::consts::TAU / 200.0).sin_cos())
        .map(|(y, x)| Point::new(20.0 * x, 20.0 * y))
        .collect();
    let mut turned = circle[60..].to_vec();
    turned.extend(&circle[1..=60]);
    turned.reverse();
    let stem = line(&[(20.0, 0.0), (40.0, 0.0)]);
    let made = made(&[circle.clone(), turned, stem], LineEnds::Free);
    assert!(
        (made.report.overlaid - length(&circle)).abs() < 0.5,
        "{:?}",
        made.report
    );
    assert!((made.report.drawn - length(&circle) - 20.0).abs() < 0.5);
    assert!(made.report.retraced < 1e-9);
}

/// A smooth line that crosses itself, by seed.
fn wandering(seed: u32) -> Vec<Point> {
    let f = |k: f64| (f64::from(seed) * k).sin();
    (0..=900)
        .map(|k| f64::from(k) * 0.02)
        .map(|t| {
            Point::new(
                4.0 * t + 18.0 * (t * (1.1 + 0.2 * f(1.3)) + f(2.1)).cos(),
                20.0 * (t * (0.9 + 0.2 * f(0.7)) + f(3.3)).sin() + 6.0 * (2.3 * t + f(1.9)).cos(),
            )
        })
        .collect()
}

/// The line cut into strokes at places by seed, shuffled and turned.
fn cut_up(line: &[Point], seed: u32) -> Vec<Vec<Point>> {
    let mut places: Vec<usize> = (1..8)
        .map(|k| 40 + (seed as usize * 97 + k * k * 131) % 820)
        .collect();
    places.extend([0, line.len() - 1]);
    places.sort_unstable();
    places.dedup();
    let mut strokes: Vec<Vec<Point>> = places
        .windows(2)
        .map(|pair| line[pair[0]..=pair[1]].to_vec())
        .collect();
    let count = strokes.len();
    for at in 0..count {
        strokes.swap(at, (at * 7 + seed as usize) % count);
        if (at + seed as usize).is_multiple_of(3) {
            strokes[at].reverse();
        }
    }
    strokes
}

#[test]
fn a_smooth_line_that_was_cut_up_comes_back_in_its_order() {
    let mut back = 0;
    for seed in 0..100 {
        let line = wandering(seed);
        let made = made(&cut_up(&line, seed), LineEnds::Free);
        assert!(
            made.report.retraced < 1e-9 && made.links.is_empty(),
            "{seed}: {:?}",
            made.report
        );
        let mut points = made.points;
        if (points[0] - line[0]).norm() > 1.0 {
            points.reverse();
        }
        // At the same distance along, the same place.
        let same = (0..=50).all(|k| {
            let along = f64::from(k) / 50.0 * length(&line);
            let place = |of: &[Point]| crate::geom::measure::point_at(of, along).expect("a point");
            (place(&points) - place(&line)).norm() < 1.0
        });
        back += usize::from(same);
    }
    assert!(back >= 95, "{back}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Moved, turned, in another order and direction, the same is added.
    #[test]
    fn what_is_added_does_not_depend_on_how_it_lies(
        strokes in prop::collection::vec(prop::collection::vec((0.0..120.0f64, 0.0..120.0f64), 2..4), 1..6),
        turn in 0.0..6.0f64,
        shift in -50.0..50.0f64,
    ) {
        let strokes: Vec<Vec<Point>> = strokes
            .iter()
            .map(|points| line(points))
            .filter(|points| points.len() > 1)
            .collect();
        prop_assume!(!strokes.is_empty());
        let (sin, cos) = turn.sin_cos();
        let place = |p: &Point| Point::new(cos * p.x - sin * p.y + shift, sin * p.x + cos * p.y - shift);
        let mut moved: Vec<Vec<Point>> = strokes.iter().map(|points| points.iter().map(place).collect()).collect();
        moved.reverse();
        moved[0].reverse();
        let (one, other) = (made(&strokes, LineEnds::Free).report, made(&moved, LineEnds::Free).report);
        let added = |report: OneLineReport| report.retraced + report.linked;
        let exact = [one, other].iter().all(|report| report.least >= added(*report) - 1e-6);
        prop_assert!((one.drawn - other.drawn).abs() < 2.0 * JOIN * strokes.len() as f64, "{one:?} {other:?}");
        if exact {
            prop_assert!((added(one) - added(other)).abs() < 1.0, "{one:?} {other:?}");
        }
    }
}
