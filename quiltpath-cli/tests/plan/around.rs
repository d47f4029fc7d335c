//! `plan --stitched`: a changed plan solved round what is stitched, and what it refuses.

use std::fs;

use super::common::Bench;
use serde_json::Value;

/// The demo quilt with its first pass stitched, in the folder `out`.
fn begun() -> Bench {
    let bench = Bench::new().with_demo();
    let plan = ["plan", "plan.json", "--throat", "18 in", "--out", "out"];
    bench.run(&plan).ok();
    bench.run(&["stitched", "out", "--pass", "1"]).ok();
    bench
}

/// Gives the plan a quilt of these measures.
fn quilt(bench: &Bench, measures: Value) {
    let mut plan = bench.json("plan.json");
    plan["quilt"] = measures;
    fs::write(bench.path("plan.json"), plan.to_string()).expect("written");
}

/// Makes the quilt of the plan half an inch longer.
fn longer(bench: &Bench) {
    quilt(
        bench,
        serde_json::json!({"width": "64 1/4", "height": "80 1/2"}),
    );
}

const AGAIN: [&str; 7] = [
    "plan",
    "plan.json",
    "--throat",
    "18 in",
    "--stitched",
    "out/progress.json",
    "--out",
];

fn again<'a>(more: &[&'a str]) -> Vec<&'a str> {
    [AGAIN.as_slice(), more].concat()
}

#[test]
fn what_is_stitched_stays_and_the_rest_is_solved_for_new_measures() {
    let bench = begun();
    longer(&bench);
    let run = bench.run(&again(&["again"])).ok();
    for words in [
        "stitched already",
        "begun, ",
        "the rest is solved to meet it",
    ] {
        assert!(run.err.contains(words), "no {words} in {}", run.err);
    }
    let [before, after] =
        ["out", "again"].map(|folder| bench.json(&format!("{folder}/result.json")));
    let pieces = |result: &Value| result["pieces"].as_array().cloned().expect("pieces");
    let (mut kept, mut changed) = (0, 0);
    for (was, is) in pieces(&before).iter().zip(&pieces(&after)) {
        assert_eq!(was["name"], is["name"]);
        let whole = is["stitched"] == serde_json::json!([[0.0, 1.0]]);
        let same = was["points"] == is["points"];
        // The first pass is at the top, which lies where it lay.
        assert!(!whole || same, "{}", is["name"]);
        kept += usize::from(whole);
        changed += usize::from(!same);
    }
    assert!(kept >= 3 && changed >= 3, "{kept} {changed}");
    let joins = after["joins"].as_array().expect("joins");
    assert!(joins.iter().all(|join| join["gap"].as_f64() < Some(1e-9)));
    let length = |result: &Value| -> f64 {
        let passes = result["passes"].as_array().expect("passes");
        let runs = passes
            .iter()
            .filter_map(|pass| pass["runs"].as_array())
            .flatten();
        runs.filter_map(|run| run["length"].as_f64()).sum()
    };
    assert!(length(&after) < length(&before));
    // The folder is one to go on with: its first pass is the next that there is.
    let progress = bench.json("again/progress.json");
    assert_ne!(progress["plan"], bench.json("again/stitched.json")["plan"]);
    let run = bench.run(&["stitched", "again", "--pass", "1"]).ok();
    assert!(run.err.contains("stitched so far"), "{}", run.err);
    // And it is solved again round what it was solved round and what came since.
    bench
        .run(&[
            "plan",
            "again/plan.json",
            "--stitched",
            "again/progress.json",
            "--out",
            "third",
        ])
        .ok();
    assert!(bench.read("third/quilt.svg").contains("stitched already"));
    // With nothing changed, the rest lies where it lay.
    let [second, third] =
        ["again", "third"].map(|folder| bench.json(&format!("{folder}/result.json")));
    assert_eq!(pieces(&second).len(), pieces(&third).len());
    for (was, is) in pieces(&second).iter().zip(&pieces(&third)) {
        let [was, now] = [was, is].map(|piece| piece["length"].as_f64().expect("a length"));
        assert!((was - now).abs() < 1e-9, "{}", is["name"]);
    }
}

#[test]
fn a_quilt_that_is_all_stitched_has_nothing_left() {
    let bench = begun();
    let passes = bench.json("out/result.json")["passes"]
        .as_array()
        .map(Vec::len);
    for pass in 2..=passes.expect("passes") {
        bench
            .run(&["stitched", "out", "--pass", &pass.to_string()])
            .ok();
    }
    let run = bench.run(&again(&["again"])).ok();
    assert!(run.err.contains("left 0"), "{}", run.err);
    assert_eq!(
        bench.json("again/result.json")["passes"],
        serde_json::json!([])
    );
}

#[test]
fn a_folder_with_progress_is_replaced_only_round_it() {
    let bench = begun();
    longer(&bench);
    bench
        .run(&["plan", "plan.json", "--out", "out", "--force"])
        .failed(
            1,
            &[
                "out/progress.json: says what is stitched",
                "give --stitched out/progress.json",
            ],
        );
    assert!(bench.path("out/progress.json").exists());
    bench.run(&again(&["out", "--force"])).ok();
    assert!(bench.path("out/stitched.json").exists());
}

#[test]
fn what_is_no_progress_or_has_no_place_is_refused() {
    let bench = begun().with("cut.json", "{\"plan\": \"00\", \"unit\": \"mm\", ");
    let with = |file: &'static str| {
        let mut all = again(&["again"]);
        all[5] = file;
        bench.run(&all)
    };
    with("none.json").failed(1, &["none.json: can't be read"]);
    with("plan.json").failed(
        1,
        &["plan.json:1:1: this is a plan; give the progress.json"],
    );
    with("cut.json").failed(1, &["cut.json:1:", "the text ends too soon"]);
    let text = bench.read("out/progress.json");
    fs::write(
        bench.path("other.json"),
        text.replacen("\"border\":\"border\"", "\"border\":\"sashing\"", 1),
    )
    .expect("written");
    with("other.json").failed(
        1,
        &["the border \"sashing\" has begun to be stitched, but the plan has none of that name"],
    );
    assert!(!bench.path("again").exists());
    quilt(
        &bench,
        serde_json::json!({"corners": [[0, 0], [64, 0], [32, 60]]}),
    );
    bench.run(&again(&["again"])).failed(
        1,
        &["was begun with 4 sides, but the plan has 3; give a quilt of 4 sides"],
    );
}
