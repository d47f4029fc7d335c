//! What the messages of several kinds of fault share.

use crate::units::{Unit, rounded};

/// A length as messages show it: bare, or millimetres in the unit that is wanted.
pub(super) fn length(value: f64, unit: Option<Unit>) -> String {
    unit.map_or_else(|| rounded(value), |unit| unit.precise(value))
}

pub(super) fn plural(count: usize) -> &'static str {
    if count == 1 { "" } else { "s" }
}
