//! Numbers as the formats write them: in steps of 1e-4 of the unit of the file, in short.

use std::fmt::Write;

use crate::units::Unit;

/// The unit of a file for paths in this unit, and how many of it one of these is.
///
/// Millimetres for millimetres, centimetres and metres; inches for inches, feet and yards.
pub(super) fn file_unit(unit: Unit) -> (Unit, f64) {
    match unit {
        Unit::Mm => (Unit::Mm, 1.0),
        Unit::Cm => (Unit::Mm, 10.0),
        Unit::M => (Unit::Mm, 1000.0),
        Unit::In => (Unit::In, 1.0),
        Unit::Ft => (Unit::In, 12.0),
        Unit::Yd => (Unit::In, 36.0),
    }
}

/// A number in steps of 1e-4, as it stands in the file.
///
/// Coordinates are below 1e9 and factors below 1e3, so the steps are exact in f64 and in i64.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) struct Ticks(pub(super) i64);

impl Ticks {
    pub(super) fn of(value: f64) -> Self {
        Self((value * 1e4).round() as i64)
    }

    /// Without trailing zeros, and never as `-0`.
    pub(super) fn write(self, out: &mut String) {
        if self.0 < 0 {
            out.push('-');
        }
        let size = self.0.unsigned_abs();
        let (whole, mut part) = (size / 10_000, size % 10_000);
        // Writing to a String can't fail.
        let _ = write!(out, "{whole}");
        if part > 0 {
            let mut digits = 4;
            while part % 10 == 0 {
                part /= 10;
                digits -= 1;
            }
            let _ = write!(out, ".{part:0digits$}");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn number(value: f64) -> String {
        let mut out = String::new();
        Ticks::of(value).write(&mut out);
        out
    }

    #[test]
    fn numbers_are_short_and_never_minus_zero() {
        for (value, text) in [
            (0.0, "0"),
            (-0.00004, "0"),
            (-0.00006, "-0.0001"),
            (1.5, "1.5"),
            (-2.0306, "-2.0306"),
            (3.00049, "3.0005"),
            (10.01, "10.01"),
            (1e9, "1000000000"),
        ] {
            assert_eq!(number(value), text);
        }
    }
}
