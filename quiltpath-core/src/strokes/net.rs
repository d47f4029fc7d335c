//! Strokes cut where they meet: nodes, and the edges between them.
//!
//! Problem: a graph whose edges are all that is drawn, each once. Method: each line is cut at its
//! ends, at its contacts and where it is asked for; cuts that a contact makes one, and cuts of one
//! line within the join tolerance along it, are one node, which lies on the earliest line that
//! passes through it, or else on the earliest end. Of stretches on top of one another the earliest
//! is kept. Guarantee: every drawn place lies within the tolerances of an edge; nodes are ends of
//! edges alone. Failure cases: what is shorter than twice the tolerance between two cuts of one
//! node is dropped and counted.

use super::contact::Contact;
use crate::geom::lines::Lines;
use crate::geom::measure::length;
use crate::geom::{Bounds, Point, Vector};
use crate::graph::{root, unite};

/// What is drawn between two nodes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct NetEdge {
    /// The line that it is a stretch of.
    pub(super) line: u32,
    /// Its nodes, in the order of drawing.
    pub(super) ends: [usize; 2],
    /// Its points, from node to node.
    pub(super) points: Vec<Point>,
    pub(super) length: f64,
}

#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct StrokeNet {
    pub(super) nodes: Vec<Point>,
    pub(super) edges: Vec<NetEdge>,
    /// The length of what is drawn on top of an earlier stretch.
    pub(super) overlaid: f64,
    /// The length of what is too short to be kept.
    pub(super) dropped: f64,
}

/// How many ends of edges each node has.
pub(super) fn degrees(net: &StrokeNet) -> Vec<u32> {
    let mut degrees = vec![0; net.nodes.len()];
    for edge in &net.edges {
        edge.ends.iter().for_each(|&end| degrees[end] += 1);
    }
    degrees
}

/// A place where a line is cut.
#[derive(Debug, Clone, Copy)]
struct Cut {
    line: u32,
    along: f64,
}

/// The net of these lines, cut at their contacts and at these places besides, each a line and a
/// distance along it.
pub(super) fn net(
    lines: &Lines,
    contacts: &[Contact],
    places: &[(u32, f64)],
    join: f64,
) -> StrokeNet {
    let ranges = lines.ranges();
    let mut cuts: Vec<Cut> = Vec::new();
    for range in &ranges {
        let line = lines.line(range.start as u32);
        for at in [range.start, range.end - 1] {
            cuts.push(Cut {
                line,
                along: lines.along(at),
            });
        }
    }
    cuts.extend(places.iter().map(|&(line, along)| Cut { line, along }));
    let mut one = Vec::new();
    for contact in contacts {
        for meet in &contact.meets {
            one.push([cuts.len(), cuts.len() + 1]);
            let places = contact.lines.into_iter().zip(*meet);
            cuts.extend(places.map(|(line, along)| Cut { line, along }));
        }
    }
    let mut sets: Vec<usize> = (0..cuts.len()).collect();
    for pair in one {
        unite(&mut sets, pair);
    }
    let mut order: Vec<usize> = (0..cuts.len()).collect();
    order.sort_by(|&a, &b| {
        let (a, b) = (cuts[a], cuts[b]);
        a.line.cmp(&b.line).then(a.along.total_cmp(&b.along))
    });
    for pair in order.windows(2) {
        let [a, b] = [cuts[pair[0]], cuts[pair[1]]];
        if a.line == b.line && b.along - a.along <= join {
            unite(&mut sets, [pair[0], pair[1]]);
        }
    }
    let mut work = Work {
        lines,
        net: StrokeNet::default(),
        join,
    };
    let node_of = work.nodes(&ranges, &cuts, &order, &mut sets);
    let mut over: Vec<Vec<[f64; 2]>> = vec![Vec::new(); lines.count()];
    for contact in contacts {
        if let Some(stretch) = contact.over {
            over[contact.lines[1] as usize].push(stretch);
        }
    }
    for pair in order.windows(2) {
        let [a, b] = [cuts[pair[0]], cuts[pair[1]]];
        if a.line != b.line || a.along == b.along {
            continue;
        }
        let middle = (a.along + b.along) / 2.0;
        let covered = |&[from, to]: &[f64; 2]| from <= middle && middle <= to;
        if over[a.line as usize].iter().any(covered) {
            work.net.overlaid += b.along - a.along;
        } else {
            work.edge(&ranges, a, b, [node_of[pair[0]], node_of[pair[1]]]);
        }
    }
    work.net
}

struct Work<'a> {
    lines: &'a Lines,
    net: StrokeNet,
    join: f64,
}

impl Work<'_> {
    /// Makes the nodes; the node of each cut.
    fn nodes(
        &mut self,
        ranges: &[std::ops::Range<usize>],
        cuts: &[Cut],
        order: &[usize],
        sets: &mut [usize],
    ) -> Vec<usize> {
        let mut node_of = vec![usize::MAX; cuts.len()];
        // Whether a line passes through the node, where it then lies.
        let mut passed: Vec<bool> = Vec::new();
        let mut node = vec![usize::MAX; cuts.len()];
        for &at in order {
            let (cut, set) = (cuts[at], root(sets, at));
            let range = self.range(ranges, cut.line);
            let inside = cut.along > self.lines.along(range.start)
                && cut.along < self.lines.along(range.end - 1);
            if node[set] == usize::MAX {
                node[set] = self.net.nodes.len();
                self.net.nodes.push(self.at(&range, cut.along));
                passed.push(inside);
            } else if inside && !passed[node[set]] {
                self.net.nodes[node[set]] = self.at(&range, cut.along);
                passed[node[set]] = true;
            }
            node_of[at] = node[set];
        }
        node_of
    }

    fn range(&self, ranges: &[std::ops::Range<usize>], line: u32) -> std::ops::Range<usize> {
        let at = ranges.partition_point(|range| self.lines.line(range.start as u32) < line);
        ranges[at].clone()
    }

    /// The point of a line at a distance along it.
    fn at(&self, range: &std::ops::Range<usize>, along: f64) -> Point {
        let after = self.after(range, along);
        if after == range.start {
            return self.lines.points()[range.start];
        }
        let after = after.min(range.end - 1);
        match self.lines.along(after) == along {
            true => self.lines.points()[after],
            false => self.lines.point(after as u32 - 1, along),
        }
    }

    /// The first point of a line that is not before a distance along it.
    fn after(&self, range: &std::ops::Range<usize>, along: f64) -> usize {
        let (mut low, mut high) = (range.start, range.end);
        while low < high {
            let middle = (low + high) / 2;
            match self.lines.along(middle) < along {
                true => low = middle + 1,
                false => high = middle,
            }
        }
        low
    }

    fn edge(&mut self, ranges: &[std::ops::Range<usize>], a: Cut, b: Cut, ends: [usize; 2]) {
        if ends[0] == ends[1] && b.along - a.along <= 2.0 * self.join {
            self.net.dropped += b.along - a.along;
            return;
        }
        let range = self.range(ranges, a.line);
        let nodes = ends.map(|end| self.net.nodes[end]);
        // Points nearer to a node than it was moved would turn the line back.
        let moved = [(nodes[0], a), (nodes[1], b)]
            .map(|(node, cut)| 2.0 * (node - self.at(&range, cut.along)).norm());
        let [from, to] = [
            self.after(&range, a.along + moved[0]),
            self.after(&range, b.along - moved[1]),
        ];
        let mut points = Vec::with_capacity(to.saturating_sub(from) + 2);
        points.push(nodes[0]);
        points.extend(&self.lines.points()[from.min(to)..to]);
        points.push(nodes[1]);
        points.dedup();
        if points.len() < 2 {
            self.net.dropped += b.along - a.along;
            return;
        }
        let length = length(&points);
        self.net.edges.push(NetEdge {
            line: a.line,
            ends,
            points,
            length,
        });
    }
}

impl StrokeNet {
    /// The smallest box that holds all edges.
    pub(super) fn bounds(&self) -> Option<Bounds> {
        let boxes = self
            .edges
            .iter()
            .filter_map(|edge| Bounds::of(&edge.points));
        boxes.reduce(|one, other| one.union(&other))
    }

    /// The unit vectors by which an edge leaves its nodes, seen over this length.
    pub(super) fn directions(&self, edge: &NetEdge, over: f64) -> [Vector; 2] {
        let far = over.min(edge.length / 3.0);
        let leaving = |points: &mut dyn Iterator<Item = Point>| {
            let Some(start) = points.next() else {
                return Vector::zeros();
            };
            let (mut before, mut gone) = (start, 0.0);
            for point in points {
                let step = (point - before).norm();
                if gone + step >= far && step > 0.0 {
                    let at = before + (point - before) * ((far - gone) / step);
                    return crate::geom::unit_vector(at - start);
                }
                gone += step;
                before = point;
            }
            crate::geom::unit_vector(before - start)
        };
        [
            leaving(&mut edge.points.iter().copied()),
            leaving(&mut edge.points.iter().rev().copied()),
        ]
    }
}
