//! How messages and results name files; `-` is stdin or stdout.

use std::path::Path;

use crate::message::one_line;

/// True for `-`, which stands for stdin or stdout.
pub(crate) fn is_stream(path: &Path) -> bool {
    path.as_os_str() == "-"
}

/// How messages name an input or a file.
pub(crate) fn label(path: &Path) -> String {
    if is_stream(path) {
        "stdin".to_owned()
    } else {
        one_line(&path.display().to_string())
    }
}

/// The name for what is made of a file: its own without its end.
pub(crate) fn stem(path: &Path) -> String {
    match path.file_stem() {
        Some(stem) if !is_stream(path) => stem.to_string_lossy().into_owned(),
        _ => "drawing".to_owned(),
    }
}

/// The folder that relative paths in this file start from.
pub(crate) fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    }
}
