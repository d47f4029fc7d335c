//! Against all ways of walking small nets.

use super::*;
use crate::graph::root;
use crate::graph::sets::unite;
use proptest::prelude::*;

/// The least cost over all choices of what is walked how often.
fn tried(net: &Net, ends: Ends, cut: Option<f64>) -> f64 {
    let (edges, links) = (net.edges.len(), net.links.len());
    let mut best = f64::INFINITY;
    for choice in 0..(1_usize << edges) * 3_usize.pow(links as u32) {
        let mut degree = vec![0; net.vertices];
        let mut sets: Vec<usize> = (0..net.vertices).collect();
        let mut cost = 0.0;
        for (at, edge) in net.edges.iter().enumerate() {
            let times = 1 + (choice >> at & 1);
            for end in edge.ends {
                degree[end] += times;
            }
            unite(&mut sets, edge.ends);
            cost += (times - 1) as f64 * edge.length;
        }
        let mut rest = choice >> edges;
        for link in &net.links {
            let times = rest % 3;
            rest /= 3;
            if times > 0 {
                for end in link.ends {
                    degree[end] += times;
                }
                unite(&mut sets, link.ends);
                cost += times as f64 * link.length;
            }
        }
        // The ends that are given are ends of some walk; walks in a part are as few as its odd ends
        // ask.
        let mut toggled = degree.clone();
        for end in [ends.start, ends.end].into_iter().flatten() {
            toggled[end] += 1;
        }
        let mut parts = std::collections::BTreeMap::new();
        for at in (0..net.vertices).filter(|&at| degree[at] > 0) {
            let given = [ends.start, ends.end]
                .iter()
                .filter(|end| **end == Some(at))
                .count();
            let part = parts.entry(root(&mut sets, at)).or_insert((0, 0));
            part.0 += toggled[at] % 2;
            part.1 += given;
        }
        // Each walk has two ends; those that are given are taken, the others are odd vertices.
        let walks: usize = parts
            .values()
            .map(|&(odd, given)| ((odd + given) / 2).max(1))
            .sum();
        let price = match cut {
            Some(cut) => (walks - 1) as f64 * cut,
            None if walks == 1 => 0.0,
            None => continue,
        };
        best = best.min(cost + price);
    }
    best
}

fn edge((a, b, length): (usize, usize, f64)) -> Edge {
    Edge {
        ends: [a, b],
        length,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn no_walk_costs_less(
        edges in prop::collection::vec((0..6usize, 0..6usize, 0.1..9.0f64), 1..6),
        links in prop::collection::vec((0..6usize, 0..6usize, 0.1..9.0f64), 0..6),
        start in prop::option::of(0..99usize),
        end in prop::option::of(0..99usize),
        cut in prop::option::of(0.1..9.0f64),
    ) {
        let edges: Vec<Edge> = edges.into_iter().map(edge).collect();
        let on: Vec<usize> = edges.iter().flat_map(|edge| edge.ends).collect();
        // Links may meet at vertices that no edge leads to.
        let used = |link: &Edge| link.ends[0] != link.ends[1];
        let links = links.into_iter().map(edge).filter(used).collect();
        let net = Net { vertices: 6, edges, links };
        let ends = Ends {
            start: start.map(|at| on[at % on.len()]),
            end: end.map(|at| on[at % on.len()]),
        };
        let least = tried(&net, ends, cut);
        let mut left = u64::MAX;
        match least_route(&net, ends, cut, &mut left) {
            Some(route) => {
                prop_assert!((route.cost - least).abs() < 1e-6, "{} {least}", route.cost);
                prop_assert_eq!(route.lower, route.cost);
                prop_assert!(route.ends.len() <= 2 * (route.cuts + 1));
            }
            None => prop_assert_eq!(least, f64::INFINITY),
        }
    }
}

#[test]
fn pairs_of_ends_share_the_steps() {
    // Twelve lines apart, each linked to all others, the links of lengths that don't repeat.
    let count = 12;
    let edges = (0..count).map(|at| edge((2 * at, 2 * at + 1, 1.0)));
    let vertices = 2 * count;
    let apart = (0..vertices).flat_map(|a| (a + 1..vertices).map(move |b| (a, b)));
    let links = apart.filter(|(a, b)| a / 2 != b / 2).map(|(a, b)| {
        let length = 3.0 + ((a * 37 + b * 101) % 89) as f64 / 89.0;
        edge((a, b, length))
    });
    let net = Net {
        vertices,
        edges: edges.collect(),
        links: links.collect(),
    };
    let pair = [Some(0), Some(vertices - 1)];
    let ends = Ends {
        start: pair[0],
        end: pair[1],
    };
    let walk = |steps: u64| {
        let mut left = steps;
        let walk = least_route(&net, ends, None, &mut left).expect("a walk");
        (walk, left)
    };
    let ((rough, none), (better, rest)) = (walk(100_000), walk(600_000));
    assert!(none == 0 && rough.lower < rough.cost && better.lower > rough.lower);
    // A twelfth of the steps for each, then half of them for the best.
    let mut left = 1_200_000;
    let (found, _) = least_of(&net, &[pair; 6], None, &mut left).expect("a walk");
    assert_eq!((found, left), (better, rest));
    // A walk that is found at once leaves its steps to the others.
    let [mut joined, mut left] = [600_000; 2];
    let whole = Net {
        vertices: 2,
        edges: vec![edge((0, 1, 1.0))],
        links: Vec::new(),
    };
    let free = [[None; 2]; 6];
    least_of(&whole, &free, None, &mut joined).expect("a walk");
    least_route(&whole, Ends::default(), None, &mut left).expect("a walk");
    assert_eq!(600_000 - joined, 6 * (600_000 - left));
}
