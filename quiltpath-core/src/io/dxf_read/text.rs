//! Bytes to text: UTF-8, UTF-16 with a byte order mark, or the code page that the header names.
//!
//! Only the names of layers and blocks are more than ASCII, so that what can't be decoded is
//! replaced and never refused.

use std::borrow::Cow;

use encoding_rs::{Encoding, WINDOWS_1252};

use crate::error::{DxfFault, Error};

/// How a binary DXF begins, by the published DXF reference.
pub(super) const BINARY: &[u8] = b"AutoCAD Binary DXF\r\n\x1a\0";

/// The text of a file.
pub(super) fn text(bytes: &[u8]) -> Result<Cow<'_, str>, Error> {
    if bytes.starts_with(BINARY) {
        return Err(DxfFault::Binary.into());
    }
    if let Some((encoding, length)) = Encoding::for_bom(bytes) {
        let (text, _) = encoding.decode_without_bom_handling(&bytes[length..]);
        return Ok(text);
    }
    // From release 2007 on files are UTF-8. Older ones in a code page are that too where all is
    // ASCII, and hardly ever otherwise.
    Ok(match std::str::from_utf8(bytes) {
        Ok(text) => Cow::Borrowed(text),
        Err(_) => code_page(bytes).decode_without_bom_handling(bytes).0,
    })
}

/// The code page that the header names, such as `ANSI_1252`, which is also taken where none is
/// known.
fn code_page(bytes: &[u8]) -> &'static Encoding {
    const VARIABLE: &[u8] = b"$DWGCODEPAGE";
    const FARTHEST: usize = 1 << 16;
    let head = &bytes[..bytes.len().min(FARTHEST)];
    let after = head
        .windows(VARIABLE.len())
        .position(|part| part == VARIABLE)
        .map(|at| String::from_utf8_lossy(&head[at + VARIABLE.len()..]));
    let name = after.as_deref().unwrap_or_default();
    // The group code 3 stands between the variable and its value.
    let name = name.split_ascii_whitespace().nth(1).unwrap_or_default();
    let number = name.rsplit('_').next().unwrap_or_default();
    let label = match number {
        "932" => "shift_jis".to_owned(),
        "936" => "gbk".to_owned(),
        "949" => "euc-kr".to_owned(),
        "950" => "big5".to_owned(),
        "866" => "ibm866".to_owned(),
        _ => format!("windows-{number}"),
    };
    Encoding::for_label(label.as_bytes()).unwrap_or(WINDOWS_1252)
}

/// The longest name, by the published DXF reference (from memory).
const LONGEST_NAME: usize = 255;

/// A name with its escapes, such as `\U+00E9` for é, read; what is too long for a name is cut.
pub(super) fn name(written: &str) -> String {
    let mut name = String::new();
    let mut rest = written.chars();
    for _ in 0..LONGEST_NAME {
        match escaped(rest.as_str()) {
            Some((letter, after)) => {
                name.push(letter);
                rest = after.chars();
            }
            None => name.extend(rest.next()),
        }
    }
    name
}

/// The letter that an escape at the start of a text stands for, and what comes after it.
fn escaped(text: &str) -> Option<(char, &str)> {
    let (digits, after) = text.strip_prefix("\\U+")?.split_at_checked(4)?;
    let read = u32::from_str_radix(digits, 16).ok()?;
    Some((char::from_u32(read)?, after))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_decoded_by_the_code_page() {
        let file = |page: &str, name: &[u8]| {
            let head = format!("9\n$DWGCODEPAGE\n  3\n{page}\n8\n");
            let bytes = [head.as_bytes(), name].concat();
            let text = text(&bytes).expect("text").into_owned();
            text.lines().last().unwrap_or_default().to_owned()
        };
        assert_eq!(file("ANSI_1252", b"bl\xfcte"), "bl\u{fc}te");
        assert_eq!(
            file("ANSI_1251", b"\xcb\xe8\xf1\xf2"),
            "\u{41b}\u{438}\u{441}\u{442}"
        );
        assert_eq!(file("ANSI_932", b"\x89\xd4"), "\u{82b1}");
        assert_eq!(file("unknown", b"\xe9"), "\u{e9}");
        assert_eq!(file("ANSI_1252", "\u{e9}".as_bytes()), "\u{e9}");
        assert_eq!(text(b"\xff\xfe0\0\n\0").expect("text"), "0\n");
        assert_eq!(text(b"\xef\xbb\xbf0").expect("text"), "0");
        let refused = text(b"AutoCAD Binary DXF\r\n\x1a\0\0").expect_err("binary");
        assert!(
            refused
                .to_string()
                .contains("save the drawing as ASCII DXF")
        );
    }

    #[test]
    fn escapes_in_names_are_read() {
        assert_eq!(name("bl\\U+00FCte"), "bl\u{fc}te");
        assert_eq!(name("\\U+00e9\\U+"), "\u{e9}\\U+");
        assert_eq!(
            name("\\U+D800x\\U+0\u{e9}\u{e9}"),
            "\\U+D800x\\U+0\u{e9}\u{e9}"
        );
        assert_eq!(name("plain"), "plain");
        // Names go with each line that is drawn, so one of a megabyte would fill the memory.
        assert_eq!(name(&"\\U+00e9".repeat(100_000)), "\u{e9}".repeat(255));
        assert_eq!(name(&"leaf".repeat(100_000)).len(), 255);
    }
}
