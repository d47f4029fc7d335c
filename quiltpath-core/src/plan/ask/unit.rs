//! The units that a plan may be written in, and a machine may show.

use crate::units::Unit;

/// A unit that plans are written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum UnitSpec {
    /// Inches.
    In,
    /// Millimetres.
    Mm,
    /// Centimetres.
    Cm,
}

impl From<UnitSpec> for Unit {
    fn from(unit: UnitSpec) -> Self {
        match unit {
            UnitSpec::In => Self::In,
            UnitSpec::Mm => Self::Mm,
            UnitSpec::Cm => Self::Cm,
        }
    }
}
