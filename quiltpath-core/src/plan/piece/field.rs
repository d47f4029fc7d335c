//! What only a piece of the field of blocks has.

use crate::fit::{EaseReport, SpanFit};
use crate::geom::{ConvexPolygon, Point};
use crate::plan::lay::field::FieldPlace;
use crate::trim::TrimReport;

/// What only a piece of the field of blocks has, lengths in millimetres.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct FieldDetail {
    /// The place that it fills.
    pub place: FieldPlace,
    /// The corners of the place along its seams, clockwise as seen.
    pub seams: Vec<Point>,
    /// The factors from the drawing to the cloth, along it and across.
    pub scale: [f64; 2],
    /// The turn from the drawing to the cloth, in degrees from -180 to 180, positive clockwise.
    pub turn_degrees: f64,
    /// Whether left and right of the drawing are changed, before it is turned.
    pub mirrored: bool,
    /// What cutting the drawing to its place cost, where it was cut.
    pub trimmed: Option<TrimReport>,
    /// What only a sash has.
    pub sash: Option<SashDetail>,
    /// What of the place may be stitched.
    pub(in crate::plan) within: ConvexPolygon,
}

/// What only a sash has, lengths in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct SashDetail {
    /// The number of repeats and their stretch, with the neighbours to choose from.
    pub fit: SpanFit,
    /// The length along the band that the repeats fill.
    pub span: f64,
    /// How far one repeat leads along on the cloth.
    pub pitch: f64,
    /// The largest shift of an end across the band by levelling.
    pub levelled: f64,
    /// The sharpest turn where one repeat ends and the next starts, in degrees from 0 to 180.
    pub kink_degrees: f64,
    /// How many links are stitched between repeats.
    pub links: usize,
    /// What easing the repeats comes to, where the plan asks for it.
    pub ease: Option<EaseReport>,
}
