//! How a mitred corner is to be made.

use crate::chain::Ends;
use crate::geom::flatten::DEFAULT_TOLERANCE_MM;
use crate::strokes::DEFAULT_JOIN_MM;

/// What becomes of loops of a mitred repeat beyond the first crossing of the diagonal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum ExtraLoops {
    /// They are kept, linked along the diagonal.
    #[default]
    Link,
    /// They are dropped.
    Drop,
}

/// How a mitred corner is to be made. Lengths are in the unit of the band's depth.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct MitreOptions {
    /// How many whole repeats each leg has before the one that is cut, up to 1000; 0 by default.
    pub legs: usize,
    /// Over how much of the line, either side of the diagonal, the turn is smoothed, 0 or more; 0,
    /// the default, leaves a point.
    pub smooth: f64,
    /// Which of the places that are equally good the repeat is cut at, counted from 0; a greater
    /// number than there are takes the last. 0 by default: the first that can be smoothed.
    pub cut: usize,
    /// What becomes of the line beyond its first crossing; linked by default.
    pub extra: ExtraLoops,
    /// How ends of the repeat at different heights are brought together; level by default.
    pub ends: Ends,
    /// Ends closer than this are always brought together exactly; [`DEFAULT_JOIN_MM`] by default,
    /// for bands in millimetres.
    pub join_tolerance: f64,
    /// How far a smoothed turn may lie from its chords; 0.01 by default, for bands in millimetres.
    pub flattening: f64,
}

impl Default for MitreOptions {
    fn default() -> Self {
        Self {
            legs: 0,
            smooth: 0.0,
            cut: 0,
            extra: ExtraLoops::Link,
            ends: Ends::Level,
            join_tolerance: DEFAULT_JOIN_MM,
            flattening: DEFAULT_TOLERANCE_MM,
        }
    }
}

impl MitreOptions {
    /// The same options with so many whole repeats on each leg.
    #[must_use]
    pub fn with_legs(mut self, legs: usize) -> Self {
        self.legs = legs;
        self
    }

    /// The same options with the turn smoothed over this length, either side of the diagonal.
    #[must_use]
    pub fn with_smooth(mut self, length: f64) -> Self {
        self.smooth = length;
        self
    }

    /// The same options with this one of the places that are equally good, counted from 0.
    #[must_use]
    pub fn with_cut(mut self, cut: usize) -> Self {
        self.cut = cut;
        self
    }

    /// The same options for what lies beyond the first crossing of the diagonal.
    #[must_use]
    pub fn with_extra(mut self, extra: ExtraLoops) -> Self {
        self.extra = extra;
        self
    }

    /// The same options for ends of the repeat at different heights.
    #[must_use]
    pub fn with_ends(mut self, ends: Ends) -> Self {
        self.ends = ends;
        self
    }

    /// The same options with this join tolerance.
    #[must_use]
    pub fn with_join_tolerance(mut self, tolerance: f64) -> Self {
        self.join_tolerance = tolerance;
        self
    }

    /// The same options with this flattening tolerance.
    #[must_use]
    pub fn with_flattening(mut self, tolerance: f64) -> Self {
        self.flattening = tolerance;
        self
    }
}
