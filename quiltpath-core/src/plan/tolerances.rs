//! The tolerances of a plan: how exactly curves are followed, and how near ends are that meet.

use crate::geom::flatten::DEFAULT_TOLERANCE_MM;
use crate::strokes::DEFAULT_JOIN_MM;

/// How drawings are read for a plan, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Tolerances {
    /// How far a curve may lie from its chords, on the cloth.
    pub flattening: f64,
    /// How close ends are that meet, on the cloth.
    pub join: f64,
}

impl Tolerances {
    pub(in crate::plan) fn new(flattening: f64, join: f64) -> Self {
        Self { flattening, join }
    }
}

impl Default for Tolerances {
    fn default() -> Self {
        Self::new(DEFAULT_TOLERANCE_MM, DEFAULT_JOIN_MM)
    }
}
