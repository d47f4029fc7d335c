//! JSON Lines: a point list a line, read as one list with places that count in the whole text.

use super::points::{PointList, PointPath, read_point_line, read_points};
use crate::error::Error;
use crate::units::Unit;

/// True when the first line is whole JSON by itself and more follows.
#[cfg(feature = "svg")]
pub(in crate::io) fn is_point_lines(bytes: &[u8]) -> bool {
    let bytes = bytes.trim_ascii();
    let Some(end) = bytes.iter().position(|&byte| byte == b'\n') else {
        return false;
    };
    serde_json::from_slice::<serde::de::IgnoredAny>(&bytes[..end]).is_ok()
}

/// Reads JSON Lines: a point list a line; empty lines are skipped.
///
/// All paths come in the unit of the first line. `bare_unit` is the unit of lists that name none.
///
/// ```
/// use quiltpath_core::io::json::read_point_lines;
///
/// let text = br#"{"unit":"in","points":[[0,0],[1,0]]}
/// {"unit":"mm","points":[[0,0],[25.4,0]]}"#;
/// let list = read_point_lines(text, None)?;
/// assert_eq!(list.paths[1].points[1].x, 1.0);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`read_points`]; rows count in the whole text.
///
/// # Complexity
///
/// O(bytes).
pub fn read_point_lines(bytes: &[u8], bare_unit: Option<Unit>) -> Result<PointList, Error> {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return read_points(bytes, bare_unit);
    };
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut all: Option<PointList> = None;
    for (row, line) in text.lines().enumerate() {
        if line.trim().is_empty() {
            continue;
        }
        let read = read_point_line(line, bare_unit);
        let read = read.map_err(|e| e.below(row as u32).at(row as u32 + 1, 1))?;
        let all = all.get_or_insert_with(|| PointList {
            unit: read.unit,
            paths: Vec::new(),
        });
        all.paths
            .extend(read.paths.into_iter().map(|path| PointPath {
                points: read.unit.change_points(path.points, all.unit),
                ..path
            }));
    }
    match all {
        Some(list) => Ok(list),
        None => read_points(bytes, bare_unit),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_in_json_lines_has_its_row() {
        let text =
            b"{\"unit\":\"mm\",\"points\":[[0,0],[1,1]]}\n\n{\"unit\":\"mm\",\"pionts\":[]}\n";
        let error = read_point_lines(text, None)
            .expect_err("a typo")
            .to_string();
        assert!(error.starts_with("3:"), "{error}");
        assert!(error.contains("did you mean \"points\""), "{error}");
        let error = read_point_lines(b"[[0,0]]\n[[1,1]]", None).expect_err("no unit");
        assert!(error.to_string().starts_with("1:1: "), "{error}");
    }
}
