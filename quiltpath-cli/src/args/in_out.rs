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
    /// What is to become of strokes, where that is given.
    pub(crate) fn strokes(&self) -> Option<StrokesSpec> {
        self.reading.strokes
    }

    /// The same, checked, for what can do with several lines.
    pub(crate) fn check_lines(self) -> Result<Ways, Failure> {
        Ok(Ways {
            reading: self.reading.check_lines()?,
            threads: self.threads.check()?,
            writing: self.writing,
        })
    }

    pub(crate) fn check(self) -> Result<Ways, Failure> {
        Ok(Ways {
            reading: self.reading.check()?,
            threads: self.threads.check()?,
            writing: self.writing,
        })
    }
}
