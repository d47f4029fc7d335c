//! Files, streams and folders in; nothing longer than is sensible.

use std::fs;
use std::io::{self, BufRead, Read};
use std::path::{Path, PathBuf};

use super::names::is_stream;
use crate::failure::Failure;

/// The most that is read of one file, of stdin, or of one line of JSON Lines.
const MOST_BYTES: u64 = 512 << 20;

/// The whole file, or the whole of stdin.
pub(crate) fn read(path: &Path) -> Result<Vec<u8>, Failure> {
    let bytes = if is_stream(path) {
        let mut bytes = Vec::new();
        read_rest(&mut io::stdin().lock(), &mut bytes).map(|()| bytes)
    } else {
        read_file(path)
    };
    bytes.map_err(|error| Failure::file(path, "can't be read", &error))
}

/// The whole file, unless it is too long.
pub(crate) fn read_file(path: &Path) -> io::Result<Vec<u8>> {
    let mut file = fs::File::open(path)?;
    let found = file.metadata()?;
    if found.len() > MOST_BYTES {
        return Err(too_long("it"));
    }
    let mut bytes = Vec::with_capacity(found.len() as usize);
    read_rest(&mut file, &mut bytes)?;
    Ok(bytes)
}

/// Appends all that is left, unless that makes too much; a device may have no end.
pub(crate) fn read_rest(reader: &mut impl Read, bytes: &mut Vec<u8>) -> io::Result<()> {
    let room = (MOST_BYTES + 1).saturating_sub(bytes.len() as u64);
    reader.take(room).read_to_end(bytes)?;
    match bytes.len() as u64 {
        0..=MOST_BYTES => Ok(()),
        _ => Err(too_long("it")),
    }
}

/// Appends one line with its end, unless it is too long; how many bytes that are.
pub(crate) fn read_line(reader: &mut impl BufRead, bytes: &mut Vec<u8>) -> io::Result<usize> {
    match reader.take(MOST_BYTES + 1).read_until(b'\n', bytes)? {
        read if read as u64 > MOST_BYTES => Err(too_long("a line of it")),
        read => Ok(read),
    }
}

fn too_long(what: &str) -> io::Error {
    let most = MOST_BYTES >> 20;
    io::Error::other(format!(
        "{what} is longer than {most} MiB, the most that is read in one piece"
    ))
}

/// The files of a folder whose names end in one of these, and all others, by name.
///
/// Hidden files, which begin with a dot, are neither.
pub(crate) fn read_folder(
    folder: &Path,
    ends: &[&str],
) -> Result<(Vec<PathBuf>, Vec<PathBuf>), Failure> {
    let failed = |error: io::Error| Failure::file(folder, "can't be read", &error);
    let (mut files, mut others) = (Vec::new(), Vec::new());
    for entry in fs::read_dir(folder).map_err(failed)? {
        let path = entry.map_err(failed)?.path();
        let end = path.extension().and_then(|end| end.to_str());
        let fits = end.is_some_and(|end| ends.iter().any(|e| end.eq_ignore_ascii_case(e)));
        if !path.is_file() {
            continue;
        }
        let name = path.file_name().unwrap_or_default();
        if fits {
            files.push(path);
        } else if !name.to_string_lossy().starts_with('.') {
            others.push(path);
        }
    }
    files.sort();
    others.sort();
    Ok((files, others))
}
