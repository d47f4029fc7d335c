//! Strings across the boundary: borrowed from C for the time of a call, or given to C until freed.
#![allow(unsafe_code)]

use std::ffi::{CStr, CString, c_char};

use crate::job::Refusal;

/// The text behind a pointer that C passed.
///
/// `what` names it in the refusal: null, or not UTF-8.
///
/// # Safety
///
/// `text` is null, or points to bytes that end with a NUL and stay as they are for `'a`.
pub(crate) unsafe fn borrowed<'a>(text: *const c_char, what: &str) -> Result<&'a str, Refusal> {
    if text.is_null() {
        return Err(Refusal::call(format!("{what} is null; give a string")));
    }
    // SAFETY: not null, and the caller vouches for the NUL and the lifetime.
    let text = unsafe { CStr::from_ptr(text) };
    text.to_str().map_err(|error| {
        let at = error.valid_up_to();
        Refusal::call(format!("{what} is not UTF-8 at byte {at}; give UTF-8"))
    })
}

/// Writes a text to a place that C owns; with a null place it is dropped.
///
/// # Safety
///
/// `place` is null or may be written.
pub(crate) unsafe fn give(place: *mut *mut c_char, text: Option<String>) {
    if place.is_null() {
        return;
    }
    let text = text.map_or(std::ptr::null_mut(), |text| owned(text).into_raw());
    // SAFETY: not null, and the caller vouches that it may be written.
    unsafe { place.write(text) };
}

/// Takes back a text that [`give`] gave, and frees it.
///
/// # Safety
///
/// `text` is null or came from [`give`], and wasn't taken back before.
pub(crate) unsafe fn take_back(text: *mut c_char) {
    if !text.is_null() {
        // SAFETY: not null, and the caller vouches that `CString::into_raw` made it in `give`.
        drop(unsafe { CString::from_raw(text) });
    }
}

/// A C string of this text; a NUL inside, which would end it too early, becomes U+FFFD.
pub(crate) fn owned(text: String) -> CString {
    CString::new(text).unwrap_or_else(|error| {
        let text = String::from_utf8_lossy(&error.into_vec()).replace('\0', "\u{fffd}");
        CString::new(text).unwrap_or_default()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_nul_inside_does_not_end_a_text() {
        let text = owned("a\0b".to_owned());
        assert_eq!(text.to_str(), Ok("a\u{fffd}b"));
    }

    #[test]
    fn null_and_bytes_that_are_no_text_are_refused() {
        // SAFETY: null is allowed.
        let null = unsafe { borrowed(std::ptr::null(), "plan") };
        assert_eq!(
            null.expect_err("null").to_string(),
            "plan is null; give a string"
        );
        // SAFETY: a literal with a NUL at its end.
        let bytes = unsafe { borrowed(c"ab\xff".as_ptr(), "plan") };
        assert_eq!(
            bytes.expect_err("no UTF-8").to_string(),
            "plan is not UTF-8 at byte 2; give UTF-8"
        );
    }
}
