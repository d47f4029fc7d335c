//! How strokes become one line: tolerances, and what becomes of gaps.

use crate::error::{Error, positive};
use crate::geom::flatten::{DEFAULT_TOLERANCE_MM, check_tolerance};

/// The default join tolerance: 0.1 mm, in millimetres.
pub const DEFAULT_JOIN_MM: f64 = 0.1;

/// What to do about strokes that don't meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Gaps {
    /// Refuse the drawing and list each gap.
    #[default]
    Refuse,
    /// Link them by straight lines, in the order of drawing, and report each link.
    Link,
}

/// How strokes become one line; lengths in the unit of the drawing, which is millimetres.
///
/// ```
/// use quiltpath_core::strokes::{Gaps, OneLineOptions};
///
/// let options = OneLineOptions::default().with_gaps(Gaps::Link);
/// assert_eq!((options.flattening, options.join), (0.01, 0.1));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct OneLineOptions {
    /// How far from a curve its points may stray; above 0.
    pub flattening: f64,
    /// How near two ends have to be to meet; above 0.
    pub join: f64,
    /// What to do about strokes that don't meet.
    pub gaps: Gaps,
}

impl Default for OneLineOptions {
    /// 0.01 mm, 0.1 mm, gaps refused.
    fn default() -> Self {
        Self {
            flattening: DEFAULT_TOLERANCE_MM,
            join: DEFAULT_JOIN_MM,
            gaps: Gaps::default(),
        }
    }
}

impl OneLineOptions {
    /// The same options with this flattening tolerance.
    #[must_use]
    pub fn with_flattening(self, flattening: f64) -> Self {
        Self { flattening, ..self }
    }

    /// The same options with this join tolerance.
    #[must_use]
    pub fn with_join(self, join: f64) -> Self {
        Self { join, ..self }
    }

    /// The same options with this done about gaps.
    #[must_use]
    pub fn with_gaps(self, gaps: Gaps) -> Self {
        Self { gaps, ..self }
    }

    /// Refuses tolerances that are none.
    pub(crate) fn check(&self) -> Result<(), Error> {
        check_tolerance(self.flattening)?;
        positive(
            "the join tolerance",
            self.join,
            "a length above 0, for example 0.1 mm",
        )
    }
}
