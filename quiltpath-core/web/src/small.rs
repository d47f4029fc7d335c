//! Small calls that need no plan: lengths as people write and read them, the schema, the look.

use quiltpath_core::Error;
use quiltpath_core::io::look;
use quiltpath_core::units::{Length, Unit};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::fault::thrown;

/// A unit by its name in plans.
pub(crate) fn unit(name: &str) -> Result<Unit, Error> {
    name.parse()
}

/// A length as people write it, such as `64 1/4` or `163 cm`, in millimetres; without a unit it is
/// taken in `unit`.
///
/// # Errors
///
/// Throws a fault of the kind `length` that says how to write it.
#[wasm_bindgen(js_name = readLength)]
pub fn read_length(text: &str, bare: &str) -> Result<f64, JsValue> {
    length(text, bare).map_err(thrown)
}

/// As [`read_length`], for any machine.
///
/// # Errors
///
/// A length error.
pub fn length(text: &str, bare: &str) -> Result<f64, Error> {
    let length: Length = text.parse()?;
    Ok(length.value * length.unit.unwrap_or(unit(bare)?).in_mm())
}

/// Millimetres as people read them in this unit: to the nearest 1/16 in, or half a millimetre.
///
/// # Errors
///
/// Throws a fault of the kind `length` for a unit that there isn't.
#[wasm_bindgen(js_name = readableLength)]
pub fn readable_length(mm: f64, in_unit: &str) -> Result<String, JsValue> {
    let own = unit(in_unit).map_err(thrown)?;
    Ok(own.readable(mm))
}

/// The paper, letters, colours and signs of pages and pictures, as a style sheet.
#[wasm_bindgen]
#[must_use]
pub fn look() -> String {
    [look::LOOK, look::TYPE].concat()
}
