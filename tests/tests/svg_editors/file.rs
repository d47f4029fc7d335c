//! A drawing's text as bytes: encodings, ends of lines, compression.

use std::io::Write as _;

use flate2::Compression;
use flate2::write::GzEncoder;

use super::dice::Dice;

/// The bytes of a file, the same as text that `usvg` can read, and what was made of it.
pub(crate) struct File {
    pub(crate) bytes: Vec<u8>,
    pub(crate) text: String,
    pub(crate) made: Vec<&'static str>,
}

pub(crate) fn file(seed: u64, text: &str) -> File {
    let mut dice = Dice::new(seed + 1_000_000);
    let mut made = Vec::new();
    let mut text = text.to_owned();
    if dice.once_in(3) {
        text = text.replace('\n', "\r\n");
        made.push("CRLF");
    }
    // Without a declaration an encoding shows by its mark alone.
    let declared = text.contains("@ENCODING@");
    let kinds: &[&'static str] = match declared {
        true => &[
            "UTF-8",
            "UTF-8 with a mark",
            "UTF-16",
            "ISO-8859-1",
            "windows-1252",
        ],
        false => &["UTF-8", "UTF-8 with a mark", "UTF-16"],
    };
    let kind = match dice.once_in(2) {
        true => "UTF-8",
        false => dice.pick(kinds),
    };
    made.push(kind);
    let name = match kind {
        "UTF-8 with a mark" => dice.pick(&["UTF-8", "utf-8"]),
        _ => kind,
    };
    let text = text.replace("@ENCODING@", name);
    let mut bytes = match kind {
        "UTF-16" => wide(&text, dice.once_in(2)),
        // All letters here are the same in both.
        "ISO-8859-1" | "windows-1252" => text
            .chars()
            .map(|c| u8::try_from(u32::from(c)).expect("a letter of Latin-1"))
            .collect(),
        "UTF-8 with a mark" => [b"\xEF\xBB\xBF", text.as_bytes()].concat(),
        _ => text.clone().into_bytes(),
    };
    if dice.once_in(4) {
        let mut packed = GzEncoder::new(Vec::new(), Compression::default());
        packed.write_all(&bytes).expect("memory");
        bytes = packed.finish().expect("memory");
        made.push("gzip");
    }
    File { bytes, text, made }
}

/// UTF-16 with its mark, low bytes first or last.
fn wide(text: &str, low_first: bool) -> Vec<u8> {
    let marked = std::iter::once(0xFEFF).chain(text.encode_utf16());
    marked
        .flat_map(|unit| match low_first {
            true => unit.to_le_bytes(),
            false => unit.to_be_bytes(),
        })
        .collect()
}
