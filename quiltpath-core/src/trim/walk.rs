//! A walk over every edge of a multigraph once (Hierholzer), as steps of the route.

use super::boundary::Boundary;
use crate::geom::region::Way;
use crate::graph::{self, euler_walk};

/// One step of a route.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Step {
    /// A piece, against its direction when reversed.
    Piece { index: usize, reversed: bool },
    /// Along the links' track from node to node.
    Link { from: usize, to: usize, way: Way },
    /// A thread cut.
    Cut,
}

/// The steps of a route and the least length that any could add.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Plan {
    pub(super) steps: Vec<Step>,
    /// No route of the same order and as few cuts adds less.
    pub(super) lower: f64,
}

/// What an edge of the multigraph stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Piece(usize),
    Arc(usize),
    Jump,
}

/// The edges to walk: pieces, arcs of the ring, jumps from one vertex to another.
pub(super) struct Multigraph<'a> {
    ring: &'a Boundary,
    edges: Vec<([usize; 2], Kind)>,
}

impl<'a> Multigraph<'a> {
    pub(super) fn new(ring: &'a Boundary) -> Self {
        Self {
            ring,
            edges: Vec::new(),
        }
    }

    pub(super) fn piece(&mut self, index: usize) {
        self.edges
            .push((self.ring.edges[index].ends, Kind::Piece(index)));
    }

    pub(super) fn arc(&mut self, index: usize) {
        let to = (index + 1) % self.ring.nodes.len();
        self.edges.push(([index, to], Kind::Arc(index)));
    }

    pub(super) fn jump(&mut self, ends: [usize; 2]) {
        self.edges.push((ends, Kind::Jump));
    }

    /// The steps of a walk from this vertex over every edge.
    ///
    /// The multigraph has to be connected, its odd vertices being the start and the end.
    pub(super) fn walk(&self, start: usize) -> Vec<Step> {
        let ends: Vec<[usize; 2]> = self.edges.iter().map(|(ends, _)| *ends).collect();
        let mut around: Vec<Vec<usize>> = vec![Vec::new(); self.ring.vertices];
        for (index, ends) in ends.iter().enumerate() {
            ends.iter().for_each(|&end| around[end].push(index));
        }
        let mut used = vec![false; ends.len()];
        self.steps(&euler_walk(&ends, &mut around, &mut used, start))
    }

    fn steps(&self, walked: &[graph::Step]) -> Vec<Step> {
        let count = self.ring.nodes.len();
        let mut steps: Vec<Step> = Vec::with_capacity(walked.len());
        for &graph::Step { index, reversed } in walked {
            match self.edges[index].1 {
                Kind::Piece(index) => steps.push(Step::Piece { index, reversed }),
                Kind::Jump => steps.push(Step::Cut),
                Kind::Arc(index) => {
                    let next = (index + 1) % count;
                    let (from, to, way) = if reversed {
                        (next, index, Way::Back)
                    } else {
                        (index, next, Way::Onward)
                    };
                    match steps.last_mut() {
                        // A run once round would look like no link at all.
                        Some(Step::Link {
                            from: first,
                            to: last,
                            way: under_way,
                        }) if *last == from && *under_way == way && *first != to => *last = to,
                        _ => steps.push(Step::Link { from, to, way }),
                    }
                }
            }
        }
        steps
    }
}

/// The same route travelled from its end to its start.
pub(super) fn reversed(steps: Vec<Step>) -> Vec<Step> {
    let turned = |step| match step {
        Step::Piece { index, reversed } => Step::Piece {
            index,
            reversed: !reversed,
        },
        Step::Link { from, to, way } => Step::Link {
            from: to,
            to: from,
            way: match way {
                Way::Onward => Way::Back,
                Way::Back => Way::Onward,
            },
        },
        Step::Cut => Step::Cut,
    };
    steps.into_iter().rev().map(turned).collect()
}
