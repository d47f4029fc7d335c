//! Counts, stretches and small lengths as people read them.

use crate::units::Unit;

/// A count with its noun: `1 repeat`, `5 repeats`.
pub(crate) fn counted(count: usize, noun: &str) -> String {
    format!("{count} {noun}{}", if count == 1 { "" } else { "s" })
}

/// A stretch factor: `+2.3 %`.
pub(crate) fn percent(stretch: f64) -> String {
    let value = ((stretch - 1.0) * 1000.0).round() / 10.0 + 0.0;
    format!("{value:+.1} %")
}

/// How far a factor of 1 or more is above 1: `2.3 %`.
pub(super) fn above_one(factor: f64) -> String {
    format!("{:.1} %", (factor - 1.0) * 100.0)
}

/// A small length: the readable one, and the exact one where rounding hides it.
pub(super) fn fine(unit: Unit, mm: f64) -> String {
    format!("{} ({mm:.2} mm)", unit.readable(mm))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_rounded_for_people() {
        assert_eq!(counted(1, "repeat"), "1 repeat");
        assert_eq!(counted(0, "repeat"), "0 repeats");
        assert_eq!(percent(1.0234), "+2.3 %");
        assert_eq!(percent(0.99999), "+0.0 %");
        assert_eq!(fine(Unit::In, 1.5875), "1/16 in (1.59 mm)");
    }
}
