//! How much work a drawing of any format may ask for: far more than any drawing needs, and no more
//! than a machine takes in its stride.

/// How many paths a drawing may draw, counting each use of one.
pub(super) const MAX_DRAWN: usize = 1_000_000;

/// How many elements may be visited, counting each use of one.
pub(super) const MAX_VISITED: usize = 5_000_000;

/// How many path segments a drawing may have, counting each use of one.
pub(super) const MAX_SEGMENTS: usize = 10_000_000;
