//! The least number of passes: windows of the throat's height that together reach every atom.
//!
//! Problem: an atom that goes from y = t to y = b is stitched in the window [w, w + H] exactly when
//! b − H ≤ w ≤ t; the quilt is only advanced, so windows follow each other downwards.
//! Method: points that stab all the intervals [b − H, t]. Taken by rising t, an interval that the
//! last point misses gets a point at its own t.
//! Guarantee: the least number. The intervals that got a point are pairwise disjoint, so no fewer
//! points stab them; they are returned as the witness. Failure: an atom deeper than H has no
//! window; it has to be kept away from here.
//!
//! Source: earliest end first, as for scheduling intervals (J. Kleinberg and É. Tardos,
//! *Algorithm Design*, section 4.1; from memory).

use crate::error::{Error, positive};

/// Refuses a throat that takes nothing.
pub(super) fn check_throat(throat: f64) -> Result<(), Error> {
    positive("the throat", throat, "a length above 0, for example 18 in")
}

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

/// The fewest windows.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Windows {
    /// The upper edge of each, from the top of the quilt.
    pub(super) tops: Vec<f64>,
    /// As many atoms, no two of which any one window reaches.
    pub(super) apart: Vec<usize>,
    /// The windows that reach each atom; at least one.
    pub(super) reach: Vec<Reach>,
}

/// True when a window can reach from `top` to `bottom`, up to rounding.
pub(super) fn fits([top, bottom]: [f64; 2], throat: f64) -> bool {
    // What sums of such coordinates are off by, and a billionth of the throat.
    let rounding = 1e-14 * (top.abs() + bottom.abs()) + 1e-9 * throat;
    bottom - top <= throat + rounding
}

/// The fewest windows for atoms that go from top to bottom, none deeper than the throat.
///
/// # Complexity
///
/// O(n log n).
pub(super) fn fewest_windows(spans: &[[f64; 2]], throat: f64) -> Windows {
    // An atom that fits up to rounding has a window exactly at its top.
    let highest = |[top, bottom]: [f64; 2]| (bottom - throat).min(top);
    let mut by_top: Vec<usize> = (0..spans.len()).collect();
    by_top.sort_by(|&a, &b| spans[a][0].total_cmp(&spans[b][0]));
    let (mut tops, mut apart): (Vec<f64>, Vec<usize>) = (Vec::new(), Vec::new());
    for atom in by_top {
        if tops.last().is_none_or(|&top| top < highest(spans[atom])) {
            tops.push(spans[atom][0]);
            apart.push(atom);
        }
    }
    let reach = spans.iter().map(|&span| Reach {
        first: tops.partition_point(|&top| top < highest(span)),
        last: tops.partition_point(|&top| top <= span[0]) - 1,
    });
    let reach = reach.collect();
    Windows { tops, apart, reach }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Whether a window at this top reaches an atom, by the definition.
    fn reaches(top: f64, [from, to]: [f64; 2], throat: f64) -> bool {
        top <= from && to <= top + throat
    }

    /// The least number by trying all sets of windows that start at the top of some atom, which
    /// is where any window can be moved down to without losing an atom.
    fn tried(spans: &[[f64; 2]], throat: f64) -> usize {
        let serves = |set: usize, span: [f64; 2]| {
            (0..spans.len()).any(|k| set >> k & 1 == 1 && reaches(spans[k][0], span, throat))
        };
        (0usize..1 << spans.len())
            .filter(|&set| spans.iter().all(|&span| serves(set, span)))
            .map(|set| set.count_ones() as usize)
            .min()
            .expect("one window for each atom")
    }

    #[test]
    fn what_is_as_deep_as_the_throat_fits_and_what_is_deeper_does_not() {
        assert!(fits([1.0, 13.0], 12.0));
        assert!(fits([0.1 + 0.2, 0.3 + 12.0], 12.0) && fits([0.3, 0.1 + 0.2 + 12.0], 12.0));
        assert!(!fits([1.0, 13.001], 12.0));
        assert_eq!(fewest_windows(&[], 1.0).tops.len(), 0);
        // Two atoms as deep as the throat, one above the other.
        let windows = fewest_windows(&[[12.0, 24.0], [0.0, 12.0]], 12.0);
        assert_eq!(windows.tops, [0.0, 12.0]);
        assert_eq!(windows.apart, [1, 0]);
    }

    /// The lowest that the window of each number lies in any set of windows that reaches all atoms.
    fn lowest(spans: &[[f64; 2]], throat: f64) -> Vec<f64> {
        let tops = |set: usize| {
            let chosen = (0..spans.len()).filter(|k| set >> k & 1 == 1);
            let mut tops: Vec<f64> = chosen.map(|k| spans[k][0]).collect();
            tops.sort_by(f64::total_cmp);
            tops
        };
        let serve = |tops: &[f64]| {
            let served = |&span: &[f64; 2]| tops.iter().any(|&top| reaches(top, span, throat));
            spans.iter().all(served)
        };
        let sets = (0usize..1 << spans.len()).map(tops);
        sets.filter(|tops| serve(tops))
            .reduce(|a, b| a.iter().zip(&b).map(|(a, b)| a.max(*b)).collect())
            .expect("one window for each atom")
    }

    proptest! {
        /// Quarters of a unit, so that atoms often just fit and no sum is rounded.
        #[test]
        fn no_set_of_fewer_windows_reaches_all(
            atoms in prop::collection::vec((0u8..60, 0u8..=20), 0..8), throat in 20u8..32,
        ) {
            let quarters = |n: u8| f64::from(n) / 4.0;
            let throat = quarters(throat);
            let spans: Vec<[f64; 2]> =
                atoms.iter().map(|&(t, h)| [quarters(t), quarters(t) + quarters(h)]).collect();
            let windows = fewest_windows(&spans, throat);
            prop_assert_eq!(windows.tops.len(), tried(&spans, throat));
            // And none lies lower in any set.
            prop_assert_eq!(&windows.tops, &lowest(&spans, throat));
            prop_assert!(windows.tops.windows(2).all(|pair| pair[0] < pair[1]));
            for (span, reach) in spans.iter().zip(&windows.reach) {
                prop_assert!(reach.count() >= 1);
                for (window, &top) in windows.tops.iter().enumerate() {
                    let within = (reach.first..=reach.last).contains(&window);
                    prop_assert_eq!(within, reaches(top, *span, throat));
                }
            }
            // The witness: as many atoms, no two in reach of one window wherever it is put.
            prop_assert_eq!(windows.apart.len(), windows.tops.len());
            for pair in windows.apart.windows(2) {
                prop_assert!(spans[pair[1]][1] - throat > spans[pair[0]][0]);
            }
        }
    }
}
