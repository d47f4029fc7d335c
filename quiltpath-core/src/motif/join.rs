//! Subpaths to one open path: which pieces meet end to end, in which order and direction.
//!
//! Problem: subpaths are the edges of a graph whose vertices are their ends, ends within the
//! tolerance being one vertex; wanted is a walk that uses every edge once (an Euler path).
//! Method: first the order of drawing as it stands, which is what most drawings need; else
//! Hierholzer's algorithm, taking the earliest drawn edge first. A component with 2k odd vertices
//! needs max(1, k) walks and no fewer (Euler), which is what k − 1 auxiliary edges between odd
//! vertices give. Guarantee: the number of separate lines left is the least possible.
//! Failure: more than one line left; then every gap is named, or linked straight on request.

use std::collections::HashMap;

use super::Motif;
use crate::error::{Error, MotifFault};
use crate::geom::flatten::FlatPath;
use crate::geom::{Point, Vector};

/// One subpath of a drawing with the id of the element that drew it.
#[derive(Debug, Clone, PartialEq)]
pub struct Subpath {
    /// The id of the element, or a description such as `path 3`.
    pub id: String,
    /// Its points and end directions.
    pub flat: FlatPath,
}

/// What to do about pieces that don't meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Gaps {
    /// Refuse the drawing and list each gap.
    Refuse,
    /// Link them by straight lines, in the order of drawing, and report each link.
    Link,
}

/// The way from the end of one piece to the start of the next, where they don't meet.
#[derive(Debug, Clone, PartialEq)]
pub struct Gap {
    /// The id of the piece that ends.
    pub from_id: String,
    /// Where it ends.
    pub from: Point,
    /// The id of the piece that starts.
    pub to_id: String,
    /// Where it starts.
    pub to: Point,
}

impl Gap {
    /// The distance to bridge.
    #[must_use]
    pub fn size(&self) -> f64 {
        (self.to - self.from).norm()
    }
}

/// A drawing joined to one open path.
#[derive(Debug, Clone, PartialEq)]
pub struct Joined {
    /// The motif.
    pub motif: Motif,
    /// The straight links that were added, in the order of travel.
    pub links: Vec<Gap>,
    /// How many pieces are travelled against the direction of drawing.
    pub reversed: usize,
}

/// A piece in the order of travel.
#[derive(Debug, Clone, Copy)]
struct Step {
    index: usize,
    reversed: bool,
}

/// Joins subpaths that meet end to end to one open path, reversing pieces where needed.
///
/// Ends within `tolerance` (in the unit of the points) meet; there the later piece gives way.
/// A closed drawing opens at its own start point.
///
/// ```
/// use quiltpath_core::{geom::flatten::flatten, motif::{Gaps, Subpath, join}};
///
/// let drawn = kurbo::BezPath::from_svg("M0 0 H 5 M 9 0 H 5").unwrap();
/// let pieces = flatten(&drawn, 0.01)?.into_iter().map(|flat| Subpath { id: "a".into(), flat });
/// let joined = join("line", pieces.collect(), 0.1, Gaps::Refuse)?;
/// assert_eq!(joined.motif.length(), 9.0);
/// assert_eq!(joined.reversed, 1);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A motif error when there is no subpath, or when pieces are left apart and `gaps` refuses
/// that: it lists each gap with ids, place and size. A geometry error as in
/// [`crate::geom::Polyline::new`].
///
/// # Complexity
///
/// O(points + pieces log pieces) expected.
pub fn join(
    name: &str,
    mut subpaths: Vec<Subpath>,
    tolerance: f64,
    gaps: Gaps,
) -> Result<Joined, Error> {
    if subpaths.is_empty() {
        return Err(MotifFault::Nothing.into());
    }
    if subpaths.len() == 1 {
        return Ok(Joined {
            motif: Motif::from_flat(name, subpaths.remove(0).flat)?,
            links: Vec::new(),
            reversed: 0,
        });
    }
    let trails = match in_drawn_order(&subpaths, tolerance) {
        Some(trail) => vec![trail],
        None => euler_trails(&subpaths, tolerance),
    };
    let (steps, links) = line_up(&subpaths, trails);
    if !links.is_empty() && gaps == Gaps::Refuse {
        return Err(apart(&links).into());
    }
    let reversed = steps.iter().filter(|step| step.reversed).count();
    let motif = concatenate(name, subpaths, &steps, tolerance)?;
    Ok(Joined {
        motif,
        links,
        reversed,
    })
}

fn ends(subpath: &Subpath, reversed: bool) -> (Point, Point) {
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

/// Puts the walks one after the other, each turned so that its nearer end comes first.
fn line_up(subpaths: &[Subpath], trails: Vec<Vec<Step>>) -> (Vec<Step>, Vec<Gap>) {
    let mut steps: Vec<Step> = Vec::with_capacity(subpaths.len());
    let mut links = Vec::new();
    for mut trail in trails {
        let Some(&last) = steps.last() else {
            steps = trail;
            continue;
        };
        let tail = ends(&subpaths[last.index], last.reversed).1;
        let head = |step: &Step| ends(&subpaths[step.index], step.reversed).0;
        let foot = |step: &Step| ends(&subpaths[step.index], step.reversed).1;
        if (foot(&trail[trail.len() - 1]) - tail).norm() < (head(&trail[0]) - tail).norm() {
            trail.reverse();
            for step in &mut trail {
                step.reversed = !step.reversed;
            }
        }
        links.push(Gap {
            from_id: subpaths[last.index].id.clone(),
            from: tail,
            to_id: subpaths[trail[0].index].id.clone(),
            to: head(&trail[0]),
        });
        steps.extend(trail);
    }
    (steps, links)
}

fn concatenate(
    name: &str,
    mut subpaths: Vec<Subpath>,
    steps: &[Step],
    tolerance: f64,
) -> Result<Motif, Error> {
    let total = subpaths.iter().map(|s| s.flat.points.len()).sum();
    let mut points: Vec<Point> = Vec::with_capacity(total);
    let mut directions = [Vector::zeros(); 2];
    for (at, step) in steps.iter().enumerate() {
        let flat = &mut subpaths[step.index].flat;
        let mut piece = std::mem::take(&mut flat.points);
        let mut turned = [flat.start_direction, flat.end_direction];
        if step.reversed {
            piece.reverse();
            turned = [-turned[1], -turned[0]];
        }
        let meets = points
            .last()
            .is_some_and(|tail| (tail - piece[0]).norm() <= tolerance);
        points.extend(&piece[usize::from(meets)..]);
        if at == 0 {
            directions[0] = turned[0];
        }
        directions[1] = turned[1];
    }
    Ok(Motif::from_points(name, points)?.with_directions(directions))
}

fn apart(links: &[Gap]) -> MotifFault {
    const LISTED: usize = 5;
    let mut gaps: Vec<String> = links
        .iter()
        .take(LISTED)
        .map(|gap| {
            format!(
                "\"{}\" ends at ({:.3}, {:.3}), {:.3} from the start of \"{}\" at ({:.3}, {:.3})",
                gap.from_id,
                gap.from.x,
                gap.from.y,
                gap.size(),
                gap.to_id,
                gap.to.x,
                gap.to.y
            )
        })
        .collect();
    if links.len() > LISTED {
        gaps.push(format!("and {} gaps more", links.len() - LISTED));
    }
    MotifFault::Apart {
        gaps: gaps.join("; "),
        pieces: links.len() + 1,
    }
}

#[cfg(test)]
mod tests;
