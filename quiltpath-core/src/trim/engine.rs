//! Any order by the engine that makes one line of strokes, for rings of up to [`MOST`] pieces.
//!
//! Problem and method: the pieces are edges that have to be walked, arcs of the ring and the stubs
//! to its track are links that may be, up to twice; the least walk is that of
//! [`least_route`](crate::graph::least_route), pieces stitched over as it takes them. Of the walks
//! that are as long the one is taken that goes on along the ring. Guarantee: that of the engine:
//! exact where it ends by itself, else a bound. Failure cases: more pieces than [`MOST`], for which
//! the matching takes too long; none is found then.

use super::boundary::Boundary;
use super::walk::{Plan, Step, reversed};
use crate::geom::Vector;
use crate::geom::region::Way;
use crate::graph::{Edge, Ends, Net, Strand, least_route, straight_walks};

/// Up to so many pieces are joined by the engine: their ends are paired in some 35 ms.
pub(super) const MOST: usize = 150;

/// How many steps the engine may take.
const EFFORT: u64 = 6_000_000;

/// What the walk goes along.
#[derive(Debug, Clone, Copy)]
enum Along {
    Piece(usize),
    /// From the foot of a node to the next.
    Arc(usize),
    /// From a node to its foot.
    Stub,
}

/// The least route with pieces stitched over where that helps, and what it adds.
pub(super) fn any_order(ring: &Boundary) -> Option<(Plan, f64)> {
    let pieces: Vec<usize> = (0..ring.edges.len())
        .filter(|&piece| !ring.is_isolated(piece))
        .collect();
    if pieces.is_empty() || pieces.len() > MOST {
        return None;
    }
    let count = ring.nodes.len();
    let on_track = ring.nodes.iter().all(|node| node.stub == 0.0);
    let foot = |node: usize| match on_track {
        true => node,
        false => ring.vertices + node,
    };
    let (mut edges, mut links) = (Vec::new(), Vec::new());
    let mut strands: Vec<(Along, Strand)> = Vec::new();
    let [onward, across] = [Vector::new(1.0, 0.0), Vector::new(0.0, 1.0)];
    for &piece in &pieces {
        let edge = ring.edges[piece];
        edges.push(Edge {
            ends: edge.ends,
            length: edge.length,
        });
        let out = [across; 2];
        strands.push((
            Along::Piece(piece),
            Strand {
                ends: edge.ends,
                out,
            },
        ));
    }
    for (node, &length) in ring.arcs.iter().enumerate().filter(|_| count > 1) {
        let ends = [foot(node), foot((node + 1) % count)];
        links.push(Edge { ends, length });
        let out = [onward, -onward];
        strands.push((Along::Arc(node), Strand { ends, out }));
    }
    for (node, of) in ring.nodes.iter().enumerate().filter(|_| !on_track) {
        let ends = [node, foot(node)];
        links.push(Edge {
            ends,
            length: of.stub,
        });
        let out = [-across, across];
        strands.push((Along::Stub, Strand { ends, out }));
    }
    let vertices = ring.vertices + if on_track { 0 } else { count };
    let net = Net {
        vertices,
        edges,
        links,
    };
    let ends = Ends {
        start: ring.start,
        end: ring.end,
    };
    let mut left = EFFORT;
    let route = least_route(&net, ends, None, &mut left)?;
    let again = route.again.iter().map(|&again| 1 + usize::from(again));
    let times = again.chain(route.links.iter().map(|&times| usize::from(times)));
    let (mut along, mut walked) = (Vec::new(), Vec::new());
    for ((what, strand), times) in strands.into_iter().zip(times) {
        for _ in 0..times {
            along.push(what);
            walked.push(strand);
        }
    }
    let walk = straight_walks(&walked, vertices, &route.ends);
    let walk = walk.into_iter().next()?;
    let node = |vertex: usize| match vertex < ring.vertices {
        true => vertex,
        false => vertex - ring.vertices,
    };
    let mut steps: Vec<Step> = Vec::with_capacity(walk.len());
    for step in walk.iter() {
        match along[step.index] {
            Along::Stub => {}
            Along::Piece(index) => steps.push(Step::Piece {
                index,
                reversed: step.reversed,
            }),
            Along::Arc(from) => {
                let ends = [from, (from + 1) % count];
                let ([from, to], way) = match step.reversed {
                    false => (ends, Way::Onward),
                    true => ([ends[1], ends[0]], Way::Back),
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
    let (first, last) = (walk.first()?, walk.last()?);
    let start = node(walked[first.index].ends[usize::from(first.reversed)]);
    let end = node(walked[last.index].ends[usize::from(!last.reversed)]);
    let wrong = |given: Option<usize>, found: usize| given.is_some_and(|given| given != found);
    if wrong(ring.start, start) || wrong(ring.end, end) {
        steps = reversed(steps);
    }
    let plan = Plan {
        steps,
        lower: route.lower,
    };
    Some((plan, route.cost))
}
