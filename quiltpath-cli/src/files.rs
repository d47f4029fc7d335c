//! Files in and out: `-` for stdin and stdout; a file is written whole or not at all.

use std::fs;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

use crate::failure::Failure;

/// True for `-`, which stands for stdin or stdout.
pub(crate) fn is_stream(path: &Path) -> bool {
    path.as_os_str() == "-"
}

/// How messages name an input or a file.
pub(crate) fn label(path: &Path) -> String {
    if is_stream(path) {
        "stdin".to_owned()
    } else {
        path.display().to_string()
    }
}

/// The folder that relative paths in this file start from.
pub(crate) fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    }
}

/// The whole file, or the whole of stdin.
pub(crate) fn read(path: &Path) -> Result<Vec<u8>, Failure> {
    let bytes = if is_stream(path) {
        let mut bytes = Vec::new();
        io::stdin().lock().read_to_end(&mut bytes).map(|_| bytes)
    } else {
        fs::read(path)
    };
    bytes.map_err(|error| Failure::file(path, "can't be read", &error))
}

/// The files of a folder whose names end in one of these, by name.
pub(crate) fn read_folder(folder: &Path, ends: &[&str]) -> Result<Vec<PathBuf>, Failure> {
    let failed = |error: io::Error| Failure::file(folder, "can't be read", &error);
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).map_err(failed)? {
        let path = entry.map_err(failed)?.path();
        let end = path.extension().and_then(|end| end.to_str());
        let fits = end.is_some_and(|end| ends.iter().any(|e| end.eq_ignore_ascii_case(e)));
        if fits && path.is_file() {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}

/// Writes data to stdout; a reader that stops early ends the command without an error.
pub(crate) fn print(bytes: &[u8]) -> Result<(), Failure> {
    let mut stdout = io::stdout().lock();
    let written = stdout.write_all(bytes).and_then(|()| stdout.flush());
    written.map_err(|error| match error.kind() {
        io::ErrorKind::BrokenPipe => Failure::PipeClosed,
        _ => Failure::File(format!("stdout: can't be written: {error}")),
    })
}

/// Refuses a file that exists already, unless it is to be replaced.
pub(crate) fn check_free(path: &Path, force: bool) -> Result<(), Failure> {
    match fs::metadata(path) {
        Ok(found) if found.is_dir() => Err(Failure::File(format!(
            "{}: is a folder; name a file in it",
            label(path)
        ))),
        Ok(found) if found.is_file() && !force => Err(exists(path)),
        _ => Ok(()),
    }
}

fn exists(path: &Path) -> Failure {
    Failure::File(format!(
        "{}: exists already; give --force to replace it, or another name",
        label(path)
    ))
}

/// Writes a file under a temporary name in its folder, then gives it its own name.
///
/// Devices and pipes are written to as they are.
pub(crate) fn save(path: &Path, force: bool, bytes: &[u8]) -> Result<(), Failure> {
    check_free(path, force)?;
    let failed = |error: io::Error| Failure::file(path, "can't be written", &error);
    if fs::metadata(path).is_ok_and(|found| !found.is_file()) {
        return match fs::write(path, bytes) {
            Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Err(Failure::PipeClosed),
            result => result.map_err(failed),
        };
    }
    // A link stays a link: what it leads to is replaced.
    let target: PathBuf = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let mut builder = tempfile::Builder::new();
    builder.prefix(".quiltpath-");
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let mut file = builder.tempfile_in(folder_of(&target)).map_err(failed)?;
    file.write_all(bytes).map_err(failed)?;
    file.as_file().sync_all().map_err(failed)?;
    let persisted = if force {
        file.persist(&target)
    } else {
        file.persist_noclobber(&target)
    };
    match persisted {
        Ok(_) => Ok(()),
        Err(error) if error.error.kind() == io::ErrorKind::AlreadyExists => Err(exists(path)),
        Err(error) => Err(failed(error.error)),
    }
}
