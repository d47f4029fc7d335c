//! What stays without repeats in the middle of a side, as a plan says it.

use super::length::LengthSpec;

/// The length of a plain spacer in the middle of a side.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum SpacerSpec {
    /// So long.
    Length(LengthSpec),
    /// What the repeats leave when they keep their proportions.
    Rest,
}

impl<L: Into<LengthSpec>> From<L> for SpacerSpec {
    fn from(length: L) -> Self {
        Self::Length(length.into())
    }
}

#[cfg(feature = "json")]
const REST: &str = "rest";

#[cfg(feature = "json")]
impl serde::Serialize for SpacerSpec {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Length(length) => length.serialize(serializer),
            Self::Rest => serializer.serialize_str(REST),
        }
    }
}

#[cfg(feature = "json")]
impl<'de> serde::Deserialize<'de> for SpacerSpec {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Visitor;

        impl serde::de::Visitor<'_> for Visitor {
            type Value = SpacerSpec;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a length such as 2 or \"4 1/2 in\", or \"rest\": what the repeats leave as drawn")
            }

            fn visit_f64<E: serde::de::Error>(self, value: f64) -> Result<SpacerSpec, E> {
                Ok(LengthSpec::from(value).into())
            }

            fn visit_i64<E: serde::de::Error>(self, value: i64) -> Result<SpacerSpec, E> {
                self.visit_f64(value as f64)
            }

            fn visit_u64<E: serde::de::Error>(self, value: u64) -> Result<SpacerSpec, E> {
                self.visit_f64(value as f64)
            }

            fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<SpacerSpec, E> {
                match text {
                    REST => Ok(SpacerSpec::Rest),
                    _ => (text.parse::<LengthSpec>().map(SpacerSpec::from)).map_err(E::custom),
                }
            }
        }

        deserializer.deserialize_any(Visitor)
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for SpacerSpec {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Spacer".into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let length = generator.subschema_for::<LengthSpec>();
        schemars::json_schema!({
            "description": "A length, or what the repeats leave when they keep their proportions.",
            "anyOf": [
                length,
                { "const": REST, "description": "What the repeats leave when they keep their proportions." }
            ]
        })
    }
}
