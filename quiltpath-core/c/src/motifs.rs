//! The drawings of a plan's motifs: from a folder, or from what the caller's function answers.

use std::path::Path;

use quiltpath_core::Error;

/// The bytes of a motif's file, its path seen from this folder.
pub(crate) fn in_folder(folder: &Path, name: &str) -> Result<Vec<u8>, Error> {
    let path = folder.join(name);
    std::fs::read(&path).map_err(|error| {
        let reason = format!("{error} at {}", path.display());
        Error::motif_unreadable(name, reason)
    })
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
        let silent = || Err("the function that reads motifs gave nothing".to_owned());
        let answer = self.0.unwrap_or_else(silent);
        answer.map_err(|reason| Error::motif_unreadable(name, reason))
    }
}
