//! `convert`: formats and units, and points that stay where they are.

mod common;

use common::{Bench, points, svg};

#[test]
fn json_comes_back_byte_for_byte() {
    let one = "{\"unit\":\"in\",\"name\":\"leaf\",\"points\":[[0.1,0.2],[0.30000000000000004,1e-7],[-3.0,2.5]]}\n";
    let two = "{\"unit\":\"cm\",\"paths\":[{\"name\":\"a\",\"points\":[[0.0,0.0],[1.0,1.0]]},{\"points\":[[2.0,0.0],[3.0,1.0]]}]}\n";
    for (text, kind) in [(one, "json"), (two, "json"), (one, "jsonl")] {
        let bench = Bench::new();
        let run = bench.run_with(&["convert", "-", "--out", "-", "--format", kind], text);
        assert_eq!(run.ok().out, text);
    }
    let lines = one.repeat(3);
    let bench = Bench::new().with("all.jsonl", &lines);
    bench
        .run(&["convert", "all.jsonl", "--out", "again.ndjson"])
        .ok();
    assert_eq!(bench.read("again.ndjson"), lines);
}

#[test]
fn a_drawing_goes_to_json_and_back_within_a_ten_thousandth() {
    let bench = Bench::new().with_demo();
    bench
        .run(&["convert", "corner.svg", "--out", "a.json"])
        .ok();
    bench.run(&["convert", "a.json", "--out", "b.svg"]).ok();
    bench.run(&["convert", "b.svg", "--out", "c.json"]).ok();
    let (first, last) = (points(&bench.json("a.json")), points(&bench.json("c.json")));
    assert_eq!(first.len(), last.len());
    assert_eq!(bench.json("a.json")["unit"], "in");
    for (a, b) in first.iter().zip(&last) {
        assert!((a[0] - b[0]).abs() < 1e-4 && (a[1] - b[1]).abs() < 1e-4);
    }
    assert_eq!(first[0], [3.0, 13.0]);
}

#[test]
fn the_unit_changes_the_numbers_and_not_the_size() {
    let bench = Bench::new().with("a.json", "{\"unit\":\"in\",\"points\":[[0,0],[1,2]]}");
    bench
        .run(&["convert", "a.json", "--unit", "mm", "--out", "b.json"])
        .ok();
    assert_eq!(points(&bench.json("b.json")), [[0.0, 0.0], [25.4, 50.8]]);
    bench
        .run(&["convert", "b.json", "--unit", "in", "--out", "c.json"])
        .ok();
    assert_eq!(points(&bench.json("c.json")), [[0.0, 0.0], [1.0, 2.0]]);
    let bare = bench.run_with(
        &["convert", "-", "--unit", "cm", "--out", "d.json"],
        "[[0,0],[1,2]]",
    );
    bare.ok();
    assert_eq!(bench.json("d.json")["unit"], "cm");
}

#[test]
fn every_line_stays_its_own_unless_they_are_joined() {
    let drawing =
        svg("<path id=\"a\" d=\"M0 0H5\"/><path id=\"b\" d=\"M5 0V5\"/><path d=\"M9 9H8\"/>");
    let bench = Bench::new().with("a.svg", drawing);
    bench.run(&["convert", "a.svg", "--out", "a.json"]).ok();
    let list = bench.json("a.json");
    assert_eq!(list["paths"].as_array().map(Vec::len), Some(3));
    assert_eq!(list["paths"][1]["name"], "b");
    assert!(list["paths"][2].get("name").is_none());

    let apart = bench.run(&["convert", "a.svg", "--one", "--out", "b.json"]);
    apart.failed(
        1,
        &[
            "a.svg: the drawing is 2 separate lines",
            "linked by straight lines",
        ],
    );
    assert_eq!(bench.names("."), ["a.json", "a.svg"]);
    bench
        .run(&["convert", "a.svg", "--one", "--link", "--out", "b.json"])
        .ok();
    let expected = [[0.0, 0.0], [5.0, 0.0], [5.0, 5.0], [8.0, 9.0], [9.0, 9.0]];
    assert_eq!(points(&bench.json("b.json")), expected);
    let alone = bench.run(&["convert", "a.svg", "--link", "--out", "c.json"]);
    alone.failed(
        2,
        &["--link: lines are linked only where they are joined; give --one"],
    );
}

#[test]
fn smooth_svg_is_shorter_and_true() {
    let bench = Bench::new().with_demo();
    bench
        .run(&["convert", "border.svg", "--out", "plain.svg"])
        .ok();
    bench
        .run(&[
            "convert",
            "border.svg",
            "--smooth",
            "0.05 mm",
            "--out",
            "smooth.svg",
        ])
        .ok();
    assert!(bench.read("smooth.svg").len() < bench.read("plain.svg").len() / 2);
    let refused = bench.run(&[
        "convert",
        "border.svg",
        "--smooth",
        "0.1 mm",
        "--out",
        "a.json",
    ]);
    refused.failed(2, &["--smooth: only SVG has curves"]);
}

#[test]
fn what_is_left_out_is_reported() {
    let bench = Bench::new().with("a.svg", svg("<path d=\"M0 0H5\"/><text>leaf</text>"));
    let run = bench
        .run(&["convert", "a.svg", "--out", "-", "--format", "json"])
        .ok();
    assert!(run.err.contains("quiltpath: note: a.svg: "), "{}", run.err);
    assert!(run.out.starts_with("{\"unit\":\"mm\""));
}
