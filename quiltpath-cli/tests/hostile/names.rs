//! Names with characters that nobody expects: in paths, and in files.

use std::ffi::OsStr;
use std::fs;
use std::os::unix::ffi::OsStrExt;

use crate::Bounds;
use crate::common::{Bench, svg};

const WAVE: &str = "<path d='M0 0L5 3 9 0'/>";

#[test]
fn paths_of_any_characters_work() {
    for name in [
        "a b.svg",
        "'\";$(x)`.svg",
        "é日本.svg",
        "new\nline.svg",
        "\u{1b}[2J.svg",
        "%s%n.svg",
        "=.svg",
        "*?.svg",
    ] {
        let bench = Bench::new().with(name, svg(WAVE));
        Bounds::SMALL
            .run(&bench, &["convert", name, "--out", "b.json"])
            .ok();
        Bounds::SMALL
            .run(&bench, &["convert", name, "--out", &format!("{name}.dxf")])
            .ok();
        Bounds::SMALL.run(&bench, &["convert", ".", "--out", "out", "--format", "svg"]);
        assert!(bench.path("out").join(name).is_file(), "{name:?}");
    }
    // What is an option by its look is a path after two dashes.
    let bench = Bench::new().with("-x.svg", svg(WAVE));
    Bounds::SMALL.run(&bench, &["measure", "--", "-x.svg"]).ok();
    // Not UTF-8.
    let bench = Bench::new();
    let folder = bench.path("in");
    fs::create_dir(&folder).expect("a folder");
    fs::write(folder.join(OsStr::from_bytes(b"caf\xe9.svg")), svg(WAVE)).expect("written");
    let run = Bounds::SMALL.run(&bench, &["measure", "in"]).ok();
    assert!(run.out.starts_with("in/caf\u{fffd}.svg: "), "{}", run.out);
    fs::write(folder.join(OsStr::from_bytes(b"caf\xe8.svg")), svg(WAVE)).expect("written");
    let run = Bounds::SMALL.run(
        &bench,
        &["convert", "in", "--out", "out", "--format", "json"],
    );
    run.failed(
        1,
        &["would both be written to out/caf\u{fffd}.json; rename one"],
    );
}

/// A name must neither steer a terminal nor pass for a message of its own.
#[test]
fn control_characters_are_written_out() {
    let name = "a\nquiltpath: error: \u{1b}[2J.svg";
    let bench = Bench::new().with(name, svg("<path d='M0 0L1 x'/>"));
    let run = Bounds::SMALL.run(&bench, &["stitch", name, "--out", "b.svg"]);
    run.failed(
        1,
        &["quiltpath: error: a\\nquiltpath: error: \\u{1b}[2J.svg:1:"],
    );
    assert_eq!(run.err.lines().count(), 1, "{}", run.err);

    let named = |points: &str| {
        format!("{{\"unit\":\"in\",\"name\":\"a\\u001b[2J\\u0007\\u009b\",\"points\":{points}}}")
    };
    let bench = Bench::new()
        .with("a.json", named("[[0,0]]"))
        .with("b.json", named("[[0,0],[1,1],[2,0]]"));
    let run = Bounds::SMALL.run(&bench, &["stitch", "a.json", "--out", "b.svg"]);
    run.failed(
        1,
        &["a.json: a\\u{1b}[2J\\u{7}\\u{9b}: 1 point can't make a line"],
    );
    for args in [
        ["measure", "b.json"].as_slice(),
        &["stitch", "b.json", "--out", "c.svg"],
        &["template", "b.json", "--out", "d.html"],
    ] {
        let run = Bounds::SMALL.run(&bench, args).ok();
        let printed = run.out + &run.err;
        assert!(
            !printed.contains(['\u{1b}', '\u{7}', '\u{9b}']),
            "{printed:?}"
        );
    }
    let lines = named("[[0,0],[1,1],[2,0]]") + "\n";
    let bench = Bench::new().with("a.jsonl", lines.repeat(2));
    let run = Bounds::SMALL
        .run(
            &bench,
            &["rank", "a.jsonl", "--span", "9in", "--depth", "1in"],
        )
        .ok();
    assert!(
        run.out.contains("a\\u{1b}[2J") && !run.out.contains('\u{1b}'),
        "{}",
        run.out
    );
}

#[test]
fn an_existing_file_stays() {
    let bench = Bench::new()
        .with("a.svg", svg(WAVE))
        .with("b.json", "mine")
        .with("plan.json", crate::plan("a.svg", "", ""));
    for args in [
        ["convert", "a.svg", "--out", "b.json"].as_slice(),
        &["stitch", "a.svg", "--out", "b.json"],
        &["stitch", "a.svg", "--report", "b.json"],
        &["transform", "a.svg", "--op", "reverse", "--out", "b.json"],
    ] {
        let run = Bounds::SMALL.run(&bench, args);
        run.failed(1, &["quiltpath: error: b.json: exists already; give --force to replace it, or another name"]);
    }
    let bench = bench.with("b.html", "mine");
    let run = Bounds::SMALL.run(&bench, &["template", "a.svg", "--out", "b.html"]);
    run.failed(
        1,
        &["quiltpath: error: b.html: exists already; give --force to replace it, or another name"],
    );
    let run = Bounds::SMALL.run(&bench, &["plan", "plan.json", "--out", "b.json", "--force"]);
    run.failed(1, &["quiltpath: error: b.json: is a file; name a folder"]);
    assert_eq!(
        [bench.read("b.json"), bench.read("b.html")],
        ["mine", "mine"]
    );
    let long = "x".repeat(300) + ".svg";
    let run = Bounds::SMALL.run(&bench, &["convert", "a.svg", "--out", &long]);
    run.failed(1, &["can't be written: File name too long"]);
    assert_eq!(bench.names("."), ["a.svg", "b.html", "b.json", "plan.json"]);
}
