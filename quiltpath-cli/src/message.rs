//! Lines for people, on stderr, in colour where that is a terminal and NO_COLOR is unset.

use std::cell::RefCell;
use std::fmt::Display;
use std::io::Write;

use anstream::adapter::strip_str;
use anstream::{AutoStream, ColorChoice};
use anstyle::{AnsiColor, Style};
use quiltpath_core::plan::Severity;

const ERROR: Style = AnsiColor::Red.on_default().bold();
const WARNING: Style = AnsiColor::Yellow.on_default().bold();
const NOTE: Style = AnsiColor::Cyan.on_default().bold();
const STRONG: Style = Style::new().bold();

/// `quiltpath: error: …`
pub(crate) fn error(text: impl Display) {
    line(format_args!("quiltpath: {ERROR}error{ERROR:#}: {text}"));
}

/// `quiltpath: note: …`
pub(crate) fn note(text: impl Display) {
    line(format_args!("quiltpath: {NOTE}note{NOTE:#}: {text}"));
}

/// `warning[stretch]: …`, under the summary of a plan.
pub(crate) fn finding(severity: Severity, code: &str, text: impl Display) {
    let style = match severity {
        Severity::Note => NOTE,
        Severity::Warning => WARNING,
        Severity::Error => ERROR,
    };
    let name = severity.name();
    line(format_args!("{style}{name}{style:#} [{code}]: {text}"));
}

/// A heading of a summary.
pub(crate) fn heading(text: impl Display) {
    line(format_args!("{STRONG}{text}{STRONG:#}"));
}

thread_local! {
    /// What this thread says while it works ahead of its turn.
    static HELD: RefCell<Option<Vec<String>>> = const { RefCell::new(None) };
}

/// Does a job and keeps the lines that it says, to be said by [`line()`] when its turn comes.
pub(crate) fn held<T>(job: impl FnOnce() -> T) -> (T, Vec<String>) {
    HELD.replace(Some(Vec::new()));
    let done = job();
    (done, HELD.take().unwrap_or_default())
}

/// A plain line of a summary.
pub(crate) fn line(text: impl Display) {
    let now = HELD.with_borrow_mut(|held| match held {
        Some(lines) => {
            lines.push(text.to_string());
            false
        }
        None => true,
    });
    if now {
        let text = format!("{text}\n");
        let stderr = std::io::stderr();
        let text = match AutoStream::choice(&stderr) {
            ColorChoice::Never => strip_str(&text).to_string(),
            _ => text,
        };
        // In one piece, so that lines stay whole where several commands share a file. When stderr
        // itself fails there is nowhere left to say so.
        let _ = anstream::stderr().lock().write_all(text.as_bytes());
    }
}
