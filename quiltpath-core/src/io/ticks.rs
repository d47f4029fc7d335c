//! Numbers as the formats write them: in steps of 1e-4 of the unit of the file, in short.

use crate::units::{Unit, nearest};

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
        Self(nearest(value * 1e4) as i64)
    }

    /// Without trailing zeros, and never as `-0`.
    pub(super) fn write(self, out: &mut String) {
        let size = self.0.unsigned_abs();
        let (whole, mut part) = (size / 10_000, size % 10_000);
        let mut text = Backwards::new();
        if part > 0 {
            let mut digits = 4;
            while part % 10 == 0 {
                part /= 10;
                digits -= 1;
            }
            text.digits(part, digits);
            text.put(b'.');
        }
        text.digits(whole, 1);
        text.finish(self.0 < 0, out);
    }
}

/// Appends a whole number.
#[cfg(any(feature = "svg", test))]
pub(super) fn whole(out: &mut String, value: i64) {
    let mut text = Backwards::new();
    text.digits(value.unsigned_abs(), 1);
    text.finish(value < 0, out);
}

/// A number in the making, from its last character to its first.
struct Backwards {
    /// Twenty digits of a `u64`, a point and a sign.
    text: [u8; 22],
    start: usize,
}

impl Backwards {
    fn new() -> Self {
        Self {
            text: [0; 22],
            start: 22,
        }
    }

    fn put(&mut self, byte: u8) {
        self.start -= 1;
        self.text[self.start] = byte;
    }

    /// Puts a number of at least so many digits.
    fn digits(&mut self, mut value: u64, least: usize) {
        let end = self.start;
        while value > 0 || end - self.start < least {
            self.put(b'0' + (value % 10) as u8);
            value /= 10;
        }
    }

    fn finish(mut self, negative: bool, out: &mut String) {
        if negative {
            self.put(b'-');
        }
        out.extend(self.text[self.start..].iter().map(|&byte| char::from(byte)));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

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

    #[test]
    fn the_greatest_and_the_least_numbers_fit() {
        let text = |value: i64| {
            let (mut ticks, mut all) = (String::new(), String::new());
            Ticks(value).write(&mut ticks);
            whole(&mut all, value);
            (ticks, all)
        };
        for value in [i64::MIN, -10_000, -1, 0, 9, 12_345, i64::MAX] {
            assert_eq!(text(value).1, value.to_string());
        }
        assert_eq!(text(i64::MIN).0, "-922337203685477.5808");
        assert_eq!(text(i64::MAX).0, "922337203685477.5807");
    }

    proptest! {
        #[test]
        fn numbers_are_those_of_the_standard_library(ticks in any::<i64>()) {
            let mut text = String::new();
            Ticks(ticks).write(&mut text);
            let decimal = format!("{}.{:04}", ticks.unsigned_abs() / 10_000, ticks.unsigned_abs() % 10_000);
            let decimal = decimal.trim_end_matches('0').trim_end_matches('.');
            prop_assert_eq!(text, if ticks < 0 { format!("-{decimal}") } else { decimal.to_owned() });
        }
    }
}
