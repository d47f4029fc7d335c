//! Full disks, closed folders, and runs that are stopped in the middle: what was there before, or
//! what was to come, each whole, and nothing else.
#![cfg(target_os = "linux")]
#![allow(
    clippy::print_stdout,
    reason = "seeds and ways taken, for who looks into a failure"
)]

#[path = "../common/mod.rs"]
mod common;
mod disk;
mod folders;
mod stops;
mod writers;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// All files in a folder, or of a path that is a file, by their names in it.
fn files(place: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut places = vec![place.to_owned()];
    while let Some(path) = places.pop() {
        if path.is_dir() {
            let entries = fs::read_dir(&path).expect("a folder");
            places.extend(entries.map(|entry| entry.expect("an entry").path()));
        } else if let Ok(bytes) = fs::read(&path) {
            found.insert(path.strip_prefix(place).expect("inside").to_owned(), bytes);
        }
    }
    found
}
