//! Hostile and broken drawings: a clear message, exit code 1, nothing left behind, no panic.

mod common;

use std::fmt::Write;

use common::{Bench, svg};

fn refused(name: &str, content: impl AsRef<[u8]>, words: &[&str]) {
    let bench = Bench::new().with(name, content);
    for args in [
        ["convert", name, "--out", "out.json"].as_slice(),
        &["transform", name, "--op", "reverse", "--out", "out.svg"],
        &[
            "fit", name, "--span", "9 in", "--depth", "1 in", "--out", "out.svg",
        ],
        &["stitch", name, "--out", "out.dxf", "--report", "out.json"],
    ] {
        let run = bench.run(args);
        run.failed(1, words);
        let start = format!("quiltpath: error: {name}:");
        assert!(run.err.starts_with(&start), "{}", run.err);
        assert_eq!(bench.names("."), [name], "{args:?}");
    }
}

#[test]
fn files_that_are_no_drawing() {
    refused("a.svg", "", &["the file is empty; give an SVG drawing"]);
    refused(
        "a.json",
        " \n",
        &["the file is empty; give a JSON point list"],
    );
    refused("a.jsonl", "\n\n", &["the file is empty"]);
    refused("a.svg", "hello", &["not a readable SVG"]);
    refused("a.json", "hello", &["a.json:1:1:"]);
    refused("a.svg", "<html/>", &["the outermost element is <html>"]);
    refused("a.svg", b"\x1f\x8b\x08\x00\x00", &["compressed"]);
    refused("a.svg", b"<svg \xff\xfe", &["not UTF-8"]);
    refused("a.svg", svg(""), &["nothing is drawn"]);
    refused(
        "a.svg",
        "<svg xmlns=\"http://www.w3.org/2000/svg\"><path d=\"M0 0",
        &["a.svg:1:"],
    );
}

#[test]
fn numbers_that_are_none() {
    refused(
        "a.svg",
        svg("<path id=\"p\" d=\"M0 0 L\"/>"),
        &["a.svg:1:", "<path>"],
    );
    refused(
        "a.svg",
        svg("<path id=\"p\" d=\"M0 0 L NaN 3\"/>"),
        &["a.svg:1:", "<path>"],
    );
    refused(
        "a.svg",
        svg("<path id=\"p\" d=\"M0 0 L 1e308 3\"/>"),
        &["a.svg:1:"],
    );
    refused(
        "a.svg",
        svg("<path id=\"p\" transform=\"rotat(3)\" d=\"M0 0H3\"/>"),
        &["a.svg:1:"],
    );
    refused(
        "a.json",
        "{\"unit\":\"in\",\"points\":[[0,0],[NaN,1]]}",
        &["NaN is not a JSON number"],
    );
    refused(
        "a.json",
        "{\"unit\":\"in\",\"points\":[[0,0],[1e308,1]]}",
        &["coordinates may go from"],
    );
    refused(
        "a.json",
        "{\"unit\":\"in\",\"points\":[[0,0],[1]]}",
        &["a point [x, y]"],
    );
    refused(
        "a.json",
        "{\"unit\":\"in\",\"points\":[[0,0],[1,1]",
        &["ends too soon"],
    );
}

#[test]
fn lines_that_are_none() {
    let list = |points: &str| format!("{{\"unit\":\"in\",\"points\":{points}}}");
    refused(
        "a.json",
        list("[]"),
        &["path 1: 0 points can't make a line"],
    );
    refused(
        "a.json",
        list("[[1,1]]"),
        &["path 1: 1 point can't make a line"],
    );
    refused(
        "a.json",
        list("[[1,1],[1,1]]"),
        &["path 1: all points are the same"],
    );
    let empty =
        "{\"unit\":\"in\",\"paths\":[{\"points\":[[0,0],[1,1]]},{\"name\":\"e\",\"points\":[]}]}";
    refused("a.json", empty, &["a.json: e: 0 points can't make a line"]);
    refused("a.svg", svg("<path d=\"M1 1\"/>"), &["nothing is drawn"]);
    refused(
        "a.json",
        "{\"unit\":\"in\",\"paths\":[]}",
        &["no path in the file"],
    );
    refused(
        "a.json",
        "{\"unit\":\"in\",\"pionts\":[]}",
        &["did you mean \"points\"?"],
    );
    refused(
        "a.json",
        "{\"unit\":\"furlong\",\"points\":[[0,0],[1,1]]}",
        &["unknown unit \"furlong\""],
    );
    refused("a.json", "[[0,0],[1,1]]", &["the point list names no unit"]);
    let lines = format!("{}\n{}\n", list("[[0,0],[1,1]]"), list("[[0,0],[1]]"));
    refused("a.jsonl", lines, &["a.jsonl:2:"]);
}

#[test]
fn drawings_made_to_exhaust() {
    let mut bomb = String::from("<!DOCTYPE svg [<!ENTITY a0 \"aaaaaaaaaa\">");
    for level in 1..12 {
        let inner = format!("&a{};", level - 1).repeat(10);
        let _ = write!(bomb, "<!ENTITY a{level} \"{inner}\">");
    }
    bomb.push_str("]><svg xmlns=\"http://www.w3.org/2000/svg\"><desc>&a11;</desc></svg>");
    refused("a.svg", bomb, &[""]);
    let deep = "<g>".repeat(100_000) + "<path d=\"M0 0H3\"/>" + &"</g>".repeat(100_000);
    refused("a.svg", svg(&deep), &["nested"]);
    let cycle = "<g id=\"a\"><use xlink:href=\"#b\"/></g><g id=\"b\"><use xlink:href=\"#a\"/></g>";
    refused("a.svg", svg(cycle), &["leads back to itself"]);
    refused("a.json", "[".repeat(100_000), &["a.json:1:"]);
}
