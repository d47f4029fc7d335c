//! Where the one line of a drawing starts or ends, as a plan says it.

use super::length::LengthSpec;
use crate::error::Error;
use crate::geom::Point;
use crate::strokes::EndPlace;
use crate::units::Unit;

/// Where the one line of a drawing starts or ends.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum EndSpec {
    /// The leftmost place of the drawing.
    Left,
    /// The rightmost place.
    Right,
    /// The topmost place.
    Top,
    /// The lowest place.
    Bottom,
    /// The place of the drawing that is nearest to this one: how far it lies to the right and how
    /// far down, in the drawing's own coordinates at its true size.
    At([LengthSpec; 2]),
}

impl EndSpec {
    /// The place of the drawing that is nearest to this one: to the right and down.
    #[must_use]
    pub fn at(across: impl Into<LengthSpec>, down: impl Into<LengthSpec>) -> Self {
        Self::At([across.into(), down.into()])
    }

    /// The place, in millimetres; a number without a unit is in `unit`.
    #[must_use]
    pub fn place(&self, unit: Unit) -> EndPlace {
        match self {
            Self::Left => EndPlace::Left,
            Self::Right => EndPlace::Right,
            Self::Top => EndPlace::Top,
            Self::Bottom => EndPlace::Bottom,
            Self::At([across, down]) => EndPlace::At(Point::new(across.mm(unit), down.mm(unit))),
        }
    }

    #[cfg(feature = "json")]
    fn word(&self) -> Option<&'static str> {
        let (_, word) = WORDS.iter().find(|(place, _)| place == self)?;
        Some(word)
    }
}

#[cfg(feature = "json")]
const WORDS: [(EndSpec, &str); 4] = [
    (EndSpec::Left, "left"),
    (EndSpec::Right, "right"),
    (EndSpec::Top, "top"),
    (EndSpec::Bottom, "bottom"),
];

/// The start and the end that are given for one drawing, checked.
///
/// # Errors
///
/// A geometry error in the key of a coordinate that is not within 1e9 mm.
pub(in crate::plan) fn given_ends(
    start: Option<&EndSpec>,
    end: Option<&EndSpec>,
    unit: Unit,
) -> Result<[Option<EndPlace>; 2], Error> {
    let given = |spec: Option<&EndSpec>, key: &str, what: &'static str| {
        let place = spec.map(|spec| spec.place(unit));
        place
            .map_or(Ok(()), |place| place.check(what))
            .map_err(|e| e.in_element(key))?;
        Ok::<_, Error>(place)
    };
    Ok([
        given(start, "start", "a coordinate of the start of the line")?,
        given(end, "end", "a coordinate of the end of the line")?,
    ])
}

#[cfg(feature = "json")]
impl serde::Serialize for EndSpec {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match (self, self.word()) {
            (Self::At(place), _) => place.serialize(serializer),
            (_, word) => serializer.serialize_str(word.unwrap_or_default()),
        }
    }
}

#[cfg(feature = "json")]
impl<'de> serde::Deserialize<'de> for EndSpec {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Visitor;

        impl<'de> serde::de::Visitor<'de> for Visitor {
            type Value = EndSpec;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("left, right, top or bottom, or a place such as [1, \"2 1/2 in\"]: how far to the right and how far down")
            }

            fn visit_str<E: serde::de::Error>(self, value: &str) -> Result<EndSpec, E> {
                let named = WORDS.into_iter().find(|(_, word)| *word == value);
                let other = || E::invalid_value(serde::de::Unexpected::Str(value), &self);
                named.map(|(place, _)| place).ok_or_else(other)
            }

            fn visit_seq<A: serde::de::SeqAccess<'de>>(
                self,
                mut lengths: A,
            ) -> Result<EndSpec, A::Error> {
                let mut place = Vec::new();
                while let Some(length) = lengths.next_element::<LengthSpec>()? {
                    place.push(length);
                }
                let count = place.len();
                let other = |_| serde::de::Error::invalid_length(count, &self);
                place.try_into().map(EndSpec::At).map_err(other)
            }
        }

        deserializer.deserialize_any(Visitor)
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for EndSpec {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "LineEnd".into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let length = generator.subschema_for::<LengthSpec>();
        schemars::json_schema!({
            "description": "The outermost place of the drawing on one side, or the place that is nearest to this one: how far to the right and how far down, in the drawing's own coordinates at its true size.",
            "oneOf": [
                { "const": "left", "description": "The leftmost place of the drawing." },
                { "const": "right", "description": "The rightmost place of the drawing." },
                { "const": "top", "description": "The topmost place of the drawing." },
                { "const": "bottom", "description": "The lowest place of the drawing." },
                { "type": "array", "items": length, "minItems": 2, "maxItems": 2 }
            ]
        })
    }
}
