//! The rural postman on a ring: which arcs to travel, once or twice, so that one walk covers all.
//!
//! Problem: pieces are edges between nodes of a ring and each is walked once; arcs of the ring
//! may be added. A walk from one given vertex to another exists iff the pieces and added arcs are
//! connected and every vertex has the right parity: odd at the two ends of the walk, even
//! elsewhere (Euler). Wanted is the least length of added arcs.
//!
//! Method, and why it is exact:
//! - Of three or more copies of an arc two can be left out without changing parity or
//!   connection, so an arc is added 0, 1 or 2 times.
//! - Let x_i be 1 when arc i, between node i and node i + 1, is added once. Node i has the right
//!   parity iff x_i = x_(i−1) xor p_i, where p_i says that the node is odd without arcs where it
//!   has to be even, or the other way. So one bit fixes all x.
//! - Given x, the other arcs are added twice or not at all. Twice changes no parity and costs
//!   2 a_i, so what is needed is the cheapest set of arcs with x_i = 0 that connects what pieces
//!   and single arcs leave apart: a minimum spanning tree (Kruskal).
//!
//! Hence cost = Σ x_i a_i + 2 · tree, for the better of the two bits. Two bounds follow without a
//! tree. Single and doubled arcs together connect the pieces, so their length X + F is at least
//! that of the spanning tree M of the pieces alone; so X + 2F ≥ max(X, 2M − X) ≥ M.
//!
//! With links at an inset, every node that x leaves odd takes its stub to the track once; that is
//! part of the cost. A node that only doubled arcs reach, and whose own pieces are even, would
//! take it twice; that is left out, so then the cost is a lower bound.

use super::boundary::Boundary;
use crate::graph::{root, unite};

/// Arcs flipped against a pattern: those from `from` up to `to`, and all of them if `other`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Flip {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) other: bool,
}

/// The arcs that parity asks for, for one bit; the other bit flips them all.
pub(super) struct Pattern {
    chosen: Vec<bool>,
    /// What flipping all arcs before this one adds.
    flipped: Vec<f64>,
    length: f64,
    total: f64,
    /// The stubs of the odd nodes together.
    stubs: f64,
    /// What it adds in stubs when a node changes parity.
    toggled: Vec<f64>,
}

impl Pattern {
    /// The pattern for nodes that are odd where they have to be even.
    pub(super) fn of(ring: &Boundary, odd: &[bool]) -> Self {
        let mut chosen = Vec::with_capacity(odd.len());
        let mut flipped = vec![0.0];
        let (mut on, mut length, mut total, mut stubs) = (false, 0.0, 0.0, 0.0);
        let mut toggled = Vec::with_capacity(odd.len());
        for (node, &arc) in ring.arcs.iter().enumerate() {
            on ^= odd[node];
            chosen.push(on);
            let stub = ring.nodes[node].stub;
            stubs += if odd[node] { stub } else { 0.0 };
            toggled.push(if odd[node] { -stub } else { stub });
            flipped.push(flipped[node] + if on { -arc } else { arc });
            length += if on { arc } else { 0.0 };
            total += arc;
        }
        Self {
            chosen,
            flipped,
            length,
            total,
            stubs,
            toggled,
        }
    }

    /// The number of arcs.
    pub(super) fn len(&self) -> usize {
        self.chosen.len()
    }

    /// Whether parity asks for this arc.
    pub(super) fn chosen(&self, arc: usize, flip: Flip) -> bool {
        self.chosen[arc] ^ flip.other ^ (flip.from <= arc && arc < flip.to)
    }

    /// The length of the arcs that parity asks for.
    pub(super) fn length(&self, flip: Flip) -> f64 {
        let length = self.length + self.flipped[flip.to] - self.flipped[flip.from];
        if flip.other {
            self.total - length
        } else {
            length
        }
    }

    /// The stubs of the odd nodes together.
    pub(super) fn stubs(&self) -> f64 {
        self.stubs
    }

    /// What it adds in stubs when this node changes parity.
    pub(super) fn toggled(&self, node: usize) -> f64 {
        self.toggled[node]
    }
}

/// What the pieces connect, and the arcs by length to connect the rest.
pub(super) struct Postman<'a> {
    ring: &'a Boundary,
    /// The component of each vertex, by pieces alone.
    component: Vec<usize>,
    components: usize,
    by_length: Vec<usize>,
    parent: Vec<usize>,
}

impl<'a> Postman<'a> {
    pub(super) fn new(ring: &'a Boundary) -> Self {
        let mut parent: Vec<usize> = (0..ring.vertices).collect();
        let mut reached = vec![false; ring.vertices];
        reached[..ring.nodes.len()].fill(true);
        for (index, edge) in ring.edges.iter().enumerate() {
            if !ring.is_isolated(index) {
                edge.ends.iter().for_each(|&end| reached[end] = true);
                unite(&mut parent, edge.ends);
            }
        }
        let mut number = vec![usize::MAX; ring.vertices];
        let mut components = 0;
        let component = (0..ring.vertices)
            .map(|vertex| {
                let root = root(&mut parent, vertex);
                if number[root] == usize::MAX && reached[vertex] {
                    number[root] = components;
                    components += 1;
                }
                number[root]
            })
            .collect();
        let mut by_length: Vec<usize> = (0..ring.arcs.len()).collect();
        by_length.sort_by(|&a, &b| ring.arcs[a].total_cmp(&ring.arcs[b]));
        Self {
            ring,
            component,
            components,
            by_length,
            parent: Vec::new(),
        }
    }

    /// Finds the tree of arcs that connects what the chosen arcs and the joins leave apart: its
    /// arcs go to `keep`, its length comes back. Infinite once it is longer than `limit`.
    pub(super) fn tree(
        &mut self,
        chosen: impl Fn(usize) -> bool,
        joins: &[[usize; 2]],
        limit: f64,
        mut keep: impl FnMut(usize),
    ) -> f64 {
        let count = self.ring.nodes.len();
        self.parent.clear();
        self.parent.extend(0..self.components);
        let mut apart = self.components;
        let component = &self.component;
        for join in joins {
            apart -= usize::from(unite(&mut self.parent, join.map(|end| component[end])));
        }
        let ends = |arc: usize| [component[arc], component[(arc + 1) % count]];
        for arc in (0..count).filter(|&arc| chosen(arc)) {
            apart -= usize::from(unite(&mut self.parent, ends(arc)));
        }
        let mut length = 0.0;
        for &arc in &self.by_length {
            if apart <= 1 {
                break;
            }
            if unite(&mut self.parent, ends(arc)) {
                apart -= 1;
                length += self.ring.arcs[arc];
                if length > limit {
                    return f64::INFINITY;
                }
                keep(arc);
            }
        }
        length
    }
}
