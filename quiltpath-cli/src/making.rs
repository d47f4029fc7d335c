//! What is in the making: temporary files and folders, which go when the command is stopped.
//!
//! A stop by Ctrl-C, SIGTERM or a terminal that closes removes them and then ends the command by the
//! same signal. A temporary enters the list in the same step as it is made. A stop takes the list and
//! keeps it: from then on nothing is made, renamed or exchanged, so nothing appears after the
//! cleaning, and what is removed is never what has its own name already. A second signal ends the
//! command at once. Where signals are unknown, the system's way of stopping stays as it is.

use std::collections::BTreeSet;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, Once, PoisonError};

static MAKING: Mutex<BTreeSet<PathBuf>> = Mutex::new(BTreeSet::new());

fn list() -> MutexGuard<'static, BTreeSet<PathBuf>> {
    MAKING.lock().unwrap_or_else(PoisonError::into_inner)
}

/// A temporary file or folder, removed when it is dropped or the command is stopped.
pub(crate) struct Temporary<T> {
    // Dropped before the entry, so that it is listed as long as it is there.
    pub(crate) what: T,
    pub(crate) entry: Entry,
}

/// A place in the list.
pub(crate) struct Entry(PathBuf);

impl Drop for Entry {
    fn drop(&mut self) {
        list().remove(&self.0);
    }
}

impl<T> Temporary<T> {
    /// Makes one, and lists it at its path.
    pub(crate) fn make(
        make: impl FnOnce() -> io::Result<T>,
        path: impl FnOnce(&T) -> &Path,
    ) -> io::Result<Self> {
        static WATCHED: Once = Once::new();
        WATCHED.call_once(stop::watch);
        let mut list = list();
        let what = make()?;
        // The working folder stays the same, so a relative path does.
        let path = path(&what).to_owned();
        list.insert(path.clone());
        let entry = Entry(path);
        Ok(Self { what, entry })
    }
}

/// Does what must not come after the cleaning: makes something in a temporary folder, or gives a
/// temporary its own name.
pub(crate) fn unless_stopped<T>(step: impl FnOnce() -> T) -> T {
    let _list = list();
    step()
}

#[cfg(unix)]
mod stop {
    use std::ffi::c_int;
    use std::fs;
    use std::sync::Arc;
    use std::sync::atomic::{AtomicBool, Ordering};
    use std::sync::mpsc;
    use std::thread;

    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
    use signal_hook::flag::register_conditional_shutdown;
    use signal_hook::iterator::Signals;
    use signal_hook::low_level::emulate_default_handler;

    use super::list;

    /// Waits for a signal on a thread of its own.
    pub(super) fn watch() {
        let signals = wanted(&fs::read_to_string("/proc/self/status").unwrap_or_default());
        let (give, take) = mpsc::channel::<Signals>();
        let stopping = Arc::new(AtomicBool::new(false));
        let again = Arc::clone(&stopping);
        let thread = thread::Builder::new().spawn(move || {
            let signal = take.recv().ok().and_then(|mut s| s.forever().next());
            if let Some(signal) = signal {
                stopping.store(true, Ordering::SeqCst);
                end(signal);
            }
        });
        // Without a thread to clean up nothing is caught: a signal ends the command as ever.
        if thread.is_err() {
            return;
        }
        if let Ok(caught) = Signals::new(&signals) {
            for signal in signals {
                let _ = register_conditional_shutdown(signal, 128 + signal, Arc::clone(&again));
            }
            let _ = give.send(caught);
        }
    }

    /// Those that are not ignored already, as `nohup` and shells have it for work behind the scenes.
    ///
    /// Where the system doesn't say, a terminal that closes is left alone, for the sake of `nohup`.
    fn wanted(status: &str) -> Vec<c_int> {
        let mask = status.lines().find_map(|line| line.strip_prefix("SigIgn:"));
        let mask = mask.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok());
        let ignored = |signal: c_int| match mask {
            Some(mask) => mask >> (signal - 1) & 1 == 1,
            None => signal == SIGHUP,
        };
        let all = [SIGHUP, SIGINT, SIGTERM].into_iter();
        all.filter(|signal| !ignored(*signal)).collect()
    }

    /// Removes what is in the making, and the process with it.
    fn end(signal: c_int) {
        let list = list();
        for path in list.iter() {
            let is_folder = fs::symlink_metadata(path).is_ok_and(|found| found.is_dir());
            // What can't be removed stays; there is nobody left to tell.
            let _ = match is_folder {
                true => fs::remove_dir_all(path),
                false => fs::remove_file(path),
            };
        }
        let _ = emulate_default_handler(signal);
        // Only a signal without a default comes here.
        std::process::exit(128 + signal);
    }

    #[cfg(test)]
    mod tests {
        use super::*;

        #[test]
        fn ignored_signals_stay_ignored() {
            let status = |mask: &str| format!("Name:\tq\nSigIgn:\t{mask}\nSigCgt:\t0\n");
            assert_eq!(
                wanted(&status("0000000000001000")),
                [SIGHUP, SIGINT, SIGTERM]
            );
            assert_eq!(wanted(&status("0000000000000001")), [SIGINT, SIGTERM]);
            assert_eq!(wanted(&status("0000000000000006")), [SIGHUP, SIGTERM]);
            assert_eq!(wanted(""), [SIGINT, SIGTERM]);
        }
    }
}

#[cfg(not(unix))]
mod stop {
    pub(super) fn watch() {}
}
