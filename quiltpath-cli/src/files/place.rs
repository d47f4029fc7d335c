//! Whether the place of a file or a folder is free to write to.

use std::fs;
use std::io;
use std::path::Path;

use super::names::{folder_of, is_stream, label};
use crate::failure::Failure;

/// Makes a folder to write files to, unless it is there.
pub(crate) fn ready_folder(path: &Path) -> Result<(), Failure> {
    match fs::metadata(path) {
        Ok(found) if found.is_dir() => Ok(()),
        Ok(_) => Err(Failure::File(format!(
            "{}: is a file; name a folder",
            label(path)
        ))),
        Err(_) => fs::create_dir_all(path).map_err(|error| unmade(path, "can't be made", &error)),
    }
}

/// Refuses a file where no folder can be, and one that exists already, unless it is to be replaced.
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
        Err(error) if error.kind() == io::ErrorKind::NotADirectory => {
            Err(unmade(path, "can't be written", &error))
        }
        _ => Ok(()),
    }
}

/// Refuses a name that promises another kind of file than the page which this command writes.
pub(crate) fn check_page_name(out: &Path, command: &str) -> Result<(), Failure> {
    let end = out.extension().and_then(|end| end.to_str());
    match end.map(str::to_ascii_lowercase).as_deref() {
        None | Some("html" | "htm") => Ok(()),
        Some(_) if !is_stream(out) && !out.starts_with("/dev") => Err(Failure::Usage(format!(
            "--out {}: {command} writes a page to print, as HTML; name it {}",
            label(out),
            label(&out.with_extension("html"))
        ))),
        Some(_) => Ok(()),
    }
}

/// Makes the folder that something is to be made in, and those above it, unless they are there.
pub(super) fn make_parents(path: &Path) -> io::Result<()> {
    fs::create_dir_all(folder_of(path)).map_err(|error| match error.kind() {
        // Some systems report a file in the way as what is there already.
        io::ErrorKind::AlreadyExists => io::ErrorKind::NotADirectory.into(),
        _ => error,
    })
}

pub(super) fn exists(label: &str) -> Failure {
    Failure::File(format!(
        "{label}: exists already; give --force to replace it, or another name"
    ))
}

/// Why nothing can be made at this path: most often because its folder isn't there.
pub(super) fn unmade(path: &Path, what: &str, error: &io::Error) -> Failure {
    let folder = folder_of(path);
    if error.kind() == io::ErrorKind::NotFound && !folder.exists() {
        let (path, folder) = (label(path), label(folder));
        return Failure::File(format!("{path}: {what}: there is no folder {folder}"));
    }
    Failure::file(path, what, error)
}
