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

    /// A length of line, which people read in yards or metres where it is long.
    pub(super) fn line(mm: f64, unit: Unit) -> Self {
        Self {
            value: in_unit(mm, unit),
            says: unit.readable_line(mm),
        }
    }
}
