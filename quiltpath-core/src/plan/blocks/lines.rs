//! Sashes and cornerstones in the order of their lines.
//!
//! Every sash and every cornerstone that joins has two ends, each with at most one neighbour, so
//! what hangs together is a path or a ring. Paths are walked from the earlier of their two ends,
//! rings from their first sash.

use super::sashes::Sashes;

/// A sash or a cornerstone by its number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::plan) enum Node {
    Sash(usize),
    Crossing(usize),
}

/// A line: its nodes, each with whether it is travelled backwards.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::plan) struct Line {
    pub(in crate::plan) nodes: Vec<(Node, bool)>,
    pub(in crate::plan) closed: bool,
}

/// The lines of all sashes and cornerstones that join.
pub(in crate::plan) fn lines(sashes: &Sashes<'_>) -> Vec<Line> {
    let (count, crossings) = (sashes.spots.len(), sashes.crossings.len());
    // Sashes first, then cornerstones; of each node the neighbours at its start and at its end,
    // with the end of the neighbour.
    let mut beside: Vec<[Option<(usize, usize)>; 2]> = vec![[None, None]; count + crossings];
    for (sash, joined) in sashes.joined.iter().enumerate() {
        for (end, joined) in joined.iter().enumerate() {
            if let Some((crossing, last)) = *joined {
                let other = (count + crossing, usize::from(last));
                beside[sash][end] = Some(other);
                beside[other.0][other.1] = Some((sash, end));
            }
        }
    }
    let mut seen = vec![false; beside.len()];
    let free = |node: usize| (0..2).find(|&end| beside[node][end].is_none());
    let heads = (0..beside.len()).filter_map(|node| Some((node, free(node)?)));
    let rings = (0..beside.len()).map(|node| (node, 0));
    let mut lines = Vec::new();
    for (head, end) in heads.chain(rings) {
        if seen[head] {
            continue;
        }
        let mut nodes = Vec::new();
        let (mut node, mut entered) = (head, end);
        let closed = loop {
            seen[node] = true;
            let known = match node.checked_sub(count) {
                None => Node::Sash(node),
                Some(crossing) => Node::Crossing(crossing),
            };
            nodes.push((known, entered == 1));
            match beside[node][1 - entered] {
                Some((next, _)) if seen[next] => break true,
                Some((next, end)) => (node, entered) = (next, end),
                None => break false,
            }
        };
        lines.push(Line { nodes, closed });
    }
    lines
}
