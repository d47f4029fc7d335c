//! The functions that C calls, as `include/quiltpath.h` declares them.
//!
//! Each takes over from C, hands the work to safe code under a guard against panics, and gives the
//! outcome back: a status, and texts that the caller frees.
#![allow(unsafe_code)]

use std::ffi::{c_char, c_void};
use std::path::Path;

use crate::job::{Refusal, guarded, result_of};
pub use crate::motifs::Answer;
use crate::{motifs, text};

/// The result is there: `QUILTPATH_DONE`.
pub const DONE: i32 = 0;
/// The plan or a motif is wrong or can't be read: `QUILTPATH_BAD_DATA`.
pub const BAD_DATA: i32 = 1;
/// A pointer is null or a string is not UTF-8: `QUILTPATH_BAD_CALL`.
pub const BAD_CALL: i32 = 2;
/// A fault of the library, which should not happen: `QUILTPATH_FAULT`.
pub const FAULT: i32 = 3;

/// Called once for each motif of a plan: `quiltpath_read_motif` in C.
pub type ReadMotif =
    Option<unsafe extern "C" fn(context: *mut c_void, name: *const c_char, motif: *mut Answer)>;

/// The version of the library, such as `0.1.0`; never freed.
#[unsafe(no_mangle)]
pub extern "C" fn quiltpath_version() -> *const c_char {
    const VERSION: &str = concat!(env!("CARGO_PKG_VERSION"), "\0");
    VERSION.as_ptr().cast()
}

/// Solves a plan whose motifs lie in a folder.
///
/// # Safety
///
/// `plan` and `folder` are null or strings that end with a NUL; `result` and `error` are null or
/// may be written.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn quiltpath_plan_in_folder(
    plan: *const c_char,
    folder: *const c_char,
    result: *mut *mut c_char,
    error: *mut *mut c_char,
) -> i32 {
    let outcome = guarded(|| {
        // SAFETY: the caller's promise for `plan`, which lasts for the call.
        let plan = unsafe { text::borrowed(plan, "plan") }?;
        // SAFETY: the caller's promise for `folder`, which lasts for the call.
        let folder = unsafe { text::borrowed(folder, "folder") }?;
        wanted(result)?;
        result_of(plan, |name| motifs::in_folder(Path::new(folder), name))
    });
    // SAFETY: the caller's promise for `result` and `error`.
    unsafe { hand_over(outcome, result, error) }
}

/// Solves a plan whose motifs the caller's function gives.
///
/// # Safety
///
/// As [`quiltpath_plan_in_folder`]; `read_motif` is null or a function that takes `context`, calls
/// nothing for `motif` but the functions for it, keeps neither of the other two, and doesn't
/// unwind.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn quiltpath_plan(
    plan: *const c_char,
    read_motif: ReadMotif,
    context: *mut c_void,
    result: *mut *mut c_char,
    error: *mut *mut c_char,
) -> i32 {
    let outcome = guarded(|| {
        // SAFETY: the caller's promise for `plan`, which lasts for the call.
        let plan = unsafe { text::borrowed(plan, "plan") }?;
        let null = || Refusal::call("read_motif is null; give a function".to_owned());
        let read_motif = read_motif.ok_or_else(null)?;
        wanted(result)?;
        result_of(plan, |name| {
            let asked = text::owned(name.to_owned());
            let mut answer = Answer::default();
            // SAFETY: the caller's promise for the function; both pointers outlive the call.
            unsafe { read_motif(context, asked.as_ptr(), &raw mut answer) };
            answer.bytes(name)
        })
    });
    // SAFETY: the caller's promise for `result` and `error`.
    unsafe { hand_over(outcome, result, error) }
}

/// Answers with the bytes of a drawing, which are copied.
///
/// # Safety
///
/// `motif` is null or what `read_motif` was called with, which hasn't returned yet; `bytes` is null
/// or points to `count` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn quiltpath_motif_bytes(
    motif: *mut Answer,
    bytes: *const c_void,
    count: usize,
) {
    // SAFETY: null, or the caller's promise for `motif`.
    let Some(answer) = (unsafe { motif.as_mut() }) else {
        return;
    };
    if bytes.is_null() || isize::try_from(count).is_err() {
        answer.refuse(format!("{count} bytes at a null pointer"));
        return;
    }
    // SAFETY: not null and no longer than memory, and the caller's promise for `bytes`.
    let bytes = unsafe { std::slice::from_raw_parts(bytes.cast::<u8>(), count) };
    answer.give(bytes);
}

/// Answers with the reason why there is no drawing.
///
/// # Safety
///
/// As [`quiltpath_motif_bytes`]; `reason` is null or a string that ends with a NUL.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn quiltpath_motif_refuse(motif: *mut Answer, reason: *const c_char) {
    // SAFETY: null, or the caller's promise for `motif`.
    let Some(answer) = (unsafe { motif.as_mut() }) else {
        return;
    };
    // SAFETY: the caller's promise for `reason`, which lasts for the call.
    let reason = unsafe { text::borrowed(reason, "the reason") };
    answer.refuse(reason.map_or_else(|refusal| refusal.to_string(), str::to_owned));
}

/// Frees a text that a call gave; null is ignored.
///
/// # Safety
///
/// `text` is null or came from a call, and wasn't freed before.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn quiltpath_free(text: *mut c_char) {
    // SAFETY: the caller's promise.
    unsafe { text::take_back(text) };
}

/// Refuses a call that has no place for its result.
fn wanted(result: *mut *mut c_char) -> Result<(), Refusal> {
    if result.is_null() {
        let message = "result is null; give a place for the result";
        return Err(Refusal::call(message.to_owned()));
    }
    Ok(())
}

/// Writes the outcome of a call to the places that C gave, and its status.
///
/// # Safety
///
/// `result` and `error` are null or may be written.
unsafe fn hand_over(
    outcome: Result<String, Refusal>,
    result: *mut *mut c_char,
    error: *mut *mut c_char,
) -> i32 {
    let status = match &outcome {
        Ok(_) => DONE,
        Err(Refusal::Data(_)) => BAD_DATA,
        Err(Refusal::Call(_)) => BAD_CALL,
        Err(Refusal::Fault(_)) => FAULT,
    };
    let (done, refused) = match outcome {
        Ok(text) => (Some(text), None),
        Err(refusal) => (None, Some(refusal.to_string())),
    };
    // SAFETY: the caller's promise for `result`.
    unsafe { text::give(result, done) };
    // SAFETY: the caller's promise for `error`.
    unsafe { text::give(error, refused) };
    status
}
