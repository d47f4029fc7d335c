//! Point lists made to exhaust or to confuse.

use crate::common::Bench;
use crate::{Bounds, READERS, refused, refused_within};

fn list(points: &str) -> String {
    format!("{{\"unit\":\"mm\",\"points\":{points}}}")
}

#[test]
fn lists_nested_deep() {
    let deep = "[".repeat(100_000);
    refused("a.json", &deep, ":1:2: [0][0]: give a number, not a list");
    let closed = deep.clone() + &"]".repeat(100_000);
    refused(
        "a.json",
        list(&closed),
        ":1:24: points[0][0]: give a number, not a list",
    );
    let objects = "{\"paths\":[".repeat(100_000);
    refused(
        "a.json",
        objects,
        ":1:18: paths[0].paths: unknown key \"paths\"; accepted here: name, points",
    );
}

#[test]
fn numbers_of_a_million_digits() {
    let ones = "1".repeat(1_000_000);
    refused(
        "a.json",
        list(&format!("[[0,0],[{ones},1]]")),
        ":1:1000030: points[1][0]: number out of range; coordinates may go from -1e9 to 1e9",
    );
    let bench = Bench::new().with("a.json", list(&format!("[[0,0],[0.{ones},1]]")));
    let args = ["convert", "a.json", "--out", "-", "--format", "json"];
    let run = Bounds::SMALL.run(&bench, &args).ok();
    assert!(run.out.contains("[0.1111111111111111,1.0]"), "{}", run.out);
}

#[test]
fn words_and_keys_that_are_none() {
    refused(
        "a.json",
        "{\"unit\":\"mm\",\"unit\":\"in\",\"points\":[]}",
        ":1:19: the key \"unit\" is there twice; give it once",
    );
    for word in ["NaN", "Infinity"] {
        refused(
            "a.json",
            list(&format!("[[0,0],[{word},1]]")),
            &format!(
                ":1:31: points[1][0]: {word} is not a JSON number; write a finite number such as 4.5"
            ),
        );
    }
    refused(
        "a.json",
        list("[[0,0],[1e300,1]]"),
        ":1:36: points[1]: the coordinate 1e300 is too large; coordinates may go from -1e9 to 1e9",
    );
    refused(
        "a.json",
        list("[[0,0],[1,\0 1]]"),
        ":1:33: points[1][1]: expected a value, such as a number, a text in quotes or a list",
    );
    refused(
        "a.json",
        "{\"unit\":\"mm\",\r\n\"points\":[[0,0],\r\n[1,x]]}",
        ":3:4: points[1][1]: expected a value, such as a number, a text in quotes or a list",
    );
}

#[test]
fn points_that_make_no_line() {
    refused(
        "a.json",
        list("[]"),
        ": path 1: 0 points can't make a line; give at least 2 different points",
    );
    refused(
        "a.json",
        list("[[1,1]]"),
        ": path 1: 1 point can't make a line; give at least 2 different points",
    );
    let here = "[1,1],".repeat(1_000_000);
    let same = ": path 1: all points are the same, so the line has no length; give at least 2 different points";
    let bounds = Bounds {
        memory: 128,
        ..Bounds::SMALL
    };
    refused_within(&bounds, "a.json", list(&format!("[{here}[1,1]]")), same);
    // A million points in one place, then a line: it is the line.
    let bench = Bench::new().with("a.json", list(&format!("[{here}[2,2],[3,1]]")));
    let run = bounds.run(&bench, &["measure", "a.json"]).ok();
    assert!(run.out.contains("points     3"), "{}", run.out);
}

#[test]
fn text_that_is_none() {
    let good = list("[[0,0],[1,1],[2,0]]");
    let bench = Bench::new().with("a.json", format!("\u{feff}{good}"));
    Bounds::SMALL.run(&bench, &["measure", "a.json"]).ok();
    let wide: Vec<u8> = format!("\u{feff}{good}")
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    refused(
        "a.json",
        wide,
        ": the file is UTF-16 text; save it as UTF-8 JSON",
    );
    refused(
        "a.json",
        b"{\"unit\":\n \"\xe9\"}",
        ":2:3: the file is not UTF-8 text; save it as UTF-8 JSON",
    );
    refused(
        "a.json",
        " \n",
        ": the file is empty; give a JSON point list such as {\"unit\":\"in\",\"points\":[[0,0],[1,0.5]]}",
    );
}

#[test]
fn tiny_and_signed_numbers_keep_their_bits() {
    let bench = Bench::new().with("a.json", list("[[-0.0,5e-324],[1e-310,-0.0],[5e-324,1e9]]"));
    let args = ["convert", "a.json", "--out", "-", "--format", "json"];
    let run = Bounds::SMALL.run(&bench, &args).ok();
    let words = "[[-0.0,5e-324],[1e-310,-0.0],[5e-324,1000000000.0]]";
    assert!(run.out.contains(words), "{}", run.out);
    for args in READERS {
        let args: Vec<&str> = args
            .iter()
            .map(|&a| if a == "@" { "a.json" } else { a })
            .collect();
        assert!(Bounds::SMALL.run(&bench, &args).code < 2, "{args:?}");
    }
}
