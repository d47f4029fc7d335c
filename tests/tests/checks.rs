//! The checks of stitched lines on whole quilts: clean ones, with faults planted, and against
//! `geo`.

use geo::{BooleanOps, Euclidean, Length, LineString, MultiLineString, Rect};
use proptest::prelude::*;
use quiltpath_core::check::{
    CheckReport, DensityLimit, Limits, LinePart, Lines, check_lines, density,
};
use quiltpath_core::geom::{Point, Vector};
use quiltpath_core::io::json::read_plan;
use quiltpath_core::io::svg_read::read_svg;
use quiltpath_core::plan::{MotifRequest, solve};
use quiltpath_tests::fills::filled_blocks;
use std::f64::consts::TAU;
use std::path::Path;

fn quilt() -> Vec<Vec<Point>> {
    let points =
        |block: Vec<(f64, f64)>| block.into_iter().map(|(x, y)| Point::new(x, y)).collect();
    filled_blocks(130_000).into_iter().map(points).collect()
}

fn checked(lines: &[Vec<Point>]) -> CheckReport {
    let views: Vec<&[Point]> = lines.iter().map(Vec::as_slice).collect();
    check_lines(&views, &Limits::default()).expect("lines")
}

/// How many places each check tells: close, twice, dense, loops.
fn counts(report: &CheckReport) -> [usize; 4] {
    let spots = [
        &report.close.crowded,
        &report.twice.crowded,
        &report.loops.crowded,
    ];
    assert!(spots.iter().all(|list| list.is_empty()));
    [
        report.close.places.len(),
        report.twice.places.len(),
        report.density.places.len(),
        report.loops.places.len(),
    ]
}

#[test]
fn a_clean_quilt_has_no_findings() {
    assert_eq!(counts(&checked(&quilt())), [0; 4]);
}

#[test]
fn a_row_beside_another_is_found_once() {
    let mut quilt = quilt();
    // 40 points of the second row of a block of waves, moved by 1 mm.
    let start = quilt[24].len() / 12 + 20;
    let row: Vec<Point> = quilt[24][start..start + 40]
        .iter()
        .map(|p| p + Vector::new(0.0, 1.0))
        .collect();
    let line = quilt.len();
    quilt.push(row.iter().rev().copied().collect());
    let report = checked(&quilt);
    assert_eq!(counts(&report), [1, 0, 0, 0]);
    let run = &report.close.places[0];
    assert_eq!(
        (run.parts[0].line, run.parts[1].line, run.parts[1].from),
        (24, line, 0.0)
    );
    assert!(run.parts[0].points.contains(&(start + 20)));
    assert!(run.length > 60.0 && run.nearest <= 1.0 && run.nearest > 0.5);
    assert!(row.iter().any(|p| (p - run.at).norm() < 1.6));
}

#[test]
fn a_row_stitched_again_is_found_once_and_not_as_close() {
    let mut quilt = quilt();
    let again: Vec<Point> = quilt[57][100..150].iter().rev().copied().collect();
    quilt.push(again);
    let report = checked(&quilt);
    assert_eq!(counts(&report), [0, 1, 0, 0]);
    let run = &report.twice.places[0];
    assert_eq!(
        (run.parts[0].line, run.parts[1].line, run.nearest),
        (57, 130, 0.0)
    );
    assert!((run.parts[1].length() - run.length).abs() < 0.5);
    assert!(*run.parts[0].points.start() >= 98 && *run.parts[0].points.end() <= 151);
}

#[test]
fn a_tiny_curl_is_found() {
    let mut quilt = quilt();
    let (radius, at) = (0.6, quilt[70][321]);
    let curl = (0..=24).map(|k| TAU * f64::from(k) / 24.0);
    // The line goes round once, along its own direction there, and on.
    let along = (quilt[70][322] - quilt[70][320]).normalize() * radius;
    let across = Vector::new(-along.y, along.x);
    let curl = curl.map(|t| at + along * t.sin() + across * (1.0 - t.cos()));
    quilt[70].splice(321..322, curl);
    let report = checked(&quilt);
    assert_eq!(counts(&report), [0, 0, 0, 1]);
    let tiny = &report.loops.places[0];
    assert_eq!(tiny.part.line, 70);
    assert!((tiny.length - TAU * radius).abs() < 0.3 && (tiny.at - at).norm() < 0.3);
    assert!(*tiny.part.points.start() <= 322 && *tiny.part.points.end() >= 344);
}

#[test]
fn a_crosshatch_is_too_dense_but_not_too_close() {
    let mut quilt = quilt();
    // Beside the quilt, 45 mm square, rows 2.5 mm apart both ways: 2 / 2.5 of line in each unit.
    let row = |k: u32| Point::new(45.0 * f64::from(k.div_ceil(2) % 2), 2.5 * f64::from(k / 2));
    let corner = Vector::new(-100.0, 500.0);
    let flat: Vec<Point> = (0..38).map(|k| row(k) + corner).collect();
    let upright: Vec<Point> = (0..38)
        .map(|k| Point::new(row(k).y, row(k).x) + corner)
        .collect();
    quilt.extend([flat, upright]);
    let report = checked(&quilt);
    // Both edges of the hatch run along the turns of the other one's rows, and nothing else does.
    assert_eq!(counts(&report)[1..], [0, 1, 0]);
    let dense = &report.density.places[0];
    // 10.16 rows each way, so 11 at most, and the turns along half of two edges.
    assert!(
        (20.0 * 25.4..23.0 * 25.4).contains(&dense.length),
        "{}",
        dense.length
    );
    assert_eq!(
        dense.lines.iter().map(|share| share.0).sum::<usize>(),
        130 + 131
    );
    assert!((dense.at - Point::new(-77.5, 522.5)).norm() < 25.4);
}

/// What no one can stitch: the spot is told, whatever else is, and the rest is still checked.
#[test]
fn a_knot_of_line_in_one_spot_does_not_hide_the_rest() {
    let mut quilt = quilt();
    let turn = |k: u32| 2.4 * f64::from(k);
    let spot = Vector::new(-60.0, 0.0);
    let knot = (0..100_000).map(|k| Point::new(turn(k).cos(), (1.1 * turn(k)).sin()) + spot);
    quilt.push(knot.collect());
    quilt.push([0.0, 60.0].map(|y| Point::new(-300.0, y)).to_vec());
    quilt.push([0.0, 60.0].map(|y| Point::new(-301.0, y)).to_vec());
    let report = checked(&quilt);
    let crowded = report.close.crowded[0];
    assert!(crowded.segments > 50_000 && (crowded.at - Point::from(spot)).norm() < 5.0);
    assert_eq!(
        (
            report.density.places.len(),
            report.density.places[0].lines[0].0
        ),
        (1, 130)
    );
    let lines = |parts: &[LinePart; 2]| parts.each_ref().map(|part| part.line);
    assert!(
        report
            .close
            .places
            .iter()
            .any(|run| lines(&run.parts) == [131, 132])
    );
}

/// A plan read in a wrong unit: the checks end, and tell what they can.
#[test]
fn lines_of_a_wrong_size_are_checked_in_bounds() {
    let sized = |factor: f64| -> Vec<Vec<Point>> {
        let line = |line: Vec<Point>| line.into_iter().map(|point| point * factor).collect();
        quilt().into_iter().map(line).collect()
    };
    let small = checked(&sized(1.0 / 25.4));
    assert!(!small.density.places.is_empty());
    assert_eq!(counts(&checked(&sized(25.4))), [0; 4]);
    let far = sized(3e5);
    let views: Vec<&[Point]> = far.iter().map(Vec::as_slice).collect();
    let error = check_lines(&views, &Limits::default()).expect_err("far");
    assert!(
        error.is_check() && error.to_string().contains("check the units"),
        "{error}"
    );
}

#[test]
fn the_demo_is_clean() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/demo");
    let read = |name: &str| std::fs::read(folder.join(name)).expect("a file");
    let plan = read_plan(&read("plan.json")).expect("a plan");
    let solved = solve(&plan, |request: &MotifRequest| {
        Ok(read_svg(&read(&request.name))?.into_drawing(&request.name))
    });
    let pieces = solved.expect("solved").pieces;
    let lines: Vec<&[Point]> = pieces
        .iter()
        .map(|piece| piece.lines()[0].motif.points())
        .collect();
    let report = check_lines(&lines, &Limits::default()).expect("lines");
    assert_eq!(counts(&report), [0; 4]);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(quiltpath_tests::cases(32)))]

    #[test]
    fn lengths_in_squares_agree_with_geo(
        points in prop::collection::vec((-40.0..40.0f64, -40.0..40.0f64), 2..40), side in 10.0..40.0f64,
    ) {
        let line: Vec<Point> = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
        let lines = Lines::new(&[&line], 0.0).expect("a line");
        let limit = DensityLimit::new(side, 5.0);
        let string = MultiLineString(vec![LineString::from_iter(points)]);
        for place in density(&lines, &limit).expect("limits").places {
            let corner = |sign: f64| (place.at.x + sign * side / 2.0, place.at.y + sign * side / 2.0);
            let square = Rect::new(corner(-1.0), corner(1.0)).to_polygon();
            let theirs = Euclidean.length(&square.clip(&string, false));
            // It snaps cuts to a grid of its own.
            prop_assert!((place.length - theirs).abs() < 1e-3, "{} {}", place.length, theirs);
        }
    }
}
