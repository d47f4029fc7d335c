//! Data that is read by its keys alone.
//!
//! What serde derives for a struct takes a list of its values as well, in the order of the fields.
//! In a file that people write, that would be a silent reading of what nobody meant.

use std::fmt;

use serde::de::Visitor;
use serde::de::{DeserializeSeed, Deserializer, EnumAccess, MapAccess, SeqAccess, VariantAccess};

/// Passes everything on, at every level, but reads structs from objects only.
pub(super) struct Objects<T>(pub(super) T);

/// The visitor of a struct, which is shown nothing but objects.
struct Keyed<V>(V);

impl<'de, V: Visitor<'de>> Visitor<'de> for Keyed<V> {
    type Value = V::Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("keys and values in braces, as in {\"key\": \"value\"}")
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<V::Value, A::Error> {
        self.0.visit_map(Objects(map))
    }
}

macro_rules! deserialize {
    ($($method:ident($($name:ident: $type:ty),*))*) => {$(
        fn $method<V: Visitor<'de>>(self, $($name: $type,)* visitor: V) -> Result<V::Value, D::Error> {
            self.0.$method($($name,)* Objects(visitor))
        }
    )*};
}

impl<'de, D: Deserializer<'de>> Deserializer<'de> for Objects<D> {
    type Error = D::Error;

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, D::Error> {
        self.0.deserialize_map(Keyed(visitor))
    }

    deserialize! {
        deserialize_any() deserialize_bool()
        deserialize_i8() deserialize_i16() deserialize_i32() deserialize_i64() deserialize_i128()
        deserialize_u8() deserialize_u16() deserialize_u32() deserialize_u64() deserialize_u128()
        deserialize_f32() deserialize_f64() deserialize_char() deserialize_str() deserialize_string()
        deserialize_bytes() deserialize_byte_buf() deserialize_option() deserialize_unit()
        deserialize_seq() deserialize_map() deserialize_identifier() deserialize_ignored_any()
        deserialize_unit_struct(name: &'static str)
        deserialize_newtype_struct(name: &'static str)
        deserialize_tuple(len: usize)
        deserialize_tuple_struct(name: &'static str, len: usize)
        deserialize_enum(name: &'static str, variants: &'static [&'static str])
    }

    fn is_human_readable(&self) -> bool {
        self.0.is_human_readable()
    }
}

macro_rules! visit {
    ($($method:ident($($value:ident: $type:ty)?))*) => {$(
        fn $method<E: serde::de::Error>(self $(, $value: $type)?) -> Result<V::Value, E> {
            self.0.$method($($value)?)
        }
    )*};
}

impl<'de, V: Visitor<'de>> Visitor<'de> for Objects<V> {
    type Value = V::Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.expecting(f)
    }

    visit! {
        visit_bool(value: bool)
        visit_i8(value: i8) visit_i16(value: i16) visit_i32(value: i32) visit_i64(value: i64)
        visit_i128(value: i128)
        visit_u8(value: u8) visit_u16(value: u16) visit_u32(value: u32) visit_u64(value: u64)
        visit_u128(value: u128)
        visit_f32(value: f32) visit_f64(value: f64) visit_char(value: char)
        visit_str(value: &str) visit_borrowed_str(value: &'de str) visit_string(value: String)
        visit_bytes(value: &[u8]) visit_borrowed_bytes(value: &'de [u8]) visit_byte_buf(value: Vec<u8>)
        visit_none() visit_unit()
    }

    fn visit_some<D: Deserializer<'de>>(self, inner: D) -> Result<V::Value, D::Error> {
        self.0.visit_some(Objects(inner))
    }

    fn visit_newtype_struct<D: Deserializer<'de>>(self, inner: D) -> Result<V::Value, D::Error> {
        self.0.visit_newtype_struct(Objects(inner))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, list: A) -> Result<V::Value, A::Error> {
        self.0.visit_seq(Objects(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<V::Value, A::Error> {
        self.0.visit_map(Objects(map))
    }

    fn visit_enum<A: EnumAccess<'de>>(self, data: A) -> Result<V::Value, A::Error> {
        self.0.visit_enum(Objects(data))
    }
}

impl<'de, S: DeserializeSeed<'de>> DeserializeSeed<'de> for Objects<S> {
    type Value = S::Value;

    fn deserialize<D: Deserializer<'de>>(self, inner: D) -> Result<S::Value, D::Error> {
        self.0.deserialize(Objects(inner))
    }
}

impl<'de, A: SeqAccess<'de>> SeqAccess<'de> for Objects<A> {
    type Error = A::Error;

    fn next_element_seed<S: DeserializeSeed<'de>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, A::Error> {
        self.0.next_element_seed(Objects(seed))
    }

    fn size_hint(&self) -> Option<usize> {
        self.0.size_hint()
    }
}

impl<'de, A: MapAccess<'de>> MapAccess<'de> for Objects<A> {
    type Error = A::Error;

    fn next_key_seed<S: DeserializeSeed<'de>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, A::Error> {
        self.0.next_key_seed(Objects(seed))
    }

    fn next_value_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, A::Error> {
        self.0.next_value_seed(Objects(seed))
    }

    fn size_hint(&self) -> Option<usize> {
        self.0.size_hint()
    }
}

impl<'de, A: EnumAccess<'de>> EnumAccess<'de> for Objects<A> {
    type Error = A::Error;
    type Variant = Objects<A::Variant>;

    fn variant_seed<S: DeserializeSeed<'de>>(
        self,
        seed: S,
    ) -> Result<(S::Value, Self::Variant), A::Error> {
        let (value, variant) = self.0.variant_seed(Objects(seed))?;
        Ok((value, Objects(variant)))
    }
}

impl<'de, A: VariantAccess<'de>> VariantAccess<'de> for Objects<A> {
    type Error = A::Error;

    fn unit_variant(self) -> Result<(), A::Error> {
        self.0.unit_variant()
    }

    fn newtype_variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<S::Value, A::Error> {
        self.0.newtype_variant_seed(Objects(seed))
    }

    fn tuple_variant<V: Visitor<'de>>(self, len: usize, visitor: V) -> Result<V::Value, A::Error> {
        self.0.tuple_variant(len, Objects(visitor))
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, A::Error> {
        self.0.struct_variant(fields, Keyed(visitor))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde::Deserialize;

    #[derive(Debug, PartialEq, Deserialize)]
    struct Outer {
        inner: Inner,
        maybe: Option<Inner>,
        list: Vec<Inner>,
        wrapped: Wrapped,
        shape: Shape,
        plain: (u8, String),
    }

    #[derive(Debug, PartialEq, Deserialize)]
    struct Inner {
        a: i64,
    }

    #[derive(Debug, PartialEq, Deserialize)]
    struct Wrapped(Inner);

    #[derive(Debug, PartialEq, Deserialize)]
    #[serde(rename_all = "snake_case")]
    enum Shape {
        Named { inner: Inner },
        Both(Inner, f64),
        One(Inner),
        Plain,
    }

    const WHOLE: &str = r#"{"inner":{"a":1},"maybe":{"a":2},"list":[{"a":3},{"a":-4}],"wrapped":{"a":5},"shape":{"named":{"inner":{"a":6}}},"plain":[7,"b"]}"#;

    fn read<T: for<'de> Deserialize<'de>>(text: &str) -> Result<T, String> {
        let mut reader = serde_json::Deserializer::from_str(text);
        let read = serde_path_to_error::deserialize(Objects(&mut reader));
        read.map_err(|error| format!("{}: {}", error.path(), error.inner()))
    }

    #[test]
    fn what_has_its_keys_is_read_as_serde_reads_it() {
        for (from, to) in [
            ("", ""),
            (r#"{"named":{"inner":{"a":6}}}"#, r#""plain""#),
            (
                r#"{"named":{"inner":{"a":6}}}"#,
                r#"{"both":[{"a":6},0.5]}"#,
            ),
            (r#"{"named":{"inner":{"a":6}}}"#, r#"{"one":{"a":6}}"#),
            (r#""maybe":{"a":2},"#, ""),
            (r#""maybe":{"a":2}"#, r#""maybe":null"#),
            (r#"[{"a":3},{"a":-4}]"#, "[]"),
        ] {
            let text = WHOLE.replace(from, to);
            let plain: Outer = serde_json::from_str(&text).expect("serde reads it");
            assert_eq!(read(&text), Ok(plain), "{text}");
        }
    }

    #[test]
    fn lists_for_structs_are_refused_at_every_level() {
        for (from, to, path) in [
            (WHOLE, "[[1]]", "."),
            (r#""inner":{"a":1}"#, r#""inner":[1]"#, "inner"),
            (r#""maybe":{"a":2}"#, r#""maybe":[2]"#, "maybe"),
            (r#"{"a":-4}"#, "[-4]", "list[1]"),
            (r#""wrapped":{"a":5}"#, r#""wrapped":[5]"#, "wrapped"),
            (
                r#"{"named":{"inner":{"a":6}}}"#,
                r#"{"named":[{"a":6}]}"#,
                "shape.named",
            ),
            (
                r#"{"inner":{"a":6}}"#,
                r#"{"inner":[6]}"#,
                "shape.named.inner",
            ),
            (
                r#"{"named":{"inner":{"a":6}}}"#,
                r#"{"both":[[6],0.5]}"#,
                "shape.both[0]",
            ),
            (
                r#"{"named":{"inner":{"a":6}}}"#,
                r#"{"one":[6]}"#,
                "shape.one",
            ),
        ] {
            let text = WHOLE.replacen(from, to, 1);
            let refused = read::<Outer>(&text).expect_err(&text);
            let wanted = format!(
                "{path}: invalid type: sequence, expected keys and values in braces, as in {{\"key\": \"value\"}}"
            );
            assert!(refused.starts_with(&wanted), "{text}: {refused}");
        }
    }
}
