//! The types of what goes in and out, for TypeScript.

use wasm_bindgen::prelude::wasm_bindgen;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &'static str = include_str!("types.ts");

#[wasm_bindgen(typescript_custom_section)]
const FRAME: &'static str = include_str!("frame.ts");
