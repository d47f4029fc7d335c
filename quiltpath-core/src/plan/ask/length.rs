//! A length in a plan: a number in the plan's unit, or a text such as `4 1/2 in`.

use crate::error::{Error, PlanFault};
use crate::units::{Length, Unit};

/// How messages call the length of a key: "the seam gap" for `seam_gap`.
pub(crate) fn called(key: &str) -> String {
    format!("the {}", key.replace('_', " "))
}

/// A length in a plan: a number in the plan's unit, or a text such as `4 1/2` or `114 mm`.
#[derive(Debug, Clone, PartialEq)]
pub struct LengthSpec(pub Length);

impl LengthSpec {
    /// A length with its unit.
    #[must_use]
    pub fn with(value: f64, unit: Unit) -> Self {
        Self(Length::with(value, unit))
    }

    /// The length in millimetres; a number without a unit is in `unit`.
    #[must_use]
    pub fn mm(&self, unit: Unit) -> f64 {
        self.0.value * self.0.unit.unwrap_or(unit).in_mm()
    }

    /// The length in millimetres, which has to be above 0; `what` is what messages call it.
    ///
    /// # Errors
    ///
    /// A plan error that names `what` and the length, when that is not above 0 or not finite.
    pub fn positive_mm(&self, unit: Unit, what: &str) -> Result<f64, Error> {
        let mm = self.mm(unit);
        if mm > 0.0 && mm.is_finite() {
            return Ok(mm);
        }
        Err(Error::from(PlanFault::NotPositive {
            what: what.to_owned(),
            given: mm,
        })
        .in_unit(self.0.unit.unwrap_or(unit)))
    }

    /// The length in millimetres, which has to be 0 or more; `what` is what messages call it.
    ///
    /// # Errors
    ///
    /// A plan error that names `what` and the length, when that is below 0 or not finite.
    pub fn gap_mm(&self, unit: Unit, what: &str) -> Result<f64, Error> {
        let mm = self.mm(unit);
        if mm >= 0.0 && mm.is_finite() {
            return Ok(mm);
        }
        Err(Error::from(PlanFault::Negative {
            what: what.to_owned(),
            given: mm,
        })
        .in_unit(self.0.unit.unwrap_or(unit)))
    }
}

impl From<f64> for LengthSpec {
    /// A number in the plan's unit.
    fn from(value: f64) -> Self {
        Self(Length::bare(value))
    }
}

impl std::str::FromStr for LengthSpec {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        text.parse().map(Self)
    }
}

impl From<Length> for LengthSpec {
    fn from(typed: Length) -> Self {
        Self(typed)
    }
}

#[cfg(feature = "json")]
impl serde::Serialize for LengthSpec {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.0.unit {
            Some(_) => serializer.collect_str(&self.0),
            None => serializer.serialize_f64(self.0.value),
        }
    }
}

#[cfg(feature = "json")]
impl<'de> serde::Deserialize<'de> for LengthSpec {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Visitor;

        impl serde::de::Visitor<'_> for Visitor {
            type Value = LengthSpec;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a length: a number, or a text such as \"4 1/2 in\" or \"114 mm\"")
            }

            fn visit_f64<E: serde::de::Error>(self, value: f64) -> Result<LengthSpec, E> {
                Ok(LengthSpec(Length::bare(value)))
            }

            fn visit_i64<E: serde::de::Error>(self, value: i64) -> Result<LengthSpec, E> {
                self.visit_f64(value as f64)
            }

            fn visit_u64<E: serde::de::Error>(self, value: u64) -> Result<LengthSpec, E> {
                self.visit_f64(value as f64)
            }

            fn visit_str<E: serde::de::Error>(self, text: &str) -> Result<LengthSpec, E> {
                text.parse().map(LengthSpec).map_err(E::custom)
            }
        }

        deserializer.deserialize_any(Visitor)
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for LengthSpec {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Length".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "description": "A number in the plan's unit, or a text such as \"4 1/2\", \"4 1/2 in\", \"11.4cm\" or \"114 mm\".",
            "oneOf": [
                { "type": "number" },
                { "type": "string", "examples": ["4 1/2", "4 1/2 in", "114 mm"] }
            ]
        })
    }
}
