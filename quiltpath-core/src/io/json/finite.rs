//! Numbers that are not finite, which JSON can't hold, as errors.
//!
//! By itself, the JSON writer puts `null` where NaN or an infinity stands.

use serde::Serialize;
use serde::ser::{self, Serializer};

use crate::error::Error;

/// Compact JSON and a line end.
///
/// # Errors
///
/// A geometry error with the key path of the first number that is not finite.
pub(in crate::io) fn to_text(value: &impl Serialize) -> Result<String, Error> {
    let mut out = Vec::new();
    let mut track = serde_path_to_error::Track::new();
    let mut writer = serde_json::Serializer::new(&mut out);
    let tracked = serde_path_to_error::Serializer::new(&mut writer, &mut track);
    let written = value.serialize(Finite(tracked));
    written.map_err(|error| {
        // Structs with string keys fail in memory by their numbers alone.
        let value = error.to_string().parse().unwrap_or(f64::NAN);
        Error::bad_number("the number", value, "a finite number")
            .in_element(track.path().to_string())
    })?;
    out.push(b'\n');
    Ok(String::from_utf8(out).unwrap_or_default())
}

/// Passes everything on, at every level, but refuses numbers that are not finite.
pub(super) struct Finite<T>(pub(super) T);

impl<T: Serialize + ?Sized> Serialize for Finite<&T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.0.serialize(Finite(serializer))
    }
}

macro_rules! pass_on {
    ($($method:ident($($name:ident: $type:ty),*))*) => {$(
        fn $method(self $(, $name: $type)*) -> Result<S::Ok, S::Error> {
            self.0.$method($($name),*)
        }
    )*};
}

macro_rules! open {
    ($($method:ident($($name:ident: $type:ty),*) -> $compound:ident)*) => {$(
        fn $method(self $(, $name: $type)*) -> Result<Finite<S::$compound>, S::Error> {
            self.0.$method($($name),*).map(Finite)
        }
    )*};
}

impl<S: Serializer> Serializer for Finite<S> {
    type Ok = S::Ok;
    type Error = S::Error;
    type SerializeSeq = Finite<S::SerializeSeq>;
    type SerializeTuple = Finite<S::SerializeTuple>;
    type SerializeTupleStruct = Finite<S::SerializeTupleStruct>;
    type SerializeTupleVariant = Finite<S::SerializeTupleVariant>;
    type SerializeMap = Finite<S::SerializeMap>;
    type SerializeStruct = Finite<S::SerializeStruct>;
    type SerializeStructVariant = Finite<S::SerializeStructVariant>;

    fn serialize_f32(self, value: f32) -> Result<S::Ok, S::Error> {
        check(value.into())?;
        self.0.serialize_f32(value)
    }

    fn serialize_f64(self, value: f64) -> Result<S::Ok, S::Error> {
        check(value)?;
        self.0.serialize_f64(value)
    }

    fn serialize_some<T: Serialize + ?Sized>(self, value: &T) -> Result<S::Ok, S::Error> {
        self.0.serialize_some(&Finite(value))
    }

    fn serialize_newtype_struct<T: Serialize + ?Sized>(
        self,
        name: &'static str,
        value: &T,
    ) -> Result<S::Ok, S::Error> {
        self.0.serialize_newtype_struct(name, &Finite(value))
    }

    fn serialize_newtype_variant<T: Serialize + ?Sized>(
        self,
        name: &'static str,
        index: u32,
        variant: &'static str,
        value: &T,
    ) -> Result<S::Ok, S::Error> {
        let value = Finite(value);
        self.0
            .serialize_newtype_variant(name, index, variant, &value)
    }

    pass_on! {
        serialize_bool(value: bool)
        serialize_i8(value: i8) serialize_i16(value: i16) serialize_i32(value: i32)
        serialize_i64(value: i64) serialize_i128(value: i128)
        serialize_u8(value: u8) serialize_u16(value: u16) serialize_u32(value: u32)
        serialize_u64(value: u64) serialize_u128(value: u128)
        serialize_char(value: char) serialize_str(value: &str) serialize_bytes(value: &[u8])
        serialize_none() serialize_unit() serialize_unit_struct(name: &'static str)
        serialize_unit_variant(name: &'static str, index: u32, variant: &'static str)
    }

    open! {
        serialize_seq(len: Option<usize>) -> SerializeSeq
        serialize_tuple(len: usize) -> SerializeTuple
        serialize_tuple_struct(name: &'static str, len: usize) -> SerializeTupleStruct
        serialize_tuple_variant(name: &'static str, index: u32, variant: &'static str, len: usize)
            -> SerializeTupleVariant
        serialize_map(len: Option<usize>) -> SerializeMap
        serialize_struct(name: &'static str, len: usize) -> SerializeStruct
        serialize_struct_variant(name: &'static str, index: u32, variant: &'static str, len: usize)
            -> SerializeStructVariant
    }

    fn is_human_readable(&self) -> bool {
        self.0.is_human_readable()
    }
}

fn check<E: ser::Error>(value: f64) -> Result<(), E> {
    if value.is_finite() {
        return Ok(());
    }
    Err(E::custom(value))
}

macro_rules! compound {
    ($($trait:ident { $($method:ident($($key:ident: $type:ty)?))* })*) => {$(
        impl<S: ser::$trait> ser::$trait for Finite<S> {
            type Ok = S::Ok;
            type Error = S::Error;

            $(fn $method<T: Serialize + ?Sized>(&mut self, $($key: $type,)? value: &T) -> Result<(), S::Error> {
                self.0.$method($($key,)? &Finite(value))
            })*

            fn end(self) -> Result<S::Ok, S::Error> {
                self.0.end()
            }
        }
    )*};
}

compound! {
    SerializeSeq { serialize_element() }
    SerializeTuple { serialize_element() }
    SerializeTupleStruct { serialize_field() }
    SerializeTupleVariant { serialize_field() }
    SerializeMap { serialize_key() serialize_value() }
    SerializeStruct { serialize_field(key: &'static str) }
    SerializeStructVariant { serialize_field(key: &'static str) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Serialize)]
    struct Outer {
        inner: Vec<Shape>,
        maybe: Option<f64>,
        pair: (u8, f32),
    }

    #[derive(Serialize)]
    #[serde(rename_all = "snake_case")]
    enum Shape {
        Named { a: f64 },
        Both(f64, f64),
        One(f64),
        Plain,
    }

    fn outer(numbers: [f64; 6]) -> Outer {
        let [a, b, c, d, e, f] = numbers;
        let inner = vec![
            Shape::Plain,
            Shape::Named { a },
            Shape::Both(b, c),
            Shape::One(d),
        ];
        Outer {
            inner,
            maybe: Some(e),
            pair: (1, f as f32),
        }
    }

    #[test]
    fn finite_numbers_are_written_as_serde_writes_them() {
        let value = outer([0.1, -0.0, 1e300, 5e-324, 1.0, 0.5]);
        let text = serde_json::to_string(&value).expect("JSON");
        assert_eq!(to_text(&value).expect("finite"), text + "\n");
        assert_eq!(to_text(&None::<f64>).expect("no number"), "null\n");
    }

    #[test]
    fn others_are_refused_by_their_place_at_every_level() {
        let places = [
            "inner[1].a",
            "inner[2][0]",
            "inner[2][1]",
            "inner[3]",
            "maybe",
            "pair[1]",
        ];
        for (at, place) in places.into_iter().enumerate() {
            for (bad, word) in [
                (f64::NAN, "NaN"),
                (f64::INFINITY, "inf"),
                (f64::NEG_INFINITY, "-inf"),
            ] {
                let mut numbers = [0.5; 6];
                numbers[at] = bad;
                let error = to_text(&outer(numbers)).expect_err(place);
                assert!(error.is_geometry());
                let wanted = format!("{place}: the number is {word}; give a finite number");
                assert_eq!(error.to_string(), wanted);
            }
        }
    }
}
