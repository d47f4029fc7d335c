//! Whether the place of a file or a folder is free to write to.

use std::fs;
use std::path::Path;

use super::names::{is_stream, label};
use crate::failure::Failure;

/// Makes a folder to write files to, unless it is there.
pub(crate) fn ready_folder(path: &Path) -> Result<(), Failure> {
    match fs::metadata(path) {
        Ok(found) if found.is_dir() => Ok(()),
        Ok(_) => Err(Failure::File(format!(
            "{}: is a file; name a folder",
            label(path)
        ))),
        Err(_) => fs::create_dir(path).map_err(|e| Failure::file(path, "can't be made", &e)),
    }
}

/// Refuses a file that exists already, unless it is to be replaced.
pub(crate) fn check_free(path: &Path, force: bool) -> Result<(), Failure> {
    if is_stream(path) {
        return Ok(());
    }
    match fs::metadata(path) {
        Ok(found) if found.is_dir() => Err(Failure::File(format!(
            "{}: is a folder; name a file in it",
            label(path)
        ))),
        Ok(found) if found.is_file() && !force => Err(exists(&label(path))),
        _ => Ok(()),
    }
}

pub(super) fn exists(label: &str) -> Failure {
    Failure::File(format!(
        "{label}: exists already; give --force to replace it, or another name"
    ))
}
