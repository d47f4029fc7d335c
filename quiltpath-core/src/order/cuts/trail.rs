//! Atoms that follow each other from join to join, and how few windows' stretches they fall into.

use std::ops::Range;

use crate::order::passes::Reach;

/// No end is joined to this one.
pub(super) const NONE: usize = usize::MAX;

/// Atoms in the order in which they are joined.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::order) struct Trail {
    pub(in crate::order) atoms: Vec<usize>,
    pub(in crate::order) closed: bool,
}

/// The atoms that follow each other where each end goes on at its mate: open ones, then rings.
pub(super) fn trails(mates: &[usize]) -> Vec<Trail> {
    let mut seen = vec![false; mates.len() / 2];
    let mut trails = Vec::new();
    let heads = (0..mates.len()).filter(|&end| mates[end] == NONE);
    for head in heads.chain(0..mates.len()) {
        if seen[head / 2] {
            continue;
        }
        let mut atoms = Vec::new();
        let mut end = head;
        while end != NONE && !seen[end / 2] {
            seen[end / 2] = true;
            atoms.push(end / 2);
            end = mates[end ^ 1];
        }
        let closed = end != NONE;
        trails.push(Trail { atoms, closed });
    }
    trails
}

/// Cuts atoms into as few stretches as possible, each with a common window: their number. Sees
/// the positions of each and its first common window.
pub(in crate::order) fn stretches(
    atoms: impl Iterator<Item = usize>,
    reach: &[Reach],
    mut see: impl FnMut(Range<usize>, usize),
) -> usize {
    let mut count = 0;
    let mut from = 0;
    let mut common: Option<Reach> = None;
    let mut to = 0;
    for atom in atoms {
        let both = common.map_or(reach[atom], |common| common.and(reach[atom]));
        if let Some(common) = common
            && both.is_none()
        {
            see(from..to, common.first);
            count += 1;
            from = to;
        }
        common = Some(if both.is_none() { reach[atom] } else { both });
        to += 1;
    }
    if let Some(common) = common {
        see(from..to, common.first);
        count += 1;
    }
    count
}
