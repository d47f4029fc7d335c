//! Which two of the sashes that meet at a cornerstone its line joins.
//!
//! Problem: a cornerstone's line joins one sash to another; chosen for each, so that the lattice
//! takes the fewest lines.
//! Method: sashes and cornerstones are nodes, joins edges, so every node has at most two and what
//! hangs together is a path or a ring. P pieces with J joins are P − J + (rings) lines. A line that
//! goes straight on joins two sashes wherever two lie across from one another, and never closes a
//! ring. One that turns joins two wherever two are neighbours, which is everywhere; each
//! cornerstone takes the first of its turns, in one fixed order, that closes no ring (found by
//! union-find), those with the fewest turns to choose from before the others.
//! Guarantee: J is the greatest there can be, so the number of lines is least when no ring is left.
//! That was so in every lattice up to 4 x 4 blocks, with and without outer sashes, but for those
//! where a single block has sashes all round, whose ring can't be avoided (tests).
//! Failure: none.

use std::collections::HashMap;

use crate::graph::{root, unite};
use crate::plan::lay::field::{FieldKind, FieldPlace, Slot};

/// How a cornerstone's line passes through.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::plan) enum Passes {
    /// From one side of its box to the one across.
    Straight,
    /// From one side to a neighbour.
    Turning,
}

/// A way from the middle of a cornerstone: 0 up, 1 right, 2 down, 3 left.
pub(in crate::plan) type Way = usize;

/// The slots beside a slot between two rows or columns.
fn beside(slot: Slot) -> [Slot; 2] {
    match slot {
        Slot::After(number) => [Slot::In(number), Slot::In(number + 1)],
        other => [other, other],
    }
}

/// The name of the sash that leads away from a cornerstone, whether it is there or not.
pub(in crate::plan) fn sash_of(cornerstone: FieldPlace, way: Way) -> FieldPlace {
    let FieldPlace { row, column, .. } = cornerstone;
    let (rows, columns) = (beside(row), beside(column));
    let (row, column) = match way {
        0 => (rows[0], column),
        1 => (row, columns[1]),
        2 => (rows[1], column),
        _ => (row, columns[0]),
    };
    FieldPlace::new(FieldKind::Sash, row, column)
}

/// For each cornerstone the ways to the sashes that its line joins, one or two; the line starts
/// towards the first.
pub(in crate::plan) fn pairs(
    cornerstones: &[FieldPlace],
    sashes: &[FieldPlace],
    passes: Passes,
) -> Vec<Vec<Way>> {
    let numbers: HashMap<FieldPlace, usize> = sashes
        .iter()
        .enumerate()
        .map(|(at, &sash)| (sash, at))
        .collect();
    let there = |corner: FieldPlace, way| numbers.get(&sash_of(corner, way)).copied();
    let candidates = |corner: FieldPlace| -> Vec<[Way; 2]> {
        // Straight on along rows first; for turns down to the left and up to the right first, so
        // that lines run in steps.
        let ways: &[[Way; 2]] = match passes {
            Passes::Straight => &[[3, 1], [0, 2]],
            Passes::Turning => &[[0, 3], [1, 2], [0, 1], [2, 3]],
        };
        let all_there = |pair: &&[Way; 2]| pair.iter().all(|&way| there(corner, way).is_some());
        ways.iter().filter(all_there).copied().collect()
    };
    let mut order: Vec<(usize, Vec<[Way; 2]>)> = cornerstones
        .iter()
        .map(|&corner| candidates(corner))
        .enumerate()
        .collect();
    order.sort_by_key(|(at, candidates)| (candidates.len(), *at));
    let mut groups: Vec<usize> = (0..sashes.len()).collect();
    let mut pairs = vec![Vec::new(); cornerstones.len()];
    for (at, candidates) in order {
        let corner = cornerstones[at];
        let both = |pair: [Way; 2]| pair.map(|way| there(corner, way).unwrap_or(0));
        let open = candidates.iter().find(|&&pair| {
            let [one, other] = both(pair);
            root(&mut groups, one) != root(&mut groups, other)
        });
        pairs[at] = match open.or(candidates.first()) {
            Some(&pair) => {
                unite(&mut groups, both(pair));
                pair.to_vec()
            }
            None => (0..4)
                .filter(|&way| there(corner, way).is_some())
                .take(1)
                .collect(),
        };
    }
    pairs
}
