//! Why a command ends early: the message and the exit code.

use std::fmt;
use std::io;
use std::path::Path;
use std::process::ExitCode;

use crate::words::counted;
use quiltpath_core::Error;
use quiltpath_core::io::json::key_hint;
use quiltpath_core::plan::Severity;
use quiltpath_core::units::Unit;

use crate::files::label;
use crate::hint::{Asker, hint};
use crate::message;

/// The exit code for bad usage.
pub(crate) const USAGE: u8 = 2;

/// Why a command ends early.
#[derive(Debug)]
pub(crate) enum Failure {
    /// The arguments don't fit together.
    Usage(String),
    /// The options ask for what can't be.
    Options(Error),
    /// The data can't be used.
    Data(Error),
    /// The plan in a file can't be carried out.
    Plan(Error),
    /// A file or folder can't be read or written.
    File(String),
    /// The plan is solved and written, with findings that the user asked to fail on.
    Findings { count: usize, limit: Severity },
    /// Everything was reported already, file by file.
    Reported,
    /// The reader of stdout has seen enough.
    PipeClosed,
}

impl Failure {
    /// A fault with a file or a folder, in the words of the system where no plainer ones are known.
    pub(crate) fn file(path: &Path, what: &str, error: &io::Error) -> Self {
        Self::File(format!("{}: {what}: {}", label(path), reason(error)))
    }

    /// Prints what is wrong, when something is, and which option of the command helps.
    pub(crate) fn report(&self, asker: Asker) {
        let option = match self {
            Self::Reported | Self::PipeClosed => return,
            Self::Options(error) | Self::Data(error) => hint(asker, error.kind()),
            _ => None,
        };
        match option {
            Some(option) => message::error(format_args!("{self}; {option}")),
            None => message::error(self),
        }
    }

    /// The same failure; where it is of data, its lengths are of this unit.
    pub(crate) fn measured_in(self, unit: Unit) -> Self {
        match self {
            Self::Data(error) => Self::Data(error.measured_in(unit)),
            other => other,
        }
    }

    /// 0 done, 1 bad data or I/O, 2 bad usage, 3 planned but with findings.
    pub(crate) fn exit_code(&self) -> ExitCode {
        match self {
            Self::PipeClosed => ExitCode::SUCCESS,
            Self::Data(_) | Self::Plan(_) | Self::File(_) | Self::Reported => ExitCode::FAILURE,
            Self::Usage(_) | Self::Options(_) => ExitCode::from(USAGE),
            Self::Findings { .. } => ExitCode::from(3),
        }
    }
}

impl From<Error> for Failure {
    fn from(error: Error) -> Self {
        Self::Data(error)
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Usage(text) | Self::File(text) => f.write_str(text),
            Self::Options(error) | Self::Data(error) => error.fmt(f),
            Self::Plan(error) => {
                error.fmt(f)?;
                key_hint(error).map_or(Ok(()), |hint| write!(f, "; {hint}"))
            }
            Self::Findings { count, limit } => write!(
                f,
                "--fail-on {}: {} to look at",
                limit.name(),
                counted(*count, "finding")
            ),
            Self::Reported | Self::PipeClosed => Ok(()),
        }
    }
}

/// What the system reports, in plain words for the faults that people meet.
pub(crate) fn reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "no such file or folder".to_owned(),
        io::ErrorKind::PermissionDenied => "no permission".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder; name a file".to_owned(),
        io::ErrorKind::NotADirectory => "a part of its path is a file, not a folder".to_owned(),
        io::ErrorKind::StorageFull => "the disk is full".to_owned(),
        io::ErrorKind::QuotaExceeded => "your share of the disk is full".to_owned(),
        io::ErrorKind::FileTooLarge => "it gets larger than a file may be here".to_owned(),
        io::ErrorKind::ReadOnlyFilesystem => "its disk can only be read".to_owned(),
        _ => error.to_string(),
    }
}
