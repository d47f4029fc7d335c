//! Plan data from JSON objects alone.
//!
//! What serde derives for a struct takes a list of its values as well, in the order of the fields.
//! In a plan that would be a silent reading of what nobody meant.

use std::fmt;
use std::marker::PhantomData;

use serde::de::value::MapAccessDeserializer;
use serde::de::{Deserializer, MapAccess, Visitor};

/// Data that is read by its keys.
pub(in crate::plan::spec) trait ByKeys<'de>: Sized {
    /// Reads the data as serde derives it.
    fn derived<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error>;
}

/// Reads an object, and nothing else.
pub(in crate::plan::spec) fn read<'de, T: ByKeys<'de>, D: Deserializer<'de>>(
    deserializer: D,
) -> Result<T, D::Error> {
    struct Object<T>(PhantomData<T>);

    impl<'de, T: ByKeys<'de>> Visitor<'de> for Object<T> {
        type Value = T;

        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("keys and values in braces, as in {\"key\": \"value\"}")
        }

        fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<T, A::Error> {
            T::derived(MapAccessDeserializer::new(map))
        }
    }

    deserializer.deserialize_map(Object(PhantomData))
}
