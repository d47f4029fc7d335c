//! Files in and out: `-` for stdin and stdout; a file is written whole or not at all.

use std::fs;
use std::io::{self, BufRead, BufWriter, Read, Write};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

use crate::failure::{Failure, reason};
use crate::making::{Temporary, unless_stopped};
use crate::message::one_line;

/// The most that is read of one file, of stdin, or of one line of JSON Lines.
const MOST_BYTES: u64 = 512 << 20;

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
    written.map_err(|error| unwritten("stdout", &error))
}

/// A reader that has seen enough, or why this can't be written.
fn unwritten(label: &str, error: &io::Error) -> Failure {
    match error.kind() {
        io::ErrorKind::BrokenPipe => Failure::PipeClosed,
        _ => Failure::File(format!("{label}: can't be written: {}", reason(error))),
    }
}

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

fn exists(label: &str) -> Failure {
    Failure::File(format!(
        "{label}: exists already; give --force to replace it, or another name"
    ))
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
        let make = || builder.tempfile_in(folder_of(&target)).map(BufWriter::new);
        let file = Temporary::make(make, |file| file.get_ref().path()).map_err(failed)?;
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
