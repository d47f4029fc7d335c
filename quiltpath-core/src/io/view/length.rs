//! A length as a number and as people read it.

use serde::Serialize;

use crate::io::numbers::in_unit;
use crate::units::Unit;

/// A length in the unit of a plan, and as people read it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct LengthSaid {
    /// The length in the plan's unit.
    pub value: f64,
    /// As people read it, such as `4 7/16 in`.
    pub says: String,
}

impl LengthSaid {
    pub(super) fn of(mm: f64, unit: Unit) -> Self {
        Self {
            value: in_unit(mm, unit),
            says: unit.readable(mm),
        }
    }
}
