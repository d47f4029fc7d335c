//! Sets that grow together, each named by its least member.

/// The least member of the set that this one belongs to; `parent` starts as 0, 1, 2, …
pub(crate) fn root(parent: &mut [usize], mut at: usize) -> usize {
    while parent[at] != at {
        parent[at] = parent[parent[at]];
        at = parent[at];
    }
    at
}

/// Makes two sets one; false when they were one already.
pub(crate) fn unite(parent: &mut [usize], [a, b]: [usize; 2]) -> bool {
    let (a, b) = (root(parent, a), root(parent, b));
    parent[a.max(b)] = a.min(b);
    a != b
}
