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

/// A small length: the readable one with the finer one, or that alone where the first rounds to 0.
pub(super) fn fine(unit: Unit, mm: f64) -> String {
    let readable = unit.readable(mm).to_string();
    if readable.starts_with("0 ") {
        return format!("{mm:.2} mm");
    }
    format!("{readable} ({mm:.2} mm)")
}

/// The length of a line as a ruler shows it, and beside it in yards or metres where it has one.
#[cfg(feature = "svg")]
pub(crate) fn line_both(unit: Unit, mm: f64) -> String {
    let long = if unit.is_metric() { Unit::M } else { Unit::Yd };
    match mm.abs() < long.in_mm() || unit == long {
        true => unit.readable(mm),
        false => format!("{} ({})", unit.readable(mm), unit.readable_thread(mm)),
    }
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
        assert_eq!(fine(Unit::In, 0.12), "0.12 mm");
        assert_eq!(fine(Unit::Mm, 0.12), "0.12 mm");
    }

    #[cfg(feature = "svg")]
    #[test]
    fn lines_are_read_in_both_units_from_one_yard_or_metre_on() {
        assert_eq!(line_both(Unit::In, 889.0), "35 in");
        assert_eq!(line_both(Unit::In, 102_108.0), "4020 in (111.7 yd)");
        assert_eq!(line_both(Unit::Mm, 1000.0), "1000 mm (1.0 m)");
        assert_eq!(line_both(Unit::M, 2000.0), "2.0000 m");
    }
}
