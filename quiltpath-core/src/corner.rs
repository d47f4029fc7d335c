//! Corners of a border: drawn ones, sized by their legs, and ones derived from the repeat.
//!
//! x to the right, y down; corners are travelled clockwise round the quilt. All lengths of a call
//! are in one unit, that of its motif. An interior angle is that of the quilt at its corner: 90
//! degrees on a square one.

mod bend;
mod derived;
mod drawn;
mod mitre;
mod period;
mod site;

pub use bend::{BendOptions, BendRadius, BentCorner, bent_corner};
pub use derived::DerivedCorner;
pub use drawn::{Arrangement, SizedCorner, size_corner};
pub use mitre::{ExtraLoops, MitreOptions, MitredCorner, mitred_corner};
pub use site::CornerSite;
