//! Other programs, run with what they say passed on.

use std::path::Path;
use std::process::{Command, Stdio};

/// Runs a command to its end.
///
/// # Errors
///
/// What can't be started, or ends with another code than 0.
pub(crate) fn run(command: &mut Command) -> Result<(), String> {
    let name = command.get_program().to_string_lossy().into_owned();
    let ended = command
        .stdin(Stdio::null())
        .status()
        .map_err(|error| format!("{name} can't be started: {error}"))?;
    match ended.success() {
        true => Ok(()),
        false => Err(format!("{name} failed ({ended})")),
    }
}

/// What a command prints, where it can be started and succeeds.
pub(crate) fn printed(command: &mut Command) -> Option<String> {
    let output = command.stdin(Stdio::null()).output().ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    output.status.success().then_some(text)
}

/// Makes a folder, and those that it lies in.
pub(crate) fn folder(path: &Path) -> Result<(), String> {
    std::fs::create_dir_all(path).map_err(|error| format!("{}: {error}", path.display()))
}

/// Copies a file.
pub(crate) fn copy(from: &Path, to: &Path) -> Result<(), String> {
    let copied = std::fs::copy(from, to);
    copied
        .map(drop)
        .map_err(|error| format!("{}: {error}", from.display()))
}
