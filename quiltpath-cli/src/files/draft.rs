//! Files and streams out: a file is written whole or not at all.

use std::fs;
use std::io::{self, BufWriter, Write};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use super::making::{Temporary, unless_stopped};
use super::names::{folder_of, is_stream, label};
use super::place::{check_free, exists, make_parents, unmade};
use crate::failure::{Failure, reason};

/// Writes data to stdout; a reader that stops early ends the command without an error.
pub(crate) fn print(bytes: &[u8]) -> Result<(), Failure> {
    let mut stdout = io::stdout().lock();
    let written = stdout.write_all(bytes).and_then(|()| stdout.flush());
    written.map_err(|error| unwritten("stdout", &error))
}

/// A reader that has seen enough, or why this can't be written.
fn unwritten(label: &str, error: &io::Error) -> Failure {
    match error.kind() {
        io::ErrorKind::BrokenPipe => Failure::PipeClosed,
        _ => Failure::File(format!("{label}: can't be written: {}", reason(error))),
    }
}

/// Writes a file under a temporary name in its folder, then gives it its own name.
///
/// Devices and pipes are written to as they are.
pub(crate) fn save(path: &Path, force: bool, bytes: &[u8]) -> Result<(), Failure> {
    let mut draft = Draft::start(path, force)?;
    draft.write(bytes)?;
    draft.finish()
}

/// A file in the making, or a stream. Dropped without [`Draft::finish`], a file is gone without a
/// trace.
pub(crate) struct Draft {
    /// How messages name it.
    label: String,
    kind: Kind,
}

enum Kind {
    /// Stdout, a device or a pipe: written to as it is.
    Stream(BufWriter<Box<dyn Write>>),
    File {
        file: Temporary<BufWriter<NamedTempFile>>,
        /// The place itself, links followed.
        target: PathBuf,
        force: bool,
    },
}

impl Draft {
    /// Starts what will be at this path; `-` is stdout.
    pub(crate) fn start(path: &Path, force: bool) -> Result<Self, Failure> {
        if is_stream(path) {
            return Ok(Self::stdout());
        }
        check_free(path, force)?;
        let failed = |error: io::Error| unwritten(&label(path), &error);
        if fs::metadata(path).is_ok_and(|found| !found.is_file()) {
            let device = fs::File::create(path).map_err(failed)?;
            return Ok(Self::stream(label(path), device));
        }
        // A link stays a link: what it leads to is replaced.
        let target: PathBuf = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
        let mut builder = tempfile::Builder::new();
        builder.prefix(".quiltpath-");
        #[cfg(unix)]
        builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
        make_parents(&target).map_err(|error| unmade(path, "can't be written", &error))?;
        let make = || builder.tempfile_in(folder_of(&target)).map(BufWriter::new);
        let file = Temporary::make(make, |file| file.get_ref().path());
        let file = file.map_err(|error| unmade(path, "can't be written", &error))?;
        Ok(Self {
            label: label(path),
            kind: Kind::File {
                file,
                target,
                force,
            },
        })
    }

    pub(crate) fn stdout() -> Self {
        Self::stream("stdout".to_owned(), io::stdout())
    }

    fn stream(label: String, stream: impl Write + 'static) -> Self {
        Self {
            label,
            kind: Kind::Stream(BufWriter::new(Box::new(stream))),
        }
    }

    pub(crate) fn write(&mut self, bytes: &[u8]) -> Result<(), Failure> {
        let written = match &mut self.kind {
            Kind::Stream(stream) => stream.write_all(bytes),
            Kind::File { file, .. } => file.what.write_all(bytes),
        };
        written.map_err(|error| unwritten(&self.label, &error))
    }

    /// Passes on what a reader may be waiting for.
    pub(crate) fn flush(&mut self) -> Result<(), Failure> {
        match &mut self.kind {
            Kind::Stream(stream) => stream.flush().map_err(|e| unwritten(&self.label, &e)),
            Kind::File { .. } => Ok(()),
        }
    }

    /// Gives a file its own name.
    pub(crate) fn finish(mut self) -> Result<(), Failure> {
        self.flush()?;
        let label = self.label;
        let failed = |error: io::Error| unwritten(&label, &error);
        let Kind::File {
            file,
            target,
            force,
        } = self.kind
        else {
            return Ok(());
        };
        // Listed until it has its own name.
        let Temporary { what, entry } = file;
        let file = what.into_inner().map_err(|error| failed(error.into()))?;
        file.as_file().sync_all().map_err(failed)?;
        let persisted = unless_stopped(|| match force {
            true => file.persist(&target),
            false => file.persist_noclobber(&target),
        });
        drop(entry);
        match persisted {
            Ok(_) => Ok(()),
            Err(error) if error.error.kind() == io::ErrorKind::AlreadyExists => Err(exists(&label)),
            Err(error) => Err(failed(error.error)),
        }
    }
}
