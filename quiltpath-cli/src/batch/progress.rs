//! A bar on a terminal when work takes long, out of the way of messages.

use std::io::IsTerminal;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

/// Fewer records than this are done before anybody looks.
const LONG_WORK: u64 = 50;

pub(super) struct Progress {
    bar: ProgressBar,
    /// False where the data itself goes to the terminal.
    shown: bool,
}

impl Progress {
    /// Counts up to this, where it is known.
    pub(super) fn new(count: Option<usize>, data_on_stdout: bool) -> Self {
        let template = match count {
            Some(_) => "{bar:40} {pos} of {len} drawings",
            None => "{pos} drawings",
        };
        let count = count.map(|count| count as u64);
        let style = ProgressStyle::with_template(template);
        let bar = ProgressBar::with_draw_target(count, ProgressDrawTarget::hidden());
        Self {
            bar: bar.with_style(style.unwrap_or_else(|_| ProgressStyle::default_bar())),
            shown: !(data_on_stdout && std::io::stdout().is_terminal()),
        }
    }

    pub(super) fn step(&self) {
        self.bar.inc(1);
        if self.shown && self.bar.position() == LONG_WORK {
            self.bar.set_draw_target(ProgressDrawTarget::stderr());
        }
    }

    /// Prints something while the bar is away.
    pub(super) fn aside(&self, print: impl FnOnce()) {
        self.bar.suspend(print);
    }

    pub(super) fn finish(&self) {
        self.bar.finish_and_clear();
    }
}
