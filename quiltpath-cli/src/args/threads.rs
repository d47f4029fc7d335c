//! The option that says how many threads work at once.

use std::num::NonZero;
use std::thread;

use clap::Args;

use super::numbers::whole;
use crate::failure::Failure;

const MOST_THREADS: usize = 256;

/// How many work at once.
#[derive(Args)]
pub(crate) struct Threads {
    /// Number of threads [default: one for each core]
    #[arg(long, value_name = "N", value_parser = whole)]
    threads: Option<usize>,
}

impl Threads {
    pub(crate) fn check(&self) -> Result<usize, Failure> {
        match self.threads {
            Some(1..=MOST_THREADS) => {}
            Some(_) => {
                return Err(Failure::Usage(format!(
                    "--threads: give 1 to {MOST_THREADS}"
                )));
            }
            None => {}
        }
        let cores = thread::available_parallelism().map_or(1, NonZero::get);
        Ok(self.threads.unwrap_or(cores.min(MOST_THREADS)))
    }
}
