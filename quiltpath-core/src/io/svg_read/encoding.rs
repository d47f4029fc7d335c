//! Bytes to text: unpacked, and decoded by a byte order mark or by what the file says of itself.
//!
//! XML 1.0, section 4.3.3 and appendix F; labels of encodings by the WHATWG Encoding Standard, in
//! which `ISO-8859-1` is windows-1252.

use std::borrow::Cow;
use std::io::Read;

use encoding_rs::{Encoding, UTF_8, UTF_16BE, UTF_16LE};
use flate2::bufread::MultiGzDecoder;

use super::limits::MAX_UNPACKED;
use super::place::position;
use crate::error::{DrawingFault, Error};

/// How a file begins that is compressed by gzip: RFC 1952, section 2.3.1.
const GZIP: [u8; 2] = [0x1F, 0x8B];

/// True for bytes that are compressed by gzip, or begin as XML in UTF-16.
#[cfg(feature = "json")]
pub(in crate::io) fn is_packed_or_wide(bytes: &[u8]) -> bool {
    bytes.starts_with(&GZIP)
        || matches!(
            bytes,
            [0xFF, 0xFE, b'<', 0, ..] | [0xFE, 0xFF, 0, b'<', ..] | [0, b'<', ..] | [b'<', 0, ..]
        )
}

/// The bytes of a file as they are, or unpacked.
pub(super) fn unpacked(bytes: &[u8]) -> Result<Cow<'_, [u8]>, Error> {
    if !bytes.starts_with(&GZIP) {
        return Ok(Cow::Borrowed(bytes));
    }
    let mut plain = Vec::new();
    let decoder = MultiGzDecoder::new(bytes);
    let read = decoder.take(MAX_UNPACKED + 1).read_to_end(&mut plain);
    if plain.len() as u64 > MAX_UNPACKED {
        let limit = MAX_UNPACKED >> 20;
        return Err(DrawingFault::Unpacked { limit }.into());
    }
    match read {
        Ok(_) => Ok(Cow::Owned(plain)),
        Err(fault) => Err(Error::from(DrawingFault::BadGzip).caused_by(fault)),
    }
}

/// The text of a file that is not compressed.
pub(super) fn text(bytes: &[u8]) -> Result<Cow<'_, str>, Error> {
    let (encoding, bytes) = match Encoding::for_bom(bytes) {
        Some((encoding, length)) => (encoding, &bytes[length..]),
        None => (declared(bytes)?, bytes),
    };
    if bytes.trim_ascii().is_empty() {
        return Err(DrawingFault::Empty.into());
    }
    if encoding == UTF_8 {
        return std::str::from_utf8(bytes)
            .map(Cow::Borrowed)
            .map_err(|fault| {
                let valid = std::str::from_utf8(&bytes[..fault.valid_up_to()]).unwrap_or("");
                located(valid, encoding).caused_by(fault)
            });
    }
    let decoded = encoding.decode_without_bom_handling_and_without_replacement(bytes);
    decoded.ok_or_else(|| {
        let (lossy, _) = encoding.decode_without_bom_handling(bytes);
        let valid = lossy
            .split(char::REPLACEMENT_CHARACTER)
            .next()
            .unwrap_or("");
        located(valid, encoding)
    })
}

fn located(valid: &str, encoding: &'static Encoding) -> Error {
    let place = position(valid, valid.len());
    let encoding = encoding.name();
    Error::from(DrawingFault::NotText { encoding }).at(place.row, place.column)
}

/// The encoding that a file without a byte order mark names, UTF-8 by default.
fn declared(bytes: &[u8]) -> Result<&'static Encoding, Error> {
    const FARTHEST: usize = 256;
    match bytes {
        [b'<', 0, ..] => return Ok(UTF_16LE),
        [0, b'<', ..] => return Ok(UTF_16BE),
        _ => {}
    }
    let head = &bytes[..bytes.len().min(FARTHEST)];
    let Some(head) = head.strip_prefix(b"<?xml") else {
        return Ok(UTF_8);
    };
    let head = String::from_utf8_lossy(head);
    let declaration = head.split("?>").next().unwrap_or_default();
    let Some((_, named)) = declaration.split_once("encoding") else {
        return Ok(UTF_8);
    };
    let named = named
        .trim_start()
        .strip_prefix('=')
        .unwrap_or_default()
        .trim_start();
    let name = ['"', '\'']
        .into_iter()
        .find_map(|quote| named.strip_prefix(quote)?.split(quote).next())
        .unwrap_or_default();
    match Encoding::for_label(name.as_bytes()) {
        // Whoever can read the declaration byte by byte has no text in UTF-16 before them.
        Some(found) if found == UTF_16LE || found == UTF_16BE => Ok(UTF_8),
        Some(found) => Ok(found),
        None => {
            let name = name.to_owned();
            Err(DrawingFault::UnknownEncoding { name }.into())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn in_16(text: &str, unit: fn(u16) -> [u8; 2]) -> Vec<u8> {
        text.encode_utf16().flat_map(unit).collect()
    }

    #[test]
    fn encodings_are_read_by_mark_and_declaration() {
        let plain = "<svg id='\u{e9}\u{20ac}'/>";
        let marked = format!("\u{feff}{plain}");
        let one_byte = |name: &str| {
            let mut bytes = format!("<?xml version='1.0' encoding='{name}'?>").into_bytes();
            bytes.extend(b"<svg id='\xE9\x80'/>");
            bytes
        };
        for bytes in [
            plain.as_bytes().to_vec(),
            marked.as_bytes().to_vec(),
            in_16(&marked, u16::to_le_bytes),
            in_16(&marked, u16::to_be_bytes),
            in_16(plain, u16::to_le_bytes),
            in_16(plain, u16::to_be_bytes),
            one_byte("windows-1252"),
            one_byte("ISO-8859-1"),
            one_byte("latin1"),
        ] {
            let text = text(&bytes).expect("text");
            assert!(text.ends_with(plain), "{text}");
        }
    }

    #[test]
    fn what_is_no_text_is_located_and_named() {
        let refusal = |bytes: &[u8]| text(bytes).expect_err("refused").to_string();
        assert!(refusal(b"").starts_with("the file is empty"));
        assert!(refusal(b"\xEF\xBB\xBF \n").starts_with("the file is empty"));
        assert!(refusal(b"<svg>\n \xE9").starts_with("2:2: the file is not UTF-8"));
        assert!(
            refusal(b"\xFF\xFE<\0\n\0\x00\xD8a\0").starts_with("2:1: the file is not UTF-16LE")
        );
        let source = text(b"<svg>\xE9").expect_err("no text");
        let source = std::error::Error::source(&source).expect("a source");
        assert!(source.downcast_ref::<std::str::Utf8Error>().is_some());
        let unknown = refusal(b"<?xml version='1.0' encoding='utf-42'?><svg/>");
        assert!(unknown.contains("\"utf-42\""), "{unknown}");
        let mixed = "<?xml version='1.0' encoding='UTF-16'?><svg/>";
        assert_eq!(text(mixed.as_bytes()).expect("text"), mixed);
    }

    fn packed(bytes: &[u8]) -> Vec<u8> {
        use std::io::Write;
        let mut encoder = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::best());
        encoder.write_all(bytes).expect("memory");
        encoder.finish().expect("memory")
    }

    #[test]
    fn compressed_drawings_are_unpacked_within_bounds() {
        let plain = b"<svg/>".repeat(1000);
        let small = packed(&plain);
        assert_eq!(unpacked(&small).expect("unpacked").as_ref(), plain);
        assert_eq!(unpacked(b"<svg/>").expect("plain").as_ref(), b"<svg/>");
        let cut = unpacked(&small[..small.len() - 9])
            .expect_err("cut off")
            .to_string();
        assert!(cut.contains("damaged"), "{cut}");
        let bomb = packed(&vec![
            b' ';
            usize::try_from(MAX_UNPACKED).expect("small") + 1
        ]);
        assert!(bomb.len() < 1_000_000);
        let refused = unpacked(&bomb).expect_err("too long").to_string();
        assert!(refused.contains("more than 128 MiB"), "{refused}");
    }
}
