//! At the frame, as JavaScript has it.

use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::fault::thrown;
use crate::worksheet::{Worksheet, giving, object};

#[wasm_bindgen]
impl Worksheet {
    /// The passes with their pictures, runs, marks and steps, what was read, and where it stopped.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`.
    #[wasm_bindgen(unchecked_return_type = "AtFrame")]
    pub fn passes(&mut self) -> Result<JsValue, JsValue> {
        object(&self.desk.passes().map_err(thrown)?)
    }

    /// Lays a pass, counted from 1, by `{readings: [{mark, x, y}], tape?: [{border?, side,
    /// length}]}` as they were written, and keeps the readings in the progress.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`; nothing is then kept.
    #[wasm_bindgen(unchecked_return_type = "LaidSeen")]
    pub fn lay(&mut self, pass: usize, readings: &str) -> Result<JsValue, JsValue> {
        object(&self.desk.lay(pass, readings).map_err(thrown)?)
    }

    /// Forgets the readings of a pass, counted from 1.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`.
    #[wasm_bindgen(js_name = forgetReadings)]
    pub fn forget_readings(&mut self, pass: usize) -> Result<(), JsValue> {
        self.desk.forget_readings(pass).map_err(thrown)
    }

    /// Gives the files of a pass, counted from 1, to `put(name, bytes)`: as laid, where readings of
    /// it are kept, or as planned.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`.
    #[wasm_bindgen(js_name = passFiles)]
    pub fn pass_files(
        &mut self,
        pass: usize,
        formats: Vec<String>,
        #[wasm_bindgen(unchecked_param_type = "(name: string, bytes: Uint8Array) => void")]
        put: &js_sys::Function,
    ) -> Result<(), JsValue> {
        giving(put, |each| {
            self.desk.pass_files(pass, &formats, each).map_err(thrown)
        })
    }

    /// Takes runs of a pass, both counted from 1, down as stitched, or back.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`; nothing is then changed.
    pub fn tick(&mut self, pass: usize, runs: Vec<usize>, done: bool) -> Result<(), JsValue> {
        self.desk.tick(pass, &runs, done).map_err(thrown)
    }

    /// What is left of a run that stopped, pass and run counted from 1, by `{at: [x, y]}`,
    /// `{after}`, `{stitch}` or `{minutes}`, begun `back` earlier; its files go to
    /// `put(name, bytes)`. Where several strands come by, they are listed instead.
    ///
    /// # Errors
    ///
    /// Throws a `Fault`.
    #[wasm_bindgen(unchecked_return_type = "RestSeen")]
    pub fn resume(
        &mut self,
        pass: usize,
        run: usize,
        stopping: &str,
        formats: Vec<String>,
        #[wasm_bindgen(unchecked_param_type = "(name: string, bytes: Uint8Array) => void")]
        put: &js_sys::Function,
    ) -> Result<JsValue, JsValue> {
        let mut answer = String::new();
        giving(put, |each| {
            let of = (pass, run);
            answer = self
                .desk
                .resume(of, stopping, &formats, each)
                .map_err(thrown)?;
            Ok(())
        })?;
        object(&answer)
    }
}
