//! What only a border has that runs round without a corner.

use crate::fit::{EaseReport, SpanFit};

/// What only a border has that runs round without a corner, lengths in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct RingDetail {
    /// The number of repeats and their stretch, with the neighbours to choose from.
    pub fit: SpanFit,
    /// The length of the middle of the band, once round.
    pub span: f64,
    /// How far one repeat leads along, on the middle of the band.
    pub pitch: f64,
    /// How many scallops lie along it, each with as many repeats; 0 where its edge has none.
    pub scallops: usize,
    /// The factors from the drawing to the cloth, along the middle of the band and across it.
    pub scale: [f64; 2],
    /// The largest shift of an end across the band by levelling.
    pub levelled: f64,
    /// The sharpest turn where one repeat ends and the next starts, in degrees from 0 to 180.
    pub kink_degrees: f64,
    /// How many links are stitched between repeats.
    pub links: usize,
    /// What easing the repeats comes to, where the plan asks for it.
    pub ease: Option<EaseReport>,
}
