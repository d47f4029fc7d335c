//! What goes wrong, as JavaScript gets it: an `Error` with its kind and its place.

use quiltpath_core::Error;
use quiltpath_core::error::ErrorKind;
use quiltpath_core::io::json::key_hint;
use serde::Serialize;
use wasm_bindgen::{JsCast, JsError, JsValue};

/// What goes wrong, and where.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fault {
    /// The area: `geometry`, `length`, `drawing`, `data`, `motif`, `leg`, `fit`, `stitch`, `check`,
    /// `plan`, `paper`, `scan`, `align`, `stitched` or `resume`.
    pub kind: &'static str,
    /// What is wrong and what would be accepted, with its place before it.
    pub message: String,
    /// The same without its place.
    pub reason: String,
    /// The drawing, where it is in one.
    pub file: Option<String>,
    /// The key path of a plan, an id or an index, where it is in one.
    pub place: Option<String>,
    /// Row and column in the text, from 1, where they are known.
    pub position: Option<[u32; 2]>,
    /// The key of the plan that helps, where one does.
    pub hint: Option<String>,
}

impl From<Error> for Fault {
    fn from(error: Error) -> Self {
        Self {
            kind: kind(error.kind()),
            message: error.to_string(),
            reason: error.kind().to_string(),
            file: error.file().map(str::to_owned),
            place: error.element().map(|place| place.replace(": ", ".")),
            position: error.position().map(|at| [at.row, at.column]),
            hint: key_hint(&error),
        }
    }
}

impl From<Fault> for JsValue {
    /// A JavaScript `Error` whose own properties are those of the fault.
    fn from(fault: Fault) -> Self {
        let error = JsValue::from(JsError::new(&fault.message));
        let text = serde_json::to_string(&fault).unwrap_or_default();
        if let Ok(properties) = js_sys::JSON::parse(&text) {
            let own: &js_sys::Object = error.unchecked_ref();
            let more: &js_sys::Object = properties.unchecked_ref();
            js_sys::Object::assign(own, more);
        }
        error
    }
}

fn kind(kind: &ErrorKind) -> &'static str {
    match kind {
        ErrorKind::Geometry(_) => "geometry",
        ErrorKind::Length(_) => "length",
        ErrorKind::Drawing(_) => "drawing",
        ErrorKind::Data(_) => "data",
        ErrorKind::Motif(_) => "motif",
        ErrorKind::Leg(_) => "leg",
        ErrorKind::Fit(_) => "fit",
        ErrorKind::Stitch(_) => "stitch",
        ErrorKind::Check(_) => "check",
        ErrorKind::Plan(_) => "plan",
        ErrorKind::Paper(_) => "paper",
        ErrorKind::Scan(_) => "scan",
        ErrorKind::Align(_) => "align",
        ErrorKind::Stitched(_) => "stitched",
        ErrorKind::Resume(_) => "resume",
        _ => "other",
    }
}

/// An error of the core as JavaScript gets it.
pub(crate) fn thrown(error: Error) -> JsValue {
    Fault::from(error).into()
}
