//! Stitching over pieces instead of taking longer links.
//!
//! Method: a piece stitched over changes the parity of its two ends and connects nothing new, so
//! with a set of such pieces fixed the rest is the postman's again. Instead of over a piece the
//! path may go along the ring from end to end, so a piece that isn't shorter than that link never
//! helps. Of the others single pieces are added or left out as long as that helps. Ends inside that
//! don't end the path are stitched back over always.
//!
//! Guarantee: exact where no piece may help; else a lower bound, the best of three: every odd
//! vertex takes at least half of the shortest thing that can be added there; what is added connects
//! the pieces; and a route with pieces stitched over saves, against the best without, at most what
//! these pieces are shorter than their links. Failure cases: none.

use super::boundary::Boundary;
use super::postman::Postman;
use super::search::Search;

/// Pieces that can only be stitched over together.
struct Unit {
    pieces: Vec<usize>,
    /// The nodes that they lead to.
    ends: [usize; 2],
    length: f64,
    /// How much longer the link between the nodes is.
    gain: f64,
}

/// Improves the best route by stitching over more pieces; the bound for all.
pub(super) fn improve(search: &mut Search) -> f64 {
    let ring = search.ring();
    let without = search.untried().min(search.best_length());
    let (units, complete) = units(ring);
    if units.is_empty() && complete {
        return search.untried();
    }
    let varied: Vec<(&[usize], [usize; 2])> = units
        .iter()
        .map(|unit| (unit.pieces.as_slice(), unit.ends))
        .collect();
    search.vary(&varied);
    let saved = if complete {
        // A route that stitches over more than the best adds in all is none to beat it.
        most_saved(&units, search.best_length())
    } else {
        f64::INFINITY
    };
    lower_bound(ring, search.postman()).max(without - saved)
}

/// What may be stitched over and may help; false when a place inside leaves more to choose.
fn units(ring: &Boundary) -> (Vec<Unit>, bool) {
    let mut units = Vec::new();
    let mut complete = true;
    let mut add = |pieces: Vec<usize>, ends: [usize; 2]| {
        let length = pieces.iter().map(|&piece| ring.edges[piece].length).sum();
        let link = ring.link_length(ends[0], ends[1], ring.shorter_way(ends[0], ends[1]));
        if length < link {
            units.push(Unit {
                pieces,
                ends,
                length,
                gain: link - length,
            });
        }
    };
    let mut inside: Vec<Vec<usize>> = vec![Vec::new(); ring.vertices];
    for (index, edge) in ring.edges.iter().enumerate() {
        match edge.ends.iter().find(|&&end| !ring.is_node(end)) {
            _ if ring.is_isolated(index) => {}
            Some(&place) => inside[place].push(index),
            None => add(vec![index], edge.ends),
        }
    }
    for pieces in inside {
        match pieces[..] {
            // Nodes come before places inside.
            [a, b] => add(
                pieces,
                [a, b].map(|piece| ring.edges[piece].ends[0].min(ring.edges[piece].ends[1])),
            ),
            _ => complete &= pieces.len() < 2,
        }
    }
    (units, complete)
}

/// The most that units of this length together can save, parts of units allowed.
fn most_saved(units: &[Unit], length: f64) -> f64 {
    let mut best: Vec<&Unit> = units.iter().collect();
    best.sort_by(|a, b| (b.gain * a.length).total_cmp(&(a.gain * b.length)));
    let (mut left, mut saved) = (length, 0.0);
    for unit in best {
        let share = (left / unit.length).min(1.0);
        saved += share * unit.gain;
        left -= share * unit.length;
    }
    saved
}

/// No route with stitching over adds less than this.
fn lower_bound(ring: &Boundary, postman: &mut Postman) -> f64 {
    let count = ring.nodes.len();
    let mut odd = vec![false; ring.vertices];
    let mut least = vec![f64::INFINITY; ring.vertices];
    for (index, edge) in ring.edges.iter().enumerate() {
        for &end in edge.ends.iter().filter(|_| !ring.is_isolated(index)) {
            odd[end] ^= true;
            least[end] = least[end].min(edge.length);
        }
    }
    for (node, least) in least.iter_mut().enumerate().take(count) {
        let arcs = ring.arcs[node].min(ring.arcs[(node + count - 1) % count]);
        *least = least.min(arcs);
    }
    for end in ring.start.into_iter().chain(ring.end) {
        odd[end] ^= true;
    }
    let mut halves: Vec<f64> = (0..ring.vertices)
        .filter(|&vertex| odd[vertex])
        .map(|vertex| least[vertex] / 2.0)
        .collect();
    halves.sort_by(f64::total_cmp);
    let free = usize::from(ring.start.is_none()) + usize::from(ring.end.is_none());
    let parity: f64 = halves.iter().take(halves.len().saturating_sub(free)).sum();
    let spanning = postman.tree(|_| false, &[], f64::INFINITY, |_| {});
    parity.max(spanning)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// At most one unit is taken in part, so all sets of whole ones with one more are tried.
        #[test]
        fn no_choice_of_units_saves_more(
            units in prop::collection::vec((0.1..5.0f64, 0.1..5.0f64), 0..7), length in 0.0..20.0f64,
        ) {
            let unit = |&(length, gain): &(f64, f64)| Unit { pieces: Vec::new(), ends: [0, 0], length, gain };
            let found = most_saved(&units.iter().map(unit).collect::<Vec<_>>(), length);
            let mut most: f64 = 0.0;
            for set in 0..1usize << units.len() {
                let (within, beyond): (Vec<_>, Vec<_>) =
                    units.iter().enumerate().partition(|(k, _)| set >> k & 1 == 1);
                let left = length - within.iter().map(|(_, unit)| unit.0).sum::<f64>();
                if left >= 0.0 {
                    let whole: f64 = within.iter().map(|(_, unit)| unit.1).sum();
                    let parts = beyond.iter().map(|(_, unit)| unit.1 * (left / unit.0).min(1.0));
                    most = most.max(whole + parts.fold(0.0, f64::max));
                }
            }
            prop_assert!((found - most).abs() < 1e-9, "{found} {most}");
        }
    }
}
