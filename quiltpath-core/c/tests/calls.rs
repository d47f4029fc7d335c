//! The interface called as C calls it: the result, every refusal, null, no UTF-8, several threads.
#![allow(unsafe_code)]

use std::ffi::{CStr, CString, c_char, c_void};
use std::path::PathBuf;
use std::ptr::{null, null_mut};

use quiltpath_c::abi::*;

fn demo() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/demo")
}

fn plan() -> CString {
    CString::new(std::fs::read(demo().join("plan.json")).expect("the plan")).expect("no NUL")
}

fn folder() -> CString {
    CString::new(demo().to_str().expect("a path")).expect("no NUL")
}

/// Takes a text that the library gave.
fn taken(text: *mut c_char) -> Option<String> {
    if text.is_null() {
        return None;
    }
    // SAFETY: not null, so a string that the library gave.
    let copy = unsafe { CStr::from_ptr(text) };
    let copy = copy.to_str().expect("UTF-8").to_owned();
    // SAFETY: given by the library and freed once.
    unsafe { quiltpath_free(text) };
    Some(copy)
}

type Outcome = (i32, Option<String>, Option<String>);

fn in_folder(plan: *const c_char, folder: *const c_char) -> Outcome {
    let (mut result, mut error) = (null_mut(), null_mut());
    // SAFETY: null or literals and `CString`s of the callers; places on the stack.
    let status = unsafe { quiltpath_plan_in_folder(plan, folder, &raw mut result, &raw mut error) };
    (status, taken(result), taken(error))
}

fn with(plan: &CStr, read: ReadMotif, context: *mut c_void) -> Outcome {
    let (mut result, mut error) = (null_mut(), null_mut());
    // SAFETY: a string, a function of this file with its context, places on the stack.
    let status = unsafe {
        quiltpath_plan(
            plan.as_ptr(),
            read,
            context,
            &raw mut result,
            &raw mut error,
        )
    };
    (status, taken(result), taken(error))
}

/// Answers with the demo's files and counts the calls in its context.
unsafe extern "C" fn from_demo(context: *mut c_void, name: *const c_char, motif: *mut Answer) {
    // SAFETY: the context is the counter of the test below.
    unsafe { *context.cast::<usize>() += 1 };
    // SAFETY: the library gives a string.
    let name = unsafe { CStr::from_ptr(name) };
    let bytes = std::fs::read(demo().join(name.to_str().expect("UTF-8"))).expect("a motif");
    // SAFETY: the motif that the library gave, and bytes that live.
    unsafe { quiltpath_motif_bytes(motif, bytes.as_ptr().cast(), bytes.len()) };
}

unsafe extern "C" fn silent(_: *mut c_void, _: *const c_char, _: *mut Answer) {}

unsafe extern "C" fn refusing(_: *mut c_void, _: *const c_char, motif: *mut Answer) {
    // SAFETY: the motif that the library gave, and a literal.
    unsafe { quiltpath_motif_refuse(motif, c"the shop is closed".as_ptr()) };
}

unsafe extern "C" fn nothing(_: *mut c_void, _: *const c_char, motif: *mut Answer) {
    // SAFETY: the motif that the library gave; null is allowed.
    unsafe { quiltpath_motif_bytes(motif, null(), 7) };
}

#[test]
fn the_version_is_the_crates() {
    // SAFETY: a string that is never freed.
    let version = unsafe { CStr::from_ptr(quiltpath_version()) };
    assert_eq!(version.to_str(), Ok(env!("CARGO_PKG_VERSION")));
}

#[test]
fn a_folder_and_a_function_give_the_same_result() {
    let (status, result, error) = in_folder(plan().as_ptr(), folder().as_ptr());
    assert_eq!((status, error), (DONE, None));
    let result = result.expect("a result");
    assert!(result.starts_with('{') && result.contains("\"passes\""));
    let mut calls = 0_usize;
    let again = with(&plan(), Some(from_demo), (&raw mut calls).cast());
    assert_eq!(again, (DONE, Some(result), None));
    assert_eq!(calls, 2);
}

#[test]
fn threads_call_at_once() {
    let results: Vec<Outcome> = std::thread::scope(|scope| {
        let call = || in_folder(plan().as_ptr(), folder().as_ptr());
        let threads: Vec<_> = (0..4).map(|_| scope.spawn(call)).collect();
        let joined = threads.into_iter().map(|thread| thread.join());
        joined.map(|result| result.expect("no panic")).collect()
    });
    assert!(results.iter().all(|result| *result == results[0]));
    assert_eq!(results[0].0, DONE);
}

#[test]
fn bad_data_is_reported_with_its_place() {
    let message = |outcome: Outcome| {
        assert_eq!((outcome.0, &outcome.1), (BAD_DATA, &None));
        outcome.2.expect("an error")
    };
    let error = message(in_folder(c"{\"unit\":\"in\"".as_ptr(), folder().as_ptr()));
    assert!(error.starts_with("1:"), "{error}");
    let error = message(in_folder(plan().as_ptr(), c"/nowhere".as_ptr()));
    assert!(error.contains("/nowhere/"), "{error}");
    let none = c"{\"unit\":\"in\",\"quilt\":{\"width\":40},\"borders\":[]}";
    let error = message(in_folder(none.as_ptr(), folder().as_ptr()));
    assert!(
        error.contains("; in the plan, \"quilt\" holds \"width\" and \"height\""),
        "{error}"
    );
    let error = message(with(&plan(), Some(refusing), null_mut()));
    assert!(error.contains("the shop is closed"), "{error}");
    let error = message(with(&plan(), Some(silent), null_mut()));
    assert!(error.contains("read_motif gave no answer"), "{error}");
    let error = message(with(&plan(), Some(nothing), null_mut()));
    assert!(error.contains("7 bytes at a null pointer"), "{error}");
}

#[test]
fn null_and_no_utf8_are_bad_calls() {
    let message = |outcome: Outcome| {
        assert_eq!((outcome.0, &outcome.1), (BAD_CALL, &None));
        outcome.2.expect("an error")
    };
    let folder = folder();
    let error = message(in_folder(null(), folder.as_ptr()));
    assert_eq!(error, "plan is null; give a string");
    let error = message(in_folder(plan().as_ptr(), null()));
    assert_eq!(error, "folder is null; give a string");
    let error = message(in_folder(c"{\xff}".as_ptr(), folder.as_ptr()));
    assert_eq!(error, "plan is not UTF-8 at byte 1; give UTF-8");
    let error = message(with(&plan(), None, null_mut()));
    assert_eq!(error, "read_motif is null; give a function");
}

#[test]
fn places_that_are_null_are_left_alone() {
    let (plan, folder) = (plan(), folder());
    let mut error = null_mut();
    // SAFETY: strings, null where it is allowed, a place on the stack.
    let status = unsafe {
        quiltpath_plan_in_folder(plan.as_ptr(), folder.as_ptr(), null_mut(), &raw mut error)
    };
    assert_eq!(status, BAD_CALL);
    let error = taken(error).expect("an error");
    assert!(error.starts_with("result is null"), "{error}");
    // SAFETY: as above.
    let status = unsafe { quiltpath_plan_in_folder(null(), null(), null_mut(), null_mut()) };
    assert_eq!(status, BAD_CALL);
    // SAFETY: null is ignored.
    unsafe { quiltpath_free(null_mut()) };
    // SAFETY: null is ignored.
    unsafe { quiltpath_motif_bytes(null_mut(), null(), 0) };
    // SAFETY: null is ignored.
    unsafe { quiltpath_motif_refuse(null_mut(), null()) };
}

#[test]
fn what_an_earlier_call_left_is_not_given_again() {
    let (mut result, mut error): (*mut c_char, *mut c_char) =
        (std::ptr::dangling_mut(), std::ptr::dangling_mut());
    // SAFETY: places on the stack, whose content is not read.
    let status =
        unsafe { quiltpath_plan_in_folder(null(), null(), &raw mut result, &raw mut error) };
    assert_eq!(status, BAD_CALL);
    assert!(result.is_null());
    assert!(taken(error).is_some());
}
