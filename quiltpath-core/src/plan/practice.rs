//! What a plan takes as common practice, or by our own choice, where it gives nothing: lengths in
//! millimetres.

use crate::fit::EaseReport;

const QUARTER_INCH_MM: f64 = 25.4 / 4.0;

/// What is kept free next to a seam: 1/4 in.
pub(in crate::plan) const SEAM_GAP_MM: f64 = QUARTER_INCH_MM;

/// The seam allowance of the binding: 1/4 in.
pub(crate) const BINDING_MM: f64 = QUARTER_INCH_MM;

/// What is kept free next to the raw edge: the binding's seam allowance and 1/4 in of clearance.
pub(in crate::plan) const EDGE_GAP_MM: f64 = BINDING_MM + QUARTER_INCH_MM;

/// How far measures of a quilt may disagree before that is a warning: 1/4 in, which is the
/// clearance at the edge. Our own choice.
pub(in crate::plan) const DISAGREEMENT_MM: f64 = QUARTER_INCH_MM;

/// How far measures of a quilt may disagree before it can't be laid out by them: 1 in, to which a
/// diagonal that is 4 in off spreads among all six. Our own choice.
pub(in crate::plan) const MISREAD_MM: f64 = 25.4;

/// How far the corners of a quilt may be from those of the squarest one with its sides before its
/// one diagonal is doubted, in degrees; 5 degrees are about 4 in of diagonal on a quilt of 60 x 80
/// in. Our own choice.
pub(in crate::plan) const LEAN_DEGREES: f64 = 5.0;

/// How round the loops of an eased repeat have to stay, or it is reported: our own choice.
const LEAST_ROUNDNESS: f64 = 0.98;

/// Whether the stems of an eased repeat took so little of its stretch that its loops don't stay
/// round.
pub(crate) fn ease_is_limited(report: &EaseReport) -> bool {
    report.roundness() < LEAST_ROUNDNESS
}
