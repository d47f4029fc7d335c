//! The boundary as a ring of nodes, the pieces as edges between them, the links' own track.
//!
//! Vertices are numbered: first the ring's nodes in the order of their positions, then the
//! places inside the region where pieces end.

use super::clip::{ClippedPiece, EndOn};
use super::options::Terminals;
use crate::error::{Error, GeometryFault};
use crate::geom::Point;
use crate::geom::measure::share_on_segment;
use crate::geom::region::{Perimeter, Region, Way};

/// Positions that differ by less than this share of the boundary are one node.
const SAME: f64 = 1e-12;

/// A place this near to a corner, as a share of the boundary, is at the corner.
const CORNER: f64 = 1e-9;

/// A piece may end this share of the boundary away from the position that it gives, and no farther.
const ASTRAY: f64 = 1e-6;

/// A place on the boundary where a piece or the path ends.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    /// The place itself.
    point: Point,
    /// Where a link leaves the track of links for it.
    foot: Point,
    foot_position: f64,
    /// How far the place is from the track.
    pub(super) stub: f64,
}

/// A piece between two vertices.
#[derive(Debug, Clone, Copy)]
pub(super) struct Edge {
    pub(super) ends: [usize; 2],
    pub(super) length: f64,
}

pub(super) struct Boundary {
    /// The nodes in the order of their positions.
    pub(super) nodes: Vec<Node>,
    /// The length of the track from each node to the next, round to the first.
    pub(super) arcs: Vec<f64>,
    /// The number of vertices: the nodes, then the places inside.
    pub(super) vertices: usize,
    /// One edge for each piece.
    pub(super) edges: Vec<Edge>,
    /// The prescribed ends of the path.
    pub(super) start: Option<usize>,
    pub(super) end: Option<usize>,
    track: Perimeter,
}

impl Boundary {
    pub(super) fn of(
        pieces: &[ClippedPiece],
        region: &Region,
        terminals: Terminals,
        inset: f64,
    ) -> Result<Self, Error> {
        if pieces.is_empty() {
            return Err(GeometryFault::NoPieces.into());
        }
        let boundary = Perimeter::of(region);
        let mut marks: Vec<f64> = Vec::with_capacity(2 * pieces.len() + 2);
        for (index, piece) in pieces.iter().enumerate() {
            let ends = [
                (piece.start, piece.line.start()),
                (piece.end, piece.line.end()),
            ];
            for (end, point) in ends {
                if let EndOn::Boundary(position) = end {
                    let off = (boundary.point_at(position) - point).norm();
                    if off.is_nan() || off > ASTRAY * boundary.length() {
                        return Err(GeometryFault::PieceAstray { index, position }.into());
                    }
                    marks.push(boundary.wrap(position));
                }
            }
        }
        for position in [terminals.start, terminals.end].into_iter().flatten() {
            if !position.is_finite() {
                return Err(Error::bad_number(
                    "a position on the boundary",
                    position,
                    "a distance along the boundary from its first corner",
                ));
            }
            marks.push(boundary.wrap(position));
        }
        let positions = distinct(marks, boundary.length());
        let inner = region.inset(inset)?;
        let track = Perimeter::of(&inner);
        let nodes: Vec<Node> = positions
            .iter()
            .map(|&position| node(&boundary, &track, &inner, position, inset))
            .collect();
        let arcs = (0..nodes.len())
            .map(|index| match nodes.get(index + 1) {
                Some(next) => next.foot_position - nodes[index].foot_position,
                None => nodes[0].foot_position + track.length() - nodes[index].foot_position,
            })
            .map(|arc| arc.max(0.0))
            .collect();
        let at = |position: f64| nearest(&positions, boundary.wrap(position), boundary.length());
        let mut inside: Vec<Point> = Vec::new();
        let mut vertex = |end: EndOn, point: Point| match end {
            EndOn::Boundary(position) => at(position),
            // A closed drawing cut elsewhere starts and ends in one place.
            EndOn::Inside => {
                let known = inside.iter().position(|&other| other == point);
                known.unwrap_or_else(|| {
                    inside.push(point);
                    inside.len() - 1
                }) + positions.len()
            }
        };
        let edges = pieces
            .iter()
            .map(|piece| Edge {
                ends: [
                    vertex(piece.start, piece.line.start()),
                    vertex(piece.end, piece.line.end()),
                ],
                length: piece.line.length(),
            })
            .collect();
        Ok(Self {
            vertices: positions.len() + inside.len(),
            start: terminals.start.map(at),
            end: terminals.end.map(at),
            nodes,
            arcs,
            edges,
            track,
        })
    }

    pub(super) fn is_node(&self, vertex: usize) -> bool {
        vertex < self.nodes.len()
    }

    /// True for a piece that can't be reached along the boundary.
    pub(super) fn is_isolated(&self, edge: usize) -> bool {
        self.edges[edge].ends.iter().all(|&end| !self.is_node(end))
    }

    /// The length of a link between two nodes that goes this way.
    pub(super) fn link_length(&self, from: usize, to: usize, way: Way) -> f64 {
        if from == to {
            return 0.0;
        }
        let (a, b) = (&self.nodes[from], &self.nodes[to]);
        let onward = match way {
            Way::Onward => b.foot_position - a.foot_position,
            Way::Back => a.foot_position - b.foot_position,
        };
        // By the order of the nodes: positions of feet may coincide.
        let wraps = (way == Way::Onward) == (to < from);
        let along = if wraps {
            onward + self.track.length()
        } else {
            onward
        };
        a.stub + along.max(0.0) + b.stub
    }

    /// The shorter way from one node to another.
    pub(super) fn shorter_way(&self, from: usize, to: usize) -> Way {
        let [onward, back] = [Way::Onward, Way::Back].map(|way| self.link_length(from, to, way));
        if onward <= back {
            Way::Onward
        } else {
            Way::Back
        }
    }

    /// The points of a link, from where one piece ends to where the next starts.
    pub(super) fn link_points(&self, from: usize, to: usize, way: Way) -> Vec<Point> {
        let (a, b) = (&self.nodes[from], &self.nodes[to]);
        let mut points = vec![a.point, a.foot];
        points.extend(self.track.between(a.foot_position, b.foot_position, way));
        points.extend([b.foot, b.point]);
        points.dedup();
        points
    }
}

/// The positions in order, each once.
fn distinct(mut marks: Vec<f64>, length: f64) -> Vec<f64> {
    marks.sort_unstable_by(f64::total_cmp);
    marks.dedup_by(|later, earlier| *later - *earlier <= SAME * length);
    if marks.len() > 1 && marks[0] + length - marks[marks.len() - 1] <= SAME * length {
        marks.pop();
    }
    marks
}

/// The index of the position nearest to this one, round the ring.
fn nearest(positions: &[f64], position: f64, length: f64) -> usize {
    let after = positions.partition_point(|&other| other < position);
    let count = positions.len();
    let around = |index: usize| {
        let off = (positions[index % count] - position).rem_euclid(length);
        off.min(length - off)
    };
    let before = after + count - 1;
    if around(before) <= around(after) {
        before % count
    } else {
        after % count
    }
}

fn node(
    boundary: &Perimeter,
    track: &Perimeter,
    inner: &Region,
    position: f64,
    inset: f64,
) -> Node {
    let point = boundary.point_at(position);
    if inset == 0.0 {
        return Node {
            point,
            foot: point,
            foot_position: position,
            stub: 0.0,
        };
    }
    // Straight across to the track; at a corner, or beside one that juts out, to the track's own
    // corner. Which of its two sides rounding gives a corner to must not matter.
    let side = boundary.side_at(position);
    let [from, to] = inner.side(side);
    let same = CORNER * boundary.length();
    let share = if position - boundary.start_of(side) <= same {
        0.0
    } else if boundary.start_of(side + 1) - position <= same {
        1.0
    } else {
        share_on_segment(point, [from, to])
    };
    let foot = from + (to - from) * share;
    Node {
        point,
        foot,
        foot_position: track.start_of(side) + share * (to - from).norm(),
        stub: (foot - point).norm(),
    }
}

#[cfg(test)]
mod tests;
