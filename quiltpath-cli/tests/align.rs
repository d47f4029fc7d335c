//! `align` and `stitched`: passes laid by readings, and what is stitched taken down.

mod common;

use common::{Bench, Run};
use serde_json::Value;

/// The demo on a frame with a throat of 16 in, planned into the folder `out`.
fn planned() -> Bench {
    let bench = Bench::new().with_demo();
    let run = bench.run(&[
        "plan",
        "plan.json",
        "--throat",
        "16 in",
        "--out",
        "out",
        "--format",
        "gcode",
    ]);
    assert_eq!(run.code, 0, "{run:?}");
    bench
}

fn json(bench: &Bench, path: &str) -> Value {
    let text = std::fs::read_to_string(bench.path(path)).expect(path);
    serde_json::from_str(&text).expect("JSON")
}

/// Readings of all marks of a pass on a cloth that lies shifted by this, as options.
fn readings(bench: &Bench, pass: usize, by: [f64; 2]) -> Vec<String> {
    let result = json(bench, "out/result.json");
    let marks = result["passes"][pass - 1]["marks"]
        .as_array()
        .expect("marks")
        .clone();
    let reading = |mark: &Value| {
        let at = [0, 1].map(|axis| mark["on_machine"][axis].as_f64().expect("a number") + by[axis]);
        format!(
            "{} {} {}",
            mark["letter"].as_str().expect("a letter"),
            at[0],
            at[1]
        )
    };
    marks.iter().map(reading).collect()
}

fn align(bench: &Bench, pass: &str, readings: &[String], more: &[&str]) -> Run {
    let mut args = vec!["align", "out", "--pass", pass];
    for reading in readings {
        args.extend(["--reading", reading.as_str()]);
    }
    args.extend(more);
    bench.run(&args)
}

#[test]
fn a_pass_lies_where_its_marks_were_read() {
    let bench = planned();
    let marks = readings(&bench, 2, [1.5, 0.25]);
    assert!((4..=8).contains(&marks.len()));
    let run = align(&bench, "2", &marks, &[]);
    assert_eq!((run.code, run.out.as_str()), (0, ""), "{run:?}");
    assert!(
        run.err.contains("needle up, thread out and hands clear"),
        "{}",
        run.err
    );
    let result = json(&bench, "out/result.json");
    let laid = json(&bench, "out/laid/02/laid.json");
    let runs = result["passes"][1]["runs"].as_array().expect("runs");
    for (run, there) in runs.iter().zip(laid["runs"].as_array().expect("runs")) {
        for (end, axis, by) in [
            ("start", 0, 1.5),
            ("start", 1, 0.25),
            ("end", 0, 1.5),
            ("end", 1, 0.25),
        ] {
            let planned = run[format!("{end}_on_machine")][axis]
                .as_f64()
                .expect("a number");
            let laid = there[end][axis].as_f64().expect("a number");
            assert!(
                (laid - planned - by).abs() < 1e-6,
                "{end} {axis}: {laid} {planned}"
            );
        }
    }
    let map = laid["map"].as_str().expect("a map");
    assert!(["affine", "spline"].contains(&map), "{map}");
    // The formats of the plan, the check and the picture.
    let mut names: Vec<String> = std::fs::read_dir(bench.path("out/laid/02"))
        .expect("the folder")
        .map(|entry| {
            entry
                .expect("an entry")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    names.sort();
    let wanted = [
        "laid.json",
        "lines.gcode",
        "lines.json",
        "lines.svg",
        "needle-up.gcode",
        "needle-up.json",
        "needle-up.svg",
        "picture.svg",
    ];
    assert_eq!(names, wanted);
    let check = std::fs::read_to_string(bench.path("out/laid/02/needle-up.gcode")).expect("moves");
    assert!(!check.contains("G1 "), "{check}");
    // The readings are kept, and taken again where none are given.
    let again = align(&bench, "2", &[], &["--origin", "mark:A"]);
    assert_eq!(again.code, 0, "{again:?}");
    let moved = json(&bench, "out/laid/02/lines.json");
    let a = result["passes"][1]["marks"][0]["on_machine"].clone();
    let start = runs[0]["start_on_machine"].clone();
    let first = moved["paths"][0]["points"][0].clone();
    for axis in 0..2 {
        let [a, start, first] = [&a, &start, &first].map(|at| at[axis].as_f64().expect("a number"));
        assert!(
            (first - (start - a)).abs() < 1e-3,
            "{axis}: {first} {start} {a}"
        );
    }
}

#[test]
fn readings_come_in_the_machine_s_unit_and_direction() {
    let bench = Bench::new().with_demo();
    let plan = std::fs::read_to_string(bench.path("plan.json")).expect("the plan");
    let mut plan: Value = serde_json::from_str(&plan).expect("JSON");
    plan["machine"] = serde_json::json!({"throat": 16, "unit": "mm", "y": "up"});
    let bench = bench.with("up.json", plan.to_string());
    let run = bench.run(&["plan", "up.json", "--out", "out", "--format", "gcode"]);
    assert_eq!(run.code, 0, "{run:?}");
    let result = json(&bench, "out/result.json");
    let mark = |at: usize, axis: usize| {
        let mark = &result["passes"][0]["marks"][at]["on_machine"][axis];
        25.4 * mark.as_f64().expect("a number")
    };
    let file = |unit: &str, factor: f64| {
        let one = |at: usize| {
            let letter = ["A", "B", "C"][at];
            serde_json::json!({"mark": letter, "x": factor * mark(at, 0), "y": -factor * mark(at, 1)})
        };
        serde_json::json!({"pass": 1, "unit": unit, "readings": [one(0), one(1), one(2)]})
            .to_string()
    };
    let bench = bench
        .with("mm.json", file("mm", 1.0))
        .with("cm.json", file("cm", 0.1));
    for name in ["mm.json", "cm.json"] {
        let run = bench.run(&["align", "out", "--pass", "1", "--readings", name]);
        assert_eq!(run.code, 0, "{run:?}");
        assert!(run.err.contains("turned by 0.00 degrees"), "{}", run.err);
        let start = &result["passes"][0]["runs"][0]["start_on_machine"];
        let moves = std::fs::read_to_string(bench.path("out/laid/01/lines.gcode")).expect("moves");
        let first = moves
            .lines()
            .find(|line| line.starts_with("G0 "))
            .expect("a move");
        let y: f64 = first
            .rsplit_once('Y')
            .expect("y")
            .1
            .trim()
            .parse()
            .expect("a number");
        // The moves count as the machine does: up.
        assert!(
            (y + 25.4 * start[1].as_f64().expect("a number")).abs() < 0.01,
            "{first}"
        );
    }
    let other = bench.run(&["align", "out", "--pass", "2", "--readings", "mm.json"]);
    assert_eq!(other.code, 2);
    assert!(
        other.err.contains("holds readings of pass 1"),
        "{}",
        other.err
    );
}

#[test]
fn what_cannot_be_is_said_with_what_can() {
    let bench = planned();
    let good = readings(&bench, 1, [0.0, 0.0]);
    let two = |first: &str, second: &str| vec![first.to_owned(), second.to_owned()];
    for (pass, given, more, code, words) in [
        (
            "99",
            good.clone(),
            vec![],
            2,
            "the plan has 6 passes; give 1 to 6",
        ),
        ("1", vec![], vec![], 2, "give readings of pass 1"),
        (
            "1",
            two("Q 1 2", "A 1 2"),
            vec![],
            2,
            "pass 1: there is no mark \"Q\"; the marks are A (",
        ),
        ("1", vec!["A 1".to_owned()], vec![], 2, "is no reading"),
        ("1", two("A 30 5.5", "A 31 5.5"), vec![], 1, "read it again"),
        (
            "1",
            good.clone(),
            vec!["--unit", "mm"],
            1,
            "inches where millimetres were meant",
        ),
        (
            "1",
            good.clone(),
            vec!["--origin", "middle"],
            2,
            "window, start, mark:",
        ),
        (
            "1",
            good.clone(),
            vec!["--origin", "mark:Z"],
            1,
            "the marks are A, B",
        ),
        (
            "1",
            good.clone(),
            vec!["--tape", "left"],
            2,
            "left 61 1/4 in",
        ),
        (
            "1",
            good.clone(),
            vec!["--tape", "left 50"],
            1,
            "read that mark, too",
        ),
    ] {
        let run = align(&bench, pass, &given, &more);
        assert_eq!(run.code, code, "{given:?} {more:?}: {run:?}");
        assert!(run.err.contains(words), "{given:?} {more:?}: {}", run.err);
        assert!(!bench.path("out/progress.json").exists());
    }
    let run = bench.run(&["align", "nowhere", "--pass", "1", "--reading", "A 1 2"]);
    assert_eq!(run.code, 1);
    assert!(run.err.contains("has no plan.json"), "{}", run.err);
    // One reading works, and says what it can't know; so do readings on a line.
    let run = align(&bench, "1", &good[..1], &[]);
    assert!(
        run.code == 0 && run.err.contains("one mark tells no turn"),
        "{run:?}"
    );
    let run = align(&bench, "1", &good[..2], &[]);
    assert!(run.code == 0 && run.err.contains("isn't known"), "{run:?}");
    // A mirrored axis is found, and the pass laid all the same.
    let result = json(&bench, "out/result.json");
    let marks = result["passes"][0]["marks"].as_array().expect("marks");
    let up: Vec<String> = marks
        .iter()
        .map(|mark| {
            let [x, y] = [0, 1].map(|axis| mark["on_machine"][axis].as_f64().expect("a number"));
            format!("{} {x}, {}", mark["letter"].as_str().expect("a letter"), -y)
        })
        .collect();
    let run = align(&bench, "1", &up, &[]);
    assert!(
        run.code == 0 && run.err.contains("y counts the other way"),
        "{run:?}"
    );
}

#[test]
fn what_is_stitched_is_taken_down_once() {
    let bench = planned();
    let stitched = |more: &[&str]| bench.run(&[["stitched", "out"].as_slice(), more].concat());
    let run = stitched(&["--pass", "1"]);
    assert!(
        run.code == 0 && run.err.contains("stitched so far"),
        "{run:?}"
    );
    let twice = stitched(&["--pass", "1"]);
    assert!(
        twice.code == 1 && twice.err.contains("is stitched already"),
        "{twice:?}"
    );
    let one = stitched(&["--pass", "2", "--run", "2"]);
    assert_eq!(one.code, 0, "{one:?}");
    let other = stitched(&["--pass", "2", "--run", "1"]);
    assert!(
        other.code == 2 && other.err.contains("has the runs 2 to 3"),
        "{other:?}"
    );
    let undone = stitched(&["--pass", "1", "--undo"]);
    assert_eq!(undone.code, 0, "{undone:?}");
    let again = stitched(&["--pass", "1"]);
    assert_eq!(again.code, 0, "{again:?}");
    // A plan that has changed since is told from this one.
    let path = bench.path("out/plan.json");
    let text = std::fs::read_to_string(&path).expect("the plan");
    let mut plan: Value = serde_json::from_str(&text).expect("JSON");
    plan["quilt"] = serde_json::json!({"width": 60, "height": 80});
    std::fs::write(&path, plan.to_string()).expect("written");
    let run = stitched(&["--pass", "2"]);
    assert!(
        run.code == 1 && run.err.contains("is of another plan"),
        "{run:?}"
    );
}

#[test]
fn the_zero_lies_where_the_plan_asks_for_it() {
    let bench = Bench::new().with_demo();
    let plan = std::fs::read_to_string(bench.path("plan.json")).expect("the plan");
    let mut plan: Value = serde_json::from_str(&plan).expect("JSON");
    let with = |origin: &str, plan: &mut Value| {
        plan["machine"] = serde_json::json!({"throat": 16, "origin": origin});
        plan.to_string()
    };
    let bench = bench
        .with("start.json", with("start", &mut plan))
        .with("mark.json", with("mark:B", &mut plan))
        .with("nowhere.json", with("middle", &mut plan))
        .with("far.json", with("mark:ZZ", &mut plan));
    let first = |path: &str| {
        let line = json(&bench, path);
        let points = match line.get("paths") {
            Some(paths) => &paths[0]["points"],
            None => &line["points"],
        };
        let point = &points[0];
        [0, 1].map(|axis| point[axis].as_f64().expect("a number"))
    };
    let run = bench.run(&["plan", "start.json", "--out", "start"]);
    assert_eq!(run.code, 0, "{run:?}");
    assert_eq!(first("start/passes/02-upright.json"), [0.0, 0.0]);
    let pieces = std::fs::read_dir(bench.path("start/pieces")).expect("pieces");
    for entry in pieces {
        let name = entry
            .expect("an entry")
            .file_name()
            .to_string_lossy()
            .into_owned();
        if name.ends_with(".json") {
            assert_eq!(first(&format!("start/pieces/{name}")), [0.0, 0.0], "{name}");
        }
    }
    let run = bench.run(&["plan", "mark.json", "--out", "mark"]);
    assert_eq!(run.code, 0, "{run:?}");
    let pass = &json(&bench, "mark/result.json")["passes"][1];
    for axis in 0..2 {
        let start = pass["runs"][0]["start_on_machine"][axis]
            .as_f64()
            .expect("a number");
        let mark = pass["marks"][1]["on_machine"][axis]
            .as_f64()
            .expect("a number");
        let found = first("mark/passes/02-upright.json")[axis];
        assert!((found - (start - mark)).abs() < 1e-6, "{axis}: {found}");
    }
    for (plan, words) in [
        ("nowhere.json", "window, start, mark:"),
        ("far.json", "the marks are A, B"),
    ] {
        let run = bench.run(&["plan", plan, "--out", "none"]);
        assert!(run.code == 1 && run.err.contains(words), "{run:?}");
    }
}
