//! A value for all sides of a border alike, or one for each side.

use super::length::LengthSpec;
use super::spacer::SpacerSpec;
use crate::error::{Error, PlanFault};
use crate::plan::lay::place::Side;

/// A value for all sides alike, or one for each side: by name on four sides, in order on any.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize), serde(untagged))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum BySide<T> {
    /// The same on every side.
    One(T),
    /// By the names of the four sides.
    Named(NamedSides<T>),
    /// One for each side, clockwise from the first; null where a side has none of its own.
    List(Vec<Option<T>>),
}

/// A value for some of the four sides.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(deny_unknown_fields))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
// Left alone, the derive would ask for `T: Default`, which a length is not.
#[cfg_attr(
    feature = "json",
    serde(bound(deserialize = "T: serde::Deserialize<'de>"))
)]
pub struct NamedSides<T> {
    /// The top side.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub top: Option<T>,
    /// The right side.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub right: Option<T>,
    /// The bottom side.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub bottom: Option<T>,
    /// The left side.
    #[cfg_attr(
        feature = "json",
        serde(default, skip_serializing_if = "Option::is_none")
    )]
    pub left: Option<T>,
}

impl<T> Default for NamedSides<T> {
    fn default() -> Self {
        Self {
            top: None,
            right: None,
            bottom: None,
            left: None,
        }
    }
}

impl<T> BySide<T> {
    /// The value of a side, where it has one.
    #[must_use]
    pub fn get(&self, side: Side) -> Option<&T> {
        match self {
            Self::One(value) => Some(value),
            Self::Named(sides) => {
                let all = [&sides.top, &sides.right, &sides.bottom, &sides.left];
                all.get(side.index()).and_then(|value| value.as_ref())
            }
            Self::List(sides) => sides.get(side.index()).and_then(Option::as_ref),
        }
    }

    /// The values, each once for each time that it is written.
    pub fn values(&self) -> impl Iterator<Item = &T> {
        let (one, named, list) = match self {
            Self::One(value) => (Some(value), None, &[][..]),
            Self::Named(sides) => (None, Some(sides), &[][..]),
            Self::List(sides) => (None, None, sides.as_slice()),
        };
        let named = named.map(|sides| [&sides.top, &sides.right, &sides.bottom, &sides.left]);
        let named = named.into_iter().flatten().chain(list);
        one.into_iter().chain(named.filter_map(Option::as_ref))
    }

    /// The values, to be changed in place.
    pub fn values_mut(&mut self) -> impl Iterator<Item = &mut T> {
        let (one, named, list) = match self {
            Self::One(value) => (Some(value), None, &mut [][..]),
            Self::Named(sides) => (None, Some(sides), &mut [][..]),
            Self::List(sides) => (None, None, sides.as_mut_slice()),
        };
        let named = named.map(|sides| {
            let NamedSides {
                top,
                right,
                bottom,
                left,
            } = sides;
            [top, right, bottom, left]
        });
        let named = named.into_iter().flatten().chain(list);
        one.into_iter().chain(named.filter_map(Option::as_mut))
    }

    /// Checks that the values are for a border with so many sides.
    ///
    /// # Errors
    ///
    /// A plan error when names stand for other than four sides, or a list is not as long as the
    /// ring has sides.
    pub fn check(&self, count: usize) -> Result<(), Error> {
        match self {
            Self::Named(_) if count != 4 => Err(PlanFault::NamedSides { count }.into()),
            Self::List(sides) if sides.len() != count => {
                let found = sides.len();
                Err(PlanFault::ValuesForSides { found, count }.into())
            }
            _ => Ok(()),
        }
    }
}

impl<L: Into<LengthSpec>> From<L> for BySide<LengthSpec> {
    fn from(length: L) -> Self {
        Self::One(length.into())
    }
}

impl<S: Into<SpacerSpec>> From<S> for BySide<SpacerSpec> {
    fn from(spacer: S) -> Self {
        Self::One(spacer.into())
    }
}

impl<T: AsRef<str>> From<T> for BySide<String> {
    fn from(name: T) -> Self {
        Self::One(name.as_ref().to_owned())
    }
}

impl From<usize> for BySide<usize> {
    fn from(number: usize) -> Self {
        Self::One(number)
    }
}

#[cfg(feature = "json")]
mod reading {
    use super::{BySide, LengthSpec, NamedSides, SpacerSpec};
    use serde::de::value::{MapAccessDeserializer, SeqAccessDeserializer};
    use serde::de::{Deserialize, Deserializer, Error, IntoDeserializer, MapAccess, SeqAccess};
    use std::fmt;
    use std::marker::PhantomData;

    /// What a value by side may look like, for messages.
    trait Expected {
        const EXPECTED: &'static str;
    }

    impl Expected for LengthSpec {
        const EXPECTED: &'static str = "a length such as 6 or \"4 1/2 in\", or lengths by side: {\"top\":…,\"right\":…,\"bottom\":…,\"left\":…}, or a list in the order of the sides";
    }

    impl Expected for SpacerSpec {
        const EXPECTED: &'static str = "a length such as 2 or \"4 1/2 in\", or \"rest\", or one of them by side: {\"top\":…,\"bottom\":…}, or a list in the order of the sides";
    }

    impl Expected for usize {
        const EXPECTED: &'static str = "a whole number, or numbers by side: {\"top\":…,\"left\":…}, or a list in the order of the sides";
    }

    impl Expected for String {
        const EXPECTED: &'static str = "the name of a drawing, or names by side, where a side without one stays plain: {\"top\":…,\"bottom\":…}, or a list in the order of the sides";
    }

    struct Visitor<T>(PhantomData<T>);

    impl<'de, T: Deserialize<'de> + Expected> serde::de::Visitor<'de> for Visitor<T> {
        type Value = BySide<T>;

        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str(T::EXPECTED)
        }

        fn visit_f64<E: Error>(self, value: f64) -> Result<BySide<T>, E> {
            T::deserialize(value.into_deserializer()).map(BySide::One)
        }

        fn visit_i64<E: Error>(self, value: i64) -> Result<BySide<T>, E> {
            T::deserialize(value.into_deserializer()).map(BySide::One)
        }

        fn visit_u64<E: Error>(self, value: u64) -> Result<BySide<T>, E> {
            T::deserialize(value.into_deserializer()).map(BySide::One)
        }

        fn visit_str<E: Error>(self, value: &str) -> Result<BySide<T>, E> {
            T::deserialize(value.into_deserializer()).map(BySide::One)
        }

        fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<BySide<T>, A::Error> {
            NamedSides::deserialize(MapAccessDeserializer::new(map)).map(BySide::Named)
        }

        fn visit_seq<A: SeqAccess<'de>>(self, seq: A) -> Result<BySide<T>, A::Error> {
            Vec::deserialize(SeqAccessDeserializer::new(seq)).map(BySide::List)
        }
    }

    impl<'de> Deserialize<'de> for BySide<LengthSpec> {
        fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
            deserializer.deserialize_any(Visitor(PhantomData))
        }
    }

    impl<'de> Deserialize<'de> for BySide<SpacerSpec> {
        fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
            deserializer.deserialize_any(Visitor(PhantomData))
        }
    }

    impl<'de> Deserialize<'de> for BySide<String> {
        fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
            deserializer.deserialize_any(Visitor(PhantomData))
        }
    }

    impl<'de> Deserialize<'de> for BySide<usize> {
        fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
            deserializer.deserialize_any(Visitor(PhantomData))
        }
    }
}
