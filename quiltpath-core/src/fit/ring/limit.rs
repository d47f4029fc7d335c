//! How far from 1 a stretch may be.

/// The stretch that a side may have.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct StretchLimit {
    /// The least stretch, above 0 and at most 1.
    pub least: f64,
    /// The greatest stretch, at least 1.
    pub most: f64,
}

impl StretchLimit {
    /// A stretch from `least`, above 0 and at most 1, to `most`, at least 1.
    #[must_use]
    pub fn new(least: f64, most: f64) -> Self {
        Self { least, most }
    }

    /// At most this fraction longer or shorter: 0.1 allows a stretch from 0.9 to 1.1.
    #[must_use]
    pub fn either_way(fraction: f64) -> Self {
        Self {
            least: 1.0 - fraction,
            most: 1.0 + fraction,
        }
    }

    /// Whether this stretch is within the limit.
    #[must_use]
    pub fn allows(&self, stretch: f64) -> bool {
        self.least <= stretch && stretch <= self.most
    }
}
