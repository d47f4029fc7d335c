//! A thinned line of pixels to a net of edges and nodes.
//!
//! Problem: which pixels of the thin line are ends and crossings, and which chains lead between
//! them. Method: a pixel has as neighbours those at its sides, and those at its corners unless a
//! side leads there as well. Pixels with other than two neighbours are nodes, those that touch
//! being one; chains of the rest are followed from node to node; what is left are rings. Guarantee:
//! each pixel is in one node or one edge. O(pixels of the line). Failure: more lines than drawings
//! have are refused.

use std::collections::HashMap;

use super::ink::Mask;
use super::net::{Edge, Net};
use super::thin::neighbours;
use crate::error::{Error, ScanFault};
use crate::geom::Point;
use crate::graph::{root, unite};

/// Lines between ends and crossings that a drawing may have.
const MAX_LINES: usize = 100_000;

/// For each set of neighbours, those that count: corners only where no side leads there.
const LINKED: [u8; 256] = linked();

const fn linked() -> [u8; 256] {
    let mut table = [0; 256];
    let mut code = 0_usize;
    while code < 256 {
        let mut kept = code as u8 & 0b0101_0101;
        let mut corner = 1;
        while corner < 8 {
            let beside = (1_u8 << (corner - 1)) | (1 << ((corner + 1) % 8));
            if code as u8 & (1 << corner) != 0 && code as u8 & beside == 0 {
                kept |= 1 << corner;
            }
            corner += 2;
        }
        table[code] = kept;
        code += 1;
    }
    table
}

struct Line<'a> {
    mask: &'a Mask,
    steps: [isize; 8],
}

impl Line<'_> {
    fn linked(&self, at: u32) -> impl Iterator<Item = u32> + use<> {
        let code = LINKED[usize::from(neighbours(self.mask, at as usize))];
        let steps = self.steps;
        let there = (0..8).filter(move |bit| code & (1 << bit) != 0);
        there.map(move |bit: usize| (at as isize + steps[bit]) as u32)
    }

    fn degree(&self, at: u32) -> u32 {
        LINKED[usize::from(neighbours(self.mask, at as usize))].count_ones()
    }

    fn place(&self, at: u32) -> Point {
        let at = at as usize;
        let (x, y) = (at % self.mask.width, at / self.mask.width);
        Point::new(x as f64 + 0.5, y as f64 + 0.5)
    }
}

/// The net of a thin line, whose pixels are these.
///
/// # Errors
///
/// A scan error when it has too many edges.
pub(super) fn net(mask: &Mask, line: &[u32]) -> Result<Net, Error> {
    let width = mask.width as isize;
    let thin = Line {
        mask,
        steps: [
            -width,
            1 - width,
            1,
            width + 1,
            width,
            width - 1,
            -1,
            -width - 1,
        ],
    };
    let forks: Vec<u32> = line
        .iter()
        .copied()
        .filter(|&at| thin.degree(at) != 2)
        .collect();
    let (node_of, mut nodes) = clusters(&thin, &forks);
    let mut edges: Vec<Edge> = Vec::new();
    let mut passed: HashMap<u32, ()> = HashMap::new();
    let full = |edges: &[Edge]| match edges.len() {
        count if count > MAX_LINES => Err(Error::from(ScanFault::TooBusy {
            what: "separate lines",
            found: count,
            limit: MAX_LINES,
        })),
        _ => Ok(()),
    };
    for &fork in &forks {
        let node = node_of[&fork];
        for first in thin.linked(fork) {
            if let Some(&other) = node_of.get(&first) {
                // Two nodes side by side; each pair of pixels once.
                if other != node && fork < first {
                    edges.push(Edge {
                        ends: [node, other],
                        points: Vec::new(),
                    });
                }
            } else if !passed.contains_key(&first) {
                let (points, end) = follow(&thin, fork, first, &node_of, &mut passed);
                let end = end.map_or(node, |end| node_of[&end]);
                edges.push(Edge {
                    ends: [node, end],
                    points,
                });
            }
        }
        full(&edges)?;
    }
    for &start in line {
        if thin.degree(start) == 2 && !passed.contains_key(&start) {
            passed.insert(start, ());
            let first = thin.linked(start).next().unwrap_or(start);
            let (mut points, _) = follow(&thin, start, first, &node_of, &mut passed);
            // The start was passed already, so that the chain ends before it.
            points.retain(|point| *point != thin.place(start));
            nodes.push(thin.place(start));
            edges.push(Edge {
                ends: [nodes.len() - 1; 2],
                points,
            });
            full(&edges)?;
        }
    }
    Ok(Net { nodes, edges })
}

/// The nodes: fork pixels that touch are one, in their middle.
fn clusters(thin: &Line<'_>, forks: &[u32]) -> (HashMap<u32, usize>, Vec<Point>) {
    let order: HashMap<u32, usize> = forks
        .iter()
        .enumerate()
        .map(|(at, fork)| (*fork, at))
        .collect();
    let mut parent: Vec<usize> = (0..forks.len()).collect();
    for (at, &fork) in forks.iter().enumerate() {
        if thin.degree(fork) < 3 {
            continue;
        }
        for other in thin.linked(fork) {
            if let Some(&other_at) = order.get(&other)
                && thin.degree(other) >= 3
            {
                unite(&mut parent, [at, other_at]);
            }
        }
    }
    let mut number = HashMap::new();
    let mut node_of = HashMap::new();
    let mut sums: Vec<(Point, f64)> = Vec::new();
    for (at, &fork) in forks.iter().enumerate() {
        let top = root(&mut parent, at);
        let node = *number.entry(top).or_insert_with(|| {
            sums.push((Point::origin(), 0.0));
            sums.len() - 1
        });
        node_of.insert(fork, node);
        sums[node].0 += thin.place(fork).coords;
        sums[node].1 += 1.0;
    }
    let middle = |(sum, count): (Point, f64)| sum / count;
    (node_of, sums.into_iter().map(middle).collect())
}

/// The chain from a pixel on, and the fork that it ends at, if any.
fn follow(
    thin: &Line<'_>,
    from: u32,
    first: u32,
    node_of: &HashMap<u32, usize>,
    passed: &mut HashMap<u32, ()>,
) -> (Vec<Point>, Option<u32>) {
    let (mut before, mut at) = (from, first);
    let mut points = Vec::new();
    loop {
        if node_of.contains_key(&at) {
            return (points, Some(at));
        }
        if passed.insert(at, ()).is_some() {
            return (points, None);
        }
        points.push(thin.place(at));
        let Some(next) = thin.linked(at).find(|&next| next != before) else {
            return (points, None);
        };
        (before, at) = (at, next);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::raster::thin::thin;
    use proptest::prelude::*;

    fn of(rows: &[&str]) -> Net {
        let mut mask = Mask::of_rows(rows);
        let line = thin(&mut mask);
        net(&mask, &line).expect("few lines")
    }

    #[test]
    fn crosses_rings_and_dots() {
        let cross = of(&["..#..", "..#..", "#####", "..#..", "..#.."]);
        assert_eq!((cross.nodes.len(), cross.edges.len()), (5, 4));
        let ring = of(&[".##.", "#..#", "#..#", ".##."]);
        assert_eq!((ring.nodes.len(), ring.edges.len()), (1, 1));
        assert_eq!(ring.edges[0].points.len(), 7);
        let dot = of(&["...", ".#.", "..."]);
        assert_eq!((dot.nodes.len(), dot.edges.len()), (1, 0));
        let line = of(&["#....", ".##..", "...##"]);
        assert_eq!((line.nodes.len(), line.edges.len()), (2, 1));
        let eight = of(&["###..", "#.#..", "#####", "..#.#", "..###"]);
        assert_eq!((eight.nodes.len(), eight.edges.len()), (1, 2));
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(crate::cases(128)))]
        /// Every pixel is in one place, and edges lead from one pixel to its neighbour.
        #[test]
        fn each_pixel_is_in_one_node_or_edge(cells in prop::collection::vec(0..3_u8, 20 * 20)) {
            let mut mask = Mask { width: 22, cells: vec![0; 22 * 22] };
            for (at, &cell) in cells.iter().enumerate() {
                mask.cells[(at / 20 + 1) * 22 + at % 20 + 1] = u8::from(cell == 0);
            }
            let line = thin(&mut mask);
            let net = net(&mask, &line).expect("few lines");
            let inside: usize = net.edges.iter().map(|edge| edge.points.len()).sum();
            prop_assert!(inside + net.nodes.len() <= line.len());
            for edge in &net.edges {
                for pair in edge.points.windows(2) {
                    prop_assert!((pair[1] - pair[0]).norm() < 1.5);
                }
            }
            // Independent cycles of a graph: edges - nodes + parts; the holes of the line.
            let mut parent: Vec<usize> = (0..net.nodes.len()).collect();
            for edge in &net.edges {
                unite(&mut parent, edge.ends);
            }
            let parts = (0..net.nodes.len()).filter(|&at| root(&mut parent, at) == at).count();
            let blobs = crate::raster::blobs::Blobs::of(&mask).expect("few runs");
            prop_assert_eq!(parts, blobs.blobs.len());
        }
    }
}
