//! Files in and out: what exists stays, what fails leaves nothing, pipes may close.

mod common;

use std::fs;
use std::process::Stdio;

use common::Bench;

const LINE: &str = "{\"unit\":\"in\",\"points\":[[0.0,0.0],[1.0,1.0]]}\n";

#[test]
fn a_file_that_exists_stays_without_force() {
    let bench = Bench::new().with("a.json", LINE).with("b.json", "mine");
    let args = ["convert", "a.json", "--out", "b.json"];
    bench.run(&args).failed(
        1,
        &["quiltpath: error: b.json: exists already; give --force"],
    );
    assert_eq!(bench.read("b.json"), "mine");
    bench.run(&[args.as_slice(), &["--force"]].concat()).ok();
    assert_eq!(bench.read("b.json"), LINE);
    bench
        .run(&[
            "convert", "a.json", "--unit", "mm", "--out", "a.json", "--force",
        ])
        .ok();
    assert!(bench.read("a.json").contains("25.4"));
    assert_eq!(bench.names("."), ["a.json", "b.json"]);
}

#[test]
fn what_can_not_be_written_is_reported() {
    let bench = Bench::new().with("a.json", LINE);
    fs::create_dir(bench.path("folder.json")).expect("a folder");
    for (out, words) in [
        (
            "a.json/b.json",
            "a.json/b.json: can't be written: a part of its path is a file",
        ),
        ("folder.json", "folder.json: is a folder; name a file in it"),
    ] {
        let run = bench.run(&["convert", "a.json", "--out", out, "--force"]);
        run.failed(1, &[words]);
    }
    assert_eq!(bench.names("."), ["a.json", "folder.json"]);
}

#[cfg(unix)]
#[test]
fn a_folder_without_permission_is_reported() {
    use std::os::unix::fs::PermissionsExt;
    let bench = Bench::new().with("a.json", LINE);
    let folder = bench.path("closed");
    fs::create_dir(&folder).expect("a folder");
    fs::set_permissions(&folder, fs::Permissions::from_mode(0o555)).expect("closed");
    // Nothing is closed to root.
    if fs::write(folder.join("probe"), "").is_err() {
        let run = bench.run(&["convert", "a.json", "--out", "closed/b.json"]);
        run.failed(1, &["closed/b.json: can't be written: no permission"]);
        let run = bench.run(&["stitch", "closed", "--out", "b.json"]);
        run.failed(1, &["closed: can't be read"]);
    }
}

#[cfg(unix)]
#[test]
fn new_files_have_the_usual_permissions_and_links_stay_links() {
    use std::os::unix::fs::PermissionsExt;
    let bench = Bench::new().with("a.json", LINE).with("old.json", "old");
    std::os::unix::fs::symlink("old.json", bench.path("link.json")).expect("a link");
    bench
        .run(&["convert", "a.json", "--out", "link.json", "--force"])
        .ok();
    assert_eq!(bench.read("old.json"), LINE);
    assert!(bench.path("link.json").is_symlink());
    bench.run(&["convert", "a.json", "--out", "new.json"]).ok();
    let mode = |name: &str| {
        let found = fs::metadata(bench.path(name)).expect("a file");
        found.permissions().mode()
    };
    assert_eq!(mode("new.json"), mode("a.json"));
}

#[test]
fn missing_inputs_and_unknown_kinds_are_reported() {
    let bench = Bench::new().with("a.json", LINE);
    let run = |args: &[&str]| bench.run(args);
    run(&["convert", "b.json", "--out", "c.svg"])
        .failed(1, &["b.json: can't be read: no such file or folder"]);
    run(&["stitch", ".", "--out", "c.svg"]).failed(1, &["it is a folder; name a file"]);
    run(&["convert", "a.json", "--out", "c.txt"]).failed(
        2,
        &["--out c.txt: end the name in .svg, .json, .jsonl, .dxf or .gcode, or give --format"],
    );
    run(&["convert", "a.json", "--out", "-"]).failed(2, &["--out -: give --format svg"]);
    run(&["convert", "a.json", "--out", "-", "--format", "jsn"]).failed(2, &["'json'"]);
    run(&["convert", "a.json", "--out", "c.svg", "--join", "0 mm"]).failed(2, &["--join"]);
    run(&["convert", "a.json", "--out", "c.svg", "--flatening", "1 mm"])
        .failed(2, &["'--flattening'"]);
    run(&["convrt"]).failed(2, &["'convert'"]);
    assert_eq!(bench.names("."), ["a.json"]);
    run(&["convert", "a.json", "--out", "c.txt", "--format", "svg"]).ok();
    assert!(bench.read("c.txt").contains("<svg"));
}

#[test]
fn a_reader_that_stops_early_is_no_error() {
    let bench = Bench::new().with_demo();
    let (reader, writer) = std::io::pipe().expect("a pipe");
    drop(reader);
    for args in [
        ["schema"].as_slice(),
        &["--help"],
        &["man"],
        &["completions", "zsh"],
        &["measure", "border.svg"],
        &["convert", "border.svg", "--out", "-", "--format", "json"],
        &["convert", ".", "--out", "-", "--format", "jsonl"],
        &["stitch", "border.svg", "--report", "-"],
        &["plan", "plan.json", "--out", "-"],
    ] {
        let mut command = bench.command(args);
        let closed = writer.try_clone().expect("a pipe");
        command
            .stdout(closed)
            .stderr(Stdio::piped())
            .stdin(Stdio::null());
        let output = command.output().expect("ended");
        let printed = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(0), "{args:?}: {printed}");
        assert!(!printed.contains("error"), "{args:?}: {printed}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_an_error() {
    let bench = Bench::new();
    for args in [["schema"].as_slice(), &["--help"]] {
        let full = fs::File::options()
            .write(true)
            .open("/dev/full")
            .expect("/dev/full");
        let mut command = bench.command(args);
        let output = command.stdout(full).output().expect("ended");
        assert_eq!(output.status.code(), Some(1), "{args:?}");
    }
    let bench = bench.with("a.json", LINE);
    bench
        .run(&["convert", "a.json", "--out", "/dev/null", "--format", "svg"])
        .ok();
}

#[test]
fn folders_that_are_missing_are_made() {
    let bench = Bench::new().with_demo();
    bench
        .run(&["template", "corner.svg", "--out", "new/one/a.html"])
        .ok();
    assert_eq!(bench.names("new/one"), ["a.html"]);
    bench
        .run(&["plan", "plan.json", "--out", "far/away/out"])
        .ok();
    assert!(
        bench
            .names("far/away/out")
            .contains(&"sheet.html".to_owned())
    );
    bench.run(&["man", "--out", "pages/of/it"]).ok();
    assert!(bench.names("pages/of/it").len() > 10);
    // Nothing is made for a drawing that can't be read.
    let run = bench.run(&["stitch", "none.svg", "--out", "none/a.svg"]);
    run.failed(1, &["none.svg"]);
    assert!(!bench.path("none").exists());
}
