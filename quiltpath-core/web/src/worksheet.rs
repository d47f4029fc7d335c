//! A plan with its drawings and progress, as JavaScript has it.

use wasm_bindgen::prelude::wasm_bindgen;
use wasm_bindgen::{JsError, JsValue};

use quiltpath_core::io::json::write_plan;
use quiltpath_core::plan::DrawnFor;

use crate::desk::Desk;
use crate::drawn::{self, scan_picture};
use crate::fault::thrown;
use crate::panic::keep_panics;

/// A plan with its drawings and how far it is at the frame.
///
/// Nothing is written anywhere. Call `free` when it is needed no more.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Worksheet {
    pub(crate) desk: Desk,
}

/// JSON of ours as a JavaScript value.
pub(crate) fn object(text: &str) -> Result<JsValue, JsValue> {
    js_sys::JSON::parse(text)
}

/// Has `work` give files by name and bytes to a JavaScript function; what that throws comes after
/// the work.
pub(crate) fn giving(
    put: &js_sys::Function,
    work: impl FnOnce(&mut dyn FnMut(&str, &[u8])) -> Result<(), JsValue>,
) -> Result<(), JsValue> {
    let mut failed = Ok(());
    let mut each = |name: &str, bytes: &[u8]| {
        let bytes = js_sys::Uint8Array::from(bytes);
        let done = put.call2(&JsValue::NULL, &JsValue::from_str(name), &bytes);
        if let (Err(error), Ok(())) = (done, &failed) {
            failed = Err(error);
        }
    };
    work(&mut each)?;
    failed
}

#[wasm_bindgen]
impl Worksheet {
    /// A worksheet that nothing is filled in yet.
    #[wasm_bindgen(constructor)]
    #[must_use]
    pub fn new() -> Self {
        keep_panics();
        Self {
            desk: Desk::empty(),
        }
    }

    /// Opens a quilt in one file, `name.quilt.json`.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` with its place.
    pub fn open(text: &str) -> Result<Worksheet, JsValue> {
        keep_panics();
        let desk = Desk::open(text).map_err(thrown)?;
        Ok(Self { desk })
    }

    /// The quilt as one file.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`.
    pub fn save(&self) -> Result<String, JsValue> {
        self.desk.sheet.text().map_err(thrown)
    }

    /// The name of that file, by the title.
    #[wasm_bindgen(js_name = fileName)]
    #[must_use]
    pub fn file_name(&self) -> String {
        self.desk.sheet.file_name()
    }

    /// Puts another plan in place, as JSON text; drawings and progress stay.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` with its place; the plan is then as it was.
    #[wasm_bindgen(js_name = setPlan)]
    pub fn set_plan(&mut self, json: &str) -> Result<(), JsValue> {
        self.desk.set_plan(json).map_err(thrown)
    }

    /// The plan as JSON text.
    #[must_use]
    pub fn plan(&self) -> String {
        write_plan(self.desk.sheet.plan())
    }

    /// Puts a drawing under this name: an SVG, DXF or JSON drawing, or a PNG or JPEG picture.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` for what is no name of a file. The drawing is read when the plan is solved.
    #[wasm_bindgen(js_name = setDrawing)]
    pub fn set_drawing(&mut self, name: &str, bytes: Vec<u8>) -> Result<(), JsValue> {
        self.desk.set_drawing(name, bytes).map_err(thrown)
    }

    /// Takes a drawing out; whether there was one.
    #[wasm_bindgen(js_name = removeDrawing)]
    pub fn remove_drawing(&mut self, name: &str) -> bool {
        self.desk.remove_drawing(name)
    }

    /// The names of the drawings.
    #[must_use]
    pub fn drawings(&self) -> Vec<String> {
        self.desk.sheet.drawings().keys().cloned().collect()
    }

    /// Puts down what the plan is solved round and what happened at the frame since, each as JSON
    /// text as in `progress.json`, or nothing.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` with its place; nothing is then changed.
    #[wasm_bindgen(js_name = setProgress)]
    pub fn set_progress(
        &mut self,
        before: Option<String>,
        progress: Option<String>,
    ) -> Result<(), JsValue> {
        self.desk
            .set_progress(before.as_deref(), progress.as_deref())
            .map_err(thrown)
    }

    /// What the plan is solved round, as JSON text.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`.
    pub fn before(&self) -> Result<Option<String>, JsValue> {
        self.desk.before().map_err(thrown)
    }

    /// What happened at the frame, as JSON text.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`.
    pub fn progress(&self) -> Result<Option<String>, JsValue> {
        self.desk.progress().map_err(thrown)
    }

    /// What there is to note of the drawings: `[name, note]` pairs.
    ///
    /// # Errors
    ///
    /// None but a failure of the browser.
    #[wasm_bindgen(unchecked_return_type = "[string, string][]")]
    pub fn notes(&self) -> Result<JsValue, JsValue> {
        object(&serde_json::to_string(&self.desk.sheet.notes()).unwrap_or_default())
    }

    /// Solves the plan: its picture, findings and choices; of the picture only what changed since
    /// the last call.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` with its place in the plan or the drawing.
    #[wasm_bindgen(unchecked_return_type = "Seen")]
    pub fn solve(&mut self) -> Result<JsValue, JsValue> {
        object(&self.desk.view(false).map_err(thrown)?)
    }

    /// As `solve`, with order, stitches, minutes and thread.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`.
    #[wasm_bindgen(unchecked_return_type = "Seen")]
    pub fn stitch(&mut self) -> Result<JsValue, JsValue> {
        object(&self.desk.view(true).map_err(thrown)?)
    }

    /// Gives the whole picture at the next `solve` or `stitch`.
    #[wasm_bindgen(js_name = showAll)]
    pub fn show_all(&mut self) {
        self.desk.show_all();
    }

    /// Has letters of the picture so high that the longer side of the quilt is so many of them: 46
    /// at first, fewer where the picture is small.
    #[wasm_bindgen(js_name = setLetters)]
    pub fn set_letters(&mut self, letters: f64) {
        self.desk.set_letters(letters);
    }

    /// The drawing for the corners or the sides of a border as the plan takes it; null where there
    /// is none yet.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` for a drawing that can't be read, or is not what it is to be.
    #[wasm_bindgen(js_name = readDrawing, unchecked_return_type = "DrawingSeen | null")]
    pub fn read_drawing(
        &self,
        border: usize,
        #[wasm_bindgen(unchecked_param_type = "\"corner\" | \"side\"")] role: &str,
    ) -> Result<JsValue, JsValue> {
        let role = match role {
            "corner" => DrawnFor::Corner,
            _ => DrawnFor::Side,
        };
        let seen = self.desk.drawing(border, role).map_err(thrown)?;
        object(&seen.to_string())
    }

    /// Reads a drawing, and drops it: whether it can be taken.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` that says why not.
    #[wasm_bindgen(js_name = checkDrawing)]
    pub fn check_drawing(&self, name: &str, bytes: &[u8]) -> Result<(), JsValue> {
        let unit = self.desk.sheet.plan().unit.into();
        drawn::check_drawing(name, bytes, unit).map_err(thrown)
    }

    /// Reads a PNG or JPEG picture of a drawing on paper to lines: the drawing as an SVG, and the
    /// lines on the picture to check. `width` is how wide the drawing is, in millimetres.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` of the kind `scan`.
    #[wasm_bindgen(unchecked_return_type = "Scanned")]
    pub fn scan(&self, name: &str, bytes: &[u8], width: Option<f64>) -> Result<JsValue, JsValue> {
        let unit = self.desk.sheet.plan().unit.into();
        let found = scan_picture(name, bytes, width, unit).map_err(thrown)?;
        object(&found.to_string())
    }

    /// A change of a plan as edits: key paths with the values that they get, null where a key goes.
    ///
    /// # Errors
    ///
    /// Throws a `Fault` where the plan has no place for it.
    #[wasm_bindgen(js_name = editsOf, unchecked_return_type = "[(string | number)[], unknown][]")]
    pub fn edits_of(&self, plan: &str, change: &str) -> Result<JsValue, JsValue> {
        let change = serde_json::from_str(change);
        let change = change.map_err(|error| JsError::new(&error.to_string()))?;
        let edits = drawn::edits_of(plan, &change).map_err(thrown)?;
        object(&serde_json::to_string(&edits).unwrap_or_default())
    }

    /// The text of `result.json`, as the command writes it.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`.
    #[wasm_bindgen(js_name = resultJson)]
    pub fn result_json(&mut self) -> Result<String, JsValue> {
        self.desk.result().map_err(thrown)
    }

    /// The placement sheet as a page.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`.
    pub fn sheet(&mut self) -> Result<String, JsValue> {
        self.desk.sheet().map_err(thrown)
    }

    /// The picture as an SVG drawing.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`.
    pub fn picture(&mut self) -> Result<String, JsValue> {
        self.desk.picture().map_err(thrown)
    }

    /// Gives every file that the command writes of the plan to `put(name, bytes)`, lines in these
    /// formats besides SVG and JSON.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`.
    pub fn files(
        &mut self,
        formats: Vec<String>,
        #[wasm_bindgen(unchecked_param_type = "(name: string, bytes: Uint8Array) => void")]
        put: &js_sys::Function,
    ) -> Result<(), JsValue> {
        giving(put, |each| self.desk.files(&formats, each).map_err(thrown))
    }
}

impl Default for Worksheet {
    fn default() -> Self {
        Self::new()
    }
}
