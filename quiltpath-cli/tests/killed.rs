//! Killed at any moment, `plan` leaves the old folder or the new one, each whole. On other systems
//! than Linux there may be a moment without either.
#![cfg(target_os = "linux")]

mod common;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Stdio;
use std::time::{Duration, Instant};
use std::{fs, thread};

use common::Bench;

#[test]
fn a_plan_that_is_killed_leaves_the_old_folder_or_the_new_one_whole() {
    const KILLS: u32 = 24;
    let bench = Bench::new().with_demo();
    let args = |gap| {
        let flags = "plan --quilt 64x80in --border 6in --side border.svg --corner corner.svg --out out --force";
        let flags = flags.split(' ');
        flags.chain(["--seam-gap", gap]).collect::<Vec<_>>()
    };
    let both = ["1/2 in", "1/4 in"];
    let mut whole = Vec::new();
    let mut took = Duration::ZERO;
    for gap in both {
        let start = Instant::now();
        bench.run(&args(gap)).ok();
        took = start.elapsed();
        whole.push(files(&bench.path("out")));
    }
    assert_ne!(whole[0], whole[1]);
    let mut now = 1;
    let mut changed = 0;
    for kill in 0..KILLS {
        let next = 1 - now;
        let mut command = bench.command(&args(both[next]));
        command.stderr(Stdio::null());
        let mut child = command.spawn().expect("started");
        // From the start to a little beyond the time that a whole run took.
        thread::sleep(took * kill * 11 / (KILLS * 10));
        let _ = child.kill();
        child.wait().expect("ended");
        let found = files(&bench.path("out"));
        if found == whole[next] {
            (now, changed) = (next, changed + 1);
        } else {
            assert!(
                found == whole[now],
                "neither the old folder nor the new one"
            );
        }
    }
    assert!(changed < KILLS, "nothing was killed in the middle");
    bench.run(&args(both[1 - now])).ok();
    assert!(files(&bench.path("out")) == whole[1 - now]);
}

/// All files of a folder by their names in it, with what they hold.
fn files(folder: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(inner) = folders.pop() {
        for entry in fs::read_dir(&inner).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let name = path.strip_prefix(folder).expect("inside").to_owned();
                found.insert(name, fs::read(&path).expect("read"));
            }
        }
    }
    found
}
