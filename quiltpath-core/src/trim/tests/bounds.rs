//! Bounds of what a route adds at the least: not above it, and not far below it either.

use super::*;
use crate::geom::region::Way;
use crate::trim::search::PAIR_LIMIT;

/// The arcs from node to node, the pieces as pairs of nodes: what links can be seen from outside.
struct Ring<'a> {
    ring: &'a Boundary,
}

impl Ring<'_> {
    fn count(&self) -> usize {
        self.ring.nodes.len()
    }

    /// The least length of arcs that connects all pieces and prescribed ends: Prim's method.
    fn connecting(&self) -> f64 {
        let count = self.count();
        let mut group: Vec<usize> = (0..count).collect();
        for edge in &self.ring.edges {
            let [from, to] = edge.ends.map(|end| group[end]);
            group
                .iter_mut()
                .filter(|g| **g == from)
                .for_each(|g| *g = to);
        }
        let mut reached = vec![group[0]];
        let mut length = 0.0;
        loop {
            let bridge = |arc: usize| {
                let ends = [group[arc], group[(arc + 1) % count]];
                let [a, b] = ends.map(|end| reached.contains(&end));
                (a != b).then(|| (self.ring.arcs[arc], ends[usize::from(a)]))
            };
            let Some((arc, next)) = (0..count)
                .filter_map(bridge)
                .min_by(|a, b| a.0.total_cmp(&b.0))
            else {
                return length;
            };
            length += arc;
            reached.push(next);
        }
    }

    /// Half of the shortest thing beside each place that has to change its parity.
    fn parity(&self) -> f64 {
        let (count, ring) = (self.count(), self.ring);
        let mut halves = Vec::new();
        for node in 0..count {
            let ends = ring.edges.iter().flat_map(|edge| edge.ends);
            let prescribed = ring.start.into_iter().chain(ring.end);
            let odd = ends.chain(prescribed).filter(|&end| end == node).count() % 2 == 1;
            let beside = ring.edges.iter().filter(|edge| edge.ends.contains(&node));
            let lengths = beside.map(|edge| edge.length);
            let arcs = [ring.arcs[node], ring.arcs[(node + count - 1) % count]];
            let shortest = lengths.chain(arcs).fold(f64::INFINITY, f64::min);
            halves.extend(odd.then_some(shortest / 2.0));
        }
        halves.sort_by(f64::total_cmp);
        let free = [ring.start, ring.end]
            .iter()
            .filter(|end| end.is_none())
            .count();
        halves[..halves.len().saturating_sub(free)].iter().sum()
    }

    /// The most that pieces of this length together can be shorter than their links: the dual of
    /// the fractional knapsack, which is least where a piece just pays.
    fn saving(&self, length: f64) -> f64 {
        let pieces = self.ring.edges.iter().filter_map(|edge| {
            let [from, to] = edge.ends;
            let link = [Way::Onward, Way::Back].map(|way| self.ring.link_length(from, to, way));
            let gain = link[0].min(link[1]) - edge.length;
            (gain > 0.0).then_some((gain, edge.length))
        });
        let pieces: Vec<(f64, f64)> = pieces.collect();
        let total = |price: f64| {
            let paid = pieces
                .iter()
                .map(|(gain, size)| (gain - price * size).max(0.0));
            price * length + paid.sum::<f64>()
        };
        let prices = pieces.iter().map(|(gain, size)| gain / size).chain([0.0]);
        prices.map(total).fold(f64::INFINITY, f64::min)
    }
}

fn lower(report: &TrimReport) -> f64 {
    match report.exactness {
        Exactness::Exact => report.added_length,
        Exactness::Bound { lower, .. } => lower,
    }
}

#[test]
fn the_bound_with_many_pieces_to_stitch_over_is_no_less_than_the_best_of_three() {
    let best = Cell::new([0; 3]);
    // Far apart, or close together at random places: short pieces make parity count for more.
    let ends = (0.0..32.0f64, prop_oneof![-16.0..16.0f64, -1.5..1.5f64]);
    let ends = prop::collection::vec(ends, 9..40);
    cases(300)
        .run(&(ends, terminals()), |(ends, terminals)| {
            let straight = |&(a, by): &(f64, f64)| {
                let b = (a + by).rem_euclid(32.0);
                piece(&l(), EndOn::Boundary(a), EndOn::Boundary(b), 0.0)
            };
            let pieces: Vec<_> = ends.iter().filter_map(straight).collect();
            let options = RouteOptions {
                terminals,
                ..RouteOptions::default()
            };
            let without = route(&pieces, &l(), &options).expect("a route").report;
            let options = RouteOptions {
                restitch: true,
                ..options
            };
            let report = route(&pieces, &l(), &options).expect("a route").report;
            let ring = ring(&pieces, &options);
            let ring = Ring { ring: &ring };
            let found = report.added_length;
            let bounds = [
                ring.parity(),
                ring.connecting(),
                lower(&without) - ring.saving(found),
            ];
            for (index, bound) in bounds.into_iter().enumerate() {
                prop_assert!(
                    lower(&report) >= bound.min(found) - 1e-9,
                    "{index}: {bound} {report:?}"
                );
                let mut counts = best.get();
                counts[index] += u32::from(bounds.iter().all(|other| bound >= *other));
                best.set(counts);
            }
            Ok(())
        })
        .unwrap_or_else(|error| panic!("{error}"));
    assert!(best.get().iter().all(|&count| count > 0), "{best:?}");
}

#[test]
fn links_at_an_inset_leave_no_more_out_of_the_bound_than_their_stubs() {
    let inexact = Cell::new(0);
    cases(300)
        .run(&(pieces(5), options()), |(pieces, options)| {
            let options = RouteOptions {
                inset: 0.25,
                ..options
            };
            let Ok(routed) = route(&pieces, &l(), &options) else {
                return Ok(());
            };
            let ring = ring(&pieces, &options);
            let (_, least) = brute::any_order(&ring, options.restitch);
            let stubs: f64 = ring.nodes.iter().map(|node| node.stub).sum();
            prop_assert!(lower(&routed.report) >= least - 2.0 * stubs - 1e-9);
            let exact = routed.report.exactness == Exactness::Exact;
            inexact.set(inexact.get() + u32::from(!exact));
            Ok(())
        })
        .unwrap_or_else(|error| panic!("{error}"));
    assert!(inexact.get() > 0, "all are exact");
}

/// So many pieces at even distances whose own ends are this share of that distance apart.
fn comb(count: usize, share: f64) -> Vec<ClippedPiece> {
    let step = 32.0 / count as f64;
    let tooth = |k: usize| {
        // Off the corners, where a tooth would be bent.
        let from = step * (k as f64 + 0.137);
        let ends = [from, from + share * step].map(EndOn::Boundary);
        piece(&l(), ends[0], ends[1], 0.2)
    };
    (0..count).filter_map(tooth).collect()
}

#[test]
fn pieces_one_after_the_other_are_linked_across_all_gaps_but_the_widest() {
    // Beyond the limit of pairs too: no set of arcs that connects them is shorter.
    for count in [3, 40, PAIR_LIMIT / 2 + 20] {
        let report = added(&comb(count, 0.6), RouteOptions::default());
        let gaps = 0.4 * 32.0 * (count - 1) as f64 / count as f64;
        assert!((report.added_length - gaps).abs() < 1e-9, "{report:?}");
        assert_eq!(report.exactness, Exactness::Exact, "{count}");
    }
}

#[test]
fn the_bound_beyond_the_limit_of_pairs_is_no_less_than_what_connects_the_pieces() {
    cases(4)
        .run(
            &(many(PAIR_LIMIT / 2 + 20), many(PAIR_LIMIT / 4)),
            |(beyond, within)| {
                for pieces in [beyond, within] {
                    let options = RouteOptions::default();
                    let report = added(&pieces, options);
                    let ring = ring(&pieces, &options);
                    let connecting = Ring { ring: &ring }.connecting();
                    prop_assert!(
                        lower(&report) >= connecting - 1e-9,
                        "{connecting} {report:?}"
                    );
                }
                Ok(())
            },
        )
        .unwrap_or_else(|error| panic!("{error}"));
}

fn many(count: usize) -> impl Strategy<Value = Vec<ClippedPiece>> {
    prop::collection::vec((0.0..32.0f64, 0.0..32.0f64), count).prop_map(|ends| {
        let crossing =
            |&(a, b): &(f64, f64)| piece(&l(), EndOn::Boundary(a), EndOn::Boundary(b), 0.2);
        ends.iter().filter_map(crossing).collect()
    })
}

fn added(pieces: &[ClippedPiece], options: RouteOptions) -> TrimReport {
    route(pieces, &l(), &options).expect("a route").report
}
