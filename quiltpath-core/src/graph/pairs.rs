//! Odd vertices of a net of lines in pairs, along the shortest ways between them.
//!
//! Problem: pair vertices so that the ways between partners are the least in all; up to two of them
//! may have a free end for a partner, at no cost. Method: where they are [few](are_few), by a
//! matching of least cost over all shortest ways. Otherwise, each vertex looks for its nearest few,
//! pairs are taken shortest first until few enough are left for the matching, and those around each
//! vertex are matched anew among themselves, for a bounded number of steps.
//!
//! Guarantee: exact where they are few; otherwise `lower` is no more than the least, since a way
//! to any partner is as long as that to the nearest, half of it for either. Failure cases: a vertex
//! that none can be reached from.

use std::collections::{HashMap, HashSet};

use super::matching::least_pairs;
use super::ways::{Roads, Search};

/// Up to so many vertices are paired at the least cost; 1,000 take a second or so.
const EXACT: usize = 1200;

/// And up to so many lines are gone through for that, by all vertices together; also for pairing
/// anew.
const STEPS: usize = 20_000_000;

/// So many of the nearest are looked at where there are more vertices.
const NEAREST: usize = 8;

/// Up to so many are left for the exact matching where there are more vertices.
const LEFT: usize = 24;

/// Up to so many vertices, those around each are paired anew at the least cost.
const IMPROVED: usize = 20_000;

/// So many vertices are paired anew together; fewer in a net of so many lines that a group of them
/// would take more than [`STEPS`] steps.
const AROUND: usize = 160;

/// So many times all are gone through, from other vertices each time.
const ROUNDS: usize = 2;

/// Whether so many vertices in a net of so many lines are paired at the least cost.
pub(super) fn are_few(vertices: usize, lines: usize) -> bool {
    vertices <= EXACT && vertices.saturating_mul(lines) <= STEPS
}

/// Vertices in pairs.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Pairs {
    pub(super) pairs: Vec<Pair>,
    /// Those whose partner is a free end.
    pub(super) alone: Vec<usize>,
    /// No pairing costs less.
    pub(super) lower: f64,
}

/// Two vertices and the lines on the way between them.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Pair {
    ends: [usize; 2],
    pub(super) lines: Vec<usize>,
    pub(super) length: f64,
}

/// Pairs of vertices, `free` of them left for free ends, 0 to 2; none where a vertex can't be
/// reached. The vertex `bound`, where there is one, isn't left for a free end.
///
/// # Complexity
///
/// O(o (n log n + o²)) for o vertices that are few and n lines; O(o m log m) expected otherwise,
/// for m lines around each vertex.
pub(super) fn paired(
    roads: &Roads,
    odd: &[usize],
    free: usize,
    bound: Option<usize>,
) -> Option<Pairs> {
    let mut work = Work {
        roads,
        odd,
        bound,
        search: Search::new(roads),
    };
    if are_few(odd.len(), roads.lines()) {
        let all: Vec<usize> = (0..odd.len()).collect();
        let partners = work.exact(&all, free)?;
        return work.pairs(&partners, None);
    }
    work.nearly(free)
}

/// The partner of each vertex by its place in the list; itself for a free end.
type Partners = Vec<usize>;

struct Work<'a> {
    roads: &'a Roads,
    odd: &'a [usize],
    bound: Option<usize>,
    search: Search<'a>,
}

impl Work<'_> {
    /// The partners of these vertices at the least cost, others being their own.
    fn exact(&mut self, these: &[usize], free: usize) -> Option<Partners> {
        let mut partners: Partners = (0..self.odd.len()).collect();
        for (&one, other) in these.iter().zip(self.least(these, free)?) {
            partners[one] = other;
        }
        Some(partners)
    }

    /// The partner of each of these vertices at the least cost; itself for a free end.
    fn least(&mut self, these: &[usize], free: usize) -> Option<Vec<usize>> {
        let count = these.len();
        let mut place = HashMap::with_capacity(count);
        place.extend(
            these
                .iter()
                .enumerate()
                .map(|(at, &one)| (self.odd[one], at)),
        );
        let mut far = vec![f64::INFINITY; count * count];
        for (at, &one) in these.iter().enumerate() {
            let mut left = count;
            self.search.go(self.odd[one], |vertex, length| {
                if let Some(&other) = place.get(&vertex) {
                    far[at * count + other] = length;
                    left -= 1;
                }
                left > 0
            });
        }
        let all = far.iter().filter(|far| far.is_finite());
        let never = 2.0 * all.sum::<f64>() + 1.0;
        let bound = |at: usize| Some(self.odd[these[at]]) == self.bound;
        let pairs = least_pairs(count + free, |one, other| match other < count {
            true => far[one * count + other].min(never),
            // Two ends that are free.
            false if one >= count => 0.0,
            false if bound(one) => never,
            false => 0.0,
        });
        let partners =
            pairs
                .iter()
                .enumerate()
                .take(count)
                .map(|(one, &other)| match other < count {
                    true if far[one * count + other].is_finite() => Some(these[other]),
                    false if !bound(one) => Some(these[one]),
                    _ => None,
                });
        partners.collect()
    }

    /// Pairs with the ways between them.
    fn pairs(&mut self, partners: &Partners, lower: Option<f64>) -> Option<Pairs> {
        let mut all = Pairs::default();
        let mut sum = 0.0;
        for (one, &other) in partners.iter().enumerate() {
            if one == other {
                all.alone.push(self.odd[one]);
            }
            if one >= other {
                continue;
            }
            let to = self.odd[other];
            self.search.go(self.odd[one], |vertex, _| vertex != to);
            let length = self.search.length(to);
            if !length.is_finite() {
                return None;
            }
            sum += length;
            let lines = self.search.lines(to).collect();
            let ends = [self.odd[one], to];
            all.pairs.push(Pair {
                ends,
                lines,
                length,
            });
        }
        all.lower = lower.unwrap_or(sum);
        Some(all)
    }

    /// Pairs vertices anew with others around them, at the least cost there, as far as the steps
    /// for that go.
    fn improve(&mut self, partners: &mut Partners, near: &[Vec<(f64, usize)>]) -> Option<()> {
        let around = AROUND.min(STEPS / self.roads.lines().max(1)).max(4);
        let last = self.search.steps() + STEPS;
        for round in 0..ROUNDS {
            let mut done = vec![false; partners.len()];
            // Rounds start elsewhere, so that what bounds one group lies within another.
            let first = round * partners.len() / ROUNDS;
            for start in (first..partners.len()).chain(0..first) {
                if self.search.steps() > last {
                    return Some(());
                }
                if done[start] {
                    continue;
                }
                let mut these = vec![start];
                let mut taken = HashSet::from([start]);
                let mut at = 0;
                while at < these.len() && these.len() < around {
                    let one = these[at];
                    let close = near[one].iter().map(|&(_, other)| other);
                    for other in std::iter::once(partners[one]).chain(close) {
                        for each in [other, partners[other]] {
                            if taken.insert(each) {
                                these.push(each);
                            }
                        }
                    }
                    at += 1;
                }
                these.iter().for_each(|&one| done[one] = true);
                // One that has a free end keeps it.
                these.retain(|&one| {
                    let partner = partners[one];
                    partner != one && taken.contains(&partner)
                });
                for (&one, other) in these.iter().zip(self.least(&these, 0)?) {
                    partners[one] = other;
                }
            }
        }
        Some(())
    }

    /// Pairs that are about the least, and a bound below.
    fn nearly(&mut self, free: usize) -> Option<Pairs> {
        let count = self.odd.len();
        let mut place = vec![usize::MAX; self.roads.vertices()];
        for (at, &vertex) in self.odd.iter().enumerate() {
            place[vertex] = at;
        }
        let mut partners: Partners = (0..count).collect();
        let mut left: Vec<usize> = (0..count).collect();
        let mut near: Vec<Vec<(f64, usize)>> = Vec::new();
        while left.len() > LEFT {
            let mut pairs: Vec<(f64, usize, usize)> = Vec::new();
            let mut found: Vec<Vec<(f64, usize)>> = Vec::with_capacity(left.len());
            for &one in &left {
                let mut around = Vec::with_capacity(NEAREST);
                self.search.go(self.odd[one], |vertex, length| {
                    let other = place[vertex];
                    if other != usize::MAX && other != one {
                        around.push((length, other));
                    }
                    around.len() < NEAREST
                });
                pairs.extend(around.iter().map(|&(far, other)| (far, one, other)));
                found.push(around);
            }
            if near.is_empty() {
                near = found;
            }
            pairs.sort_by(|a, b| a.0.total_cmp(&b.0).then((a.1, a.2).cmp(&(b.1, b.2))));
            let before = left.len();
            for (_, one, other) in pairs {
                if partners[one] == one && partners[other] == other {
                    partners[one] = other;
                    partners[other] = one;
                }
            }
            left.retain(|&one| partners[one] == one);
            if left.len() == before {
                return None;
            }
            for (at, &vertex) in self.odd.iter().enumerate() {
                if partners[at] != at {
                    place[vertex] = usize::MAX;
                }
            }
        }
        for (one, &other) in self.exact(&left, free)?.iter().enumerate() {
            if one != other {
                partners[one] = other;
            }
        }
        if count <= IMPROVED {
            self.improve(&mut partners, &near)?;
        }
        let mut nearest: Vec<f64> = near
            .iter()
            .map(|around| around.first().map_or(0.0, |&(far, _)| far / 2.0))
            .collect();
        // The farthest may be the ones that free ends take.
        nearest.sort_by(f64::total_cmp);
        nearest.truncate(count - free.min(count));
        let mut pairs = self.pairs(&partners, Some(nearest.iter().sum()))?;
        if free == 2 && pairs.alone.is_empty() {
            let longest = pairs
                .pairs
                .iter()
                .enumerate()
                .max_by(|a, b| a.1.length.total_cmp(&b.1.length));
            let longest = longest.map(|(at, _)| at)?;
            let pair = pairs.pairs.swap_remove(longest);
            pairs.alone.extend(pair.ends);
        }
        Some(pairs)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Vertices of a grid of paths, shifted by a random hair so that no two ways are alike.
    fn grid(side: usize, shift: &[f64]) -> Roads {
        let hair = |at: usize| 1.0 + shift[at % shift.len()];
        let mut lines = Vec::new();
        for y in 0..side {
            for x in 0..side {
                let at = y * side + x;
                if x + 1 < side {
                    lines.push(([at, at + 1], hair(at)));
                }
                if y + 1 < side {
                    lines.push(([at, at + side], hair(7 * at + 3)));
                }
            }
        }
        Roads::new(side * side, lines.into_iter())
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(8))]

        #[test]
        fn many_vertices_are_paired_at_little_more_than_the_least(
            shift in prop::collection::vec(0.0..0.3f64, 31),
            skip in 2..4usize,
            free in 0..3usize,
        ) {
            let roads = grid(36, &shift);
            let mut odd: Vec<usize> = (0..1296).step_by(skip).collect();
            odd.truncate(odd.len() - (odd.len() + free) % 2);
            let exact = paired(&roads, &odd, free, None).expect("pairs");
            let mut work = Work { roads: &roads, odd: &odd, bound: None, search: Search::new(&roads) };
            let nearly = work.nearly(free).expect("pairs");
            let sum = |pairs: &Pairs| pairs.pairs.iter().map(|pair| pair.length).sum::<f64>();
            let (least, found) = (sum(&exact), sum(&nearly));
            prop_assert!((exact.lower - least).abs() < 1e-9);
            prop_assert!(nearly.lower <= least + 1e-9 && least <= found + 1e-9);
            prop_assert!(found < 1.15 * least, "{found} {least}");
            prop_assert_eq!(nearly.pairs.len(), exact.pairs.len());
            prop_assert_eq!((nearly.alone.len(), exact.alone.len()), (free, free));
        }
    }

    #[test]
    fn a_large_net_is_paired_in_a_bounded_number_of_steps() {
        let roads = grid(150, &[0.1, 0.23, 0.02, 0.17, 0.29]);
        let odd: Vec<usize> = (0..150 * 150).step_by(18).collect();
        let mut work = Work {
            roads: &roads,
            odd: &odd,
            bound: None,
            search: Search::new(&roads),
        };
        let pairs = work.nearly(0).expect("pairs");
        assert_eq!(2 * pairs.pairs.len(), odd.len());
        assert!(work.search.steps() < 3 * STEPS, "{}", work.search.steps());
    }

    #[test]
    fn what_can_not_be_reached_has_no_partner() {
        let roads = Roads::new(4, [([0, 1], 1.0), ([2, 3], 1.0)].into_iter());
        assert!(paired(&roads, &[0, 2], 0, None).is_none());
        let pairs = paired(&roads, &[0, 1, 2, 3], 0, None).expect("pairs");
        assert_eq!((pairs.pairs.len(), pairs.lower), (2, 2.0));
        let alone = paired(&roads, &[0, 2], 2, None).expect("ends");
        assert_eq!(alone.alone, [0, 2]);
        assert!(paired(&roads, &[0, 2], 2, Some(0)).is_none());
    }
}
