//! Gates, through which a line enters and leaves what its drawing is for: an edge of the drawing,
//! and how far along it ends may lie.
//!
//! Of the pairs of nodes at two gates those are tried whose distances along differ least, so that
//! copies meet.

use super::net::{StrokeNet, degrees};
use crate::geom::lines::Lines;
use crate::geom::{Point, Vector};

/// Ends lie within this share of a drawing's extent of the edge of its box, and pairs of ends whose
/// heights differ by less than this share of a gate are as good as each other.
const AT_EDGE: f64 = 0.02;

/// So many pairs of ends are tried at the most.
const TRIED: usize = 6;

/// So many nodes of a gate are looked at, at the most, ends of lines first.
const MOST_AT_GATE: usize = 1000;

/// A part of the edge of a drawing's box.
#[derive(Debug, Clone, Copy)]
pub(super) struct Gate {
    /// The way out.
    pub(super) out: Vector,
    /// How far that way the drawing reaches.
    far: f64,
    /// Nodes are at the gate from so far out on.
    least_out: f64,
    along: Vector,
    /// Where the drawing begins along the gate.
    zero: f64,
    /// How far along it nodes may lie.
    depth: f64,
}

impl Gate {
    pub(super) fn of(lines: &Lines, out: Vector, along: Vector, depth: f64) -> Self {
        let range = |way: Vector| {
            let far = lines.points().iter().map(|point| point.coords.dot(&way));
            far.fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], far| {
                [least.min(far), most.max(far)]
            })
        };
        let ([near, far], [zero, most]) = (range(out), range(along));
        Self {
            out,
            far,
            least_out: far - AT_EDGE * (far - near),
            along,
            zero,
            depth: depth.min(most - zero),
        }
    }

    /// How far along the gate a point lies, at it or not.
    pub(super) fn along(&self, point: Point) -> f64 {
        point.coords.dot(&self.along) - self.zero
    }

    /// How far a point is from the edge.
    pub(super) fn away(&self, point: Point) -> f64 {
        self.far - point.coords.dot(&self.out)
    }

    /// The nodes at the gate, each with how far along it it lies.
    pub(super) fn nodes(&self, net: &StrokeNet) -> Vec<(usize, f64)> {
        let degrees = degrees(net);
        let all = (0..net.nodes.len()).filter(|&node| degrees[node] > 0);
        let at = |node: usize| {
            let (point, along) = (net.nodes[node], self.along(net.nodes[node]));
            let at = point.coords.dot(&self.out) >= self.least_out;
            (at && along <= self.depth * (1.0 + AT_EDGE)).then_some((node, along))
        };
        let mut nodes: Vec<(usize, f64)> = all.filter_map(at).collect();
        nodes.sort_by_key(|&(node, _)| 1 - degrees[node] % 2);
        nodes.truncate(MOST_AT_GATE);
        nodes
    }
}

/// Pairs of these nodes, one at each gate: those first that let the least be stitched twice, of all
/// whose heights differ about as little as can be.
pub(super) fn between(
    net: &StrokeNet,
    gates: &[Gate; 2],
    [firsts, lasts]: [Vec<(usize, f64)>; 2],
    join: f64,
) -> Vec<[usize; 2]> {
    let degrees = degrees(net);
    let mut pairs: Vec<(u32, f64, [usize; 2])> = Vec::new();
    let mut least = f64::INFINITY;
    for &(first, height) in &firsts {
        for &(last, other) in lasts.iter().filter(|(last, _)| *last != first) {
            let even = 2 - degrees[first] % 2 - degrees[last] % 2;
            let differ = (height - other).abs();
            least = least.min(differ);
            pairs.push((even, differ, [first, last]));
        }
    }
    let alike = join.max(AT_EDGE * gates[0].depth.min(gates[1].depth));
    pairs.retain(|pair| pair.1 <= least + alike);
    pairs.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2)));
    pairs.truncate(TRIED);
    pairs.into_iter().map(|(.., pair)| pair).collect()
}
