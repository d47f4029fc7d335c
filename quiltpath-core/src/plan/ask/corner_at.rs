//! One corner of a border as a plan names it.

use crate::error::{Error, PlanFault};
use crate::geom::BoxCorner;

/// One corner of a border: by its name on four sides, by its number on any.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "json", derive(serde::Serialize), serde(untagged))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum CornerAtSpec {
    /// By its place: `top_left`, `top_right`, `bottom_right` or `bottom_left`.
    Named(BoxCorner),
    /// By its number, from 1, clockwise from the first; side 1 runs from corner 1 to corner 2.
    Number(usize),
}

impl From<BoxCorner> for CornerAtSpec {
    fn from(corner: BoxCorner) -> Self {
        Self::Named(corner)
    }
}

impl From<usize> for CornerAtSpec {
    fn from(number: usize) -> Self {
        Self::Number(number)
    }
}

impl CornerAtSpec {
    /// The number of the corner, from 0, on an outline with so many.
    fn index(self, count: usize) -> Result<usize, Error> {
        match self {
            Self::Named(_) if count != 4 => Err(PlanFault::NamedCorners { count }.into()),
            Self::Named(corner) => Ok(BoxCorner::ALL
                .into_iter()
                .position(|other| other == corner)
                .unwrap_or_default()),
            Self::Number(number) if (1..=count).contains(&number) => Ok(number - 1),
            Self::Number(number) => Err(PlanFault::NoSuchCorner { number, count }.into()),
        }
    }
}

/// Which of so many corners are named; all where none is.
///
/// # Errors
///
/// A plan error, located by the key `at`, when a corner isn't there or is named twice.
pub(in crate::plan) fn corners_at(
    named: &[CornerAtSpec],
    count: usize,
) -> Result<Vec<bool>, Error> {
    let mut there = vec![named.is_empty(); count];
    for (at, corner) in named.iter().enumerate() {
        let in_key = |e: Error| e.in_element(format!("at[{at}]"));
        let index = corner.index(count).map_err(in_key)?;
        if std::mem::replace(&mut there[index], true) {
            return Err(in_key(PlanFault::CornerTwice.into()));
        }
    }
    Ok(there)
}

#[cfg(feature = "json")]
mod reading {
    use super::{BoxCorner, CornerAtSpec};
    use serde::de::{Deserialize, Deserializer, Error, Unexpected, Visitor};
    use std::fmt;

    struct Reading;

    impl Visitor<'_> for Reading {
        type Value = CornerAtSpec;

        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str(
                "top_left, top_right, bottom_right or bottom_left, or the number of a corner from 1",
            )
        }

        fn visit_u64<E: Error>(self, number: u64) -> Result<CornerAtSpec, E> {
            let number = usize::try_from(number);
            number
                .map(CornerAtSpec::Number)
                .map_err(|_| E::custom("there are not so many corners"))
        }

        fn visit_str<E: Error>(self, name: &str) -> Result<CornerAtSpec, E> {
            let named = BoxCorner::ALL
                .into_iter()
                .find(|corner| corner.name() == name);
            let other = || E::invalid_value(Unexpected::Str(name), &self);
            named.map(CornerAtSpec::Named).ok_or_else(other)
        }
    }

    impl<'de> Deserialize<'de> for CornerAtSpec {
        fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
            deserializer.deserialize_any(Reading)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn corners_are_named_once_each_by_place_or_by_number() {
        let there = |named: &[CornerAtSpec], count| corners_at(named, count);
        assert_eq!(there(&[], 3).expect("all"), [true; 3]);
        let two = there(&[BoxCorner::BottomRight.into(), 1.into()], 4).expect("two");
        assert_eq!(two, [true, false, true, false]);
        let refused = |named: &[CornerAtSpec], count| {
            let error = there(named, count).expect_err("refused");
            error.to_string()
        };
        let twice = refused(&[1.into(), BoxCorner::TopLeft.into()], 4);
        assert!(
            twice.contains("at[1]") && twice.contains("twice"),
            "{twice}"
        );
        let named = refused(&[BoxCorner::TopLeft.into()], 5);
        assert!(named.contains("5 corners"), "{named}");
        for number in [0, 7] {
            let none = refused(&[number.into()], 6);
            assert!(none.contains("from 1 to 6"), "{none}");
        }
    }
}
