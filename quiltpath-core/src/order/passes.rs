//! Where windows may begin, which atoms each reaches, and the least number of passes.
//!
//! Problem: a window that begins at w reaches down to w + reach(w); an atom that goes from y = t to
//! y = b is stitched in it exactly when w ≤ t and b ≤ w + reach(w). The quilt is only advanced, so
//! windows follow each other downwards. They may begin anywhere. Method: while the lower edge of a
//! window never rises as it begins further down, a window moved down to the least t of what is
//! stitched in it loses nothing. So the tops of atoms are the only places that matter, and of these
//! only the ones whose window reaches an atom that the window before doesn't. Each atom is reached
//! from an interval of them. Passes are points that stab all intervals: by rising last place, an
//! interval that the last point misses gets one at its own last. Guarantee: the least number. The
//! intervals that got a point are pairwise disjoint, so no fewer points stab them; they are
//! returned as the witness. What fits up to rounding is reached, so the numbers are those of exact
//! arithmetic in any unit, unless an atom is deeper than its window by nearly the billionth that is
//! allowed for. Failure: an atom deeper than each window has none; it has to be kept away from
//! here. A reach that falls faster than the top grows.
//!
//! Source: earliest end first, as for scheduling intervals (J. Kleinberg and É. Tardos,
//! *Algorithm Design*, section 4.1; from memory).

/// The windows that an atom is reached from, by number: all from the first to the last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Reach {
    pub(super) first: usize,
    pub(super) last: usize,
}

impl Reach {
    /// The windows that both are reached from; none when its first is above its last.
    pub(super) fn and(self, other: Self) -> Self {
        Self {
            first: self.first.max(other.first),
            last: self.last.min(other.last),
        }
    }

    pub(super) fn is_none(self) -> bool {
        self.first > self.last
    }

    /// The number of windows.
    pub(super) fn count(self) -> usize {
        (self.last + 1).saturating_sub(self.first)
    }
}

/// True when a window of this height can reach from `top` to `bottom`, up to rounding.
pub(super) fn fits([top, bottom]: [f64; 2], throat: f64) -> bool {
    // What sums of such coordinates are off by, and a billionth of the throat.
    let rounding = 1e-14 * (top.abs() + bottom.abs()) + 1e-9 * throat;
    bottom - top <= throat + rounding
}

/// The places where windows may begin.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Places {
    /// The upper edge of the window at each, rising.
    pub(super) tops: Vec<f64>,
    /// The places from which each atom is reached; at least one.
    pub(super) reach: Vec<Reach>,
    /// For k windows tried, 0 to their number: the last place for the next window when atoms that
    /// are first reached from place k or later are left; none when there are no such atoms.
    next: Vec<Option<usize>>,
    /// The fewest windows for the same atoms.
    need: Vec<usize>,
}

impl Places {
    /// The places that matter for atoms that go from top to bottom, each in reach of the window
    /// that begins at its top. `reach` is the height of a window by its upper edge.
    ///
    /// # Complexity
    ///
    /// O(n log n).
    pub(super) fn of(spans: &[[f64; 2]], reach: impl Fn(f64) -> f64) -> Self {
        let all = rising(spans);
        let mut bottoms: Vec<f64> = spans.iter().map(|span| span[1]).collect();
        bottoms.sort_by(f64::total_cmp);
        let (mut tops, mut reached): (Vec<f64>, usize) = (Vec::new(), 0);
        for top in all {
            let height = reach(top);
            let within = bottoms.partition_point(|&bottom| fits([top, bottom], height));
            if within > reached {
                tops.push(top);
                reached = within;
            }
        }
        Self::at(tops, spans, reach)
    }

    /// The tops of all atoms as places.
    pub(super) fn all(spans: &[[f64; 2]], reach: impl Fn(f64) -> f64) -> Self {
        Self::at(rising(spans), spans, reach)
    }

    fn at(tops: Vec<f64>, spans: &[[f64; 2]], reach: impl Fn(f64) -> f64) -> Self {
        let reach: Vec<Reach> = spans
            .iter()
            .map(|&[top, bottom]| Reach {
                first: tops.partition_point(|&at| !fits([at, bottom], reach(at))),
                last: tops.partition_point(|&at| at <= top) - 1,
            })
            .collect();
        let mut next = vec![None; tops.len() + 1];
        for reach in &reach {
            let least: &mut Option<usize> = &mut next[reach.first];
            *least = Some(least.map_or(reach.last, |least| least.min(reach.last)));
        }
        let mut need = vec![0; tops.len() + 1];
        for at in (0..tops.len()).rev() {
            next[at] = [next[at], next[at + 1]].into_iter().flatten().min();
            need[at] = next[at].map_or(0, |place| 1 + need[place + 1]);
        }
        Self {
            tops,
            reach,
            next,
            need,
        }
    }

    /// The least number of passes.
    pub(super) fn fewest(&self) -> usize {
        self.need[0]
    }

    /// The last place for the next window when those before `at` are done with; none when nothing
    /// is left that only the ones from there reach.
    pub(super) fn next(&self, at: usize) -> Option<usize> {
        self.next[at]
    }

    /// The fewest windows from `at` on for what only those reach.
    pub(super) fn need(&self, at: usize) -> usize {
        self.need[at]
    }

    /// As few windows as there can be, each as far down as it can be.
    pub(super) fn lowest(&self) -> Vec<usize> {
        let steps = std::iter::successors(self.next[0], |&place| self.next[place + 1]);
        steps.collect()
    }

    /// As many atoms as the fewest windows, no two of which any one window reaches.
    pub(super) fn apart(&self) -> Vec<usize> {
        let mut from = 0;
        let mut apart = Vec::new();
        for place in self.lowest() {
            let own = |reach: &Reach| reach.first >= from && reach.last == place;
            apart.extend(self.reach.iter().position(own));
            from = place + 1;
        }
        apart
    }

    /// Which of some windows, which together reach all atoms, reach each.
    pub(super) fn reach_from(&self, windows: &[usize]) -> Vec<Reach> {
        let among = |reach: &Reach| Reach {
            first: windows.partition_point(|&place| place < reach.first),
            last: windows.partition_point(|&place| place <= reach.last) - 1,
        };
        self.reach.iter().map(among).collect()
    }
}

/// The tops of atoms, each once.
fn rising(spans: &[[f64; 2]]) -> Vec<f64> {
    let mut tops: Vec<f64> = spans.iter().map(|span| span[0]).collect();
    tops.sort_by(f64::total_cmp);
    tops.dedup();
    tops
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Whether a window at this top reaches an atom, by the definition.
    fn reaches(top: f64, [from, to]: [f64; 2], height: f64) -> bool {
        top <= from && to <= top + height
    }

    /// The least number by trying all sets of windows at any quarter of a unit.
    fn tried(spans: &[[f64; 2]], reach: &dyn Fn(f64) -> f64) -> usize {
        // The sets of atoms that windows reach; more windows than atoms are never needed.
        let windows = (-40..80).map(|quarter| {
            let top = f64::from(quarter) / 4.0;
            (0..spans.len())
                .filter(|&atom| reaches(top, spans[atom], reach(top)))
                .fold(0usize, |set, atom| set | 1 << atom)
        });
        let mut windows: Vec<usize> = windows.collect();
        windows.sort_unstable();
        windows.dedup();
        let mut least = vec![usize::MAX; 1 << spans.len()];
        least[0] = 0;
        for done in 0..least.len() {
            for window in &windows {
                let next = done | window;
                least[next] = least[next].min(least[done].saturating_add(1));
            }
        }
        least[least.len() - 1]
    }

    #[test]
    fn what_is_as_deep_as_the_throat_fits_and_what_is_deeper_does_not() {
        assert!(fits([1.0, 13.0], 12.0));
        assert!(fits([0.1 + 0.2, 0.3 + 12.0], 12.0) && fits([0.3, 0.1 + 0.2 + 12.0], 12.0));
        assert!(!fits([1.0, 13.001], 12.0));
        assert_eq!(Places::of(&[], |_| 1.0).fewest(), 0);
        // Two atoms as deep as the throat, one above the other.
        let places = Places::of(&[[12.0, 24.0], [0.0, 12.0]], |_| 12.0);
        assert_eq!((places.fewest(), places.apart()), (2, vec![1, 0]));
        assert_eq!(places.tops, [0.0, 12.0]);
    }

    /// Repeats of two sides that differ by rounding share their windows, and two repeats that
    /// are as deep as the throat together lie in one.
    #[test]
    fn rounding_takes_no_window_of_its_own() {
        let side = |k: usize| 6.1 + (108.2 - 12.2) * k as f64 / 12.0;
        let other = |k: usize| 102.1 - (108.2 - 12.2) * (12 - k) as f64 / 12.0;
        let mut spans = Vec::new();
        for k in 0..12 {
            spans.push([side(k), side(k + 1)]);
            spans.push([other(k), other(k + 1)]);
        }
        assert!((0..12).any(|k| side(k) != other(k)));
        for unit in [1.0, 25.4, 1.0 / 3.0] {
            let spans: Vec<[f64; 2]> = spans.iter().map(|span| span.map(|y| y * unit)).collect();
            let places = Places::of(&spans, |_| 16.0 * unit);
            assert_eq!(places.fewest(), 6);
            assert_eq!(places.tops.len(), 11);
        }
    }

    proptest! {
        /// Quarters of a unit, so that atoms often just fit and no sum is rounded.
        #[test]
        fn no_set_of_fewer_windows_reaches_all(
            atoms in prop::collection::vec((0u8..60, 0u8..=20), 0..8), throat in 20u8..32,
            falls in 0u8..=2,
        ) {
            let quarters = |n: u8| f64::from(n) / 4.0;
            // A throat that a roll fills: the reach falls by nothing, a half or all of the way.
            let fall = f64::from(falls) / 2.0;
            let reach = |top: f64| {
                let steps = (top.clamp(0.0, 2.0) * fall * 4.0).floor() / 4.0;
                quarters(throat) - steps
            };
            let spans: Vec<[f64; 2]> = atoms
                .iter()
                .map(|&(t, h)| {
                    let top = quarters(t);
                    [top, top + quarters(h).min(reach(top))]
                })
                .collect();
            let places = Places::of(&spans, reach);
            prop_assert_eq!(places.fewest(), tried(&spans, &reach));
            prop_assert!(places.tops.windows(2).all(|pair| pair[0] < pair[1]));
            for (span, own) in spans.iter().zip(&places.reach) {
                prop_assert!(own.count() >= 1);
                for (place, &top) in places.tops.iter().enumerate() {
                    let within = (own.first..=own.last).contains(&place);
                    prop_assert_eq!(within, reaches(top, *span, reach(top)));
                }
            }
            // Wherever a window begins, one of the places reaches all that it does.
            for quarter in 0..60 {
                let top = quarters(quarter);
                let some = |at: f64| {
                    let reached = spans.iter().map(move |&span| reaches(at, span, reach(at)));
                    reached.collect::<Vec<bool>>()
                };
                let here = some(top);
                let covers = |&at: &f64| some(at).iter().zip(&here).all(|(all, one)| all >= one);
                let empty = !here.contains(&true);
                prop_assert!(empty || places.tops.iter().any(covers));
            }
            // As few windows, each by itself reaching what no other of the witness does.
            let lowest = places.lowest();
            let apart = places.apart();
            prop_assert_eq!((lowest.len(), apart.len()), (places.fewest(), places.fewest()));
            let reached = places.reach_from(&lowest);
            prop_assert!(reached.iter().all(|reach| !reach.is_none()));
            for pair in apart.windows(2) {
                prop_assert!(places.reach[pair[0]].and(places.reach[pair[1]]).is_none());
            }
            for at in 0..=places.tops.len() {
                let left: Vec<[f64; 2]> = (0..spans.len())
                    .filter(|&atom| places.reach[atom].first >= at)
                    .map(|atom| spans[atom])
                    .collect();
                prop_assert_eq!(places.need(at), tried(&left, &reach));
            }
        }
    }
}
