//! Ends that are given: where the line has them, and that nothing is added for what is there.

use super::*;
use crate::geom::measure::distance_to_segment;
use crate::strokes::{Drawing, Joined, JoinedLines, OneLineOptions, Stroke};
use proptest::prelude::*;

const JOIN: f64 = 0.1;

fn drawn(data: &str) -> Drawing {
    let path = kurbo::BezPath::from_svg(data).expect("path data");
    Drawing::new("d", vec![Stroke::new("s", path)])
}

fn at(x: f64, y: f64) -> Option<EndPlace> {
    Some(EndPlace::At(Point::new(x, y)))
}

fn options(ends: LineEnds) -> OneLineOptions {
    OneLineOptions::default().with_join(JOIN).with_ends(ends)
}

fn line(drawing: &Drawing, ends: LineEnds) -> Joined {
    drawing.one_line(&options(ends)).expect("one line")
}

fn ends_of(line: &Joined) -> [Point; 2] {
    [line.motif.start().point, line.motif.end().point]
}

const LEGS: LegEnds = LegEnds {
    elbow: BoxCorner::TopLeft,
    depth_horizontal: 10.0,
    depth_vertical: 10.0,
    turn_degrees: 0.0,
};

/// A line that is one already stays as it is drawn, turned where its end is to be its start.
#[test]
fn a_start_at_a_drawn_end_adds_nothing() {
    // A curve, which would lose its directions on another way; pieces; and a line over itself.
    for data in [
        "M0 0 C 0 40 60 40 60 0",
        "M30 0 H 0 M 30 0 C 40 0 50 9 60 9",
        "M0 0 H 60 V 30 H 30 V -30",
    ] {
        let drawing = drawn(data);
        let free = line(&drawing, LineEnds::Free);
        let [from, to] = ends_of(&free);
        let turned = free.motif.clone().reversed();
        for of in [LineEnds::Free, LineEnds::Across, LineEnds::Legs(LEGS)] {
            for (start, end, wanted) in [
                (at(from.x, from.y + 0.05), None, &free.motif),
                (None, at(to.x, to.y), &free.motif),
                (at(from.x, from.y), at(to.x, to.y), &free.motif),
                (at(to.x, to.y), None, &turned),
                (None, at(from.x, from.y), &turned),
                (at(to.x, to.y), at(from.x, from.y), &turned),
            ] {
                let given = line(&drawing, of.with_given(start, end));
                assert_eq!(given.motif.points(), wanted.points(), "{data}");
                for (one, other) in [
                    (given.motif.start(), wanted.start()),
                    (given.motif.end(), wanted.end()),
                ] {
                    assert!((one.direction - other.direction).norm() < 1e-12);
                }
                assert_eq!((given.report.added(), given.added.len()), (0.0, 0));
                assert_eq!(given.report.strokes, 0, "{data}");
            }
        }
    }
}

/// A start within a line: one part of it is gone over again, the shorter one where the end is free.
#[test]
fn a_start_within_a_line_goes_over_a_part_of_it_again() {
    let drawing = drawn("M0 0 H 60");
    let free = line(&drawing, LineEnds::given(at(20.0, 3.0), None));
    assert_eq!(
        ends_of(&free),
        [Point::new(20.0, 0.0), Point::new(60.0, 0.0)]
    );
    assert!((free.report.retraced - 20.0).abs() < 1e-9);
    // As a repeat it ends at the edge that is farther off.
    let across = line(&drawing, LineEnds::Across.with_given(at(35.0, 0.0), None));
    assert_eq!(
        ends_of(&across),
        [Point::new(35.0, 0.0), Point::new(0.0, 0.0)]
    );
    assert!((across.report.retraced - 25.0).abs() < 1e-9);
}

/// A line that comes back over itself is kept once; the start lies there all the same.
#[test]
fn a_start_on_what_is_drawn_twice_is_met() {
    for data in [
        "M0 0 H 60 H 40",
        "M0 0 H 60 M 60 0.02 H 40",
        "M60 0 H 40 H 60 H 0",
    ] {
        let folded = line(&drawn(data), LineEnds::given(at(47.0, 5.0), None));
        let off = ends_of(&folded)[0] - Point::new(47.0, 0.0);
        assert!(off.norm() <= JOIN, "{data}: {off}");
    }
}

#[test]
fn a_closed_line_starts_and_ends_where_it_is_told() {
    let drawing = drawn("M0 0 H 40 V 40 H 0 Z");
    let ring = line(&drawing, LineEnds::given(at(50.0, 20.0), None));
    assert_eq!(ends_of(&ring), [Point::new(40.0, 20.0); 2]);
    assert_eq!(ring.report.added(), 0.0);
    // At its own start nothing changes.
    let own = line(&drawing, LineEnds::given(at(0.0, 0.0), None));
    assert_eq!(own.motif, line(&drawing, LineEnds::Free).motif);
    // As a repeat it has to come out on the other side.
    let across = line(&drawing, LineEnds::Across.with_given(at(0.0, 0.0), None));
    let [start, end] = ends_of(&across);
    assert_eq!((start, end.x), (Point::new(0.0, 0.0), 40.0));
    assert!((across.report.retraced - 40.0).abs() < 1e-9);
}

/// The end that is not given lies where the drawing's purpose has it, as high as the given one.
#[test]
fn the_other_end_is_that_of_the_purpose() {
    // A ladder: two rails that both end at both edges.
    let ladder = drawn("M0 0 H 60 M 0 10 H 60 M 20 0 V 10 M 40 0 V 10");
    for (x, other) in [(0.0, 60.0), (60.0, 0.0)] {
        for y in [0.0, 10.0] {
            let start = line(&ladder, LineEnds::Across.with_given(at(x, y), None));
            assert_eq!(ends_of(&start), [Point::new(x, y), Point::new(other, y)]);
            let end = line(&ladder, LineEnds::Across.with_given(None, at(x, y)));
            assert_eq!(ends_of(&end), [Point::new(other, y), Point::new(x, y)]);
        }
    }
    // An L of two lines each, 10 deep, its elbow at the top left; the bridges make its ends many.
    let l = drawn("M0 60 V 0 H 60 M 10 60 V 10 H 60 M 0 30 H 10 M 30 0 V 10 M 0 20 H 10");
    for depth in [0.0, 10.0] {
        let [foot, tip] = [Point::new(depth, 60.0), Point::new(60.0, depth)];
        let legs = LineEnds::Legs(LEGS);
        for (from, to) in [(foot, tip), (tip, foot)] {
            let start = line(&l, legs.with_given(at(from.x, from.y), None));
            assert_eq!(ends_of(&start), [from, to]);
            let end = line(&l, legs.with_given(None, at(to.x, to.y)));
            assert_eq!(ends_of(&end), [from, to]);
        }
    }
}

/// Where the thread may be cut, the first line starts and the last one ends where they are to.
#[test]
fn lines_with_thread_cuts_have_the_ends_that_are_given() {
    let rings = drawn("M0 0 H 40 V 40 H 0 Z M 50 0 H 90 V 40 H 50 Z M 100 0 H 140 V 40 H 100 Z");
    let ends = LineEnds::given(at(140.0, 40.0), at(0.0, 40.0));
    let lines: JoinedLines = rings.lines(&options(ends).with_cut(5.0)).expect("lines");
    let points = |line: usize| lines.motifs[line].points();
    let last = points(lines.motifs.len() - 1);
    assert_eq!(points(0)[0], Point::new(140.0, 40.0));
    assert_eq!(last[last.len() - 1], Point::new(0.0, 40.0));
}

proptest! {
    /// The start of what chance strokes become is their place that is nearest to the asked one,
    /// whatever they are for; nothing that is drawn is left out.
    #[test]
    fn the_line_starts_at_the_place_nearest_to_the_asked_one(
        strokes in prop::collection::vec(
            prop::collection::vec((0.0..100.0f64, 0.0..100.0f64), 2..6), 1..6,
        ),
        (x, y) in (-20.0..120.0f64, -20.0..120.0f64),
        purpose in 0..3usize,
        is_end in any::<bool>(),
    ) {
        let of = [LineEnds::Free, LineEnds::Across, LineEnds::Legs(LEGS)][purpose];
        let strokes: Vec<Vec<Point>> = strokes
            .iter()
            .map(|points| points.iter().map(|&(x, y)| Point::new(x, y)).collect())
            .collect();
        let drawing = Drawing::new("d", strokes.iter().enumerate().map(|(at, points)| {
            let mut path = kurbo::BezPath::new();
            path.move_to((points[0].x, points[0].y));
            points[1..].iter().for_each(|point| path.line_to((point.x, point.y)));
            Stroke::new(format!("s{at}"), path)
        }).collect());
        let (start, end) = match is_end {
            true => (None, at(x, y)),
            false => (at(x, y), None),
        };
        let made = line(&drawing, of.with_given(start, end));
        let asked = Point::new(x, y);
        let far = |points: &[Point]| {
            let pairs = points.windows(2);
            pairs.map(|pair| distance_to_segment(asked, pair[0], pair[1]))
                .fold(f64::INFINITY, f64::min)
        };
        let nearest = strokes.iter().map(|points| far(points)).fold(f64::INFINITY, f64::min);
        let got = ends_of(&made)[usize::from(is_end)];
        prop_assert!(
            (got - asked).norm() <= nearest + 2.0 * JOIN,
            "{got} is {} from {asked}, the nearest place {nearest}", (got - asked).norm()
        );
        for point in strokes.iter().flatten() {
            let near = made.motif.points().windows(2)
                .map(|pair| distance_to_segment(*point, pair[0], pair[1]))
                .fold(f64::INFINITY, f64::min);
            prop_assert!(near <= 2.0 * JOIN, "{point} is left out");
        }
    }
}
