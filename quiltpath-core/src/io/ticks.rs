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
        Portions::new(out).ticks(self);
    }
}

/// Text of ASCII characters that goes to a string in portions: to push each character by itself
/// takes longer than to make it.
pub(super) struct Portions<'a> {
    out: &'a mut String,
    bytes: [u8; 256],
    used: usize,
}

impl<'a> Portions<'a> {
    pub(super) fn new(out: &'a mut String) -> Self {
        Self {
            out,
            bytes: [0; 256],
            used: 0,
        }
    }

    #[cfg(feature = "svg")]
    pub(super) fn put(&mut self, character: char) {
        debug_assert!(character.is_ascii());
        self.append(&[character as u8]);
    }

    /// Puts a number in steps, without trailing zeros and never as `-0`.
    pub(super) fn ticks(&mut self, Ticks(steps): Ticks) {
        let size = steps.unsigned_abs();
        let (whole, part) = (size / 10_000, size % 10_000);
        let mut number = Number::new();
        if part > 0 {
            number.pair(part % 100);
            number.pair(part / 100);
            number.trim();
            number.put(b'.');
        }
        number.digits(whole);
        self.number(number, steps < 0);
    }

    /// Puts a whole number.
    #[cfg(any(feature = "svg", test))]
    pub(super) fn whole(&mut self, value: i64) {
        let mut number = Number::new();
        number.digits(value.unsigned_abs());
        self.number(number, value < 0);
    }

    fn number(&mut self, mut number: Number, negative: bool) {
        if negative {
            number.put(b'-');
        }
        self.append(&number.text[number.start..number.end]);
    }

    /// Appends fewer bytes than a portion has.
    fn append(&mut self, text: &[u8]) {
        if self.used + text.len() > self.bytes.len() {
            self.pass_on();
        }
        self.bytes[self.used..self.used + text.len()].copy_from_slice(text);
        self.used += text.len();
    }

    fn pass_on(&mut self) {
        let text = std::str::from_utf8(&self.bytes[..self.used]);
        self.out.push_str(text.unwrap_or_default());
        self.used = 0;
    }
}

impl Drop for Portions<'_> {
    fn drop(&mut self) {
        self.pass_on();
    }
}

/// A number in the making, from its last character to its first.
struct Number {
    /// Twenty digits of a `u64`, a point and a sign.
    text: [u8; 22],
    start: usize,
    end: usize,
}

impl Number {
    fn new() -> Self {
        Self {
            text: [0; 22],
            start: 22,
            end: 22,
        }
    }

    fn put(&mut self, byte: u8) {
        self.start -= 1;
        self.text[self.start] = byte;
    }

    /// Puts two digits.
    fn pair(&mut self, value: u64) {
        let digits = value as u8;
        self.start -= 2;
        self.text[self.start] = b'0' + digits / 10;
        self.text[self.start + 1] = b'0' + digits % 10;
    }

    /// Puts as many digits as there are, at least one.
    fn digits(&mut self, mut value: u64) {
        while value >= 100 {
            self.pair(value % 100);
            value /= 100;
        }
        match value >= 10 {
            true => self.pair(value),
            false => self.put(b'0' + value as u8),
        }
    }

    /// Takes zeros off the end.
    fn trim(&mut self) {
        while self.text[self.end - 1] == b'0' {
            self.end -= 1;
        }
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
            Portions::new(&mut all).whole(value);
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
