//! Corners of a border: drawn ones, sized by their legs, and ones derived from the repeat.

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
