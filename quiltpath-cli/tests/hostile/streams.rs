//! Devices, pipes and links in place of files.

use std::fs::{self, File};
use std::io::Write;
use std::os::unix::fs::symlink;
use std::process::Command;
use std::thread;

use crate::common::{Bench, svg};
use crate::{Bounds, READERS, plan};

const WAVE: &str = "<path d='M0 0L5 3 9 0'/>";

/// What has no end is read up to a limit, in no more memory than that.
#[test]
fn a_device_without_end() {
    let bounds = Bounds {
        memory: 512 + 32,
        seconds: 30,
    };
    let bench = Bench::new().with("plan.json", plan("/dev/zero", "", ""));
    let words = |what: &str| {
        format!("can't be read: {what} is longer than 512 MiB, the most that is read in one piece")
    };
    for args in [
        ["convert", "/dev/zero", "--out", "a.json"].as_slice(),
        &["plan", "/dev/zero", "--out", "-"],
        &["template", "/dev/zero", "--out", "-"],
    ] {
        let run = bounds.run(&bench, args);
        run.failed(1, &["quiltpath: error: /dev/zero: ", &words("it")]);
    }
    for args in [
        ["measure", "/dev/zero"].as_slice(),
        &["rank", "/dev/zero", "--span", "9in", "--depth", "1in"],
        &["convert", "/dev/zero", "--out", "a.jsonl"],
    ] {
        let run = bounds.run(&bench, args);
        run.failed(
            1,
            &["quiltpath: error: /dev/zero: ", &words("a line of it")],
        );
    }
    let zero = File::open("/dev/zero").expect("/dev/zero");
    let run = bounds.run_from(&bench, &["stitch", "-", "--out", "a.svg"], zero);
    run.failed(1, &["quiltpath: error: stdin: ", &words("it")]);
    let run = bounds.run(&bench, &["plan", "plan.json", "--out", "out"]);
    let long = "the motif \"/dev/zero\" can't be read: /dev/zero: it is longer than 512 MiB";
    run.failed(1, &[long]);
    // A file says how long it is before it is read.
    let file = File::create(bench.path("a.svg")).expect("a file");
    file.set_len((512 << 20) + 1).expect("a sparse file");
    let run = Bounds::SMALL.run(&bench, &["convert", "a.svg", "--out", "a.json"]);
    run.failed(1, &["quiltpath: error: a.svg: ", &words("it")]);
    assert_eq!(bench.names("."), ["a.svg", "plan.json"]);
}

#[test]
fn devices_with_nothing_and_for_anything() {
    let bench = Bench::new().with("a.svg", svg(WAVE));
    for args in READERS {
        let args: Vec<&str> = args
            .iter()
            .map(|&a| if a == "@" { "/dev/null" } else { a })
            .collect();
        let run = Bounds::SMALL.run(&bench, &args);
        run.failed(
            1,
            &["quiltpath: error: /dev/null: the file is empty; give "],
        );
    }
    let run = Bounds::SMALL.run(&bench, &["plan", "/dev/null", "--out", "-"]);
    run.failed(
        1,
        &["quiltpath: error: /dev/null: the file is empty; give "],
    );
    for (args, out) in [
        (["convert", "a.svg", "--format", "svg"].as_slice(), "--out"),
        (&["template", "a.svg"], "--out"),
        (&["stitch", "a.svg", "--format", "dxf"], "--out"),
        (&["stitch", "a.svg"], "--report"),
    ] {
        let with = |device| [args, &[out, device]].concat();
        Bounds::SMALL.run(&bench, &with("/dev/null")).ok();
        let run = Bounds::SMALL.run(&bench, &with("/dev/full"));
        assert_eq!(run.code, 1, "{run:?}");
        let words = "quiltpath: error: /dev/full: can't be written: the disk is full\n";
        assert!(run.err.ends_with(words), "{}", run.err);
    }
    let run = Bounds::SMALL.run(&bench, &["plan", "a.svg", "--out", "/dev/null"]);
    run.failed(1, &["quiltpath: error: "]);
    assert_eq!(bench.names("."), ["a.svg"]);
}

#[test]
fn pipes_with_a_name() {
    let bench = Bench::new().with("a.svg", svg(WAVE));
    let pipe = bench.path("pipe");
    let made = Command::new("mkfifo").arg(&pipe).status().expect("mkfifo");
    assert!(made.success());
    let writer = {
        let pipe = pipe.clone();
        thread::spawn(move || {
            let mut file = File::options().write(true).open(pipe).expect("a reader");
            file.write_all(svg(WAVE).as_bytes()).expect("written");
        })
    };
    Bounds::SMALL
        .run(&bench, &["convert", "pipe", "--out", "b.json"])
        .ok();
    writer.join().expect("written");
    let reader = thread::spawn(move || fs::read_to_string(pipe).expect("read"));
    Bounds::SMALL
        .run(
            &bench,
            &["convert", "a.svg", "--out", "pipe", "--format", "json"],
        )
        .ok();
    let read = reader.join().expect("read");
    assert_eq!(
        read.replace("\"name\":\"path 1\",", ""),
        bench.read("b.json").replace("\"name\":\"path 1\",", "")
    );
    // Of a folder only files are drawings.
    let run = Bounds::SMALL.run(&bench, &["convert", ".", "--out", "c.jsonl"]);
    assert_eq!((run.code, bench.names(".").len()), (0, 4), "{run:?}");
}

#[test]
fn links_in_a_circle() {
    let bench = Bench::new()
        .with("a.svg", svg(WAVE))
        .with("plan.json", plan("loop.svg", "", ""));
    symlink("loop.svg", bench.path("loop.svg")).expect("a link");
    symlink(".", bench.path("again")).expect("a link");
    for args in READERS {
        let args: Vec<&str> = args
            .iter()
            .map(|&a| if a == "@" { "loop.svg" } else { a })
            .collect();
        let run = Bounds::SMALL.run(&bench, &args);
        run.failed(
            1,
            &["quiltpath: error: loop.svg: can't be read: Too many levels of symbolic links"],
        );
    }
    let run = Bounds::SMALL.run(&bench, &["plan", "plan.json", "--out", "-"]);
    run.failed(
        1,
        &["the motif \"loop.svg\" can't be read: loop.svg: Too many levels"],
    );
    // A folder that holds itself is gone through once.
    let run = Bounds::SMALL.run(&bench, &["measure", "again/again/again", "--json"]);
    assert_eq!(run.out.lines().count(), 1, "{run:?}");
    let run = Bounds::SMALL.run(&bench, &["plan", "plan.json", "--out", "again"]);
    run.failed(1, &["quiltpath: error: again: "]);
}
