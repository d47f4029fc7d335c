//! The walks through a drawing: which pieces meet, and the fewest walks that use each once.
//!
//! Problem: subpaths are the edges of a graph whose vertices are their ends, ends within the
//! tolerance being one vertex; wanted is a walk that uses every edge once (an Euler path).
//! Method: first the order of drawing as it stands, which is what most drawings need; else the
//! fewest strokes as in `graph`, taking the earliest drawn edge first.
//! Guarantee: the number of walks is the least possible.

use std::collections::HashMap;

use super::subpath::Subpath;
use crate::geom::Point;
use crate::graph::{Step, fewest_trails, root, unite};

/// The fewest walks that use every piece once: one in the order of drawing where that meets.
pub(super) fn trails(subpaths: &[Subpath], tolerance: f64) -> Vec<Vec<Step>> {
    match in_drawn_order(subpaths, tolerance) {
        Some(trail) => vec![trail],
        None => euler_trails(subpaths, tolerance),
    }
}

/// The pieces one after the other as drawn, when each meets the next.
fn in_drawn_order(subpaths: &[Subpath], tolerance: f64) -> Option<Vec<Step>> {
    let meets = |a: Point, b: Point| (a - b).norm() <= tolerance;
    let follow = |reversed_first: bool| {
        let mut steps = vec![Step {
            index: 0,
            reversed: reversed_first,
        }];
        let mut tail = subpaths[0].ends(reversed_first).1;
        for (index, subpath) in subpaths.iter().enumerate().skip(1) {
            let reversed = [false, true]
                .into_iter()
                .find(|&reversed| meets(tail, subpath.ends(reversed).0))?;
            tail = subpath.ends(reversed).1;
            steps.push(Step { index, reversed });
        }
        Some(steps)
    };
    follow(false).or_else(|| follow(true))
}

/// Numbers the ends so that ends within the tolerance of each other share a number.
fn cluster(points: &[Point], tolerance: f64) -> Vec<usize> {
    let cell = tolerance.max(1e-9);
    let key = |p: &Point| ((p.x / cell).floor() as i64, (p.y / cell).floor() as i64);
    let mut parent: Vec<usize> = (0..points.len()).collect();
    let mut grid: HashMap<(i64, i64), Vec<usize>> = HashMap::new();
    for (index, point) in points.iter().enumerate() {
        let (column, row) = key(point);
        let around = |dx| {
            // Coordinates beyond all limits are refused later, with the point that has them.
            (-1..=1).map(move |dy: i64| (column.saturating_add(dx), row.saturating_add(dy)))
        };
        for neighbour in (-1..=1).flat_map(around) {
            for &other in grid.get(&neighbour).into_iter().flatten() {
                if (points[other] - point).norm() <= tolerance {
                    unite(&mut parent, [index, other]);
                }
            }
        }
        let here = grid.entry((column, row)).or_default();
        if !here.iter().any(|&other| points[other] == *point) {
            here.push(index);
        }
    }
    (0..points.len()).map(|at| root(&mut parent, at)).collect()
}

/// The fewest walks that use every piece once, each as its steps, by the earliest piece in each.
fn euler_trails(subpaths: &[Subpath], tolerance: f64) -> Vec<Vec<Step>> {
    let points: Vec<Point> = subpaths
        .iter()
        .flat_map(|subpath| <[Point; 2]>::from(subpath.ends(false)))
        .collect();
    let vertex = cluster(&points, tolerance);
    let edges: Vec<[usize; 2]> = vertex
        .chunks_exact(2)
        .map(|pair| [pair[0], pair[1]])
        .collect();
    fewest_trails(&edges, points.len())
}
