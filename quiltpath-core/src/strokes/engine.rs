//! Strokes of any kind to one line that stitches as little as possible twice.
//!
//! Problem: strokes meet at ends, touch, cross and lie apart; a machine stitches one line. Method:
//! the strokes are cut where they meet (`contact`, `net`); parts that don't touch get links between
//! them (`bridges`); of all walks over what is drawn the one with the least that is stitched again
//! or linked is taken (`least_of`), and of those one that goes straight on where lines cross
//! (`straight_walks`). Guarantee: every drawn place is stitched; what is added is the least for the
//! pair of ends that is taken where `lower` says so, and no less than `lower` otherwise. Failure
//! cases: no ends as they are wanted; strokes so crowded that they can't be gone through.

use super::bridges::{Bridge, bridges, parts};
use super::contact::contacts;
use super::ends::LineEnds;
use super::net::{StrokeNet, degrees, net};
use crate::error::{Error, MotifFault};
use crate::geom::lines::Lines;
use crate::geom::{Gap, Point, Vector};
use crate::graph::{Edge, Net, Route, Step, Strand, least_of, straight_walks};

/// How many steps the search for the least walk may take where parts lie apart, for all pairs of
/// ends together; it takes a second or so.
const EFFORT: u64 = 15_000_000;

/// Where no passage turns by more than this, a crossing is gone through straight; in radians.
const STRAIGHT: f64 = 0.8;

/// What it took to make one line of strokes. Lengths are in the unit of the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct OneLineReport {
    /// How many strokes there are; 0 where nothing had to be done, the strokes following one
    /// another end to end.
    pub strokes: usize,
    /// How many thread cuts there are between the lines that it becomes.
    pub cuts: usize,
    /// The length of all that is drawn, each place counted once.
    pub drawn: f64,
    /// The length of what is stitched twice.
    pub retraced: f64,
    /// How many links are stitched; one that is stitched twice counts as two.
    pub links: usize,
    /// Their length together.
    pub linked: f64,
    /// What a thread cut counts for, as a length; 0 where none is allowed.
    pub cut_price: f64,
    /// A lower bound of what any line [adds](Self::added), by the links that were considered; equal
    /// to what this one adds where that is the least.
    pub least: f64,
    /// The length of what was drawn on top of an earlier stroke, and is stitched once.
    pub overlaid: f64,
    /// The length of what was too short to be kept.
    pub dropped: f64,
    /// How many places there are where lines cross or branch.
    pub crossings: usize,
    /// At how many of them the line goes straight on.
    pub straight: usize,
    /// How many ends of the line, or lines, lie where no stroke ends.
    pub ends_within: usize,
}

impl OneLineReport {
    /// What is stitched twice, as a share of what is drawn; 0 for a line as it is drawn.
    #[must_use]
    pub fn retraced_share(&self) -> f64 {
        match self.drawn > 0.0 {
            true => self.retraced / self.drawn,
            false => 0.0,
        }
    }

    /// The length that is stitched twice or linked, each thread cut counted at its price.
    #[must_use]
    pub fn added(&self) -> f64 {
        self.retraced + self.linked + self.cuts as f64 * self.cut_price
    }

    /// Whether it is known that no line [adds](Self::added) less, by the links that were
    /// considered.
    #[must_use]
    pub fn is_least(&self) -> bool {
        self.added() <= self.least * (1.0 + 1e-9)
    }

    /// The same report for a drawing that is this many times as large.
    #[must_use]
    pub fn scaled(mut self, factor: f64) -> Self {
        for length in [
            &mut self.drawn,
            &mut self.retraced,
            &mut self.linked,
            &mut self.least,
            &mut self.cut_price,
            &mut self.overlaid,
            &mut self.dropped,
        ] {
            *length *= factor;
        }
        self
    }
}

/// A stretch of a line that is stitched for the second time, or that is a link; by the indices of
/// points of the line, from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct AddedStretch {
    /// What is added.
    pub kind: AddedKind,
    /// The index of its first point.
    pub first: usize,
    /// The index of its last point.
    pub last: usize,
}

/// What is added to a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum AddedKind {
    /// What is stitched for the second time.
    Retraced,
    /// A link.
    Link,
}

/// One line of strokes, or several where the thread may be cut.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Made {
    /// In the order of stitching; one unless the thread is cut.
    pub(super) lines: Vec<MadeLine>,
    pub(super) links: Vec<Gap>,
    pub(super) reversed: usize,
    pub(super) report: OneLineReport,
}

/// A line that is stitched without a thread cut.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct MadeLine {
    pub(super) points: Vec<Point>,
    pub(super) added: Vec<AddedStretch>,
}

/// One line of these strokes, each with its name; several where the thread may be cut at this
/// price.
pub(super) fn one_line(
    strokes: &[(&str, &[Point])],
    join: f64,
    ends: LineEnds,
    cut: Option<f64>,
) -> Result<Made, Error> {
    let points: Vec<&[Point]> = strokes.iter().map(|(_, points)| *points).collect();
    let lines = Lines::new(&points, 0.0)?;
    let (contacts, crowded) = contacts(&lines, join);
    if let Some(spot) = crowded.first() {
        return Err(MotifFault::Crowded {
            at: spot.at,
            segments: spot.segments,
        }
        .into());
    }
    let mut net = net(&lines, &contacts, &ends.places(&lines, join), join);
    if net.edges.is_empty() {
        return Err(MotifFault::AllShort { join }.into());
    }
    let links = match all_touches(&net) {
        true => Vec::new(),
        false => bridges(&mut net, join),
    };
    let graph = graph(&net, &links);
    let choices = ends.choices(&net, &lines, join);
    let route = |cut: Option<f64>| {
        let mut left = EFFORT;
        least_of(&graph, &choices, cut, &mut left)
    };
    // A cut could save more than an end costs that is asked for; it is met all the same.
    let cut_there = cut.and_then(|price| route(Some(price)));
    let best = cut_there.filter(|(route, ends)| has(route, *ends));
    let cut = cut.filter(|_| best.is_some());
    let Some((route, ends)) = best.or_else(|| route(None)) else {
        return Err(MotifFault::NoEnds.into());
    };
    let mut walk = Walk::new(&net, &links, &route, join);
    walk.report.cut_price = cut.unwrap_or(0.0);
    walk.put_in_order(ends);
    Ok(walk.made(strokes))
}

/// Whether walks start and end where they are to.
fn has(route: &Route, ends: [Option<usize>; 2]) -> bool {
    let times = |node: usize| route.ends.iter().filter(|end| **end == node).count();
    let wanted = |node: usize| ends.iter().filter(|end| **end == Some(node)).count();
    ends.into_iter()
        .flatten()
        .all(|node| times(node) >= wanted(node))
}

fn all_touches(net: &StrokeNet) -> bool {
    let part_of = parts(net);
    let first = part_of[net.edges[0].ends[0]];
    net.edges.iter().all(|edge| part_of[edge.ends[0]] == first)
}

fn graph(net: &StrokeNet, links: &[Bridge]) -> Net {
    let edge = |ends: [usize; 2], length: f64| Edge { ends, length };
    Net {
        vertices: net.nodes.len(),
        edges: net
            .edges
            .iter()
            .map(|of| edge(of.ends, of.length))
            .collect(),
        links: links.iter().map(|of| edge(of.nodes, of.length)).collect(),
    }
}

/// What a walk goes along.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Along {
    Edge(usize),
    Link(usize),
}

struct Walk<'a> {
    net: &'a StrokeNet,
    links: &'a [Bridge],
    along: Vec<Along>,
    strands: Vec<Strand>,
    /// The steps of each walk.
    walks: Vec<Vec<Step>>,
    report: OneLineReport,
    join: f64,
}

impl<'a> Walk<'a> {
    fn new(net: &'a StrokeNet, links: &'a [Bridge], route: &Route, join: f64) -> Self {
        let (mut along, mut strands) = (Vec::new(), Vec::new());
        for (at, edge) in net.edges.iter().enumerate() {
            let strand = Strand {
                ends: edge.ends,
                out: net.directions(edge, 4.0 * join),
            };
            for _ in 0..=usize::from(route.again[at]) {
                along.push(Along::Edge(at));
                strands.push(strand);
            }
        }
        for (at, link) in links.iter().enumerate() {
            let way = crate::geom::unit_vector(net.nodes[link.nodes[1]] - net.nodes[link.nodes[0]]);
            for _ in 0..route.links[at] {
                along.push(Along::Link(at));
                strands.push(Strand {
                    ends: link.nodes,
                    out: [way, -way],
                });
            }
        }
        let walks = straight_walks(&strands, net.nodes.len(), &route.ends);
        let linked = links
            .iter()
            .zip(&route.links)
            .map(|(link, &times)| link.length * f64::from(times));
        let retraced = net
            .edges
            .iter()
            .zip(&route.again)
            .filter(|(_, again)| **again);
        let report = OneLineReport {
            cuts: walks.len().saturating_sub(1),
            drawn: net.edges.iter().map(|edge| edge.length).sum(),
            // An empty sum is -0.
            retraced: retraced.map(|(edge, _)| edge.length).sum::<f64>() + 0.0,
            linked: linked.sum::<f64>() + 0.0,
            least: route.lower,
            overlaid: net.overlaid,
            dropped: net.dropped,
            ..OneLineReport::default()
        };
        Self {
            net,
            links,
            along,
            strands,
            walks,
            report,
            join,
        }
    }

    /// Puts the walks one after the other, from the start to the end where those are given, each
    /// from the end that is nearer to where the one before it ends; a single one so that more of it
    /// goes as it was drawn.
    fn put_in_order(&mut self, [start, end]: [Option<usize>; 2]) {
        /// Up to so many walks each is followed by the nearest of all.
        const SORTED: usize = 2000;
        let mut left = std::mem::take(&mut self.walks);
        let with = |walks: &mut Vec<Vec<Step>>, node: Option<usize>, last: bool| {
            let node = node?;
            let own = |walk: &Vec<Step>| self.ends(walk).contains(&node);
            let at = walks.iter().position(own)?;
            let mut walk = walks.swap_remove(at);
            if self.ends(&walk)[usize::from(last)] != node {
                turn(&mut walk);
            }
            Some(walk)
        };
        let first = with(&mut left, start, false);
        let last = with(&mut left, end, true);
        let mut walks: Vec<Vec<Step>> = first.into_iter().collect();
        if walks.is_empty() && !left.is_empty() {
            let mut walk = left.remove(0);
            if self.drawn_backwards(&walk) {
                turn(&mut walk);
            }
            walks.push(walk);
        }
        if left.len() <= SORTED {
            while let Some(before) = walks.last().filter(|_| !left.is_empty()) {
                let from = self.net.nodes[self.ends(before)[1]];
                let far = |at: usize, side: usize| {
                    (self.net.nodes[self.ends(&left[at])[side]] - from).norm()
                };
                let all = (0..left.len()).flat_map(|at| [(at, 0), (at, 1)]);
                let next = all.min_by(|&(a, i), &(b, j)| far(a, i).total_cmp(&far(b, j)));
                let Some((at, side)) = next else { break };
                let mut walk = left.swap_remove(at);
                if side == 1 {
                    turn(&mut walk);
                }
                walks.push(walk);
            }
        }
        walks.extend(left);
        walks.extend(last);
        self.walks = walks;
    }

    /// The nodes at which a walk starts and ends.
    fn ends(&self, walk: &[Step]) -> [usize; 2] {
        let (Some(&first), Some(&last)) = (walk.first(), walk.last()) else {
            return [usize::MAX; 2];
        };
        let end = self.strands[last.index].ends[usize::from(!last.reversed)];
        [self.node(first), end]
    }

    /// Whether more of a walk goes against the direction of drawing than along it.
    fn drawn_backwards(&self, walk: &[Step]) -> bool {
        let length = |step: &Step| match self.along[step.index] {
            Along::Edge(at) if step.reversed => -self.net.edges[at].length,
            Along::Edge(at) => self.net.edges[at].length,
            Along::Link(_) => 0.0,
        };
        walk.iter().map(length).sum::<f64>() < 0.0
    }

    fn made(mut self, strokes: &[(&str, &[Point])]) -> Made {
        let (mut links, mut lines): (Vec<Gap>, Vec<MadeLine>) = (Vec::new(), Vec::new());
        let spots = self.spots(strokes);
        let mut done = vec![false; self.net.edges.len()];
        let mut reversed = 0;
        for walk in &self.walks {
            let (mut points, mut added): (Vec<Point>, Vec<AddedStretch>) = Default::default();
            for step in walk {
                let first = points.len().saturating_sub(1);
                let kind = match self.along[step.index] {
                    Along::Edge(at) => {
                        let edge = &self.net.edges[at];
                        let skipped = usize::from(!points.is_empty());
                        match step.reversed {
                            true => points.extend(edge.points.iter().rev().skip(skipped)),
                            false => points.extend(edge.points.iter().skip(skipped)),
                        }
                        let again = std::mem::replace(&mut done[at], true);
                        reversed += usize::from(step.reversed && !again);
                        again.then_some(AddedKind::Retraced)
                    }
                    Along::Link(at) => {
                        let [from, to] = match (self.links[at].nodes, step.reversed) {
                            (nodes, false) => nodes,
                            ([from, to], true) => [to, from],
                        };
                        if points.is_empty() {
                            points.push(self.net.nodes[from]);
                        }
                        points.push(self.net.nodes[to]);
                        let id = |node: usize| strokes[spots[node].stroke].0.to_owned();
                        links.push(Gap {
                            from_id: id(from),
                            from: self.net.nodes[from],
                            to_id: id(to),
                            to: self.net.nodes[to],
                        });
                        Some(AddedKind::Link)
                    }
                };
                let last = points.len() - 1;
                match (kind, added.last_mut()) {
                    (Some(AddedKind::Retraced), Some(before))
                        if before.kind == AddedKind::Retraced && before.last == first =>
                    {
                        before.last = last;
                    }
                    (Some(kind), _) => added.push(AddedStretch { kind, first, last }),
                    (None, _) => {}
                }
            }
            lines.push(MadeLine { points, added });
        }
        self.report.strokes = strokes.len();
        self.report.links = links.len();
        let ends = self.walks.iter().flat_map(|walk| self.ends(walk));
        self.report.ends_within = ends.filter(|&end| !spots[end].is_end).count();
        (self.report.crossings, self.report.straight) = self.crossings();
        Made {
            lines,
            links,
            reversed,
            report: self.report,
        }
    }

    /// What each node is to the strokes that meet there.
    fn spots(&self, strokes: &[(&str, &[Point])]) -> Vec<Spot> {
        let none = Spot {
            stroke: usize::MAX,
            is_end: false,
        };
        let mut spots = vec![none; self.net.nodes.len()];
        for edge in &self.net.edges {
            let (_, points) = strokes[edge.line as usize];
            for &node in &edge.ends {
                let near = |end: Option<&Point>| {
                    end.is_some_and(|end| (end - self.net.nodes[node]).norm() <= self.join)
                };
                let spot = &mut spots[node];
                spot.stroke = spot.stroke.min(edge.line as usize);
                spot.is_end |= near(points.first()) || near(points.last());
            }
        }
        spots
    }

    /// How many nodes have more than two ends of edges, and at how many the line goes straight on.
    fn crossings(&self) -> (usize, usize) {
        let degree = degrees(self.net);
        let mut turns = vec![false; degree.len()];
        for pair in self.walks.iter().flat_map(|walk| walk.windows(2)) {
            let [one, other] = [pair[0], pair[1]];
            let arrives = -self.out(one, true);
            let leaves = self.out(other, false);
            let turn = arrives.perp(&leaves).atan2(arrives.dot(&leaves)).abs();
            turns[self.node(other)] |= turn > STRAIGHT;
        }
        let crossings = (0..degree.len()).filter(|&node| degree[node] > 2);
        let straight = crossings.clone().filter(|&node| !turns[node]).count();
        (crossings.count(), straight)
    }

    fn out(&self, step: Step, at_end: bool) -> Vector {
        self.strands[step.index].out[usize::from(step.reversed != at_end)]
    }

    fn node(&self, step: Step) -> usize {
        self.strands[step.index].ends[usize::from(step.reversed)]
    }
}

/// A node, as the strokes that meet there have it.
#[derive(Debug, Clone, Copy)]
struct Spot {
    /// The earliest of them.
    stroke: usize,
    /// Whether one of them ends there.
    is_end: bool,
}

/// Lets a walk go the other way.
fn turn(walk: &mut [Step]) {
    walk.reverse();
    for step in walk {
        step.reversed = !step.reversed;
    }
}

#[cfg(test)]
mod tests;
