use nalgebra::{Matrix2, Rotation2};
use proptest::prelude::*;

use super::super::course::without;
use super::super::line::Linear;
use super::super::map::Trend;
use super::super::spline::Spline;
use super::*;
use crate::geom::{Bounds, Point};

fn mark(name: usize, planned: Point, read: Point) -> Reading {
    Reading::new(format!("mark {name}"), planned, read)
}

fn read_by(places: &[Point], map: impl Fn(Point) -> Point) -> Vec<Reading> {
    let marks = places.iter().enumerate();
    marks
        .map(|(at, &place)| mark(at, place, map(place)))
        .collect()
}

fn places(count: usize) -> Vec<Point> {
    const ALL: [(f64, f64); 8] = [
        (150.0, 150.0),
        (1370.0, 150.0),
        (150.0, 400.0),
        (1370.0, 390.0),
        (760.0, 150.0),
        (0.0, 0.0),
        (1520.0, 10.0),
        (700.0, 0.0),
    ];
    ALL[..count]
        .iter()
        .map(|&(x, y)| Point::new(x, y))
        .collect()
}

#[test]
fn exact_readings_of_each_kind_give_their_map() {
    let turn = Rotation2::new(0.01);
    let pulled = Matrix2::new(1.01, 0.004, -0.003, 0.99);
    let affine = |point: Point| Point::new(20.0, -9.0) + pulled * point.coords;
    let rigid = |point: Point| turn * point + nalgebra::Vector2::new(5.0, 7.0);
    let beyond = Point::new(400.0, 300.0);
    for (count, trend) in [
        (1, Trend::Shift),
        (2, Trend::Line),
        (3, Trend::Affine),
        (8, Trend::Affine),
    ] {
        let found = align(&read_by(&places(count), affine)).expect("a map");
        assert_eq!(found.map.trend(), trend, "{count}");
        for report in &found.readings {
            assert!(report.off.norm() < 1e-9, "{count}: {report:?}");
        }
        assert_eq!(found.doubt, None);
        if count > 2 {
            assert!(
                (found.map.map(beyond) - affine(beyond)).norm() < 1e-9,
                "{count}"
            );
        }
    }
    // Two readings give a rigid motion whole, and so do more of them on a line.
    let line: Vec<Point> = (0..5)
        .map(|at| Point::new(300.0 * f64::from(at), 150.0))
        .collect();
    for marks in [read_by(&places(2), rigid), read_by(&line, rigid)] {
        let found = align(&marks).expect("a map");
        assert_eq!(found.map.trend(), Trend::Line);
        assert!((found.map.map(beyond) - rigid(beyond)).norm() < 1e-9);
    }
}

/// Numbers of scipy 1.17, made by `tests/references/align.py`.
#[test]
fn maps_are_those_of_scipy() {
    let marks = [
        ((0.0, 0.0), (2.01, 3.0)),
        ((1.0, 0.0), (3.02, 2.98)),
        ((1.0, 1.0), (3.01, 4.03)),
        ((0.0, 1.0), (1.98, 4.0)),
        ((0.5, 0.1), (2.5, 3.13)),
        ((0.3, 0.8), (2.29, 3.82)),
        ((0.9, 0.4), (2.93, 3.37)),
    ];
    let point = |(x, y): (f64, f64)| Point::new(x, y);
    let marks = marks.iter().enumerate();
    let marks: Vec<Reading> = marks
        .map(|(at, &(was, is))| mark(at, point(was), point(is)))
        .collect();
    let places = [(0.5, 0.5), (0.1, 0.9), (1.2, -0.1)];
    let check = |map: &dyn Fn(Point) -> Point, others: [(f64, f64); 3]| {
        for (place, other) in places.iter().zip(others) {
            let off = (map(point(*place)) - point(other)).norm();
            assert!(off < 1e-9, "{place:?}: {off}");
        }
    };
    let affine = Linear::affine(&marks).expect("a map");
    let others = [
        (2.504458344526, 3.505032042672),
        (2.086875167888, 3.915480640086),
        (3.233443340113, 2.88850512299),
    ];
    check(&|place| affine.map(place), others);
    for (smooth, others) in [
        (
            0.0,
            [
                (2.504268217779, 3.513990917369),
                (2.083695404459, 3.90776642672),
                (3.225771529787, 2.871683174373),
            ],
        ),
        (
            0.001,
            [
                (2.504265980524, 3.513967705062),
                (2.083701420103, 3.907773650991),
                (3.225798630979, 2.871685980828),
            ],
        ),
        (
            0.1,
            [
                (2.50415665632, 3.512092706908),
                (2.084173207337, 3.908520031001),
                (3.227630037004, 2.872818747311),
            ],
        ),
    ] {
        let spline = Spline::of(&marks, smooth).expect("a spline");
        check(&|place| spline.map(place), others);
    }
}

#[test]
fn the_error_of_leaving_one_out_is_that_of_solving_without_it() {
    let marks = read_by(&places(8), |point| {
        Point::new(
            point.x + 3.0 * (point.x / 500.0).sin(),
            point.y + 4.0 * (point.x / 700.0).cos(),
        )
    });
    for smooth in [0.0, 0.01, 1.0] {
        let all = Spline::of(&marks, smooth).expect("a spline");
        // A box of its own would scale the smoothness; these marks lie within the same one.
        for at in [0, 1, 4, 7] {
            let others = Spline::of(&without(&marks, at), smooth).expect("a spline");
            let off = marks[at].read - others.map(marks[at].planned);
            assert!((off - all.left_out[at]).norm() < 1e-8, "{smooth} {at}");
        }
    }
}

#[test]
fn readings_of_one_mark_agree_or_are_refused() {
    let at = Point::new(10.0, 20.0);
    let near = [
        mark(1, at, Point::new(0.0, 0.0)),
        mark(1, at, Point::new(0.4, 0.0)),
    ];
    let found = align(&near).expect("a map");
    assert!((found.map.map(at) - Point::new(0.2, 0.0)).norm() < 1e-12);
    assert_eq!(found.readings.len(), 1);
    let apart = [
        mark(1, at, Point::new(0.0, 0.0)),
        mark(1, at, Point::new(9.0, 0.0)),
    ];
    let error = align(&apart).expect_err("too far apart");
    assert!(
        error.is_align() && error.to_string().contains("mark 1"),
        "{error}"
    );
    let same = [mark(1, at, at), mark(2, at, at)];
    assert!(
        align(&same)
            .expect_err("one place")
            .to_string()
            .contains("mark 2")
    );
    assert!(align(&[]).expect_err("none").is_align());
    for bad in [
        mark(1, Point::new(f64::NAN, 0.0), at),
        mark(1, at, at).with_noise(0.0),
        mark(1, at, Point::new(0.0, 1e12)),
    ] {
        assert!(align(&[bad]).expect_err("out of range").is_geometry());
    }
}

#[test]
fn folds_and_mirror_images_are_seen() {
    let all = Bounds {
        min: Point::new(0.0, 0.0),
        max: Point::new(1500.0, 400.0),
    };
    let mirrored =
        align(&read_by(&places(4), |point| Point::new(point.x, -point.y))).expect("a map");
    let strain = mirrored.map.strain(all);
    assert!(strain.mirrored && strain.fold.is_none(), "{strain:?}");
    // The middle of the top is pulled far below the bottom.
    let mut marks = read_by(&places(8), |point| point);
    marks[4].read.y += 2000.0;
    let folded = Spline::of(&marks, 0.0).expect("a spline");
    assert!(ClothMap::spline(folded).strain(all).fold.is_some());
    let turned = align(&read_by(&places(3), |point| Rotation2::new(0.02) * point)).expect("a map");
    let strain = turned.map.strain(all);
    assert!((strain.turn_degrees - 0.02_f64.to_degrees()).abs() < 1e-9);
    assert!(strain.bow < 1e-6 && (strain.extremes[1] - 1.0).abs() < 1e-9);
}

fn reads() -> impl Strategy<Value = Vec<Reading>> {
    let off = prop::collection::vec((-8.0..8.0f64, -8.0..8.0f64, any::<bool>()), 8);
    (1..9usize, off).prop_map(|(count, off)| {
        let marks = places(count).into_iter().zip(off).enumerate();
        let marks = marks.map(|(at, (place, (x, y, exact)))| {
            let read = mark(at, place, place + Vector::new(x, y));
            if exact && at % 2 == 0 {
                read.exactly()
            } else {
                read
            }
        });
        marks.collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(48)))]

    #[test]
    fn exact_ends_are_met_and_order_is_nothing(marks in reads(), turn in 0..8usize) {
        let found = align(&marks).expect("a map");
        for mark in marks.iter().filter(|mark| mark.exact) {
            prop_assert!((found.map.map(mark.planned) - mark.read).norm() < 1e-8);
        }
        let mut other = marks.clone();
        other.rotate_left(turn % marks.len());
        let other = align(&other).expect("a map");
        for place in places(8) {
            prop_assert!((found.map.map(place) - other.map.map(place)).norm() < 1e-6);
        }
    }

    #[test]
    fn a_rigid_motion_of_the_readings_moves_the_map(
        marks in reads(),
        turn in -3.1..3.1f64,
        by in (-500.0..500.0f64, -500.0..500.0f64),
    ) {
        let moved = |point: Point| Rotation2::new(turn) * point + Vector::new(by.0, by.1);
        let found = align(&marks).expect("a map");
        let other: Vec<Reading> = marks
            .iter()
            .map(|mark| Reading { read: moved(mark.read), ..mark.clone() })
            .collect();
        let other = align(&other).expect("a map");
        // One reading tells no turn.
        if marks.len() > 1 {
            for place in places(8) {
                prop_assert!((moved(found.map.map(place)) - other.map.map(place)).norm() < 1e-6);
            }
        }
    }

    #[test]
    fn the_change_is_the_slope_of_the_map(marks in reads(), x in 0.0..1500.0f64, y in 0.0..400.0f64) {
        let map = align(&marks).expect("a map").map;
        let (point, step) = (Point::new(x, y), 1e-3);
        for (axis, by) in [Vector::x(), Vector::y()].into_iter().enumerate() {
            let slope = (map.map(point + by * step) - map.map(point - by * step)) / (2.0 * step);
            prop_assert!((slope - map.change(point).column(axis)).norm() < 1e-5);
        }
    }
}

/// 400 cloths over a pass; the numbers of the guide.
mod cloths {
    use super::*;
    use crate::align::cloth::{Dice, INCH, border, cloth};

    fn marks() -> Vec<Point> {
        const MARKS: [(f64, f64); 10] = [
            (6.0, 6.0),
            (54.0, 6.0),
            (6.0, 16.0),
            (54.0, 16.0),
            (30.0, 6.0),
            (30.0, 0.0),
            (0.0, 0.0),
            (60.0, 0.0),
            (18.0, 6.0),
            (42.0, 6.0),
        ];
        MARKS
            .iter()
            .map(|&(x, y)| Point::new(x, y) * INCH)
            .collect()
    }

    fn readings(dice: &mut Dice, count: usize, cloth: impl Fn(Point) -> Point) -> Vec<Reading> {
        let all = marks();
        let read = all[..count].iter().enumerate();
        read.map(|(at, &place)| {
            let noise = Vector::new(dice.normal(0.5), dice.normal(0.5)) * (INCH / 24.0);
            mark(at, place, cloth(place) + noise)
        })
        .collect()
    }

    #[test]
    fn more_readings_bring_the_border_nearer() {
        let border = border();
        // The mean over all cloths of the mean and, in the worst twentieth of cloths, the worst, in
        // inches.
        let limits = [
            (1, 0.31, 1.3),
            (2, 0.08, 0.35),
            (3, 0.07, 0.30),
            (4, 0.06, 0.26),
            (6, 0.035, 0.17),
            (8, 0.030, 0.11),
            (10, 0.027, 0.10),
        ];
        for (count, mean_limit, worst_limit) in limits {
            let mut dice = Dice(0x9e37_79b9_7f4a_7c15);
            let (mut mean, mut worst) = (0.0, Vec::new());
            for _ in 0..400 {
                let cloth = cloth(&mut dice);
                let marks = readings(&mut dice, count, &cloth);
                let map = fitted(&marks).0;
                let off: Vec<f64> = border
                    .iter()
                    .map(|&place| (map.map(place) - cloth(place)).norm() / INCH)
                    .collect();
                mean += off.iter().sum::<f64>() / off.len() as f64 / 400.0;
                worst.push(off.into_iter().fold(0.0, f64::max));
            }
            worst.sort_by(f64::total_cmp);
            println!("| {count} | {mean:.3} | {:.3} |", worst[380]);
            assert!(
                mean <= mean_limit && worst[380] <= worst_limit,
                "{count}: {mean} {}",
                worst[380]
            );
        }
    }

    #[test]
    fn a_zero_set_anew_is_named() {
        for (count, off, least) in [(6, 1.0, 80), (8, 1.0, 95), (10, 1.0, 95), (8, 3.0, 98)] {
            let mut dice = Dice(0x1234_5678_9abc_def1);
            let mut named = 0;
            for _ in 0..100 {
                let cloth = cloth(&mut dice);
                let mut marks = readings(&mut dice, count, &cloth);
                let from = 2 + (dice.even() * (count - 3) as f64) as usize;
                let way = Rotation2::new(std::f64::consts::TAU * dice.even());
                let by = way * Vector::new(off * INCH, 0.0);
                marks[from..].iter_mut().for_each(|mark| mark.read += by);
                let doubt = align(&marks).expect("a map").doubt;
                let wanted = &marks[from].mark;
                named += usize::from(matches!(
                    doubt,
                    Some(ReadingDoubt::ZeroMoved { ref mark, .. }) if mark == wanted
                ));
            }
            println!("{count} readings, zero {off} in off from one on: named {named}");
            assert!(named >= least, "{count} {off}: {named}");
        }
    }

    #[test]
    fn a_misread_mark_is_named() {
        for (count, off, least) in [
            (6, 0.75, 98),
            (8, 0.75, 99),
            (10, 0.75, 100),
            (6, 0.5, 86),
            (8, 0.5, 96),
            (10, 0.5, 97),
            (6, 0.375, 69),
            (8, 0.375, 89),
            (10, 0.375, 94),
        ] {
            let mut dice = Dice(0x2545_f491_4f6c_dd1d);
            let (mut named, mut blamed) = (0, 0);
            for _ in 0..100 {
                let cloth = cloth(&mut dice);
                let mut marks = readings(&mut dice, count, &cloth);
                blamed += usize::from(align(&marks).expect("a map").doubt.is_some());
                let at = (dice.even() * count as f64) as usize;
                let way = Rotation2::new(std::f64::consts::TAU * dice.even());
                marks[at].read += way * Vector::new(off * INCH, 0.0);
                let wrong = marks[at].mark.clone();
                if let Some(ReadingDoubt::Misread { mark, .. }) =
                    align(&marks).expect("a map").doubt
                {
                    named += usize::from(mark == wrong);
                }
            }
            println!("{count} readings, {off} in off: named {named}, blamed {blamed}");
            assert!(
                named >= least && blamed <= 5,
                "{count} {off}: {named} {blamed}"
            );
        }
    }

    #[test]
    fn two_exchanged_marks_are_named() {
        let mut dice = Dice(77);
        let mut named = 0;
        for _ in 0..100 {
            let cloth = cloth(&mut dice);
            let mut marks = readings(&mut dice, 8, &cloth);
            (marks[1].read, marks[5].read) = (marks[5].read, marks[1].read);
            let doubt = align(&marks).expect("a map").doubt;
            let right = ["mark 1".to_owned(), "mark 5".to_owned()];
            named += usize::from(
                matches!(doubt, Some(ReadingDoubt::Exchanged { marks, .. }) if marks == right),
            );
        }
        assert!(named >= 98, "{named}");
    }
}
