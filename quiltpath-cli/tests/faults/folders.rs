//! Folders that are closed, and folders that vanish while the command is at work.

use std::fs;
use std::io::Write;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use crate::common::Bench;
use crate::files;
use crate::writers::{WRITERS, bench};

fn mode(path: &Path, mode: u32) {
    fs::set_permissions(path, fs::Permissions::from_mode(mode)).expect("allowed");
}

/// The command as a user to whom folders can be closed; root gives up its rights.
fn plain_user(bench: &Bench) -> Command {
    if !rustix::process::geteuid().is_root() {
        return Command::new(env!("CARGO_BIN_EXE_quiltpath"));
    }
    // Others may not go where the command lies. Another process copies it: a file that is open for
    // writing here while another test starts a command can't be run.
    let copy = bench.path("quiltpath");
    if !copy.exists() {
        let mut copier = Command::new("cp");
        let copied = copier.arg(env!("CARGO_BIN_EXE_quiltpath")).arg(&copy);
        assert!(copied.status().expect("cp").success());
    }
    mode(&bench.path("."), 0o755);
    let mut command = Command::new("setpriv");
    command
        .args(["--reuid=65534", "--regid=65534", "--clear-groups"])
        .arg(copy);
    command
}

#[test]
pub(crate) fn a_closed_folder_is_reported() {
    let bench = bench();
    for (at, writer) in WRITERS.iter().enumerate() {
        let name = format!("closed{at}");
        let closed = bench.path(&name);
        fs::create_dir(&closed).expect("a folder");
        writer.write_old(&bench, &closed);
        let before = files(&closed);
        mode(&closed, 0o555);
        if writer.out == "many" {
            mode(&closed.join("many"), 0o555);
        }
        let mut command = plain_user(&bench);
        command
            .args(writer.args(&name))
            .current_dir(bench.path("."));
        let output = command
            .stdin(Stdio::null())
            .output()
            .expect("setpriv, of util-linux");
        let printed = String::from_utf8_lossy(&output.stderr);
        let place = format!("quiltpath: error: {name}/");
        assert_eq!(output.status.code(), Some(1), "{}: {printed}", writer.line);
        assert!(
            printed.contains(&place) && printed.contains(": no permission\n"),
            "{}: {printed}",
            writer.line
        );
        assert!(files(&closed) == before, "{}", writer.line);
        mode(&closed, 0o755);
        if writer.out == "many" {
            mode(&closed.join("many"), 0o755);
        }
    }
}

/// What is closed for reading is reported; a file closed for writing is replaced with `--force`,
/// since the folder decides what may be renamed in it.
#[test]
fn closed_files() {
    let bench = bench().with("secret.svg", "mine").with("old.json", "old");
    mode(&bench.path("secret.svg"), 0o000);
    mode(&bench.path("old.json"), 0o444);
    let mut command = plain_user(&bench);
    command
        .args(["measure", "secret.svg"])
        .current_dir(bench.path("."));
    let output = command
        .stdin(Stdio::null())
        .output()
        .expect("setpriv, of util-linux");
    let printed = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(1), "{printed}");
    assert_eq!(
        printed,
        "quiltpath: error: secret.svg: can't be read: no permission\n"
    );
    let args = ["convert", "border.svg", "--out", "old.json"];
    bench.run(&args).failed(1, &["old.json: exists already"]);
    assert_eq!(bench.read("old.json"), "old");
    bench.run(&[args.as_slice(), &["--force"]].concat()).ok();
    assert!(bench.read("old.json").starts_with("{\"unit\":\"in\""));
}

/// Waits until a temporary lies in this folder.
fn wait_for_draft(folder: &Path) {
    let start = Instant::now();
    let drafts = || fs::read_dir(folder).expect("a folder").count();
    while drafts() == 0 {
        assert!(start.elapsed() < Duration::from_secs(20), "no draft came");
        std::thread::sleep(Duration::from_millis(2));
    }
}

#[test]
fn a_folder_that_vanishes_is_reported() {
    let line = "{\"unit\":\"in\",\"points\":[[0.0,0.0],[1.0,1.0]]}\n";
    let bench = Bench::new().with_demo();
    let made = Command::new("mkfifo").arg(bench.path("motif.svg")).status();
    assert!(made.expect("mkfifo").success());
    let motif = fs::read(bench.path("border.svg")).expect("read");
    for (args, out) in [
        (
            "convert - --out gone/a.jsonl",
            "gone/a.jsonl: can't be written: no such file or folder\n",
        ),
        (
            "plan --quilt 30x40in --border 6in --side motif.svg --style open --out gone/out",
            "gone/out",
        ),
    ] {
        fs::create_dir(bench.path("gone")).expect("a folder");
        let args: Vec<&str> = args.split(' ').collect();
        let mut command = bench.command(&args);
        command
            .stdin(Stdio::piped())
            .stdout(Stdio::null())
            .stderr(Stdio::piped());
        let mut child = command.spawn().expect("started");
        // The one waits for its second line, the other for its motif.
        let mut stdin = child.stdin.take().expect("piped");
        let _ = stdin.write_all(line.as_bytes());
        wait_for_draft(&bench.path("gone"));
        fs::remove_dir_all(bench.path("gone")).expect("removed");
        drop(stdin);
        if args[0] == "plan" {
            fs::write(bench.path("motif.svg"), &motif).expect("written");
        }
        let output = child.wait_with_output().expect("ended");
        let printed = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(1), "{printed}");
        assert!(
            printed.contains(&format!("quiltpath: error: {out}")),
            "{printed}"
        );
        assert_eq!(
            bench.names("."),
            ["border.svg", "corner.svg", "motif.svg", "plan.json"]
        );
    }
}
