//! Pairing the ends that meet in one place, where more than two do.

use std::collections::BinaryHeap;

use crate::order::passes::Reach;

/// The most disjoint pairs of ends whose atoms share a window.
///
/// Of the atoms left, the one that goes out of reach first is paired with the one that does so
/// next among those that share a window with it. All of these share its last window, so any of
/// them can take another's place in a pairing (which makes this exact).
pub(super) fn pairs(ends: &[usize], reach: &[Reach], mut each: impl FnMut(usize, usize)) -> usize {
    let of = |end: usize| reach[end / 2];
    let mut by_last = ends.to_vec();
    by_last.sort_by_key(|&end| of(end).last);
    let mut by_first = ends.to_vec();
    by_first.sort_by_key(|&end| of(end).first);
    let mut coming = by_first.into_iter().peekable();
    let mut open = BinaryHeap::new();
    let mut count = 0;
    for end in by_last {
        let last = of(end).last;
        while let Some(next) = coming.next_if(|&next| of(next).first <= last) {
            open.push(std::cmp::Reverse((of(next).last, next)));
        }
        // An atom that was paired before has left; the first one left goes out of reach no sooner.
        match open.peek() {
            Some(std::cmp::Reverse(first)) if first.0 == last => {}
            _ => continue,
        }
        if let (Some(first), Some(second)) = (open.pop(), open.pop()) {
            each(first.0.1, second.0.1);
            count += 1;
        }
    }
    count
}
