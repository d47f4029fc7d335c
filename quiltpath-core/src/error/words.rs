//! What the messages of several kinds of fault share.

use crate::units::{Unit, rounded};

/// What the lengths of an error are, and how its message shows them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Lengths {
    /// In a unit that only the caller knows; shown without one.
    Bare,
    /// Millimetres, shown in this unit.
    Millimetres(Unit),
    /// In this unit, and shown in it.
    Of(Unit),
}

impl Lengths {
    /// The unit that lengths are shown in, which is this one unless another is known.
    pub(super) fn unit_or(self, unit: Unit) -> Unit {
        match self {
            Self::Bare => unit,
            Self::Millimetres(known) | Self::Of(known) => known,
        }
    }

    /// A length as messages show it.
    pub(super) fn show(self, length: f64) -> String {
        match self {
            Self::Bare => rounded(length),
            Self::Millimetres(unit) => unit.precise(length),
            Self::Of(unit) => unit.precise(length * unit.in_mm()),
        }
    }
}

pub(super) fn plural(count: usize) -> &'static str {
    if count == 1 { "" } else { "s" }
}
