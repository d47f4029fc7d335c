//! Folders and JSON Lines: order kept, bad records reported and the rest done, the same bytes as
//! alone.

#[path = "../common/mod.rs"]
mod common;
mod streams;

use std::fmt::Write as _;

use common::{Bench, svg};

const COUNT: usize = 400;
const FIT: [&str; 4] = ["--span", "50 in", "--depth", "5 in"];

/// Zigzags that differ, every seventh long, so that work is uneven.
fn record(at: usize) -> String {
    let turns = if at.is_multiple_of(7) { 500 } else { 2 };
    let mut text = format!("{{\"unit\":\"mm\",\"name\":\"leaf {at}\",\"points\":[[0.0,5.0]");
    for turn in 1..=turns {
        let _ = write!(text, ",[{}.5,{}.0]", turn * 2 + at, turn % 3);
    }
    let _ = writeln!(text, ",[{}.0,5.0]]}}", turns * 2 + 2 + at);
    text
}

/// What each command does with one drawing, but for where from and where to.
fn commands() -> [Vec<&'static str>; 4] {
    [
        vec!["convert"],
        vec!["convert", "--one"],
        vec!["transform", "--op", "rotate 30", "--op", "scale 2"],
        [["fit"].as_slice(), &FIT].concat(),
    ]
}

fn with<'a>(command: &[&'a str], more: &[&'a str]) -> Vec<&'a str> {
    [command, more].concat()
}

#[test]
fn lines_come_in_order_and_as_they_would_alone() {
    let bench = Bench::new();
    let all: String = (0..COUNT).map(record).collect();
    let out = ["--out", "-", "--format", "jsonl"];
    for command in commands() {
        let command = with(&command, &out);
        let run = bench.run_with(&with(&command, &["-", "--threads", "16"]), &all);
        let run = run.ok();
        let lines: Vec<&str> = run.out.lines().collect();
        assert_eq!(lines.len(), COUNT, "{command:?}");
        for (at, line) in lines.iter().enumerate() {
            assert!(line.contains(&format!("\"leaf {at}\"")), "{at}: {line}");
        }
        for at in [0, 1, 7, COUNT - 1] {
            let alone = bench.run_with(&with(&command, &["-"]), record(at)).ok();
            assert_eq!(alone.out, format!("{}\n", lines[at]), "{command:?} {at}");
            // The same text as a file that is no JSON Lines.
            std::fs::write(bench.path("one.json"), record(at)).expect("written");
            let file = bench.run(&with(&command, &["one.json"])).ok();
            assert_eq!(file.out, alone.out, "{command:?} {at}");
        }
    }
    let measure = ["measure", "-", "--json", "--threads", "16"];
    let run = bench.run_with(&measure, &all).ok();
    for (at, line) in run.out.lines().enumerate() {
        let facts: serde_json::Value = serde_json::from_str(line).expect("JSON");
        assert_eq!(facts["line"], at + 1);
        assert_eq!(facts["name"], format!("leaf {at}"));
    }
    assert_eq!(run.out.lines().count(), COUNT);
}

#[test]
fn bad_lines_are_reported_by_number_and_the_rest_is_done() {
    let bench = Bench::new();
    let bad = [
        (0, "{\"unit\":\"mm\",\"points\":[[0,0],\n", "stdin:1:"),
        (
            3,
            "{\"unit\":\"mm\",\"pionts\":[]}\n",
            "stdin:4:21: pionts: unknown key \"pionts\"",
        ),
        (
            10,
            "{\"unit\":\"mm\",\"points\":[[1,1]]}\n",
            "stdin:11:1: line-11: 1 point can't make a line",
        ),
        (11, "hello\n", "stdin:12:1: "),
        (12, "\u{feff}\u{1}\n", "stdin:13:"),
        (
            19,
            "[[0,0],[1,1]]\n",
            "stdin:20:1: the point list names no unit",
        ),
    ];
    let all: String = (0..20)
        .map(|at| match bad.iter().find(|(bad, ..)| *bad == at) {
            Some((_, text, _)) => (*text).to_owned(),
            None => record(at),
        })
        .collect();
    let out = ["-", "--out", "-", "--format", "jsonl"];
    let mut runs = Vec::new();
    for command in commands() {
        runs.push(bench.run_with(&with(&command, &out), &all));
    }
    runs.push(bench.run_with(&["measure", "-", "--json"], format!("{}{all}", record(0))));
    let measured = runs.pop().expect("a run");
    assert_eq!((measured.code, measured.out.lines().count()), (1, 15));
    for run in runs {
        assert_eq!(run.code, 1, "{run:?}");
        let lines: Vec<&str> = run
            .err
            .lines()
            .filter(|line| line.contains("error"))
            .collect();
        assert_eq!(lines.len(), bad.len(), "{}", run.err);
        for ((_, _, words), line) in bad.iter().zip(lines) {
            assert!(line.contains(words), "no {words:?} in {line}");
        }
        assert!(run.err.ends_with("6 of 20 failed\n"), "{}", run.err);
        let good = (0..20).filter(|at| bad.iter().all(|(bad, ..)| bad != at));
        for (at, line) in good.zip(run.out.lines()) {
            assert!(line.contains(&format!("\"leaf {at}\"")), "{at}: {line}");
        }
        assert_eq!(run.out.lines().count(), 14);
    }
}

#[test]
fn a_line_without_a_name_gets_its_number() {
    let line = "{\"unit\":\"mm\",\"points\":[[0.0,0.0],[1.0,1.0]]}\n";
    let two = "{\"unit\":\"cm\",\"paths\":[{\"points\":[[0.0,0.0],[1.0,1.0]]},{\"points\":[[1.0,1.0],[2.0,1.0]]}]}\n";
    let bench = Bench::new().with("a.jsonl", format!("{line}\n{two}"));
    let names = |args: &[&str]| -> Vec<(String, String)> {
        bench.run(args).ok();
        let text = bench.read("out.jsonl");
        let value = |line: &str| serde_json::from_str::<serde_json::Value>(line).expect("JSON");
        let word = |value: &serde_json::Value| value.as_str().expect("a word").to_owned();
        let lines = text.lines().map(value);
        lines
            .map(|line| (word(&line["unit"]), word(&line["name"])))
            .collect()
    };
    let pair = |unit: &str, name: &str| (unit.to_owned(), name.to_owned());
    assert_eq!(
        names(&["convert", "a.jsonl", "--out", "out.jsonl"]),
        [
            pair("mm", "line-1"),
            pair("cm", "line-3-1"),
            pair("cm", "line-3-2")
        ]
    );
    // As a motif, a line is one path.
    let turn = [
        "transform",
        "a.jsonl",
        "--op",
        "reverse",
        "--unit",
        "in",
        "--force",
    ];
    assert_eq!(
        names(&with(&turn, &["--out", "out.jsonl"])),
        [pair("in", "line-1"), pair("in", "line-3")]
    );
}

/// A folder with drawings of all kinds, one of them bad.
fn folder() -> Bench {
    let bench = Bench::new().with_demo();
    std::fs::create_dir(bench.path("many")).expect("a folder");
    bench
        .with("many/a.svg", svg(r#"<path d="M0 1 L1 0 L2 2 L5 1"/>"#))
        .with("many/b.svg", "<svg")
        .with("many/c.json", record(3))
        .with("many/d.jsonl", record(4))
        .with(
            "many/e.svg",
            svg(r#"<path d="M0 1 L3 0 L2 2 L9 1"/><text>x</text>"#),
        )
        .with("many/notes.txt", "not a drawing")
}

#[test]
fn a_folder_goes_to_a_folder_as_each_file_would_alone() {
    let bench = folder();
    for (at, command) in commands().into_iter().enumerate() {
        for format in ["svg", "json", "dxf"] {
            let out = format!("out-{at}-{format}");
            let args = with(&command, &["many", "--out", &out, "--format", format]);
            let run = bench.run(&args);
            assert_eq!(run.code, 1, "{run:?}");
            assert!(run.out.is_empty());
            assert!(run.err.contains("error: many/b.svg:1:"), "{}", run.err);
            assert!(run.err.contains("note: many/e.svg: "), "{}", run.err);
            assert!(run.err.ends_with("1 of 5 failed\n"), "{}", run.err);
            let names = ["a", "c", "d", "e"].map(|name| format!("{name}.{format}"));
            assert_eq!(bench.names(&out), names);
            for name in ["a.svg", "c.json", "d.jsonl", "e.svg"] {
                let file = format!("many/{name}");
                let args = with(&command, &[&file, "--out", "-", "--format", format]);
                let alone = bench.run(&args).out;
                let stem = name.split_once('.').expect("an end").0;
                assert_eq!(bench.read(&format!("{out}/{stem}.{format}")), alone);
            }
        }
    }
}

#[test]
fn files_that_exist_stay_and_the_rest_is_done() {
    let bench = folder();
    std::fs::create_dir(bench.path("out")).expect("a folder");
    let bench = bench.with("out/a.json", "mine");
    let args = ["convert", "many", "--out", "out", "--format", "json"];
    let run = bench.run(&args);
    run.failed(
        1,
        &[
            "error: out/a.json: exists already; give --force",
            "2 of 5 failed",
        ],
    );
    assert_eq!(bench.read("out/a.json"), "mine");
    assert_eq!(bench.names("out"), ["a.json", "c.json", "d.json", "e.json"]);
    let again = bench.run(&with(&args, &["--force"]));
    again.failed(1, &["error: many/b.svg:1:", "1 of 5 failed"]);
    assert!(bench.read("out/a.json").contains("points"));
}

#[test]
fn a_folder_goes_to_one_file_of_json_lines_too() {
    let bench = folder();
    let run = bench.run(&["convert", "many", "--out", "all.jsonl"]);
    run.failed(1, &["1 of 5 failed"]);
    let names = |text: &str| -> Vec<String> {
        let line = |line| serde_json::from_str::<serde_json::Value>(line).expect("JSON");
        let lines = text.lines().map(line);
        lines
            .map(|line| line["name"].as_str().expect("a name").to_owned())
            .collect()
    };
    assert_eq!(
        names(&bench.read("all.jsonl")),
        ["a", "leaf 3", "leaf 4", "e"]
    );
    let run = bench.run(&["convert", "many", "--out", "-", "--format", "jsonl"]);
    assert_eq!((run.code, run.out), (1, bench.read("all.jsonl")));
    let run = bench.run(&["measure", "many", "--json"]);
    assert_eq!(run.code, 1);
    assert_eq!(names(&run.out), ["a", "leaf 3", "leaf 4", "e"]);
    assert!(
        run.out.starts_with("{\"file\":\"many/a.svg\",\"name\""),
        "{}",
        run.out
    );
}

#[test]
fn what_a_folder_can_not_become_is_reported() {
    let bench = folder();
    std::fs::create_dir(bench.path("none")).expect("a folder");
    let run = |args: &[&str]| bench.run(&with(&["convert", "many"], args));
    run(&["--out", "out"]).failed(2, &["--out out: for many drawings name a folder, and what"]);
    run(&["--out", "out.svg"]).failed(2, &["for many drawings name a folder"]);
    run(&["--out", "-", "--format", "svg"]).failed(2, &["or write JSON Lines with --format jsonl"]);
    run(&["--out", "a.jsonl", "--format", "svg"]).failed(2, &["or write JSON Lines"]);
    run(&["--out", "plan.json", "--format", "svg"])
        .failed(1, &["plan.json: is a file; name a folder"]);
    run(&["--out", "plan.json/where", "--format", "svg"])
        .failed(1, &["plan.json/where: can't be made"]);
    run(&["--out", "out", "--format", "dxf", "--smooth", "1 mm"]).failed(2, &["--smooth"]);
    run(&["--out", "out", "--format", "svg", "--threads", "0"]).failed(2, &["--threads: give 1"]);
    run(&["--out", "out", "--format", "svg", "--threads", "99999"]).failed(2, &["give 1 to 256"]);
    for command in commands() {
        let args = with(&command, &["none", "--out", "out", "--format", "svg"]);
        bench
            .run(&args)
            .failed(1, &["none: there are no drawings in this folder"]);
    }
    bench
        .run(&["measure", "none", "--json"])
        .failed(1, &["none: there are no drawings in this folder"]);
    let bench = bench.with("many/a.json", record(1));
    let twice = bench.run(&["convert", "many", "--out", "out", "--format", "svg"]);
    twice.failed(
        1,
        &["many/a.json and many/a.svg would both be written to out/a.svg"],
    );
    assert!(!bench.path("out").exists());
}
