//! One job for each of many files, on all cores, with a bar on a terminal when it takes long.

use std::num::NonZero;
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use crate::failure::Failure;
use crate::message;

/// Fewer files than this are done before anybody looks.
const LONG_WORK: usize = 50;

/// Runs the job on each file; what fails is reported and left out. The order is not kept.
pub(super) fn on_all_cores<T: Send>(
    files: &[PathBuf],
    threads: Option<usize>,
    job: impl Fn(&Path) -> Result<T, Failure> + Sync,
) -> Vec<T> {
    let cores = thread::available_parallelism().map_or(1, NonZero::get);
    let threads = threads.unwrap_or(cores).clamp(1, files.len().max(1));
    let bar = bar(files.len());
    let next = AtomicUsize::new(0);
    let done = Mutex::new(Vec::with_capacity(files.len()));
    thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                let mut own = Vec::new();
                while let Some(file) = files.get(next.fetch_add(1, Ordering::Relaxed)) {
                    match job(file) {
                        Ok(result) => own.push(result),
                        Err(failure) => {
                            bar.suspend(|| message::note(format_args!("passed over: {failure}")))
                        }
                    }
                    bar.inc(1);
                }
                // A thread that panicked holding the lock has left the vector whole.
                done.lock()
                    .unwrap_or_else(std::sync::PoisonError::into_inner)
                    .append(&mut own);
            });
        }
    });
    bar.finish_and_clear();
    done.into_inner()
        .unwrap_or_else(std::sync::PoisonError::into_inner)
}

fn bar(count: usize) -> ProgressBar {
    if count < LONG_WORK {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::with_draw_target(Some(count as u64), ProgressDrawTarget::stderr());
    let style = ProgressStyle::with_template("{bar:40} {pos} of {len} drawings");
    bar.with_style(style.unwrap_or_else(|_| ProgressStyle::default_bar()))
}
