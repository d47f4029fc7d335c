//! The walks through a drawing: which pieces meet, and the fewest walks that use each once.
//!
//! Problem: subpaths are the edges of a graph whose vertices are their ends, ends within the
//! tolerance being one vertex; wanted is a walk that uses every edge once (an Euler path).
//! Method: first the order of drawing as it stands, which is what most drawings need; else
//! Hierholzer's algorithm, taking the earliest drawn edge first. A component with 2k odd vertices
//! needs max(1, k) walks and no fewer (Euler), which is what k − 1 auxiliary edges between odd
//! vertices give. Guarantee: the number of walks is the least possible.

use std::collections::HashMap;

use super::Subpath;
use crate::geom::Point;

/// A piece in the order of travel.
#[derive(Debug, Clone, Copy)]
pub(super) struct Step {
    pub(super) index: usize,
    pub(super) reversed: bool,
}

/// The fewest walks that use every piece once: one in the order of drawing where that meets.
pub(super) fn trails(subpaths: &[Subpath], tolerance: f64) -> Vec<Vec<Step>> {
    match in_drawn_order(subpaths, tolerance) {
        Some(trail) => vec![trail],
        None => euler_trails(subpaths, tolerance),
    }
}

/// Where a piece starts and ends when it is travelled so.
pub(super) fn ends(subpath: &Subpath, reversed: bool) -> (Point, Point) {
    let points = &subpath.flat.points;
    let (first, last) = (points[0], points[points.len() - 1]);
    if reversed {
        (last, first)
    } else {
        (first, last)
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
        let mut tail = ends(&subpaths[0], reversed_first).1;
        for (index, subpath) in subpaths.iter().enumerate().skip(1) {
            let reversed = [false, true]
                .into_iter()
                .find(|&reversed| meets(tail, ends(subpath, reversed).0))?;
            tail = ends(subpath, reversed).1;
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
    fn root(parent: &mut [usize], mut at: usize) -> usize {
        while parent[at] != at {
            parent[at] = parent[parent[at]];
            at = parent[at];
        }
        at
    }
    let mut grid: HashMap<(i64, i64), Vec<usize>> = HashMap::new();
    for (index, point) in points.iter().enumerate() {
        let (column, row) = key(point);
        for neighbour in (-1..=1).flat_map(|dx| (-1..=1).map(move |dy| (column + dx, row + dy))) {
            // Ends in one cell are already one cluster or stay apart, so its few roots suffice.
            for &other in grid.get(&neighbour).into_iter().flatten() {
                if (points[other] - point).norm() <= tolerance {
                    let (a, b) = (root(&mut parent, index), root(&mut parent, other));
                    parent[a.max(b)] = a.min(b);
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

#[derive(Clone, Copy)]
struct Edge {
    ends: [usize; 2],
    auxiliary: bool,
}

/// The fewest walks that use every piece once, each as its steps, by the earliest piece in each.
fn euler_trails(subpaths: &[Subpath], tolerance: f64) -> Vec<Vec<Step>> {
    let points: Vec<Point> = subpaths
        .iter()
        .flat_map(|subpath| <[Point; 2]>::from(ends(subpath, false)))
        .collect();
    let vertex = cluster(&points, tolerance);
    let mut edges: Vec<Edge> = vertex
        .chunks_exact(2)
        .map(|pair| Edge {
            ends: [pair[0], pair[1]],
            auxiliary: false,
        })
        .collect();
    let mut around: Vec<Vec<usize>> = vec![Vec::new(); points.len()];
    for (index, edge) in edges.iter().enumerate() {
        for end in edge.ends {
            around[end].push(index);
        }
    }
    let component = components(&edges, &around);
    let mut odd: HashMap<usize, Vec<usize>> = HashMap::new();
    for at in 0..points.len() {
        if around[at].len() % 2 == 1 {
            odd.entry(component[at]).or_default().push(at);
        }
    }
    let mut starts = HashMap::new();
    for (name, odd) in &odd {
        starts.insert(*name, odd[0]);
        for pair in odd[1..odd.len() - 1].chunks_exact(2) {
            around[pair[0]].push(edges.len());
            around[pair[1]].push(edges.len());
            edges.push(Edge {
                ends: [pair[0], pair[1]],
                auxiliary: true,
            });
        }
    }
    let mut used = vec![false; edges.len()];
    let mut trails = Vec::new();
    for first in 0..subpaths.len() {
        if used[first] {
            continue;
        }
        let drawn_start = edges[first].ends[0];
        let start = *starts.get(&component[drawn_start]).unwrap_or(&drawn_start);
        let walk = hierholzer(&edges, &around, &mut used, start);
        trails.extend(
            walk.split(|step| edges[step.index].auxiliary)
                .filter(|trail| !trail.is_empty())
                .map(<[Step]>::to_vec),
        );
    }
    trails.sort_by_key(|trail| trail.iter().map(|step| step.index).min());
    trails
}

/// The least vertex number of each vertex's connected component.
fn components(edges: &[Edge], around: &[Vec<usize>]) -> Vec<usize> {
    let mut component = vec![usize::MAX; around.len()];
    for seed in 0..around.len() {
        let mut stack = vec![seed];
        while let Some(at) = stack.pop() {
            if component[at] == usize::MAX {
                component[at] = seed;
                stack.extend(around[at].iter().flat_map(|&edge| edges[edge].ends));
            }
        }
    }
    component
}

/// An Euler walk of the unused edges of one component, from a vertex where one can start.
fn hierholzer(edges: &[Edge], around: &[Vec<usize>], used: &mut [bool], start: usize) -> Vec<Step> {
    let mut next: HashMap<usize, usize> = HashMap::new();
    let mut stack: Vec<(usize, Option<Step>)> = vec![(start, None)];
    let mut walk = Vec::new();
    while let Some(&(at, arrived_by)) = stack.last() {
        let from = next.entry(at).or_insert(0);
        while *from < around[at].len() && used[around[at][*from]] {
            *from += 1;
        }
        if let Some(&index) = around[at].get(*from) {
            used[index] = true;
            let reversed = edges[index].ends[0] != at;
            let to = edges[index].ends[usize::from(!reversed)];
            stack.push((to, Some(Step { index, reversed })));
        } else {
            stack.pop();
            walk.extend(arrived_by);
        }
    }
    walk.reverse();
    walk
}
