//! What is in the making: temporary files and folders, which go when the command is stopped.
//!
//! A stop by Ctrl-C, SIGTERM or a terminal that closes removes them and then ends the command by
//! the same signal. A temporary enters the list in the same step as it is made. A stop takes the
//! list and keeps it: from then on nothing is made, renamed or exchanged, so nothing appears after
//! the cleaning, and what is removed is never what has its own name already. A second signal ends
//! the command at once. Where signals are unknown, the system's way of stopping stays as it is.

mod list;
#[cfg(unix)]
mod stop;

use std::io;
use std::path::Path;

pub(crate) use self::list::unless_stopped;
use self::list::{Entry, list};

/// A temporary file or folder, removed when it is dropped or the command is stopped.
pub(crate) struct Temporary<T> {
    // Dropped before the entry, so that it is listed as long as it is there.
    pub(crate) what: T,
    pub(crate) entry: Entry,
}

impl<T> Temporary<T> {
    /// Makes one, and lists it at its path.
    pub(crate) fn make(
        make: impl FnOnce() -> io::Result<T>,
        path: impl FnOnce(&T) -> &Path,
    ) -> io::Result<Self> {
        #[cfg(unix)]
        stop::watch_once();
        let mut list = list();
        let what = make()?;
        // The working folder stays the same, so a relative path does.
        let path = path(&what).to_owned();
        let entry = Entry::new(&mut list, path);
        Ok(Self { what, entry })
    }
}
