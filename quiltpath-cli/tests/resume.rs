//! `resume`: the rest of a run after a thread break, from the folder of a plan.

mod common;

use common::{Bench, points};
use serde_json::Value;

/// The demo, planned for a throat of 16 in, with moves besides.
fn planned() -> Bench {
    let bench = Bench::new().with_demo();
    let args = ["plan", "plan.json", "--out", "out", "--throat", "16 in"];
    bench
        .run(&[&args[..], &["--format", "gcode"]].concat())
        .ok();
    bench
}

fn resume(bench: &Bench, more: &[&str]) -> common::Run {
    let args = ["resume", "out", "--pass", "6", "--run", "10"];
    bench.run(&[&args[..], more].concat())
}

/// The line of run 10 as the files of its pass have it.
fn run_10(bench: &Bench) -> Vec<[f64; 2]> {
    points(&bench.json("out/passes/06-upright.json"))
}

fn distance(one: [f64; 2], other: [f64; 2]) -> f64 {
    (one[0] - other[0]).hypot(one[1] - other[1])
}

fn length(line: &[[f64; 2]]) -> f64 {
    line.windows(2).map(|pair| distance(pair[0], pair[1])).sum()
}

/// The rest that a run of the command prints.
fn printed(bench: &Bench, more: &[&str]) -> Vec<[f64; 2]> {
    let run = resume(bench, &[more, &["--out", "-"]].concat()).ok();
    points(&serde_json::from_str::<Value>(&run.out).expect("JSON"))
}

#[test]
fn the_rest_is_written_in_the_formats_of_the_folder() {
    let bench = planned();
    let line = run_10(&bench);
    let run = resume(&bench, &["--after", "100 in"]).ok();
    assert!(run.err.contains("100 in of "), "{run:?}");
    assert!(run.err.contains("begins 1/2 in before that"), "{run:?}");
    assert!(
        run.err
            .contains("the machine moves; its manual comes first"),
        "{run:?}"
    );
    assert_eq!(
        bench.names("out/rest"),
        ["06-run-10.gcode", "06-run-10.json", "06-run-10.svg"]
    );
    let rest = points(&bench.json("out/rest/06-run-10.json"));
    assert!((length(&rest) - (length(&line) - 99.5)).abs() < 1e-6);
    assert_eq!(rest[rest.len() - 3..], line[line.len() - 3..]);
    // Its moves go on where those of the pass would.
    let moves = bench.read("out/rest/06-run-10.gcode");
    let pass = bench.read("out/passes/06-upright.gcode");
    assert_eq!(moves.lines().last(), pass.lines().last());
    let stopped = &bench.json("out/progress.json")["stopped"];
    assert_eq!(
        (stopped["pass"].as_u64(), stopped["run"].as_u64()),
        (Some(6), Some(1))
    );
    assert!((stopped["length"].as_f64().expect("a number") - 2540.0).abs() < 1e-6);
    // A second break replaces the first.
    assert!(length(&line) > 360.0, "{}", length(&line));
    let second = resume(&bench, &["--after", "10 yd", "--back", "0"]);
    assert_eq!(second.code, 0, "{second:?}");
}

#[test]
fn a_point_a_stitch_and_a_time_say_where_as_a_length_does() {
    let bench = planned();
    let line = run_10(&bench);
    let whole = printed(&bench, &["--stitch", "0"]);
    assert_eq!(whole, line);
    let late = printed(&bench, &["--minutes", "0.05", "--back", "0"]);
    assert_eq!(late, line);
    let after = printed(&bench, &["--stitch", "404", "--back", "0"]);
    // 400 stitches of a tenth of an inch and less.
    let stitched = length(&line) - length(&after);
    assert!(stitched > 30.0 && stitched < 41.0, "{stitched}");
    let timed = length(&line) - length(&printed(&bench, &["--minutes", "1", "--back", "0"]));
    assert!(timed > 20.0 && timed < 57.0 * 2.96, "{timed}");
    // Where only one strand is, the point says it.
    let alone = (1..line.len() - 1).find(|&at| {
        let far = |other: usize| distance(line[at], line[other]);
        let near = |other: &usize| far(*other) < 0.2;
        let all: Vec<usize> = (0..line.len()).filter(near).collect();
        at > 200 && all[all.len() - 1] - all[0] + 1 == all.len()
    });
    let alone = alone.expect("a lone strand");
    let [x, y] = line[alone].map(|number| number.to_string());
    let rest = printed(&bench, &["--at", &x, &y, "--back", "0"]);
    assert!((length(&rest) - length(&line[alone..])).abs() < 1e-6);
    let metric = line[alone].map(|number| format!("{}mm", number * 25.4));
    let same = printed(&bench, &["--at", &metric[0], &metric[1], "--back", "0"]);
    assert!((length(&rest) - length(&same)).abs() < 1e-6);
}

#[test]
fn where_strands_cross_they_are_listed_with_what_to_give() {
    let bench = planned();
    let line = run_10(&bench);
    let crossing = (0..line.len()).find_map(|one| {
        let later =
            (one + 60..line.len()).find(|&other| distance(line[one], line[other]) < 0.01)?;
        Some((one, later))
    });
    let (one, _) = crossing.expect("a line that comes back");
    let [x, y] = line[one].map(|number| number.to_string());
    let run = resume(&bench, &["--at", &x, &y]);
    run.failed(
        1,
        &["run 10 comes by that point ", "--after \"", " in\"  ("],
    );
    assert!(!bench.path("out/progress.json").exists());
    let strands: Vec<&str> = run
        .err
        .lines()
        .filter_map(|row| row.trim().strip_prefix("--after \"")?.split('"').next())
        .collect();
    assert!(strands.len() > 1, "{run:?}");
    let own = length(&line[..=one]);
    let found = strands.iter().map(|strand| {
        let rest = printed(&bench, &["--after", strand, "--back", "0"]);
        (length(&line) - length(&rest) - own).abs()
    });
    assert!(found.fold(f64::INFINITY, f64::min) < 2e-3);
}

#[test]
fn a_fresh_bobbin_is_taken_down_and_the_next_change_counts_from_it() {
    let bench = Bench::new().with_demo();
    let plan = bench.read("plan.json");
    let short = plan.replacen('{', r#"{"thread": {"bobbin": "25 yd"},"#, 1);
    std::fs::write(bench.path("plan.json"), short).expect("written");
    let args = ["plan", "plan.json", "--out", "out", "--throat", "16 in"];
    bench.run(&args).ok();
    let changes = bench.json("out/result.json")["bobbin_changes"].clone();
    let changes = changes.as_array().expect("changes");
    assert!(changes.len() > 3, "{changes:?}");
    // Where the plan has the first change, only told of; nothing is put in.
    let first = &changes[0];
    let [pass, run] = ["pass", "run"].map(|key| first[key].to_string());
    let after = first["length"].to_string();
    let at = ["resume", "out", "--pass", &pass, "--run", &run, "--after"];
    let early = bench.run(&[&at[..], &["0"]].concat()).ok();
    let line = |run: &common::Run| {
        let found = run
            .err
            .lines()
            .find(|line| line.contains("the next change: "));
        found.expect("the next change").trim().to_owned()
    };
    assert!(
        line(&early).contains(&format!("pass {pass}, ")),
        "{early:?}"
    );
    assert!(line(&early).ends_with(&format!("{} more after that", changes.len() - 1)));
    assert_eq!(
        bench.json("out/progress.json")["bobbins"],
        serde_json::json!([])
    );
    // Changed there, as planned.
    let there = bench
        .run(&[&at[..], &[&after, "--new-bobbin"]].concat())
        .ok();
    assert!(
        line(&there).starts_with("a fresh bobbin; the next change: "),
        "{there:?}"
    );
    assert!(line(&there).ends_with(&format!("{} more after that", changes.len() - 2)));
    let kept = bench.json("out/progress.json")["bobbins"].clone();
    let passes = bench.json("out/result.json")["passes"].clone();
    let runs = passes.as_array().expect("passes").iter();
    let runs = runs.flat_map(|pass| pass["runs"].as_array().expect("runs"));
    let number = |value: &Value| value.as_f64().expect("a number");
    let before = runs.filter(|one| number(&one["number"]) < number(&first["run"]));
    let along: f64 =
        before.map(|one| number(&one["length"])).sum::<f64>() + number(&first["length"]);
    assert!(
        (number(&kept[0]) / 25.4 - along).abs() < 1e-6,
        "{kept} {along}"
    );
    // The same again is the same bobbin; one that was empty before it takes its place.
    bench
        .run(&[&at[..], &[&after, "--new-bobbin"]].concat())
        .ok();
    assert_eq!(bench.json("out/progress.json")["bobbins"], kept);
    bench
        .run(&[
            "resume",
            "out",
            "--pass",
            "1",
            "--run",
            "1",
            "--after",
            "10 in",
            "--new-bobbin",
        ])
        .ok();
    let kept = bench.json("out/progress.json")["bobbins"].clone();
    assert!((number(&kept[0]) - 254.0).abs() < 1e-6 && kept.as_array().map(Vec::len) == Some(1));
    // With enough on it none is left to change.
    let last = planned();
    let told = resume(&last, &["--after", "350 in", "--new-bobbin"]).ok();
    assert!(
        told.err
            .contains("a fresh bobbin; no change of the bobbin is left"),
        "{told:?}"
    );
}

#[test]
fn a_laid_pass_goes_on_as_laid() {
    let bench = planned();
    let marks = bench.json("out/result.json")["passes"][5]["marks"].clone();
    let mut args = vec![
        "align".to_owned(),
        "out".into(),
        "--pass".into(),
        "6".into(),
    ];
    for mark in marks.as_array().expect("marks") {
        let at: [f64; 2] = serde_json::from_value(mark["on_machine"].clone()).expect("a point");
        let letter = mark["letter"].as_str().expect("a letter");
        args.push("--reading".into());
        args.push(format!("{letter} {:.6}, {:.6}", at[0] + 1.0, at[1] + 0.5));
    }
    let args: Vec<&str> = args.iter().map(String::as_str).collect();
    bench.run(&args);
    assert!(bench.path("out/laid/06/lines.json").exists());
    let planned = run_10(&bench);
    let rest = printed(&bench, &["--after", "100 in"]);
    let end = planned[planned.len() - 1];
    assert!(distance(rest[rest.len() - 1], [end[0] + 1.0, end[1] + 0.5]) < 1e-3);
    let laid = points(&bench.json("out/laid/06/lines.json"));
    assert_eq!(rest[rest.len() - 1], laid[laid.len() - 1]);
    let stopped = &bench.json("out/progress.json")["stopped"];
    assert!((stopped["length"].as_f64().expect("a number") - 2540.0).abs() < 0.1);
    // Its zero where its files have it.
    let shifted = printed(
        &bench,
        &["--after", "0", "--back", "0", "--origin", "start"],
    );
    assert!(distance(shifted[0], [0.0, 0.0]) < 1e-9);
}

#[test]
fn every_bad_input_says_what_would_do() {
    let bench = planned();
    let there = ["--after", "1 in"];
    for (args, code, words) in [
        (
            vec!["out", "--pass", "9", "--run", "1"],
            2,
            "--pass 9: the plan has 6 passes; give 1 to 6",
        ),
        (
            vec!["out", "--pass", "6", "--run", "2"],
            2,
            "--run 2: pass 6 has the runs 10 to 10",
        ),
        (
            vec!["out", "--pass", "0", "--run", "1"],
            2,
            "give 1 or more",
        ),
        (
            vec!["nowhere", "--pass", "1", "--run", "1"],
            1,
            "nowhere: has no plan.json",
        ),
        (
            vec!["plan.json", "--pass", "1", "--run", "1"],
            1,
            "has no plan.json",
        ),
    ] {
        let args = [&["resume"], &args[..], &there].concat();
        bench.run(&args).failed(code, &[words]);
    }
    for (more, code, words) in [
        (vec![], 2, "--at <X> <Y>|--after"),
        (
            vec!["--at", "1", "1", "--after", "1 in"],
            2,
            "cannot be used with",
        ),
        (
            vec!["--stitch", "4", "--minutes", "1"],
            2,
            "cannot be used with",
        ),
        (vec!["--at", "1"], 2, "2 values required"),
        (vec!["--at", "left", "1"], 2, "\"left\""),
        (
            vec!["--at", "500", "500"],
            1,
            "from the nearest place of the run; up to 1 in are accepted",
        ),
        (vec!["--after", "-1"], 2, "--after: -1 is below 0"),
        (
            vec!["--after", "99 yd"],
            1,
            "run 10: the run can't have stopped after ",
        ),
        (vec!["--stitch", "-4"], 2, "\"-4\" is not a whole number"),
        (
            vec!["--stitch", "999999"],
            1,
            "can't have stopped at stitch 999999, since it has ",
        ),
        (vec!["--minutes", "-1"], 2, "give 0 or more"),
        (
            vec!["--minutes", "500"],
            1,
            "can't have stopped after 500 minutes, since it takes ",
        ),
        (
            vec!["--after", "1 in", "--back", "-1/2 in"],
            2,
            "--back: -0.5 in is below 0",
        ),
        (vec!["--after", "1 in", "--force"], 2, "--out"),
        (
            vec!["--after", "1 in", "--out", "rest"],
            2,
            "--out rest: end the name in",
        ),
        (
            vec!["--after", "1 in", "--out", "plan.json"],
            1,
            "plan.json: exists already",
        ),
        (
            vec![
                "--after", "1 in", "--out", "-", "--format", "svg", "--format", "dxf",
            ],
            2,
            "give one format",
        ),
        (vec!["--after", "1 in", "--origin", "mark:Q"], 1, "Q"),
        (vec!["--after", "1 in", "--origin", "middle"], 2, "middle"),
    ] {
        resume(&bench, &more).failed(code, &[words]);
    }
    assert!(!bench.path("out/progress.json").exists() && !bench.path("out/rest").exists());
    // Of another plan.
    std::fs::write(
        bench.path("out/progress.json"),
        r#"{"plan": "af63dc4c8601ec8c", "unit": "mm"}"#,
    )
    .expect("written");
    resume(&bench, &there).failed(1, &["out/progress.json: is of another plan"]);
}
