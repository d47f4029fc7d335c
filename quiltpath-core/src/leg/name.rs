//! The two legs of an L by name.

use std::fmt;

/// One of the two legs, named by the way it runs once the drawing is laid square.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LegName {
    /// The leg along x.
    Horizontal,
    /// The leg along y.
    Vertical,
}

impl LegName {
    /// The other leg.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Horizontal => Self::Vertical,
            Self::Vertical => Self::Horizontal,
        }
    }

    /// The name: `horizontal` or `vertical`.
    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Horizontal => "horizontal",
            Self::Vertical => "vertical",
        }
    }
}

impl fmt::Display for LegName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}
