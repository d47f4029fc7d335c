//! Lengths of common practice that a plan takes where it gives none, in millimetres.

const QUARTER_INCH_MM: f64 = 25.4 / 4.0;

/// What is kept free next to a seam: 1/4 in.
pub(in crate::plan) const SEAM_GAP_MM: f64 = QUARTER_INCH_MM;

/// The seam allowance of the binding: 1/4 in.
pub(in crate::plan) const BINDING_MM: f64 = QUARTER_INCH_MM;

/// What is kept free next to the raw edge: the binding's seam allowance and 1/4 in of clearance.
pub(in crate::plan) const EDGE_GAP_MM: f64 = BINDING_MM + QUARTER_INCH_MM;

/// How far measures of a quilt may disagree before that is a warning: 1/4 in, which is the clearance
/// at the edge. Our own choice.
pub(in crate::plan) const DISAGREEMENT_MM: f64 = QUARTER_INCH_MM;

/// How far measures of a quilt may disagree before it can't be laid out by them: 1 in, to which a
/// diagonal that is 4 in off spreads among all six. Our own choice.
pub(in crate::plan) const MISREAD_MM: f64 = 25.4;

/// How far the corners of a quilt may be from those of the squarest one with its sides before its one
/// diagonal is doubted, in degrees; 5 degrees are about 4 in of diagonal on a quilt of 60 x 80 in. Our
/// own choice.
pub(in crate::plan) const LEAN_DEGREES: f64 = 5.0;
