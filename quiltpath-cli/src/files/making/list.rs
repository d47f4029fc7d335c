//! The list of what is in the making; who holds it keeps everybody else from making anything.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::{Mutex, MutexGuard, PoisonError};

static MAKING: Mutex<BTreeSet<PathBuf>> = Mutex::new(BTreeSet::new());

/// Takes the list; a stop never gives it back.
pub(super) fn list() -> MutexGuard<'static, BTreeSet<PathBuf>> {
    MAKING.lock().unwrap_or_else(PoisonError::into_inner)
}

/// A place in the list.
pub(crate) struct Entry(PathBuf);

impl Entry {
    /// Enters a path into the list that is held.
    pub(super) fn new(list: &mut BTreeSet<PathBuf>, path: PathBuf) -> Self {
        list.insert(path.clone());
        Self(path)
    }
}

impl Drop for Entry {
    fn drop(&mut self) {
        list().remove(&self.0);
    }
}

/// Does what must not come after the cleaning: makes something in a temporary folder, or gives a
/// temporary its own name.
pub(crate) fn unless_stopped<T>(step: impl FnOnce() -> T) -> T {
    let _list = list();
    step()
}
