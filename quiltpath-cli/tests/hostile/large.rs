//! Drawings as large as they come: what is valid works in memory that goes with its size, and what
//! is broken at its very end is reported with its place.

use std::fs::{self, File};
use std::io::{BufWriter, Read, Seek, SeekFrom, Write};
use std::path::Path;

use crate::Bounds;
use crate::common::{Bench, svg};

/// Points of the long path; a line of text each.
const POINTS: u32 = 9_000_000;

/// Writes a path of [`POINTS`] points, more than 200 MB, with this at the end of its data.
fn long_path(file: &Path, tail: &str) -> u64 {
    let drawing = svg("<path d='M0 0\n@'/>");
    let (head, foot) = drawing.split_once('@').expect("a mark");
    let mut out = BufWriter::with_capacity(1 << 20, File::create(file).expect("a file"));
    out.write_all(head.as_bytes()).expect("written");
    for row in 1..=POINTS {
        // Back and forth across the page, a little lower each time.
        let (along, down) = (row % 2_000 * 5, row / 2_000);
        let along = if down % 2 == 0 { along } else { 9_995 - along };
        let (x, y) = (along * 100_000 + row % 7, down * 20_000 + 1);
        let [x, y] = [x, y].map(|n| (n / 10_000_000, n % 10_000_000));
        writeln!(out, "{:03}.{:07},{:03}.{:07}", x.0, x.1, y.0, y.1).expect("written");
    }
    write!(out, "{tail}{foot}").expect("written");
    out.into_inner()
        .expect("written")
        .metadata()
        .expect("a file")
        .len()
}

/// The last bytes of a file.
fn end_of(file: &Path) -> String {
    let mut file = File::open(file).expect("written");
    file.seek(SeekFrom::End(-40)).expect("long");
    let mut text = String::new();
    file.read_to_string(&mut text).expect("text");
    text
}

#[test]
fn a_path_of_200_megabytes() {
    let bench = Bench::new();
    let bytes = long_path(&bench.path("a.svg"), "");
    assert!(bytes > 200_000_000);
    // 64 bytes a point, and the text twice: XML turns the ends of rows in an attribute into spaces.
    let bounds = Bounds {
        memory: (2 * bytes + 64 * u64::from(POINTS)) >> 20,
        seconds: 60,
    };
    bounds
        .run(&bench, &["convert", "a.svg", "--out", "b.json"])
        .ok();
    let end = end_of(&bench.path("b.json"));
    assert!(end.ends_with(",9.0000001]]}\n"), "{end}");
    fs::remove_file(bench.path("b.json")).expect("there");

    let file = File::options()
        .write(true)
        .open(bench.path("a.svg"))
        .expect("there");
    file.set_len(bytes - "'/></svg>".len() as u64).expect("cut");
    drop(file);
    let mut file = File::options()
        .append(true)
        .open(bench.path("a.svg"))
        .expect("there");
    file.write_all(b"7 x'/></svg>").expect("written");
    let run = bounds.run(&bench, &["convert", "a.svg", "--out", "b.json"]);
    let row = POINTS + 2;
    let words = format!("quiltpath: error: a.svg:{row}:3: path 1: d=\"…");
    run.failed(
        1,
        &[&words, "7 x\" of <path>: expected a number, not \"x\""],
    );
    assert_eq!(bench.names("."), ["a.svg"]);
}

#[test]
fn a_million_subpaths() {
    let mut data = String::new();
    for at in 0..1_000_000 {
        data.push_str(&format!("M{} {}h.05", at % 1000, at / 1000));
    }
    let bench = Bench::new().with("a.svg", svg(&format!("<path d='{data}'/>")));
    let bounds = Bounds {
        memory: 640,
        seconds: 30,
    };
    bounds
        .run(&bench, &["convert", "a.svg", "--out", "b.json"])
        .ok();
    let end = end_of(&bench.path("b.json"));
    assert!(
        end.ends_with("[[999.0,999.0],[999.05,999.0]]}]}\n"),
        "{end}"
    );
    let run = bounds.run(&bench, &["measure", "a.svg"]);
    run.failed(
        1,
        &["quiltpath: error: a.svg: the drawing has 1000000 strokes that don't follow one another; up to 200000 are made one line"],
    );
    let as_drawn = ["measure", "a.svg", "--strokes", "as-drawn"];
    let run = bounds.run(&bench, &as_drawn);
    run.failed(
        1,
        &[
            "quiltpath: error: a.svg: the drawing is 1000000 separate lines: ",
            "and 999994 gaps more; draw them so that they meet",
        ],
    );
    assert!(run.err.len() < 1000, "{}", run.err);
}

/// Dashes that all lie apart, and lines that all lie on one another.
#[test]
fn a_hundred_thousand_strokes() {
    let mut apart = String::new();
    for at in 0..100_000 {
        apart.push_str(&format!("M{} {}h.5", at % 400, at / 400));
    }
    let bench = Bench::new()
        .with("apart.svg", svg(&format!("<path d='{apart}'/>")))
        .with(
            "over.svg",
            svg(&format!("<path d='{}'/>", "M1 1h100".repeat(100_000))),
        );
    let bounds = Bounds {
        memory: 640,
        seconds: 60,
    };
    let run = |name: &str, out: &str| {
        let args = ["convert", name, "--strokes", "one-line", "--out", out];
        bounds.run(&bench, &args).ok().err
    };
    let apart = run("apart.svg", "a.json");
    assert!(apart.contains("one line of 100000 strokes: "), "{apart}");
    assert!(apart.contains("; no line adds less than "), "{apart}");
    let over = run("over.svg", "b.json");
    assert!(
        over.is_empty() || over.contains("is stitched once"),
        "{over}"
    );
}

/// A line that goes to and fro in one place lies on itself a million times over, so comparing
/// all pairs would never end.
#[test]
fn a_million_strands_in_one_place() {
    let data = "M1 1h1".repeat(1_000_000);
    let bench = Bench::new().with("a.svg", svg(&format!("<path d='{data}'/>")));
    let bounds = Bounds {
        memory: 640,
        seconds: 30,
    };
    let run = bounds.run(&bench, &["measure", "a.svg"]).ok();
    assert!(
        run.out.contains("crossings  too many to count"),
        "{}",
        run.out
    );
    let run = bounds.run(&bench, &["measure", "a.svg", "--json"]).ok();
    assert!(run.out.contains("\"self_crossings\":null"), "{}", run.out);
    bounds
        .run(&bench, &["stitch", "a.svg", "--out", "b.json"])
        .ok();
    let trim = "trim a.svg --to l --width 9in --height 9in --leg-depth 4in --out c.json";
    let trim: Vec<&str> = trim.split(' ').collect();
    bounds.run(&bench, &trim).ok();
}

#[test]
fn one_row_of_50_megabytes() {
    let data = " 10 10 20 5".repeat(50_000_000 / 11 + 1);
    let bench = Bench::new().with("a.svg", svg(&format!("<path d='M0 0{data}'/>")));
    let bounds = Bounds {
        memory: 800,
        seconds: 60,
    };
    bounds
        .run(&bench, &["convert", "a.svg", "--out", "b.json"])
        .ok();
    assert!(end_of(&bench.path("b.json")).ends_with("[10.0,10.0],[20.0,5.0]]}\n"));
}
