//! Multigraphs drawn with the fewest strokes.
//!
//! Problem: lines that meet at their ends are edges of a multigraph; use every edge once, in as few
//! walks as possible. Method: a connected part with no odd vertex takes one closed walk, one with
//! 2k odd vertices k walks (Euler); auxiliary edges pair the odd vertices but two, a walk over all
//! edges (Hierholzer) is cut where it uses them.
//! Guarantee: the number of walks, Σ max(1, k) over the connected parts, is the least possible, for
//! each odd vertex is an end of some walk. Failure: none; a vertex without edges takes no walk.
//!
//! Source: L. Euler, "Solutio problematis ad geometriam situs pertinentis" (1736).

use std::collections::HashMap;

/// An edge in a walk.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Step {
    /// The number of the edge.
    pub(crate) index: usize,
    /// Whether it is travelled from its second vertex to its first.
    pub(crate) reversed: bool,
}

/// The fewest walks that use every edge once, in the order of the least edge in each.
///
/// Edges lead between vertices that are numbered below `vertices`. A walk ends where it starts
/// only when its connected part has no odd vertex.
///
/// # Complexity
///
/// O(vertices + edges log edges).
pub(crate) fn fewest_trails(edges: &[[usize; 2]], vertices: usize) -> Vec<Vec<Step>> {
    let mut ends = edges.to_vec();
    let mut around: Vec<Vec<usize>> = vec![Vec::new(); vertices];
    for (index, edge) in edges.iter().enumerate() {
        for &end in edge {
            around[end].push(index);
        }
    }
    let component = components(edges, &around);
    let mut odd: HashMap<usize, Vec<usize>> = HashMap::new();
    for at in 0..vertices {
        if around[at].len() % 2 == 1 {
            odd.entry(component[at]).or_default().push(at);
        }
    }
    let mut starts = HashMap::new();
    for (name, odd) in &odd {
        starts.insert(*name, odd[0]);
        for pair in odd[1..odd.len() - 1].chunks_exact(2) {
            around[pair[0]].push(ends.len());
            around[pair[1]].push(ends.len());
            ends.push([pair[0], pair[1]]);
        }
    }
    // The earliest edges are to be taken first.
    around.iter_mut().for_each(|edges| edges.reverse());
    let mut used = vec![false; ends.len()];
    let mut trails = Vec::new();
    for first in 0..edges.len() {
        if used[first] {
            continue;
        }
        let own_start = edges[first][0];
        let start = *starts.get(&component[own_start]).unwrap_or(&own_start);
        let walk = euler_walk(&ends, &mut around, &mut used, start);
        trails.extend(
            walk.split(|step| step.index >= edges.len())
                .filter(|trail| !trail.is_empty())
                .map(<[Step]>::to_vec),
        );
    }
    trails.sort_by_cached_key(|trail| trail.iter().map(|step| step.index).min());
    trails
}

/// The least vertex number of each vertex's connected part.
fn components(edges: &[[usize; 2]], around: &[Vec<usize>]) -> Vec<usize> {
    let mut component = vec![usize::MAX; around.len()];
    for seed in 0..around.len() {
        let mut stack = vec![seed];
        while let Some(at) = stack.pop() {
            if component[at] == usize::MAX {
                component[at] = seed;
                stack.extend(around[at].iter().flat_map(|&edge| edges[edge]));
            }
        }
    }
    component
}

/// An Euler walk of the unused edges of one part, from a vertex where one can start (Hierholzer).
///
/// `around` lists the edges at each vertex; they are taken from the ends of the lists.
///
/// # Complexity
///
/// O(edges).
pub(crate) fn euler_walk(
    edges: &[[usize; 2]],
    around: &mut [Vec<usize>],
    used: &mut [bool],
    start: usize,
) -> Vec<Step> {
    let mut stack: Vec<(usize, Option<Step>)> = vec![(start, None)];
    let mut walk = Vec::new();
    while let Some(&(at, arrived_by)) = stack.last() {
        match around[at].pop() {
            Some(index) if used[index] => {}
            Some(index) => {
                used[index] = true;
                let reversed = edges[index][0] != at;
                let to = edges[index][usize::from(!reversed)];
                stack.push((to, Some(Step { index, reversed })));
            }
            None => {
                stack.pop();
                walk.extend(arrived_by);
            }
        }
    }
    walk.reverse();
    walk
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Checks that the walks use every edge once and hang together; gives their number.
    fn drawn(edges: &[[usize; 2]], vertices: usize) -> usize {
        let trails = fewest_trails(edges, vertices);
        let mut used = vec![0; edges.len()];
        for trail in &trails {
            let travel = |step: &Step| {
                let [from, to] = edges[step.index];
                if step.reversed {
                    [to, from]
                } else {
                    [from, to]
                }
            };
            for pair in trail.windows(2) {
                assert_eq!(travel(&pair[0])[1], travel(&pair[1])[0]);
            }
            trail.iter().for_each(|step| used[step.index] += 1);
        }
        assert!(used.iter().all(|&times| times == 1), "{used:?}");
        trails.len()
    }

    /// The fewest walks by trying all orders: least number for each set of edges and last vertex.
    fn tried(edges: &[[usize; 2]], vertices: usize) -> usize {
        let all = (1usize << edges.len()) - 1;
        let mut least = vec![usize::MAX; vertices << edges.len()];
        least[..vertices].fill(0);
        for state in 0..least.len() {
            let (done, at) = (state / vertices, state % vertices);
            if least[state] == usize::MAX {
                continue;
            }
            for (index, edge) in edges.iter().enumerate() {
                for [from, to] in [*edge, [edge[1], edge[0]]] {
                    if done >> index & 1 == 0 {
                        let walks = least[state] + usize::from(from != at || done == 0);
                        let next = &mut least[(done | 1 << index) * vertices + to];
                        *next = (*next).min(walks);
                    }
                }
            }
        }
        *least[all * vertices..].iter().min().expect("a vertex")
    }

    /// The seven bridges (four banks, all odd), the house drawn in one stroke, the complete graph
    /// of five vertices (all even) and the Petersen graph (ten odd vertices). Source: Euler, as
    /// above; the others are textbook examples, from memory.
    #[test]
    fn known_graphs_take_as_many_strokes_as_euler_says() {
        let bridges = [[0, 1], [0, 1], [0, 2], [0, 2], [0, 3], [1, 3], [2, 3]];
        assert_eq!(drawn(&bridges, 4), 2);
        let house = [
            [0, 1],
            [1, 2],
            [2, 3],
            [3, 0],
            [0, 2],
            [1, 3],
            [2, 4],
            [3, 4],
        ];
        assert_eq!(drawn(&house, 5), 1);
        let complete: Vec<[usize; 2]> = (0..5).flat_map(|a| (0..a).map(move |b| [a, b])).collect();
        assert_eq!(drawn(&complete, 5), 1);
        let petersen: Vec<[usize; 2]> = (0..5)
            .flat_map(|k| [[k, (k + 1) % 5], [k, k + 5], [k + 5, (k + 2) % 5 + 5]])
            .collect();
        assert_eq!(drawn(&petersen, 10), 5);
        assert_eq!(drawn(&[], 3), 0);
    }

    proptest! {
        #[test]
        fn no_order_takes_fewer_walks(
            edges in prop::collection::vec(prop::array::uniform2(0usize..6), 1..8),
        ) {
            prop_assert_eq!(drawn(&edges, 6), tried(&edges, 6));
        }
    }
}
