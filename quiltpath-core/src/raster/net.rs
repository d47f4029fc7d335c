//! Lines between places where they end or meet: the drawing as a net, in pixels.
//!
//! x to the right and y down from the top left of the picture, pixels' centres at halves.

use crate::geom::{Point, Vector};

/// A line of the net between two of its nodes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Edge {
    pub(super) ends: [usize; 2],
    /// The points between the nodes, from the first to the second.
    pub(super) points: Vec<Point>,
}

/// Nodes, and edges between them.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Net {
    pub(super) nodes: Vec<Point>,
    pub(super) edges: Vec<Edge>,
}

/// An end of an edge: the edge, and 0 where it starts or 1 where it ends.
pub(super) type EdgeEnd = (usize, usize);

impl Net {
    /// The ends of edges at each node.
    pub(super) fn around(&self) -> Vec<Vec<EdgeEnd>> {
        let mut around = vec![Vec::new(); self.nodes.len()];
        for (at, edge) in self.edges.iter().enumerate() {
            for (side, &node) in edge.ends.iter().enumerate() {
                around[node].push((at, side));
            }
        }
        around
    }

    /// The points of an edge with both nodes, from this side on.
    pub(super) fn points_from(&self, (at, side): EdgeEnd) -> impl Iterator<Item = Point> + '_ {
        let edge = &self.edges[at];
        let count = edge.points.len();
        let point = move |place: usize| match side {
            0 => edge.points[place],
            _ => edge.points[count - 1 - place],
        };
        let first = std::iter::once(self.nodes[edge.ends[side]]);
        let last = std::iter::once(self.nodes[edge.ends[1 - side]]);
        first.chain((0..count).map(point)).chain(last)
    }

    /// How long an edge is, from node to node.
    pub(super) fn length(&self, at: usize) -> f64 {
        let mut points = self.points_from((at, 0));
        let mut from = points.next();
        let steps = points.map(|to| {
            let step = from.map_or(0.0, |from| (to - from).norm());
            from = Some(to);
            step
        });
        steps.sum()
    }

    /// Where an edge lies between these distances from one of its nodes, and which way it leads
    /// there, away from the node; `None` where it is too short to tell.
    pub(super) fn heading(&self, end: EdgeEnd, from: f64, to: f64) -> Option<(Point, Vector)> {
        let mut walked = 0.0;
        let mut last: Option<Point> = None;
        let mut kept: Vec<Point> = Vec::new();
        for point in self.points_from(end) {
            walked += last.map_or(0.0, |last| (point - last).norm());
            last = Some(point);
            if walked > to && kept.len() > 1 {
                break;
            }
            if walked >= from {
                kept.push(point);
            }
        }
        let (first, last) = (kept.first()?, kept.last()?);
        let along = last - first;
        let sum = kept
            .iter()
            .fold(Vector::zeros(), |sum, point| sum + point.coords);
        let middle = Point::from(sum / kept.len() as f64);
        (along.norm() > 1e-9).then(|| (middle, along.normalize()))
    }

    /// Leaves out these edges, and makes one edge of what then passes through a node.
    pub(super) fn without(&self, gone: &[bool]) -> Self {
        let kept = self.edges.iter().zip(gone).filter(|(_, gone)| !**gone);
        let net = Self {
            nodes: self.nodes.clone(),
            edges: kept.map(|(edge, _)| edge.clone()).collect(),
        };
        net.joined_through()
    }

    /// The same lines with one edge in place of two that meet at a node of their own; nodes without
    /// edges are left out.
    pub(super) fn joined_through(&self) -> Self {
        let around = self.around();
        let mut used = vec![false; self.edges.len()];
        let mut edges = Vec::new();
        let fork = |node: usize| around[node].len() != 2;
        let ends = (0..self.nodes.len()).filter(|&node| fork(node));
        let ends = ends.flat_map(|node| around[node].iter().copied());
        // What is left after that are rings.
        let rings = (0..self.edges.len()).map(|at| (at, 0));
        for start in ends.chain(rings) {
            if !used[start.0] {
                edges.push(self.walk(start, &around, &mut used));
            }
        }
        let mut number = vec![usize::MAX; self.nodes.len()];
        let mut nodes = Vec::new();
        for end in edges.iter_mut().flat_map(|edge| &mut edge.ends) {
            if number[*end] == usize::MAX {
                number[*end] = nodes.len();
                nodes.push(self.nodes[*end]);
            }
            *end = number[*end];
        }
        Self { nodes, edges }
    }

    fn walk(&self, start: EdgeEnd, around: &[Vec<EdgeEnd>], used: &mut [bool]) -> Edge {
        let first = self.edges[start.0].ends[start.1];
        let mut points = Vec::new();
        let (mut at, mut side) = start;
        loop {
            used[at] = true;
            let edge = &self.edges[at];
            match side {
                0 => points.extend_from_slice(&edge.points),
                _ => points.extend(edge.points.iter().rev()),
            }
            let node = edge.ends[1 - side];
            let next = around[node].iter().find(|next| !used[next.0]);
            match next {
                Some(&next) if around[node].len() == 2 && node != first => {
                    points.push(self.nodes[node]);
                    (at, side) = next;
                }
                _ => {
                    return Edge {
                        ends: [first, node],
                        points,
                    };
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn net(nodes: &[[f64; 2]], edges: &[[usize; 2]]) -> Net {
        let edge = |&ends: &[usize; 2]| Edge {
            ends,
            points: Vec::new(),
        };
        Net {
            nodes: nodes.iter().map(|&[x, y]| Point::new(x, y)).collect(),
            edges: edges.iter().map(edge).collect(),
        }
    }

    #[test]
    fn lines_pass_through_nodes_of_two_and_rings_keep_one() {
        let way = net(
            &[[0.0, 0.0], [1.0, 0.0], [2.0, 0.0], [9.0, 9.0], [3.0, 0.0]],
            &[[0, 1], [2, 1], [2, 4]],
        );
        let one = way.joined_through();
        assert_eq!((one.nodes.len(), one.edges.len()), (2, 1));
        assert_eq!(one.edges[0].points.len(), 2);
        assert_eq!(one.length(0), 3.0);
        let ring = net(
            &[[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]],
            &[[0, 1], [1, 2], [2, 0]],
        );
        let one = ring.joined_through();
        assert_eq!((one.nodes.len(), one.edges.len()), (1, 1));
        assert_eq!(one.edges[0].points.len(), 2);
        let star = net(
            &[[0.0, 0.0], [1.0, 0.0], [0.0, 1.0], [-1.0, 0.0]],
            &[[0, 1], [0, 2], [0, 3]],
        );
        assert_eq!(star.joined_through().edges.len(), 3);
        assert_eq!(star.without(&[true, false, false]).edges.len(), 1);
    }

    #[test]
    fn a_heading_is_that_of_the_stretch_asked_for() {
        let mut bow = net(&[[0.0, 0.0], [4.0, 4.0]], &[[0, 1]]);
        bow.edges[0].points = [[1.0, 0.0], [2.0, 0.0], [3.0, 0.0], [4.0, 0.0], [4.0, 2.0]]
            .map(|[x, y]| Point::new(x, y))
            .to_vec();
        let (middle, along) = bow.heading((0, 0), 1.0, 3.5).expect("long enough");
        assert_eq!(
            (middle, along),
            (Point::new(2.0, 0.0), Vector::new(1.0, 0.0))
        );
        let (_, along) = bow.heading((0, 1), 0.0, 4.0).expect("long enough");
        assert_eq!(along, Vector::new(0.0, -1.0));
        assert!(bow.heading((0, 0), 9.0, 10.0).is_none());
    }
}
