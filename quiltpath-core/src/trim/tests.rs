//! Routes held against brute force, paths against their pieces.

mod bounds;
mod large;
mod single;

use std::cell::Cell;

use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

use super::boundary::Boundary;
use super::brute::{self, Least};
use super::walk::Step;
use super::*;
use crate::geom::BoxCorner;
use crate::geom::region::{Perimeter, Region};
use crate::geom::{Point, Polyline, Vector};
use crate::leg::l_region;
use crate::motif::Motif;
use crate::transform::Transform;
use crate::trim::{EndOn, clip};

/// 8 x 8, legs 3 deep, elbow at the origin, 32 round.
fn l() -> Region {
    l_region(BoxCorner::TopLeft, 8.0, 8.0, 3.0).expect("an L")
}

/// A piece between two places, with a bend that may make it longer than it need be.
fn piece(region: &Region, from: EndOn, to: EndOn, bend: f64) -> Option<ClippedPiece> {
    let boundary = Perimeter::of(region);
    let place = |end, other: f64| match end {
        EndOn::Boundary(position) => boundary.point_at(position),
        EndOn::Inside => Point::new(1.0 + other, 1.0),
    };
    // A closed drawing starts and ends in one place.
    let closed = if bend > 0.5 { 0.0 } else { 1.0 };
    let (from_point, to_point) = (place(from, 0.0), place(to, closed));
    let middle = nalgebra::center(&from_point, &to_point);
    let bent = middle + (Point::new(1.5, 1.5) - middle) * bend;
    let line = vec![from_point, bent, to_point];
    let line = Polyline::new(line).ok()?;
    Some(ClippedPiece {
        line,
        start: from,
        end: to,
    })
}

/// Up to this many pieces; now and then ends share a place, or the drawing starts or ends inside.
fn pieces(most: usize) -> impl Strategy<Value = Vec<ClippedPiece>> {
    let position = prop_oneof![4 => 0.0..32.0f64, 1 => (0u8..32).prop_map(f64::from)];
    let ends = prop::collection::vec((position.clone(), position), 1..=most);
    (ends, 0u8..4, 0.0..1.0f64).prop_map(|(ends, inside, bend)| {
        let count = ends.len();
        let place = |index: usize, which: usize, position: f64| {
            let starts = inside & 1 == 1 && index == 0 && which == 0;
            let stops = inside & 2 == 2 && index == count - 1 && which == 1;
            if (starts || stops) && count > 1 {
                EndOn::Inside
            } else {
                EndOn::Boundary(position)
            }
        };
        ends.iter()
            .enumerate()
            .filter_map(|(index, &(a, b))| {
                piece(&l(), place(index, 0, a), place(index, 1, b), bend)
            })
            .collect()
    })
}

fn terminals() -> impl Strategy<Value = Terminals> {
    let end = || prop::option::of(prop_oneof![0.0..32.0f64, (0u8..32).prop_map(f64::from)]);
    (end(), end()).prop_map(|(start, end)| Terminals { start, end })
}

fn options() -> impl Strategy<Value = RouteOptions> {
    let inset = prop_oneof![Just(0.0), Just(0.25)];
    (terminals(), any::<bool>(), inset).prop_map(|(terminals, restitch, inset)| RouteOptions {
        terminals,
        restitch,
        inset,
        ..RouteOptions::default()
    })
}

fn ring(pieces: &[ClippedPiece], options: &RouteOptions) -> Boundary {
    Boundary::of(pieces, &l(), options.terminals, options.inset).expect("a ring")
}

fn config(count: u32) -> Config {
    Config {
        failure_persistence: None,
        ..Config::with_cases(crate::cases(count))
    }
}

fn cases(count: u32) -> TestRunner {
    TestRunner::new(config(count))
}

/// The route has to be the least of all, or admit that it may not be and give a bound that holds.
fn check_least(routed: &Routed, (cuts, length): Least) -> Result<bool, TestCaseError> {
    let report = &routed.report;
    prop_assert_eq!(report.cuts, cuts);
    let found = report.added_length;
    prop_assert!(
        found >= length - 1e-9,
        "{} is less than the least {}",
        found,
        length
    );
    match report.exactness {
        Exactness::Exact => {
            prop_assert!(
                (found - length).abs() < 1e-9,
                "{} is not the least {}",
                found,
                length
            );
        }
        Exactness::Bound { lower, ratio } => {
            prop_assert!(
                lower <= length + 1e-9,
                "{} is more than the least {}",
                lower,
                length
            );
            prop_assert!(
                lower == 0.0 || (ratio * lower - found).abs() < 1e-9,
                "{} x {} is not {}",
                ratio,
                lower,
                found
            );
        }
    }
    Ok(report.exactness == Exactness::Exact)
}

/// Every piece once, stretches that meet, links in the region, numbers that add up.
fn check_paths(
    routed: &Routed,
    pieces: &[ClippedPiece],
    options: &RouteOptions,
) -> Result<(), TestCaseError> {
    let region = l();
    let mut covered = vec![0; pieces.len()];
    let (mut links, mut added, mut again_length) = (0, 0.0, 0.0);
    for path in &routed.paths {
        let points = path.line.points();
        prop_assert_eq!(path.parts[0].first, 0);
        prop_assert_eq!(path.parts[path.parts.len() - 1].last, points.len() - 1);
        prop_assert!(
            path.parts
                .windows(2)
                .all(|pair| pair[0].last == pair[1].first)
        );
        for part in &path.parts {
            let stretch = &points[part.first..=part.last];
            let length = crate::geom::measure::length(stretch);
            let same = |index: usize, reversed: bool| {
                let mut line = pieces[index].line.clone();
                if reversed {
                    line = line.reversed();
                }
                line.points().len() == stretch.len()
                    && line
                        .points()
                        .iter()
                        .zip(stretch)
                        .all(|(a, b)| (a - b).norm() < 1e-9)
            };
            match part.kind {
                PathPartKind::Piece { index, reversed } => {
                    covered[index] += 1;
                    prop_assert!(same(index, reversed));
                }
                PathPartKind::Again { index, reversed } => {
                    prop_assert!(options.restitch && same(index, reversed));
                    again_length += length;
                }
                PathPartKind::Link => {
                    links += 1;
                    added += length;
                }
            }
        }
        for pair in points.windows(2) {
            for share in [0.0, 0.3, 0.5, 1.0] {
                let point = pair[0] + (pair[1] - pair[0]) * share;
                // The pieces of these tests are anywhere; links have to stay inside.
                let is_link = path.parts.iter().any(|part| {
                    part.kind == PathPartKind::Link
                        && points[part.first..=part.last].windows(2).any(|p| p == pair)
                });
                if is_link {
                    prop_assert!(
                        region.contains(point) || region.distance_to_boundary(point) < 1e-9
                    );
                }
            }
        }
    }
    prop_assert!(covered.iter().all(|&times| times == 1), "{:?}", covered);
    prop_assert_eq!(links, routed.report.links);
    prop_assert!((again_length - routed.report.restitched_length).abs() < 1e-9);
    prop_assert!((added + again_length - routed.report.added_length).abs() < 1e-9);
    if routed.report.cuts == 0 {
        prop_assert_eq!(routed.paths.len(), 1);
        let boundary = Perimeter::of(&region);
        let line = &routed.paths[0].line;
        let ends = [
            (options.terminals.start, line.start()),
            (options.terminals.end, line.end()),
        ];
        for (position, point) in ends {
            if let Some(position) = position {
                prop_assert!((boundary.point_at(position) - point).norm() < 1e-9);
            }
        }
    }
    Ok(())
}

/// Runs random instances; the share of them for which the route claims to be exact.
fn against_brute_force(order: JoinOrder, most: usize, count: u32) -> f64 {
    let (exact, run) = (Cell::new(0), Cell::new(0));
    cases(count)
        .run(&(pieces(most), options()), |(pieces, options)| {
            let options = RouteOptions { order, ..options };
            let Ok(routed) = route(&pieces, &l(), &options) else {
                prop_assert!(pieces.is_empty());
                return Ok(());
            };
            let ring = ring(&pieces, &options);
            let least = match order {
                JoinOrder::Keep => brute::in_order(&ring, false, options.restitch),
                JoinOrder::KeepAndReverse => brute::in_order(&ring, true, options.restitch),
                JoinOrder::Free => brute::any_order(&ring, options.restitch),
            };
            let is_exact = check_least(&routed, least)?;
            prop_assert!(is_exact || options.inset > 0.0, "not exact on the boundary");
            exact.set(exact.get() + u32::from(is_exact));
            run.set(run.get() + 1);
            check_paths(&routed, &pieces, &options)
        })
        .unwrap_or_else(|error| panic!("{error}"));
    f64::from(exact.get()) / f64::from(run.get())
}

#[test]
fn the_drawn_order_is_the_least_of_all() {
    assert_eq!(against_brute_force(JoinOrder::Keep, 5, 2000), 1.0);
}

#[test]
fn the_drawn_order_with_reversals_is_the_least_of_all() {
    assert_eq!(against_brute_force(JoinOrder::KeepAndReverse, 4, 2000), 1.0);
}

#[test]
fn any_order_is_the_least_of_all() {
    let exact = against_brute_force(JoinOrder::Free, 6, 4000);
    assert!(exact > 0.9, "{exact}");
}
