//! Links that may join the parts of a drawing that don't touch.
//!
//! Problem: between any two of many parts there are endless links; few of them can be in the least
//! walk. Method: for each part the shortest link to another, parts so linked being one from then
//! on, until all are (as in Borůvka's spanning tree); besides, from each part to each that is
//! nearest to some place of it, from each end to the nearest of the parts around it, and from each
//! end that stops just short of a part to where that is nearest. Places lie
//! a two-hundredth of the drawing apart at the most, or farther where they would be more than a
//! million; the link between two of them then moves along both lines to where it is shortest.
//! Guarantee: the links found join all parts. Failure cases: none; links that aren't considered
//! could make a walk less long, which is why the least is claimed only of those that are.
//!
//! Source: O. Borůvka, "O jistém problému minimálním" (1926). From memory.

use std::collections::{BTreeMap, HashSet};

use super::net::{StrokeNet, degrees};
use crate::geom::Point;
use crate::geom::measure::share_on_segment;
use crate::geom::nearest::Groups;
use crate::graph::{root, unite};

/// Places along a drawing are at most this share of its diagonal apart.
const STEP: f64 = 1.0 / 200.0;

/// Or as far apart as makes so many places of the length of all lines, besides one a segment.
const MOST_PLACES: f64 = 1e6;

/// An end that stops short of another part by up to this share of the diagonal is linked to it.
const SHORT: f64 = 0.03;

/// A link between nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Bridge {
    pub(super) nodes: [usize; 2],
    pub(super) length: f64,
}

/// A place on an edge, by the segment and the share of it.
#[derive(Debug, Clone, Copy)]
struct Place {
    edge: usize,
    segment: usize,
    share: f64,
}

/// The part that each node belongs to.
pub(super) fn parts(net: &StrokeNet) -> Vec<usize> {
    let mut sets: Vec<usize> = (0..net.nodes.len()).collect();
    for edge in &net.edges {
        unite(&mut sets, edge.ends);
    }
    (0..net.nodes.len())
        .map(|node| root(&mut sets, node))
        .collect()
}

/// Links between the parts of a net, whose edges are cut where links start and end.
pub(super) fn bridges(net: &mut StrokeNet, join: f64) -> Vec<Bridge> {
    let part_of = parts(net);
    let (places, points) = places(net);
    let part = |at: usize| part_of[net.edges[places[at].edge].ends[0]];
    let mut groups = Groups::new(&points);
    let mut sets: Vec<usize> = (0..net.nodes.len()).collect();
    let mut found: Vec<[usize; 2]> = Vec::new();
    let (ends, short) = (lone_ends(net, &places), SHORT * diagonal(net));
    let mut first = true;
    loop {
        let set: Vec<usize> = (0..places.len())
            .map(|at| root(&mut sets, part(at)))
            .collect();
        groups.regroup(|at| set[at]);
        let mut best: BTreeMap<[usize; 2], (f64, [usize; 2])> = BTreeMap::new();
        for at in 0..places.len() {
            let Some(other) = groups.nearest_other(at) else {
                continue;
            };
            let far = (points[at] - points[other]).norm();
            if first && far <= short && ends.contains(&at) {
                found.push([at, other]);
            }
            // In the first round from each part to each, later on from each to the nearest alone.
            let key = if first {
                [set[at].min(set[other]), set[at].max(set[other])]
            } else {
                [set[at], 0]
            };
            let known = best.entry(key).or_insert((f64::INFINITY, [at, other]));
            if far < known.0 {
                *known = (far, [at, other]);
            }
        }
        if best.is_empty() {
            break;
        }
        let mut nearest: Vec<(f64, [usize; 2])> = best.into_values().collect();
        nearest.sort_by(|a, b| a.0.total_cmp(&b.0));
        found.extend(nearest.iter().map(|&(_, pair)| pair));
        match first {
            // Only what is nearest to a part joins, or parts far away would count as joined.
            true => {
                let mut done = vec![false; net.nodes.len()];
                for (_, [a, b]) in nearest {
                    let ends = [set[a], set[b]];
                    if ends.iter().any(|&end| !done[end]) {
                        unite(&mut sets, ends);
                    }
                    ends.iter().for_each(|&end| done[end] = true);
                }
            }
            false => nearest.iter().for_each(|&(_, [a, b])| {
                unite(&mut sets, [set[a], set[b]]);
            }),
        }
        first = false;
    }
    let links: Vec<[Place; 2]> = found
        .into_iter()
        .map(|[a, b]| shortened(net, [places[a], places[b]]))
        .collect();
    let mut bridges = between_ends(net, &part_of);
    bridges.extend(cut(net, &links, join));
    bridges.sort_by_key(|bridge| bridge.nodes);
    bridges.dedup_by_key(|bridge| bridge.nodes);
    bridges
}

fn diagonal(net: &StrokeNet) -> f64 {
    net.bounds().map_or(0.0, |bounds| bounds.size().norm())
}

/// The places where a line ends at a node with an odd number of ends; none in a drawing with so
/// many that each would cut a line for little.
fn lone_ends(net: &StrokeNet, places: &[Place]) -> HashSet<usize> {
    const MOST: usize = 400;
    let degrees = degrees(net);
    let ends = places.iter().enumerate().filter(|(_, place)| {
        let edge = &net.edges[place.edge];
        let last = edge.points.len() - 2;
        let node = match (place.segment, place.share) {
            (0, 0.0) => edge.ends[0],
            (segment, 1.0) if segment == last => edge.ends[1],
            _ => return false,
        };
        degrees[node] % 2 == 1
    });
    let ends: HashSet<usize> = ends.map(|(at, _)| at).collect();
    match ends.len() > MOST {
        true => HashSet::new(),
        false => ends,
    }
}

/// Places along all edges, and their points.
fn places(net: &StrokeNet) -> (Vec<Place>, Vec<Point>) {
    /// A segment is looked at in no more places than this.
    const MOST: f64 = 200.0;
    let length: f64 = net.edges.iter().map(|edge| edge.length).sum();
    let step = (diagonal(net) * STEP).max(length / MOST_PLACES);
    let (mut places, mut points) = (Vec::new(), Vec::new());
    for (edge, of) in net.edges.iter().enumerate() {
        for (segment, pair) in of.points.windows(2).enumerate() {
            let way = pair[1] - pair[0];
            let count = (way.norm() / step).ceil().clamp(1.0, MOST);
            for at in 0..count as usize {
                let share = at as f64 / count;
                places.push(Place {
                    edge,
                    segment,
                    share,
                });
                points.push(pair[0] + way * share);
            }
        }
        places.push(Place {
            edge,
            segment: of.points.len() - 2,
            share: 1.0,
        });
        points.push(of.points[of.points.len() - 1]);
    }
    (places, points)
}

/// A link moved along both lines, end by end, while that makes it shorter.
fn shortened(net: &StrokeNet, mut link: [Place; 2]) -> [Place; 2] {
    let point = |place: Place| {
        let points = &net.edges[place.edge].points;
        let (from, to) = (points[place.segment], points[place.segment + 1]);
        if place.share == 1.0 {
            to
        } else {
            from + (to - from) * place.share
        }
    };
    for round in 0..12 {
        let side = round % 2;
        let (own, other) = (link[side], point(link[1 - side]));
        let points = &net.edges[own.edge].points;
        let around = own.segment.saturating_sub(1)..(own.segment + 2).min(points.len() - 1);
        let nearer = around.map(|segment| {
            let share = share_on_segment(other, [points[segment], points[segment + 1]]);
            Place {
                segment,
                share,
                ..own
            }
        });
        let far = |place: &Place| (point(*place) - other).norm();
        if let Some(best) = nearer.min_by(|a, b| far(a).total_cmp(&far(b)))
            && far(&best) < far(&own)
        {
            link[side] = best;
        }
    }
    link
}

/// Links between nodes with an odd number of ends: from each to the nearest of each of the parts
/// that are nearest to it, or to the nearest one each way where there are many.
fn between_ends(net: &StrokeNet, part_of: &[usize]) -> Vec<Bridge> {
    /// Up to so many ends are compared one by one, each with so many parts.
    const FEW: usize = 400;
    const PARTS: usize = 6;
    /// Of more than that, so many around each are looked at, for one each of so many ways.
    const AROUND: usize = 16;
    const WAYS: usize = 8;
    let degrees = degrees(net);
    let odd = |node: &usize| degrees[*node] % 2 == 1;
    let odd: Vec<usize> = (0..net.nodes.len()).filter(odd).collect();
    let far = |a: usize, b: usize| (net.nodes[a] - net.nodes[b]).norm();
    let bridge = |a: usize, b: usize| Bridge {
        nodes: [a.min(b), a.max(b)],
        length: far(a, b),
    };
    if odd.len() <= FEW {
        let mut bridges = Vec::new();
        for &at in &odd {
            let mut nearest: BTreeMap<usize, usize> = BTreeMap::new();
            for &other in odd.iter().filter(|&&other| part_of[other] != part_of[at]) {
                let known = nearest.entry(part_of[other]).or_insert(other);
                if far(at, other) < far(at, *known) {
                    *known = other;
                }
            }
            let mut nearest: Vec<usize> = nearest.into_values().collect();
            nearest.sort_by(|&a, &b| far(at, a).total_cmp(&far(at, b)));
            bridges.extend(nearest.iter().take(PARTS).map(|&other| bridge(at, other)));
        }
        return bridges;
    }
    let points: Vec<Point> = odd.iter().map(|&node| net.nodes[node]).collect();
    let mut groups = Groups::new(&points);
    groups.regroup(|at| part_of[odd[at]]);
    let mut bridges = Vec::new();
    for at in 0..odd.len() {
        // The nearest one each way, so that a walk can go on to any side.
        let mut ways = [false; WAYS];
        for other in groups.nearest_others(at, AROUND) {
            let way = points[other] - points[at];
            let turn = way.y.atan2(way.x) / std::f64::consts::TAU + 0.5;
            let way = (turn * WAYS as f64).round() as usize % WAYS;
            if !std::mem::replace(&mut ways[way], true) {
                bridges.push(bridge(odd[at], odd[other]));
            }
        }
    }
    bridges
}

/// Cuts edges where links start and end; the links, between nodes.
fn cut(net: &mut StrokeNet, links: &[[Place; 2]], join: f64) -> Vec<Bridge> {
    let mut wanted: Vec<(Place, usize, usize)> = Vec::new();
    for (link, places) in links.iter().enumerate() {
        for (side, place) in places.iter().enumerate() {
            wanted.push((*place, link, side));
        }
    }
    wanted.sort_by(|(a, ..), (b, ..)| {
        (a.edge, a.segment)
            .cmp(&(b.edge, b.segment))
            .then(a.share.total_cmp(&b.share))
    });
    let mut nodes = vec![[0; 2]; links.len()];
    for of in wanted.chunk_by(|a, b| a.0.edge == b.0.edge) {
        let edge = of[0].0.edge;
        let whole = net.edges[edge].clone();
        let last = whole.points.len() - 1;
        let (mut points, mut start) = (vec![whole.points[0]], whole.ends[0]);
        let (mut done, mut pieces) = (0, Vec::new());
        for &(place, link, side) in of {
            let (from, to) = (whole.points[place.segment], whole.points[place.segment + 1]);
            let at = from + (to - from) * place.share;
            points.extend(&whole.points[(done + 1).min(place.segment + 1)..=place.segment]);
            done = done.max(place.segment);
            let node = if (at - net.nodes[start]).norm() <= join
                && crate::geom::measure::length(&points) <= 2.0 * join
            {
                start
            } else if (at - whole.points[last]).norm() <= join && place.segment + 2 >= last {
                whole.ends[1]
            } else {
                let node = net.nodes.len();
                net.nodes.push(at);
                points.push(at);
                points.dedup();
                pieces.push((std::mem::replace(&mut points, vec![at]), [start, node]));
                start = node;
                node
            };
            nodes[link][side] = node;
        }
        points.extend(&whole.points[done + 1..]);
        points.dedup();
        pieces.push((points, [start, whole.ends[1]]));
        pieces.retain(|(points, _)| points.len() > 1);
        for (at, (points, ends)) in pieces.into_iter().enumerate() {
            let length = crate::geom::measure::length(&points);
            let piece = super::net::NetEdge {
                line: whole.line,
                ends,
                points,
                length,
            };
            match at {
                0 => net.edges[edge] = piece,
                _ => net.edges.push(piece),
            }
        }
    }
    let bridges = nodes
        .into_iter()
        .filter(|nodes| nodes[0] != nodes[1])
        .map(|[a, b]| Bridge {
            nodes: [a.min(b), a.max(b)],
            length: (net.nodes[a] - net.nodes[b]).norm(),
        });
    bridges.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::lines::Lines;
    use crate::strokes::net::net;

    /// A zigzag goes across a drawing so often that places a two-hundredth of it apart would be
    /// four million.
    #[test]
    fn places_along_a_long_line_are_bounded() {
        let zigzag: Vec<Point> = (0..20_000u32)
            .map(|k| Point::new(f64::from(k % 2) * 100.0, f64::from(k) * 1e-3))
            .collect();
        let across = vec![Point::new(0.0, 40.0), Point::new(100.0, 40.0)];
        let lines = Lines::new(&[zigzag, across], 0.0).expect("lines");
        let net = net(&lines, &[], &[], 1e-9);
        let (places, points) = places(&net);
        assert_eq!(places.len(), points.len());
        assert!(
            (100_000..1_100_000).contains(&places.len()),
            "{}",
            places.len()
        );
    }

    /// A cross stops half a millimetre short of the ring around it: by one link it would be
    /// stitched twice, by four it isn't.
    #[test]
    fn ends_that_stop_short_of_a_line_are_linked_to_it() {
        use crate::strokes::{Drawing, OneLineOptions, Stroke};
        let path = kurbo::BezPath::from_svg(
            "M40 0 A 40 40 0 1 1 -40 0 A 40 40 0 1 1 40 0 M-39.5 0 H 39.5 M 0 -39.5 V 39.5",
        );
        let path = path.expect("a path");
        let drawing = Drawing::new("wheel", vec![Stroke::new("a", path)]);
        let line = drawing.one_line(&OneLineOptions::default());
        let report = line.expect("one line").report;
        // The ring's quarters pair its four ends; one is left free.
        assert!(report.added() < 66.0, "{report:?}");
    }
}
