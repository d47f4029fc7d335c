//! How repeats are chained: their number, what is mirrored, and what becomes of their ends.

use super::alternate::Alternate;
use crate::error::Error;
use crate::geom::flatten::DEFAULT_TOLERANCE_MM;
use crate::strokes::DEFAULT_JOIN_MM;

/// How ends that lie at different heights across the band are brought together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum Ends {
    /// The repeat is sheared so that they meet, and linked only where that would distort it too
    /// much.
    #[default]
    Level,
    /// A short straight link is stitched across.
    Link,
}

/// One end of the stretch of band that repeats have to fill.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Terminal {
    /// The distance along the band.
    pub along: f64,
    /// Where across the band the path starts or ends there.
    pub across: Across,
}

impl Terminal {
    /// An end at this distance along the band, at the offset across that the repeat has as drawn.
    #[must_use]
    pub fn new(along: f64) -> Self {
        Self {
            along,
            across: Across::Drawn,
        }
    }

    /// The same end at this offset across the band.
    #[must_use]
    pub fn with_across(mut self, across: Across) -> Self {
        self.across = across;
        self
    }

    /// Refuses an offset that can't be.
    pub(super) fn check(&self) -> Result<(), Error> {
        const WHAT: &str = "the offset across the band";
        match self.across {
            // What is a speck of rounding outside is on the line.
            Across::At(across) if !(-1e-9..=1.0 + 1e-9).contains(&across) => Err(
                Error::bad_number(WHAT, across, "0 for the inner line to 1 for the outer one"),
            ),
            Across::Near(across) if !across.is_finite() => Err(Error::bad_number(
                WHAT,
                across,
                "a number, such as 0 for the inner line or 1 for the outer one",
            )),
            _ => Ok(()),
        }
    }
}

/// Where a path starts or ends across a band: 0 is the inner line, 1 the outer one.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub enum Across {
    /// Where the repeat starts or ends as drawn.
    #[default]
    Drawn,
    /// At this offset from 0 to 1. The repeat is levelled to it, or linked with it by a straight
    /// line, as [`Ends`] has it.
    At(f64),
    /// At this offset where the repeat can be levelled to it, else as drawn. No link is stitched;
    /// [`Chain::across`](super::Chain::across) has the offset that came about.
    Near(f64),
}

/// How a stretch of band is to be filled.
///
/// ```
/// use quiltpath_core::chain::{Alternate, ChainOptions, Ends};
///
/// let options = ChainOptions::new(12).with_alternate(Alternate::LeftRight);
/// assert_eq!((options.repeats, options.ends), (12, Ends::Level));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct ChainOptions {
    /// The whole number of repeats, at least 1.
    pub repeats: usize,
    /// Which copies are mirrored; none by default.
    pub alternate: Alternate,
    /// What to do about ends at different offsets; level by default.
    pub ends: Ends,
    /// Ends closer than this, in the band's unit of length, are levelled whatever `ends` is;
    /// [`DEFAULT_JOIN_MM`] by default, for bands in millimetres.
    pub join_tolerance: f64,
    /// How far the path may lie from the image of the repeat's lines on a band that is not
    /// straight, in the band's unit of length; 0.01 by default, for bands in millimetres. Not used
    /// on a [`Strip`](crate::warp::Strip).
    pub flattening: f64,
}

impl Default for ChainOptions {
    /// One repeat as drawn.
    fn default() -> Self {
        Self::new(1)
    }
}

impl ChainOptions {
    /// So many repeats, everything else left to its default.
    #[must_use]
    pub fn new(repeats: usize) -> Self {
        Self {
            repeats,
            alternate: Alternate::None,
            ends: Ends::Level,
            join_tolerance: DEFAULT_JOIN_MM,
            flattening: DEFAULT_TOLERANCE_MM,
        }
    }

    /// The same options with these copies mirrored.
    #[must_use]
    pub fn with_alternate(mut self, alternate: Alternate) -> Self {
        self.alternate = alternate;
        self
    }

    /// The same options for ends at different offsets.
    #[must_use]
    pub fn with_ends(mut self, ends: Ends) -> Self {
        self.ends = ends;
        self
    }

    /// The same options with this join tolerance, in the band's unit of length.
    #[must_use]
    pub fn with_join_tolerance(mut self, tolerance: f64) -> Self {
        self.join_tolerance = tolerance;
        self
    }

    /// The same options with this flattening tolerance, in the band's unit of length.
    #[must_use]
    pub fn with_flattening(mut self, tolerance: f64) -> Self {
        self.flattening = tolerance;
        self
    }
}
