//! Numbers and separators in attribute values, read from left to right.
//!
//! The grammar is that of SVG 2, section 9.3.9. Plain decimal numbers are read in one pass: up to
//! 2^53 the digits and the power of ten are exact in f64, so one multiplication or division rounds
//! correctly; all other numbers go to the standard library's parser, which gives the same bits.

use super::place::Flaw;

const POWERS: [f64; 23] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
    1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
];

/// A place in the value of an attribute.
pub(super) struct Scanner<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Scanner<'a> {
    pub(super) fn new(text: &'a str) -> Self {
        Self { text, at: 0 }
    }

    pub(super) fn at(&self) -> usize {
        self.at
    }

    /// What has not been read yet.
    pub(super) fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or("")
    }

    pub(super) fn peek(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    pub(super) fn step(&mut self) {
        self.at += 1;
    }

    #[inline]
    pub(super) fn skip_space(&mut self) {
        while matches!(self.peek(), Some(b' ' | b'\t' | b'\n' | b'\r' | 0x0C)) {
            self.at += 1;
        }
    }

    /// Passes white space with at most one comma in it.
    pub(super) fn skip_separator(&mut self) {
        self.skip_space();
        if self.peek() == Some(b',') {
            self.at += 1;
            self.skip_space();
        }
    }

    /// A flag of an arc: one digit, 0 or 1, which needs no separator after it.
    pub(super) fn flag(&mut self) -> Result<bool, Flaw> {
        let flag = match self.peek() {
            Some(b'0') => false,
            Some(b'1') => true,
            _ => return Err(Flaw::expected(self.at, "an arc flag 0 or 1")),
        };
        self.at += 1;
        self.skip_separator();
        Ok(flag)
    }

    /// A number and the separator after it.
    #[inline]
    pub(super) fn listed(&mut self) -> Result<f64, Flaw> {
        let number = self.number()?;
        self.skip_separator();
        Ok(number)
    }

    /// A number, finite; what follows it is left.
    pub(super) fn number(&mut self) -> Result<f64, Flaw> {
        let bytes = self.text.as_bytes();
        let start = self.at;
        let mut at = start;
        let byte = |at: usize| bytes.get(at).copied().unwrap_or(0);
        let negative = byte(at) == b'-';
        at += usize::from(matches!(byte(at), b'-' | b'+'));
        let mut digits: u64 = 0;
        let first = at;
        while let value @ 0..=9 = byte(at).wrapping_sub(b'0') {
            digits = digits.wrapping_mul(10).wrapping_add(u64::from(value));
            at += 1;
        }
        let mut count = at - first;
        let mut exponent: i32 = 0;
        if byte(at) == b'.' {
            let point = at;
            at += 1;
            while let value @ 0..=9 = byte(at).wrapping_sub(b'0') {
                digits = digits.wrapping_mul(10).wrapping_add(u64::from(value));
                at += 1;
            }
            let decimals = at - point - 1;
            count += decimals;
            exponent = -i32::try_from(decimals).unwrap_or(i32::MAX);
        }
        if count == 0 {
            return Err(Flaw::expected(first, "a number"));
        }
        let mantissa_end = at;
        if matches!(byte(at), b'e' | b'E') {
            let signed = at + 1 + usize::from(matches!(byte(at + 1), b'-' | b'+'));
            if byte(signed).is_ascii_digit() {
                at = signed;
                while byte(at).is_ascii_digit() {
                    at += 1;
                }
            }
        }
        self.at = at;
        let power = exponent.unsigned_abs() as usize;
        if at == mantissa_end && count <= 19 && digits <= 1 << 53 && power < POWERS.len() {
            let value = digits as f64 / POWERS[power];
            return Ok(if negative { -value } else { value });
        }
        match self.text[start..at].parse::<f64>() {
            Ok(value) if value.is_finite() => Ok(value),
            _ => Err(Flaw::refused(start, "the number is too large")),
        }
    }
}

/// All the numbers of a value that holds nothing else.
pub(super) fn numbers(text: &str) -> Result<Vec<f64>, Flaw> {
    let mut scan = Scanner::new(text);
    let mut found = Vec::new();
    scan.skip_space();
    while scan.peek().is_some() {
        found.push(scan.listed()?);
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn numbers_end_where_the_next_one_can_start() {
        for (text, expected) in [
            ("0-1-1", vec![0.0, -1.0, -1.0]),
            (".5.5", vec![0.5, 0.5]),
            ("1.2.3e2-.4E-1", vec![1.2, 30.0, -0.04]),
            (" +1 , 5.\t7\n", vec![1.0, 5.0, 7.0]),
            ("-0", vec![0.0]),
            ("", vec![]),
        ] {
            assert_eq!(numbers(text).expect(text), expected, "{text}");
        }
    }

    #[test]
    fn what_is_no_number_is_refused_where_it_stands() {
        for (text, at) in [
            ("1 x", 2),
            ("-", 1),
            ("1 --2", 3),
            ("1,,2", 2),
            (".", 0),
            ("1e", 1),
            ("1e+", 1),
            ("NaN", 0),
            ("2 inf", 2),
            ("7 1e999", 2),
            ("5 é", 2),
        ] {
            assert_eq!(numbers(text).expect_err(text).at, at, "{text}");
        }
    }

    proptest! {
        #[test]
        fn numbers_have_the_bits_of_the_standard_parser(
            text in "-?([0-9]{1,18}|[0-9]{1,9}\\.[0-9]{0,24}|\\.[0-9]{1,20})([eE][+-]?[0-9]{1,2})?"
        ) {
            let expected: f64 = text.parse().expect("a number");
            prop_assert_eq!(numbers(&text).expect("a number")[0].to_bits(), expected.to_bits());
        }
    }
}
