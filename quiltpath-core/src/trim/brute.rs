//! The least added length by brute force: shortest paths over everything that a walk can do.
//!
//! A walk is where it is and which pieces it has covered. From there it may go along an arc
//! either way, up or down a stub, over a piece, or cut the thread and go on anywhere. The least
//! cost to have covered all is a shortest path among these states; thread cuts cost a fortune.
//! The drawn order is tried in all directions and both ways round for every link.

use std::cmp::Reverse;
use std::collections::{BTreeSet, BinaryHeap};

use super::boundary::Boundary;
use crate::geom::region::Way;

/// What a thread cut costs: more than any length that it could save.
const FORTUNE: f64 = 1e6;

/// Thread cuts and added length at the least.
pub(super) type Least = (usize, f64);

fn split(cost: f64) -> Least {
    let cuts = (cost / FORTUNE).round();
    (cuts as usize, cost - cuts * FORTUNE)
}

/// The least in any order.
pub(super) fn any_order(ring: &Boundary, restitch: bool) -> Least {
    let (nodes, pieces) = (ring.nodes.len(), ring.edges.len());
    // Each node has a foot on the track after all the vertices.
    let places = ring.vertices + nodes;
    let foot = |node: usize| ring.vertices + node;
    let mut moves: Vec<Vec<(usize, f64)>> = vec![Vec::new(); places];
    let mut both = |a: usize, b: usize, cost: f64| {
        moves[a].push((b, cost));
        moves[b].push((a, cost));
    };
    for node in 0..nodes {
        both(node, foot(node), ring.nodes[node].stub);
        both(foot(node), foot((node + 1) % nodes), ring.arcs[node]);
    }
    for a in 0..ring.vertices {
        for b in 0..a {
            both(a, b, FORTUNE);
        }
    }
    let all = (1usize << pieces) - 1;
    let mut known = vec![f64::INFINITY; places << pieces];
    let mut queue = BinaryHeap::new();
    // Non-negative numbers are in the order of their bits.
    let mut reach = |queue: &mut BinaryHeap<_>, covered: usize, place: usize, cost: f64| {
        let state = covered * places + place;
        if cost < known[state] {
            known[state] = cost;
            queue.push(Reverse((cost.to_bits(), covered, place)));
        }
    };
    match ring.start {
        Some(start) => reach(&mut queue, 0, start, 0.0),
        None => (0..ring.vertices).for_each(|place| reach(&mut queue, 0, place, 0.0)),
    }
    while let Some(Reverse((bits, covered, place))) = queue.pop() {
        let cost = f64::from_bits(bits);
        if covered == all && ring.end.is_none_or(|end| end == place) {
            return split(cost);
        }
        for &(to, step) in &moves[place] {
            reach(&mut queue, covered, to, cost + step);
        }
        for (index, edge) in ring.edges.iter().enumerate() {
            let again = covered >> index & 1 == 1;
            if again && !restitch {
                continue;
            }
            let step = if again { edge.length } else { 0.0 };
            for (from, to) in [(0, 1), (1, 0)] {
                if edge.ends[from] == place {
                    reach(&mut queue, covered | 1 << index, edge.ends[to], cost + step);
                }
            }
        }
    }
    unreachable!("a thread cut leads everywhere")
}

/// The least in the drawn order.
pub(super) fn in_order(ring: &Boundary, reversing: bool, restitch: bool) -> Least {
    let mut least = f64::INFINITY;
    follow(ring, reversing, restitch, 0, ring.start, 0.0, &mut least);
    split(least)
}

fn follow(
    ring: &Boundary,
    reversing: bool,
    restitch: bool,
    index: usize,
    at: Option<usize>,
    cost: f64,
    least: &mut f64,
) {
    let go = |to: usize| -> Vec<f64> {
        match at {
            None => vec![0.0],
            Some(from) if from == to => vec![0.0],
            Some(from) if ring.is_node(from) && ring.is_node(to) => [Way::Onward, Way::Back]
                .map(|way| ring.link_length(from, to, way))
                .to_vec(),
            Some(_) => vec![FORTUNE],
        }
    };
    let Some(edge) = ring.edges.get(index) else {
        for link in ring.end.map_or(vec![0.0], go) {
            *least = least.min(cost + link);
        }
        return;
    };
    let [a, b] = edge.ends;
    let mut travels = vec![(a, b, 0.0)];
    if reversing {
        travels.push((b, a, 0.0));
    }
    if restitch {
        travels.extend([(a, a, edge.length), (b, b, edge.length)]);
    }
    for (entry, exit, again) in travels {
        for link in go(entry) {
            let cost = cost + link + again;
            if cost < *least {
                follow(
                    ring,
                    reversing,
                    restitch,
                    index + 1,
                    Some(exit),
                    cost,
                    least,
                );
            }
        }
    }
}

/// The arcs of the ring that the links go along, each with how often.
pub(super) fn arc_uses(ring: &Boundary, links: &[(usize, usize, Way)]) -> Vec<usize> {
    let count = ring.nodes.len();
    let mut uses = vec![0; count];
    for &(from, to, way) in links {
        let (mut at, end) = match way {
            Way::Onward => (from, to),
            Way::Back => (to, from),
        };
        let mut passed = BTreeSet::new();
        while at != end {
            assert!(passed.insert(at), "a link goes round and round");
            uses[at] += 1;
            at = (at + 1) % count;
        }
    }
    uses
}
