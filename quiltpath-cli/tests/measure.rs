//! `measure`: facts about drawings, as text and as JSON.

mod common;

use common::Bench;

#[test]
fn a_repeat_and_a_corner_are_known_apart() {
    let bench = Bench::new().with_demo();
    let run = bench.run(&["measure", "border.svg", "corner.svg"]).ok();
    for words in [
        "border.svg: border",
        "size       7 1/2 in x 5 1/4 in",
        "repeat     pitch 7 1/2 in, ends level",
        "corner     no: no empty inner corner found",
        "corner     legs 5 1/4 in (level) and 5 1/4 in (upright) deep, elbow top left",
        "start      3 in, 13 in; direction -90.0 degrees",
    ] {
        assert!(run.out.contains(words), "{words}: {}", run.out);
    }
    let run = bench
        .run(&[
            "measure",
            "--json",
            "--unit",
            "mm",
            "border.svg",
            "corner.svg",
        ])
        .ok();
    let facts: Vec<serde_json::Value> = run
        .out
        .lines()
        .map(|line| serde_json::from_str(line).expect("JSON"))
        .collect();
    assert_eq!(facts.len(), 2);
    assert_eq!(facts[0]["unit"], "mm");
    assert_eq!(facts[0]["width"], 190.5);
    assert_eq!(facts[0]["closed"], false);
    assert_eq!(facts[0]["repeat"]["level"], true);
    assert!(facts[0]["corner"]["why_not"].is_string());
    assert_eq!(facts[1]["corner"]["elbow"], "top_left");
    assert!(facts[0]["self_crossings"].as_u64().is_some_and(|n| n > 0));
}

#[test]
fn one_bad_file_does_not_stop_the_rest() {
    let bench = Bench::new().with_demo().with("bad.svg", "");
    let run = bench.run(&["measure", "--json", "bad.svg", "none.svg", "border.svg"]);
    assert_eq!(run.code, 1);
    assert_eq!(run.out.lines().count(), 1);
    assert!(
        run.err
            .contains("quiltpath: error: bad.svg: the file is empty"),
        "{}",
        run.err
    );
    assert!(
        run.err
            .contains("quiltpath: error: none.svg: can't be read: no such file"),
        "{}",
        run.err
    );
}
