//! The options of the commands that turn drawings, one or many, into lines.

use clap::Args;
use quiltpath_core::io::drawing::ReadOptions;
use quiltpath_core::plan::spec::StrokesSpec;

use super::reading::Reading;
use super::threads::Threads;
use super::writing::Writing;
use crate::failure::Failure;

/// How drawings come in and lines go out, and how many are worked on at once.
#[derive(Args)]
pub(crate) struct InOut {
    #[command(flatten)]
    threads: Threads,
    #[command(flatten)]
    reading: Reading,
    #[command(flatten)]
    writing: Writing,
}

/// The same, checked; where lines go is checked when it is known whether drawings are many.
pub(crate) struct Ways {
    pub(crate) threads: usize,
    pub(crate) reading: ReadOptions,
    pub(crate) writing: Writing,
}

impl InOut {
    /// Whether one line of strokes is asked for by name.
    pub(crate) fn wants_one_line(&self) -> bool {
        self.reading.strokes == Some(StrokesSpec::OneLine)
    }

    pub(crate) fn check(self) -> Result<Ways, Failure> {
        Ok(Ways {
            reading: self.reading.check()?,
            threads: self.threads.check()?,
            writing: self.writing,
        })
    }
}
