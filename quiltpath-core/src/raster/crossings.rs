//! Crossings that thinning split in two.
//!
//! Problem: two lines that cross at an angle share their ink for a stretch, and thinning makes of
//! the crossing two forks with a bridge between them. On it both lines would be stitched twice.
//! Method: a bridge between two forks of three is taken out when each line on its one side goes
//! straight on in one on its other side, the two lines changing sides; or when it is shorter than
//! the pen is wide, which no drawing tells from a crossing. Shortest first, headings taken beyond
//! the ink that is shared. Guarantee: only edges between two forks go, so parts and ends stay as
//! they are. O(edges log edges). Failure: lines that cross at less than about 30 degrees keep their
//! bridge.

use super::net::Net;
use crate::graph::{root, unite};

/// Bridges up to so many pens long may be a crossing: pen / tan(half the angle) at 30 degrees.
const LONGEST: f64 = 3.75;

/// How much a line may turn over its crossing, as a cosine: 35 degrees.
const STRAIGHT: f64 = 0.82;

/// The net with split crossings made one, and how many there were.
pub(super) fn without_bridges(net: &Net, pen: f64) -> (Net, usize) {
    let around = net.around();
    let mut bridges: Vec<(f64, usize)> = (0..net.edges.len())
        .filter(|&at| {
            let [from, to] = net.edges[at].ends;
            from != to && around[from].len() >= 3 && around[to].len() >= 3
        })
        .map(|at| (net.length(at), at))
        .filter(|(length, _)| *length <= LONGEST * pen)
        .collect();
    bridges.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut taken = vec![false; net.nodes.len()];
    let mut gone = vec![false; net.edges.len()];
    let mut parent: Vec<usize> = (0..net.nodes.len()).collect();
    let mut crossings = 0;
    for (length, at) in bridges {
        let ends = net.edges[at].ends;
        let crosses = || !ends.iter().any(|&end| taken[end]) && is_crossing(net, &around, at, pen);
        if length <= 0.8 * pen || crosses() {
            gone[at] =
                root(&mut parent, ends[0]) != root(&mut parent, ends[1]) || length <= 0.8 * pen;
            if gone[at] {
                unite(&mut parent, ends);
                ends.iter().for_each(|&end| taken[end] = true);
                crossings += 1;
            }
        }
    }
    let mut sums = vec![(crate::geom::Vector::zeros(), 0.0); net.nodes.len()];
    let tops: Vec<usize> = (0..net.nodes.len())
        .map(|at| root(&mut parent, at))
        .collect();
    for (node, &top) in net.nodes.iter().zip(&tops) {
        sums[top].0 += node.coords;
        sums[top].1 += 1.0;
    }
    let middle = |at: usize| match sums[at] {
        (sum, count) if count > 0.0 => (sum / count).into(),
        _ => net.nodes[at],
    };
    let mut edges = net.edges.clone();
    for end in edges.iter_mut().flat_map(|edge| &mut edge.ends) {
        *end = tops[*end];
    }
    let merged = Net {
        nodes: (0..net.nodes.len()).map(middle).collect(),
        edges,
    };
    (merged.without(&gone), crossings)
}

/// True when the lines on both sides of a bridge go straight on across it and change sides.
fn is_crossing(net: &Net, around: &[Vec<(usize, usize)>], bridge: usize, pen: f64) -> bool {
    let [from, to] = net.edges[bridge].ends;
    let others = |node: usize| {
        let ends = around[node].iter().copied().filter(|end| end.0 != bridge);
        let headings = ends.map(|end| net.heading(end, 0.6 * pen, 2.5 * pen));
        let headings: Option<Vec<_>> = headings.collect();
        headings.and_then(|headings| <[_; 2]>::try_from(headings).ok())
    };
    let (Some(before), Some(after)) = (others(from), others(to)) else {
        return false;
    };
    let along = net.nodes[to] - net.nodes[from];
    let on_left = |heading: &(crate::geom::Point, crate::geom::Vector)| {
        along.perp(&(heading.0 - net.nodes[from])) > 0.0
    };
    let straight = |pairs: [[usize; 2]; 2]| {
        let least = pairs.map(|[one, other]| {
            let (a, b) = (before[one], after[other]);
            let across = (b.0 - a.0).try_normalize(1e-9).unwrap_or(b.1);
            // Straight on, and the way over the crossing is straight as well.
            (-a.1.dot(&b.1))
                .min(-a.1.dot(&across))
                .min(b.1.dot(&across))
        });
        least[0].min(least[1])
    };
    let kept = straight([[0, 0], [1, 1]]);
    let turned = straight([[0, 1], [1, 0]]);
    let pairs = if kept > turned {
        [[0, 0], [1, 1]]
    } else {
        [[0, 1], [1, 0]]
    };
    let changes = pairs
        .iter()
        .all(|&[one, other]| on_left(&before[one]) != on_left(&after[other]));
    kept.max(turned) > STRAIGHT && changes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use crate::raster::net::Edge;

    /// A bridge along x of this length, with four arms at this slope.
    fn split(length: f64, slope: [f64; 4]) -> Net {
        let arm = |node: usize, tip: usize, from: Point, to: Point| Edge {
            ends: [node, tip],
            points: (1..20)
                .map(|at| from + (to - from) * (f64::from(at) / 20.0))
                .collect(),
        };
        let (a, b) = (Point::new(0.0, 0.0), Point::new(length, 0.0));
        let tips = [
            Point::new(-20.0, -20.0 * slope[0]),
            Point::new(-20.0, 20.0 * slope[1]),
            Point::new(length + 20.0, -20.0 * slope[2]),
            Point::new(length + 20.0, 20.0 * slope[3]),
        ];
        let mut edges = vec![Edge {
            ends: [0, 1],
            points: vec![Point::new(length / 2.0, 0.0)],
        }];
        edges.extend((0..4).map(|at| {
            let node = at / 2;
            arm(node, at + 2, [a, b][node], tips[at])
        }));
        let mut nodes = vec![a, b];
        nodes.extend(tips);
        Net { nodes, edges }
    }

    #[test]
    fn crossings_are_merged_and_shared_stretches_stay() {
        let (merged, count) = without_bridges(&split(6.0, [0.5; 4]), 4.0);
        assert_eq!((merged.edges.len(), merged.nodes.len(), count), (4, 5, 1));
        assert!(merged.nodes.contains(&Point::new(3.0, 0.0)));
        // Too long for a crossing; forks that turn too much; all arms on one side.
        for (length, slope) in [
            (20.0, [0.5; 4]),
            (14.0, [3.0; 4]),
            (8.0, [0.9, -0.5, 0.9, -0.5]),
        ] {
            let net = split(length, slope);
            assert_eq!(without_bridges(&net, 4.0).1, 0, "{length} {slope:?}");
        }
        // Shorter than the pen: a crossing whatever its arms do.
        assert_eq!(without_bridges(&split(3.0, [3.0; 4]), 4.0).1, 1);
    }
}
