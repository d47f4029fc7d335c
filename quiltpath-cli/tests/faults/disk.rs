//! Disks that are full or can only be read.
//!
//! A small disk is a tmpfs in a mount namespace of its own, which takes root or the right to make a
//! user namespace. Where neither is to be had, that is printed; the limit of a file's size stands
//! in for it then, and is tested in any case.

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

use crate::common::Bench;
use crate::files;
use crate::writers::{WRITERS, Writer, bench};

/// Mounts a disk, puts the old files on it, does what is asked and brings out what is there then.
/// $1 what to do before the run, $2... the command.
const ON_DISK: &str = "\
mount -t tmpfs -o size=4m tmpfs disk || exit 99
cp -a old/. disk/ || exit 98
eval \"$1\" || exit 97
shift
\"$@\"
code=$?
rm -f disk/filler 2>/dev/null
cp -a disk/. after/ || exit 96
exit $code";

/// Leaves this many bytes free.
fn fill(free: u32) -> String {
    format!("{{ cat /dev/zero >disk/filler; }} 2>/dev/null; truncate -s -{free} disk/filler")
}

/// How a namespace is made, if it can be.
fn namespace() -> Option<&'static str> {
    let found = ["-m", "-rm"].into_iter().find(|way| {
        let mut command = Command::new("unshare");
        command.args([way, "sh", "-c", "mount -t tmpfs -o size=64k tmpfs /mnt"]);
        let output = command.stdin(Stdio::null()).output();
        output.is_ok_and(|output| output.status.success())
    });
    match found {
        Some(way) => println!("a disk of its own by unshare {way}"),
        None => println!("no disk of its own: unshare and mount are refused"),
    }
    found
}

/// Runs a writer on a disk prepared so; checks that what is there after is old or new, and gives
/// the exit code and what was printed.
fn on_disk(way: &str, before: &str, writer: &Writer) -> (i32, String) {
    let bench = bench();
    for folder in ["disk", "old", "after"] {
        fs::create_dir(bench.path(folder)).expect("a folder");
    }
    writer.write_old(&bench, &bench.path("old"));
    let args = writer.args("disk");
    let plain = bench.command(&[]);
    let mut command = Command::new("unshare");
    command
        .args([way, "sh", "-c", ON_DISK, "sh", before])
        .arg(plain.get_program())
        .args(&args);
    let (code, printed) = ended(&bench, command);
    assert!(code < 90, "the disk was not made: {printed}");
    check(&bench, writer, &bench.path("after"), code);
    (code, printed)
}

fn ended(bench: &Bench, mut command: Command) -> (i32, String) {
    command.current_dir(bench.path(".")).env("NO_COLOR", "1");
    let output = command.stdin(Stdio::null()).output().expect("ended");
    let printed = String::from_utf8_lossy(&output.stderr).into_owned();
    (output.status.code().expect("an exit code"), printed)
}

/// Each file is the old or the new one; after a failure a plan's folder is the old one as a whole.
fn check(bench: &Bench, writer: &Writer, after: &Path, code: i32) {
    let old = files(&bench.path("old"));
    let fresh = bench.path("fresh");
    fs::create_dir(&fresh).expect("a folder");
    bench
        .run(
            &writer
                .args("fresh")
                .iter()
                .map(String::as_str)
                .collect::<Vec<_>>(),
        )
        .ok();
    let (new, found) = (files(&fresh), files(after));
    // The folder's own name is in the plan's.
    let same = |name: &Path, bytes: &[u8]| {
        let is = |all: &std::collections::BTreeMap<_, Vec<u8>>| {
            all.get(name).is_some_and(|b| b == bytes)
        };
        (
            is(&old),
            is(&new) || (code == 0 && name.ends_with("plan.json")),
        )
    };
    for (name, bytes) in &found {
        let (is_old, is_new) = same(name, bytes);
        assert!(
            is_old || is_new,
            "{}: {name:?} is neither old nor new",
            writer.line
        );
        let whole = writer.out != "out" || code == 0;
        assert!(whole || is_old, "{}: {name:?} is new", writer.line);
    }
    let several = ["many", "quiltpath.1"].contains(&writer.out);
    for name in old.keys().filter(|_| code != 0 || several) {
        assert!(
            found.contains_key(name),
            "{}: {name:?} is gone",
            writer.line
        );
    }
}

#[test]
fn a_full_disk_keeps_what_was_there() {
    let Some(way) = namespace() else {
        return a_file_that_gets_too_large_is_reported();
    };
    for writer in &WRITERS {
        for free in [0, 8192] {
            let (code, printed) = on_disk(way, &fill(free), writer);
            // A report and a short page may fit into what is left.
            if code == 0 && free > 0 {
                continue;
            }
            let place = format!(
                "quiltpath: error: disk/{}",
                writer.out.trim_end_matches("quiltpath.1")
            );
            assert_eq!(code, 1, "{}: {printed}", writer.line);
            assert!(
                printed.contains(&place) && printed.contains(": the disk is full\n"),
                "{}: {printed}",
                writer.line
            );
        }
    }
}

#[test]
fn a_file_that_gets_too_large_is_reported() {
    for writer in &WRITERS {
        let bench = bench();
        fs::create_dir(bench.path("old")).expect("a folder");
        writer.write_old(&bench, &bench.path("old"));
        let copied = Command::new("cp")
            .args(["-a", "old", "disk"])
            .current_dir(bench.path("."))
            .status();
        assert!(copied.expect("cp").success());
        let mut command = Command::new("sh");
        // One block, 512 or 1024 bytes; without the signal the system says that it is too large.
        command.args(["-c", "trap '' XFSZ; ulimit -f 1; exec \"$@\"", "sh"]);
        command
            .arg(bench.command(&[]).get_program())
            .args(writer.args("disk"));
        let (code, printed) = ended(&bench, command);
        let place = format!(
            "quiltpath: error: disk/{}",
            writer.out.trim_end_matches("quiltpath.1")
        );
        let reason = "can't be written: it gets larger than a file may be here\n";
        assert_eq!(code, 1, "{}: {printed}", writer.line);
        assert!(
            printed.contains(&place) && printed.contains(reason),
            "{}: {printed}",
            writer.line
        );
        check(&bench, writer, &bench.path("disk"), code);
    }
}

#[test]
fn a_disk_that_can_only_be_read_is_reported() {
    let Some(way) = namespace() else {
        // The next best is a folder that is closed, which `folders` tests in any case.
        return crate::folders::a_closed_folder_is_reported();
    };
    for writer in &WRITERS {
        let (code, printed) = on_disk(way, "mount -o remount,bind,ro disk", writer);
        let place = format!(
            "quiltpath: error: disk/{}",
            writer.out.trim_end_matches("quiltpath.1")
        );
        assert_eq!(code, 1, "{}: {printed}", writer.line);
        assert!(
            printed.contains(&place) && printed.contains(": its disk can only be read\n"),
            "{}: {printed}",
            writer.line
        );
    }
}
