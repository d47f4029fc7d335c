//! Lengths as people type them: a number, whole, broken or mixed, with a unit or without.

use std::fmt;
use std::str::FromStr;

use super::unit::Unit;
use crate::error::{Error, LengthFault};
use crate::geom::MAX_COORDINATE;

impl FromStr for Unit {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        match text.trim().to_ascii_lowercase().as_str() {
            "in" | "inch" | "inches" | "\"" | "″" | "”" => Ok(Self::In),
            "ft" | "foot" | "feet" | "'" | "′" => Ok(Self::Ft),
            "yd" | "yard" | "yards" => Ok(Self::Yd),
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Ok(Self::Mm),
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Ok(Self::Cm),
            "m" | "metre" | "metres" | "meter" | "meters" => Ok(Self::M),
            _ => Err(LengthFault::UnknownUnit {
                text: text.to_owned(),
                unit: text.trim().to_owned(),
            }
            .into()),
        }
    }
}

/// A length as it was typed: a number, with a unit or without.
///
/// Accepted: `4.5`, `4 1/2`, `4-1/2`, `4 1/2 in`, `4½"`, `11.4cm`, `114 mm`, `1/4`, `-2 in`.
///
/// ```
/// use quiltpath_core::units::{Length, Unit};
///
/// let typed: Length = "4 1/2 in".parse()?;
/// assert_eq!(typed.to_mm(None)?, 114.3);
/// let bare: Length = "4.5".parse()?;
/// assert_eq!(bare.to_mm(Some(Unit::Cm))?, 45.0);
/// assert!(bare.to_mm(None).is_err());
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Length {
    /// The number, in the unit typed or in one still to be named.
    pub value: f64,
    /// The unit, when one was typed.
    pub unit: Option<Unit>,
}

impl Length {
    /// A bare number, its unit still to be named.
    #[must_use]
    pub fn bare(value: f64) -> Self {
        Self { value, unit: None }
    }

    /// A number with its unit.
    #[must_use]
    pub fn with(value: f64, unit: Unit) -> Self {
        Self {
            value,
            unit: Some(unit),
        }
    }

    /// The length in millimetres; a bare number is taken in `bare_unit`.
    ///
    /// # Errors
    ///
    /// A length error when the number is bare and no unit for bare numbers is named.
    pub fn to_mm(&self, bare_unit: Option<Unit>) -> Result<f64, Error> {
        match self.unit.or(bare_unit) {
            Some(unit) => Ok(self.value * unit.in_mm()),
            None => Err(LengthFault::UnitMissing {
                text: self.value.to_string(),
            }
            .into()),
        }
    }
}

impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.unit {
            Some(unit) => write!(f, "{} {unit}", self.value),
            None => write!(f, "{}", self.value),
        }
    }
}

impl FromStr for Length {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let trimmed = text.trim();
        if trimmed.is_empty() {
            return Err(LengthFault::Empty.into());
        }
        let unit_start = trimmed
            .char_indices()
            .find(|&(at, c)| !is_number_part(c) && !is_exponent(trimmed, at))
            .map_or(trimmed.len(), |(at, _)| at);
        let (number, unit) = trimmed.split_at(unit_start);
        let digit = |text: Option<char>| text.is_some_and(|c| c.is_ascii_digit());
        let after_comma = unit.strip_prefix(',').map(|rest| rest.chars().next());
        if digit(number.chars().next_back()) && after_comma.is_some_and(digit) {
            return Err(LengthFault::DecimalComma {
                text: trimmed.to_owned(),
            }
            .into());
        }
        let value = parse_number(number.trim()).ok_or_else(|| LengthFault::NotANumber {
            text: text.to_owned(),
        })?;
        if !value.is_finite() {
            let divisor = number.rsplit_once(['/', '⁄']);
            return Err(
                if divisor.is_some_and(|(_, by)| parse_whole(by) == Some(0.0)) {
                    LengthFault::ZeroDivision {
                        text: text.to_owned(),
                    }
                } else {
                    LengthFault::OutOfRange {
                        text: text.to_owned(),
                        accepted: "a number below 1e9",
                    }
                }
                .into(),
            );
        }
        if value.abs() > MAX_COORDINATE {
            return Err(LengthFault::OutOfRange {
                text: text.to_owned(),
                accepted: "a number below 1e9",
            }
            .into());
        }
        let unit = match unit.trim() {
            "" => None,
            unit => Some(unit.parse().map_err(|_| LengthFault::UnknownUnit {
                text: text.to_owned(),
                unit: unit.to_owned(),
            })?),
        };
        Ok(Self { value, unit })
    }
}

const VULGAR: [(char, f64); 15] = [
    ('½', 1.0 / 2.0),
    ('⅓', 1.0 / 3.0),
    ('⅔', 2.0 / 3.0),
    ('¼', 1.0 / 4.0),
    ('¾', 3.0 / 4.0),
    ('⅕', 1.0 / 5.0),
    ('⅖', 2.0 / 5.0),
    ('⅗', 3.0 / 5.0),
    ('⅘', 4.0 / 5.0),
    ('⅙', 1.0 / 6.0),
    ('⅚', 5.0 / 6.0),
    ('⅛', 1.0 / 8.0),
    ('⅜', 3.0 / 8.0),
    ('⅝', 5.0 / 8.0),
    ('⅞', 7.0 / 8.0),
];

fn vulgar(c: char) -> Option<f64> {
    VULGAR.iter().find(|(glyph, _)| *glyph == c).map(|v| v.1)
}

fn is_number_part(c: char) -> bool {
    c.is_ascii_digit() || " \u{a0}\t.+-/⁄–".contains(c) || vulgar(c).is_some()
}

/// True for the `e` of `1e3`: after a digit, before a digit or a sign.
fn is_exponent(text: &str, at: usize) -> bool {
    let bytes = text.as_bytes();
    let next = |offset: usize| bytes.get(at + offset).copied().unwrap_or(b' ');
    matches!(bytes[at], b'e' | b'E')
        && at > 0
        && (bytes[at - 1].is_ascii_digit() || bytes[at - 1] == b'.')
        && (next(1).is_ascii_digit()
            || (matches!(next(1), b'-' | b'+') && next(2).is_ascii_digit()))
}

/// `4.5`, `1/2`, `4 1/2`, `4-1/2`, `4½`, `½`, each with an optional sign; infinite on a 0 divisor.
fn parse_number(text: &str) -> Option<f64> {
    let (sign, text) = match text.strip_prefix('-') {
        Some(rest) => (-1.0, rest),
        None => (1.0, text.strip_prefix('+').unwrap_or(text)),
    };
    let text = text.trim();
    if text.starts_with(['+', '-']) {
        return None;
    }
    if let Some(glyph) = text.chars().last().filter(|c| vulgar(*c).is_some()) {
        let whole =
            text[..text.len() - glyph.len_utf8()].trim_end_matches([' ', '-', '\u{a0}', '–']);
        let whole = if whole.is_empty() {
            0.0
        } else {
            parse_whole(whole)?
        };
        return Some(sign * (whole + vulgar(glyph)?));
    }
    let Some((before, divisor)) = text.split_once(['/', '⁄']) else {
        return text.parse::<f64>().ok().map(|value| sign * value);
    };
    let (whole, counter) = match before
        .trim_end()
        .rsplit_once([' ', '-', '\u{a0}', '\t', '–'])
    {
        Some((whole, counter)) => (
            parse_whole(whole.trim_end_matches([' ', '-', '–']))?,
            counter,
        ),
        None => (0.0, before.trim_end()),
    };
    Some(sign * (whole + parse_whole(counter)? / parse_whole(divisor.trim())?))
}

fn parse_whole(text: &str) -> Option<f64> {
    let text = text.trim();
    let digits = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    digits.then(|| text.parse().ok()).flatten()
}
