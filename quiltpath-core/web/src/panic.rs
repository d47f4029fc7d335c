//! What a panic said, so that one clear message can be shown for it.

use std::panic;
use std::sync::{Mutex, Once};

use wasm_bindgen::prelude::wasm_bindgen;

static LAST: Mutex<Option<String>> = Mutex::new(None);
static HOOK: Once = Once::new();

/// Keeps the message of a panic from now on; the first worksheet or motif that is made calls it.
pub(crate) fn keep_panics() {
    HOOK.call_once(|| {
        panic::set_hook(Box::new(|info| {
            if let Ok(mut last) = LAST.lock() {
                *last = Some(info.to_string());
            }
        }));
    });
}

/// What the module said as it gave up, when it did. Load it afresh then.
#[wasm_bindgen(js_name = lastPanic)]
#[must_use]
pub fn last_panic() -> Option<String> {
    LAST.lock().ok().and_then(|last| last.clone())
}
