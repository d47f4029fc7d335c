//! What is found: how often each line is walked.

/// A walk over all edges, as how often each line is walked.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Route {
    /// Whether each edge is walked a second time.
    pub(crate) again: Vec<bool>,
    /// How often each link is walked: 0, 1 or 2 times.
    pub(crate) links: Vec<u8>,
    /// The vertices where walks start and end; twice where one starts where it ends.
    pub(crate) ends: Vec<usize>,
    /// How often the walk is cut, also at a given end that isn't met.
    pub(crate) cuts: usize,
    /// What is walked again, linked and cut, in all.
    pub(crate) cost: f64,
    /// No walk costs less than this.
    pub(crate) lower: f64,
}
