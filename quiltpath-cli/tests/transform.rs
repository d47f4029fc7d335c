//! `transform`: operations in order, and what is reported about a typo.

mod common;

use common::{Bench, points};

const LINE: &str = "{\"unit\":\"in\",\"name\":\"leaf\",\"points\":[[0,0],[4,0],[4,2]]}";

fn after(operations: &[&str]) -> Vec<[f64; 2]> {
    let bench = Bench::new();
    let mut args = vec!["transform", "-", "--out", "-", "--format", "json"];
    for operation in operations {
        args.extend(["--op", *operation]);
    }
    let run = bench.run_with(&args, LINE).ok();
    points(&serde_json::from_str(&run.out).expect("JSON"))
}

#[test]
fn each_operation_moves_the_points_as_it_says() {
    for (operation, expected) in [
        ("rotate 90", [[3.0, -1.0], [3.0, 3.0], [1.0, 3.0]]),
        (
            "rotate 90 about 0, 0",
            [[0.0, 0.0], [0.0, 4.0], [-2.0, 4.0]],
        ),
        ("mirror left-right", [[4.0, 0.0], [0.0, 0.0], [0.0, 2.0]]),
        ("mirror top-bottom", [[0.0, 2.0], [4.0, 2.0], [4.0, 0.0]]),
        (
            "mirror line 0, 0, 1, 1 in",
            [[0.0, 0.0], [0.0, 4.0], [2.0, 4.0]],
        ),
        ("scale 2", [[0.0, 0.0], [8.0, 0.0], [8.0, 4.0]]),
        ("scale 2 0.5", [[0.0, 0.0], [8.0, 0.0], [8.0, 1.0]]),
        ("fit 2 in x 2 in", [[0.0, 0.0], [2.0, 0.0], [2.0, 1.0]]),
        ("fit height 1 in", [[0.0, 0.0], [2.0, 0.0], [2.0, 1.0]]),
        ("fit width 8 in", [[0.0, 0.0], [8.0, 0.0], [8.0, 4.0]]),
        ("stretch 2 x 5 in", [[0.0, 0.0], [2.0, 0.0], [2.0, 5.0]]),
        ("move 1 in, -2 in", [[1.0, -2.0], [5.0, -2.0], [5.0, 0.0]]),
        ("start at 1, 1 in", [[1.0, 1.0], [5.0, 1.0], [5.0, 3.0]]),
        ("end at 0, 0", [[-4.0, -2.0], [0.0, -2.0], [0.0, 0.0]]),
        ("reverse", [[4.0, 2.0], [4.0, 0.0], [0.0, 0.0]]),
    ] {
        let done = after(&[operation]);
        for (a, b) in done.iter().flatten().zip(expected.iter().flatten()) {
            assert!((a - b).abs() < 1e-12, "{operation}: {done:?}");
        }
    }
}

#[test]
fn operations_are_done_in_the_order_given() {
    let turned = after(&["rotate 90 about 0, 0", "move 1 in, 0"]);
    assert_eq!(turned, [[1.0, 0.0], [1.0, 4.0], [-1.0, 4.0]]);
    let moved = after(&["move 1 in, 0", "rotate 90 about 0, 0"]);
    assert_eq!(moved, [[0.0, 1.0], [0.0, 5.0], [-2.0, 5.0]]);
}

#[test]
fn the_elbow_of_a_corner_comes_to_its_place() {
    let bench = Bench::new().with_demo();
    bench
        .run(&[
            "transform",
            "corner.svg",
            "--op",
            "rotate 90",
            "--op",
            "elbow at 20, 0 in",
            "--out",
            "a.json",
        ])
        .ok();
    let all = points(&bench.json("a.json"));
    let right = all.iter().map(|p| p[0]).fold(f64::MIN, f64::max);
    let top = all.iter().map(|p| p[1]).fold(f64::MAX, f64::min);
    assert!(
        (right - 20.0).abs() < 1e-9 && top.abs() < 1e-9,
        "{right} {top}"
    );
}

#[test]
fn each_line_of_json_lines_is_a_motif() {
    let bench = Bench::new();
    let lines = format!("{LINE}\n{LINE}\n");
    let args = [
        "transform",
        "-",
        "--op",
        "scale 2",
        "--out",
        "-",
        "--format",
        "jsonl",
    ];
    let run = bench.run_with(&args, lines).ok();
    assert_eq!(run.out.lines().count(), 2);
}

#[test]
fn a_typo_names_the_operation_and_what_would_do() {
    let bench = Bench::new().with("a.json", LINE);
    for (operation, words) in [
        (
            "rotat 90",
            ["--op 2 \"rotat 90\"", "did you mean \"rotate\"?"],
        ),
        (
            "mirror sideways",
            ["--op 2", "write mirror left-right, mirror top-bottom"],
        ),
        ("fit 4 in", ["--op 2", "write fit WIDTH x HEIGHT"]),
        ("rotate ninety", ["--op 2", "\"ninety\" is not an angle"]),
        (
            "move 1, 2",
            [
                "--op 2 \"move 1, 2\": 1 has no unit; write 1 in or 1 mm",
                "by --unit",
            ],
        ),
        ("stretch 0 x 4 in", ["--op 2", "0 in is not above 0"]),
    ] {
        let args = [
            "transform",
            "a.json",
            "--op",
            "reverse",
            "--op",
            operation,
            "--out",
            "b.json",
        ];
        bench.run(&args).failed(2, &words);
    }
    let flat = bench.run(&[
        "transform",
        "a.json",
        "--op",
        "scale 0 1",
        "--out",
        "b.json",
    ]);
    flat.failed(
        1,
        &["a.json: \"scale 0 1\": the transform flattens the drawing"],
    );
    let no_l = bench.run(&[
        "transform",
        "a.json",
        "--op",
        "scale 9e8",
        "--out",
        "b.json",
    ]);
    no_l.failed(1, &["coordinates may go from -1e9 to 1e9"]);
    assert_eq!(bench.names("."), ["a.json"]);
}
