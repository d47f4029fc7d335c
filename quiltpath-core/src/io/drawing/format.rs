//! The format of a drawing, by its content.

use std::path::Path;

use crate::io::dxf_read::is_dxf;
use crate::io::json::is_point_lines;
use crate::io::svg_read::is_packed_or_wide;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Format {
    Svg,
    Dxf,
    Json,
    JsonLines,
    #[cfg(feature = "scan")]
    Picture,
}

/// The format of a drawing by its first character; the file's name decides where that can't.
pub(super) fn format_of(path: &Path, bytes: &[u8]) -> Format {
    let end = path.extension().and_then(|end| end.to_str());
    let named =
        |names: &[&str]| end.is_some_and(|e| names.iter().any(|n| e.eq_ignore_ascii_case(n)));
    #[cfg(feature = "scan")]
    if crate::io::picture_read::is_picture(bytes) {
        return Format::Picture;
    }
    if is_packed_or_wide(bytes) {
        return Format::Svg;
    }
    if is_dxf(bytes) {
        return Format::Dxf;
    }
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    match bytes.iter().find(|byte| !byte.is_ascii_whitespace()) {
        Some(b'<') => Format::Svg,
        _ if named(&["jsonl", "ndjson"]) => Format::JsonLines,
        Some(b'{' | b'[') if is_point_lines(bytes) => Format::JsonLines,
        Some(b'{' | b'[') => Format::Json,
        _ if named(&["json"]) => Format::Json,
        _ if named(&["dxf"]) => Format::Dxf,
        _ => Format::Svg,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn format(name: &str, text: &str) -> Format {
        format_of(Path::new(name), text.as_bytes())
    }

    #[test]
    fn the_content_decides_the_format() {
        assert_eq!(format("a.json", "\u{feff} <svg/>"), Format::Svg);
        assert_eq!(format("a.svg", "\n [[0,0],[1,1]]"), Format::Json);
        assert_eq!(format("-", "[[0,0],\n[1,1]]\n"), Format::Json);
        assert_eq!(format("-", "[[0,0],[1,1]]\n\n"), Format::Json);
        assert_eq!(
            format("-", "[[0,0],[1,1]]\n[[0,0],[2,1]]\n"),
            Format::JsonLines
        );
        assert_eq!(format("a.NDJSON", "[[0,0],[1,1]]"), Format::JsonLines);
        assert_eq!(format("a.json", "hello"), Format::Json);
        assert_eq!(format("a.json", ""), Format::Json);
        assert_eq!(format("a.svg", ""), Format::Svg);
        assert_eq!(format("a.DXF", ""), Format::Dxf);
        assert_eq!(format("a.dxf", "<svg/>"), Format::Svg);
        for text in [
            "  0\r\nSECTION\r\n",
            "999\n\n999\n0\n0\nSECTION\n",
            "AutoCAD Binary DXF\r\n\x1a\0",
        ] {
            assert_eq!(format("a.svg", text), Format::Dxf, "{text}");
        }
        for text in ["0\nEOF\n", "9\nSECTION", "999\n", "0", "00\nSECTION"] {
            assert_eq!(format("a.svg", text), Format::Svg, "{text}");
        }
        for bytes in [
            &b"\x1f\x8b\x08"[..],
            b"\xff\xfe<\0",
            b"\xfe\xff\0<",
            b"\0<\0s",
        ] {
            assert_eq!(format_of(Path::new("-"), bytes), Format::Svg);
        }
    }
}
