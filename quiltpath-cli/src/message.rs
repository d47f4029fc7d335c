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
    let text = plain(&text.to_string());
    emit(format!("quiltpath: {ERROR}error{ERROR:#}: {text}"));
}

/// `quiltpath: warning: …`
pub(crate) fn warning(text: impl Display) {
    let text = plain(&text.to_string());
    emit(format!("quiltpath: {WARNING}warning{WARNING:#}: {text}"));
}

/// `quiltpath: note: …`
pub(crate) fn note(text: impl Display) {
    let text = plain(&text.to_string());
    emit(format!("quiltpath: {NOTE}note{NOTE:#}: {text}"));
}

/// `warning[stretch]: …`, under the summary of a plan.
pub(crate) fn finding(severity: Severity, code: &str, text: impl Display) {
    let style = match severity {
        Severity::Note => NOTE,
        Severity::Warning => WARNING,
        Severity::Error => ERROR,
    };
    let (name, text) = (severity.name(), plain(&text.to_string()));
    emit(format!("{style}{name}{style:#} [{code}]: {text}"));
}

/// A heading of a summary.
pub(crate) fn heading(text: impl Display) {
    let text = plain(&text.to_string());
    emit(format!("{STRONG}{text}{STRONG:#}"));
}

/// A plain line of a summary.
pub(crate) fn line(text: impl Display) {
    emit(plain(&text.to_string()));
}

/// The text with control characters written out: names in files must not steer a terminal.
pub(crate) fn plain(text: &str) -> String {
    written_out(text, |c| c.is_control() && c != '\n')
}

/// As [`plain`], and on one line: the name of a file must not pass for another message.
pub(crate) fn one_line(text: &str) -> String {
    written_out(text, char::is_control)
}

fn written_out(text: &str, which: impl Fn(char) -> bool) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match which(c) {
            true => out.extend(c.escape_default()),
            false => out.push(c),
        }
    }
    out
}

thread_local! {
    /// What this thread has to print while it works ahead of its turn.
    static HELD: RefCell<Option<Vec<String>>> = const { RefCell::new(None) };
}

/// Does a job and keeps the lines that it prints, for [`emit`] once its turn comes.
pub(crate) fn held<T>(job: impl FnOnce() -> T) -> (T, Vec<String>) {
    HELD.replace(Some(Vec::new()));
    let done = job();
    (done, HELD.take().unwrap_or_default())
}

/// Prints a line that is made already, or keeps it in a job that is ahead of its turn.
pub(crate) fn emit(text: String) {
    let now = HELD.with_borrow_mut(|held| match held {
        Some(lines) => {
            lines.push(text);
            None
        }
        None => Some(text),
    });
    if let Some(text) = now {
        let text = text + "\n";
        let stderr = std::io::stderr();
        let text = match AutoStream::choice(&stderr) {
            ColorChoice::Never => strip_str(&text).to_string(),
            _ => text,
        };
        // In one piece, so that lines stay whole where several commands share a file. When stderr
        // itself fails there is nowhere left to report it.
        let _ = anstream::stderr().lock().write_all(text.as_bytes());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn control_characters_are_written_out() {
        assert_eq!(plain("a\u{1b}[2Jb\u{9b}\nc é"), "a\\u{1b}[2Jb\\u{9b}\nc é");
        assert_eq!(one_line("a\nb\r\tc"), "a\\nb\\r\\tc");
    }
}
