//! The drawings of a plan's motifs: from a folder, or from what the caller's function answers.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use quiltpath_core::Error;

/// The most that is read of one file: as much as the command reads.
const MOST_BYTES: u64 = 512 << 20;

/// The bytes of a motif's file, its path relative to this folder.
pub(crate) fn in_folder(folder: &Path, name: &str) -> Result<Vec<u8>, Error> {
    let path = folder.join(name);
    read(&path, MOST_BYTES).map_err(|error| {
        let reason = format!("{}: {error}", path.display());
        Error::motif_unreadable(name, reason)
    })
}

/// The whole file, unless it is longer than this; a device may have no end.
fn read(path: &Path, most: u64) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)?.take(most + 1).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > most {
        let message = format!("it is longer than {}, the most that is read", size(most));
        return Err(io::Error::other(message));
    }
    Ok(bytes)
}

/// A number of bytes for people.
fn size(bytes: u64) -> String {
    match bytes >> 20 {
        0 => format!("{bytes} bytes"),
        mebibytes => format!("{mebibytes} MiB"),
    }
}

/// What the caller's function answers when it is asked for a motif: `quiltpath_motif` in C.
#[derive(Debug, Default)]
pub struct Answer(Option<Result<Vec<u8>, String>>);

impl Answer {
    /// Takes the bytes of the drawing; the last answer counts.
    pub(crate) fn give(&mut self, bytes: &[u8]) {
        self.0 = Some(Ok(bytes.to_vec()));
    }

    /// Takes the reason why there is no drawing; the last answer counts.
    pub(crate) fn refuse(&mut self, reason: String) {
        self.0 = Some(Err(reason));
    }

    /// The bytes of the drawing of this name, or why there are none.
    pub(crate) fn bytes(self, name: &str) -> Result<Vec<u8>, Error> {
        let silent = || Err("read_motif gave no answer".to_owned());
        let answer = self.0.unwrap_or_else(silent);
        answer.map_err(|reason| Error::motif_unreadable(name, reason))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_read_whole_or_not_at_all() {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.toml");
        let size = std::fs::metadata(&path).expect("a file").len();
        let all = read(&path, size).expect("short enough");
        assert_eq!(all.len() as u64, size);
        let error = read(&path, size - 1).expect_err("too long").to_string();
        let limit = format!("longer than {} bytes, the most that is read", size - 1);
        assert!(error.contains(&limit), "{error}");
        assert_eq!(super::size(MOST_BYTES), "512 MiB");
        let error = in_folder(Path::new("none"), "leaf.svg").expect_err("no file");
        let start = "the motif \"leaf.svg\" can't be read: none/leaf.svg: ";
        assert!(
            error.to_string().starts_with(start) || cfg!(windows),
            "{error}"
        );
    }
}
