//! A quilt in one file: what `plan --out` writes, `plan` reads, and the frame keeps up to date.

mod common;

use std::fs;

use common::Bench;
use serde_json::Value;

const FILE: &str = "harbour-garden-an-invented-demo-quilt.quilt.json";

/// All files of a folder and of those in it, by name.
fn all(bench: &Bench, folder: &str) -> Vec<(String, Vec<u8>)> {
    let mut found = Vec::new();
    for name in bench.names(folder) {
        let path = format!("{folder}/{name}");
        match bench.path(&path).is_dir() {
            true => found.extend(all(bench, &path)),
            false => found.push((path.clone(), fs::read(bench.path(&path)).expect("a file"))),
        }
    }
    found
}

/// The demo planned from its own files in `out`, then from the one file in `again`.
fn both() -> Bench {
    let bench = Bench::new().with_demo();
    bench
        .run(&["plan", "plan.json", "--throat", "16 in", "--out", "out"])
        .ok();
    let one = format!("out/{FILE}");
    bench.run(&["plan", &one, "--out", "again"]).ok();
    bench
}

#[test]
fn one_file_gives_the_same_answer_as_a_plan_beside_its_drawings() {
    let bench = both();
    let mut from_files = all(&bench, "out");
    let mut from_one = all(&bench, "again");
    from_files.retain(|(name, _)| name != "out/plan.json");
    from_one.retain(|(name, _)| name != "again/plan.json" && !name.starts_with("again/drawings/"));
    assert!(from_files.len() > 60, "{}", from_files.len());
    for ((name, text), (again, other)) in from_files.iter().zip(&from_one) {
        assert_eq!(
            name.trim_start_matches("out/"),
            again.trim_start_matches("again/")
        );
        assert!(text == other, "{name} differs");
    }
    assert_eq!(from_files.len(), from_one.len());
    // Its drawings lie in the folder, and the plan there finds them.
    for name in ["border.svg", "corner.svg"] {
        assert_eq!(
            bench.read(&format!("again/drawings/{name}")),
            bench.read(name)
        );
    }
    bench
        .run(&["plan", "again/plan.json", "--out", "third"])
        .ok();
    assert_eq!(
        bench.read("third/result.json"),
        bench.read("out/result.json")
    );
    // A folder whose drawings it brought along is replaced, drawings and all.
    let args = ["plan", "again/plan.json", "--out", "again", "--force"];
    bench.run(&args).ok();
    assert_eq!(bench.names("again/drawings"), ["border.svg", "corner.svg"]);
    fs::write(bench.path("again/drawings/corner.svg"), "hers").expect("written");
    bench
        .run(&["plan", "plan.json", "--out", "again", "--force"])
        .failed(1, &["didn't write, drawings/corner.svg"]);
}

#[test]
fn what_is_stitched_travels_with_the_file() {
    let bench = both();
    let one = format!("again/{FILE}");
    bench.run(&["stitched", "again", "--pass", "1"]).ok();
    let quilt = bench.json(&one);
    assert_eq!(quilt["progress"], bench.json("again/progress.json"));
    // The same plan goes on where it was; a changed one is solved round what is stitched.
    bench.run(&["plan", &one, "--out", "onwards"]).ok();
    assert_eq!(
        bench.read("onwards/progress.json"),
        bench.read("again/progress.json")
    );
    assert!(!bench.path("onwards/stitched.json").exists());
    let mut longer: Value = quilt.clone();
    longer["plan"]["quilt"]["height"] = "80 1/4".into();
    let bench = bench.with("longer.quilt.json", longer.to_string());
    let run = bench
        .run(&["plan", "longer.quilt.json", "--out", "longer"])
        .ok();
    assert!(run.err.contains("solved round that"), "{run:?}");
    assert_eq!(
        bench.read("longer/stitched.json"),
        bench.read("again/progress.json")
    );
    let result = bench.json("longer/result.json");
    let pieces = result["pieces"].as_array().expect("pieces");
    assert!(
        pieces.iter().any(|piece| !piece["stitched"].is_null()),
        "{pieces:?}"
    );
    let again = bench.json(&format!("longer/{FILE}"));
    assert_eq!(again["before"], quilt["progress"]);
}

#[test]
fn a_file_that_is_wrong_says_where_and_what_is_accepted() {
    let bench = both();
    let text = bench.read(&format!("out/{FILE}"));
    for (from, to, words) in [
        (
            "\"border.svg\":",
            "\"../border.svg\":",
            "drawings: \"../border.svg\" is no name",
        ),
        ("\"drawings\":{", "\"drawings\":{\"x\":5,", "drawings.x: "),
        ("\"height\"", "\"hieght\"", "plan.quilt.hieght: unknown key"),
        (
            "\"border.svg\":",
            "\"borders.svg\":",
            "the drawings here are borders.svg, corner.svg",
        ),
    ] {
        let wrong = text.replacen(from, to, 1);
        assert_ne!(wrong, text, "{from}");
        fs::write(bench.path("wrong.quilt.json"), wrong).expect("written");
        bench
            .run(&["plan", "wrong.quilt.json", "--out", "wrong"])
            .failed(1, &["wrong.quilt.json", words]);
        assert!(!bench.path("wrong").exists());
    }
}
