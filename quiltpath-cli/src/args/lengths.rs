//! Lengths, points and sizes as they are typed: `4 1/2 in`, `2, 3 in`, `64 1/4 x 80 in`.

use std::str::FromStr;

use quiltpath_core::geom::Point;
use quiltpath_core::units::{Length, Unit};

use crate::failure::Failure;

/// A length in this unit, or what to write instead of a bare number; 0 is 0 in every unit.
pub(crate) fn in_unit(
    typed: &Length,
    bare: Option<Unit>,
    unit: Unit,
    option: &str,
) -> Result<f64, Failure> {
    match typed.unit.or(bare) {
        Some(own) if own == unit => Ok(typed.value),
        None if typed.value == 0.0 => Ok(0.0),
        _ => match typed.to_mm(bare) {
            Ok(mm) => Ok(mm / unit.in_mm()),
            Err(error) => Err(Failure::Usage(format!("{option}: {error} by --unit"))),
        },
    }
}

/// As [`in_unit`], and above 0.
pub(crate) fn positive_in_unit(
    typed: &Length,
    bare: Option<Unit>,
    unit: Unit,
    option: &str,
) -> Result<f64, Failure> {
    let value = in_unit(typed, bare, unit, option)?;
    if value > 0.0 {
        Ok(value)
    } else {
        Err(Failure::Usage(format!("{option}: {typed} is not above 0")))
    }
}

/// As [`in_unit`], and 0 or more.
pub(crate) fn from_0_in_unit(
    typed: &Length,
    bare: Option<Unit>,
    unit: Unit,
    option: &str,
) -> Result<f64, Failure> {
    let value = in_unit(typed, bare, unit, option)?;
    if value >= 0.0 {
        Ok(value)
    } else {
        Err(Failure::Usage(format!(
            "{option}: {typed} is below 0; give 0 or more"
        )))
    }
}

/// Lengths with this between them; one without a unit has the unit of the next that has one.
pub(crate) fn list<const N: usize>(text: &str, between: &[char]) -> Result<[Length; N], String> {
    let parts: Vec<&str> = text.split(between).collect();
    let parts: [&str; N] = parts
        .try_into()
        .map_err(|parts: Vec<&str>| match parts.len() {
            1 => format!("1 length given, but {N} are needed"),
            given => format!("{given} lengths given, but {N} are needed"),
        })?;
    let mut lengths = [const {
        Length {
            value: 0.0,
            unit: None,
        }
    }; N];
    let mut unit = None;
    for (length, part) in lengths.iter_mut().zip(parts).rev() {
        *length = Length::from_str(part.trim()).map_err(|error| error.to_string())?;
        unit = length.unit.or(unit);
        length.unit = unit;
    }
    Ok(lengths)
}

/// A width and a height.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Size {
    pub(crate) width: Length,
    pub(crate) height: Length,
}

impl FromStr for Size {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let [width, height] = list(text, &['x', 'X', '×'])
            .map_err(|error| format!("{error}; give for example 64 1/4 in x 80 in"))?;
        Ok(Self { width, height })
    }
}

/// A point: how far to the right and how far down.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Place {
    right: Length,
    down: Length,
}

impl FromStr for Place {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let [right, down] =
            list(text, &[',']).map_err(|error| format!("{error}; give for example 1, 2 1/2 in"))?;
        Ok(Self { right, down })
    }
}

impl Place {
    pub(crate) fn in_unit(
        &self,
        bare: Option<Unit>,
        unit: Unit,
        option: &str,
    ) -> Result<Point, Failure> {
        Ok(Point::new(
            in_unit(&self.right, bare, unit, option)?,
            in_unit(&self.down, bare, unit, option)?,
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_unit_at_the_end_stands_for_both() {
        let size = Size {
            width: Length::with(64.25, Unit::In),
            height: Length::with(80.0, Unit::In),
        };
        for text in [
            "64 1/4 in x 80 in",
            "64 1/4 x 80 in",
            "64¼×80\"",
            "64.25X80in",
        ] {
            assert_eq!(text.parse(), Ok(size.clone()), "{text}");
        }
        let mixed: Size = "10 cm x 4 in".parse().expect("a size");
        assert_eq!(mixed.width, Length::with(10.0, Unit::Cm));
        let bare: Size = "10 x 4".parse().expect("a size");
        assert_eq!(bare.height, Length::bare(4.0));
    }

    #[test]
    fn anything_but_a_size_is_refused_with_an_example() {
        for text in [
            "",
            "64 in",
            "1 x 2 x 3 in",
            "64 in x",
            "a x b",
            "64 by 80 in",
        ] {
            let error = text.parse::<Size>().expect_err(text);
            assert!(error.contains("give for example"), "{text}: {error}");
        }
    }

    #[test]
    fn a_bare_number_needs_a_unit_unless_it_is_0() {
        let mm = |typed, bare| in_unit(&typed, bare, Unit::Mm, "--depth");
        assert_eq!(mm(Length::bare(0.0), None).expect("zero"), 0.0);
        assert_eq!(mm(Length::bare(2.0), Some(Unit::Cm)).expect("2 cm"), 20.0);
        let error = mm(Length::bare(2.0), None).expect_err("bare").to_string();
        assert!(error.starts_with("--depth: 2 has no unit; write 2 in or 2 mm"));
        assert!(positive_in_unit(&Length::bare(0.0), None, Unit::Mm, "--depth").is_err());
    }
}
