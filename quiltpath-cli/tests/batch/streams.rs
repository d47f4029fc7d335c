//! Streams: empty, bad throughout, with one record of great length, endless, and shared.

use std::fmt::Write as _;
use std::io::{BufRead, BufReader, Write};
use std::process::Stdio;

use crate::common::Bench;
use crate::{commands, record, with};

#[test]
fn no_records_are_no_fault() {
    let bench = Bench::new();
    for input in ["", "\n\n"] {
        for command in commands() {
            let args = with(&command, &["-", "--out", "-", "--format", "jsonl"]);
            assert_eq!(bench.run_with(&args, input).ok().out, "");
        }
        assert_eq!(
            bench.run_with(&["measure", "-", "--json"], input).ok().out,
            ""
        );
    }
    let alone = bench.run_with(&["convert", "-", "--out", "-", "--format", "json"], "");
    alone.failed(1, &["stdin: the file is empty"]);
}

#[test]
fn where_all_is_bad_nothing_is_left() {
    let bench = Bench::new().with("a.jsonl", "hello\n[]\n");
    let run = bench.run(&["convert", "a.jsonl", "--out", "b.jsonl"]);
    run.failed(1, &["a.jsonl:1:1:", "a.jsonl:2:", "2 of 2 failed"]);
    assert_eq!(bench.names("."), ["a.jsonl"]);
}

#[test]
fn a_record_of_a_million_points_stands_between_small_ones() {
    let mut long = String::from("{\"unit\":\"mm\",\"name\":\"long\",\"points\":[[0.0,0.0]");
    for at in 1..1_000_000 {
        let _ = write!(long, ",[{}.0,{}.0]", at % 1000, at / 1000);
    }
    long.push_str("]}\n");
    let all = format!("{}{long}{}", record(1), record(2));
    let bench = Bench::new();
    let args = [
        "convert",
        "-",
        "--out",
        "-",
        "--format",
        "jsonl",
        "--threads",
        "4",
    ];
    assert!(
        bench.run_with(&args, &all).ok().out == all,
        "other bytes came out"
    );
}

#[test]
fn each_result_comes_before_the_next_record_is_there() {
    let bench = Bench::new();
    let mut command = bench.command(&["convert", "-", "--out", "-", "--format", "jsonl"]);
    let mut child = command
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("started");
    let mut stdin = child.stdin.take().expect("stdin");
    let mut stdout = BufReader::new(child.stdout.take().expect("stdout"));
    for at in 0..50 {
        stdin.write_all(record(at).as_bytes()).expect("taken");
        stdin.flush().expect("taken");
        let mut line = String::new();
        stdout.read_line(&mut line).expect("a line");
        assert_eq!(line, record(at));
    }
    drop(stdin);
    assert!(child.wait().expect("ended").success());
}

#[test]
fn a_reader_that_stops_early_ends_an_endless_input() {
    let bench = Bench::new();
    let mut command = bench.command(&["convert", "-", "--out", "-", "--format", "jsonl"]);
    let mut child = command
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("started");
    let mut stdin = child.stdin.take().expect("stdin");
    let mut stdout = BufReader::new(child.stdout.take().expect("stdout"));
    let mut line = String::new();
    stdin.write_all(record(0).as_bytes()).expect("taken");
    stdout.read_line(&mut line).expect("a line");
    drop(stdout);
    // Only the end of the command ends this.
    while stdin.write_all(record(1).as_bytes()).is_ok() {}
    let output = child.wait_with_output().expect("ended");
    assert_eq!(output.status.code(), Some(0));
    assert!(output.stderr.is_empty());
}

#[test]
fn commands_that_share_a_file_for_messages_keep_its_lines_whole() {
    let bench = Bench::new();
    let bad = "{\"unit\":\"mm\",\"points\":[[1,1]]}\n".repeat(2000);
    let bench = bench.with("a.jsonl", &bad).with("b.jsonl", &bad);
    let printed = std::fs::File::create(bench.path("printed")).expect("a file");
    let start = |file: &str| {
        let mut command = bench.command(&["convert", file, "--out", "-", "--format", "jsonl"]);
        command.stderr(printed.try_clone().expect("shared"));
        command.spawn().expect("started")
    };
    let mut children = ["a.jsonl", "b.jsonl"].map(start);
    for child in &mut children {
        assert_eq!(child.wait().expect("ended").code(), Some(1));
    }
    let printed = bench.read("printed");
    assert_eq!(printed.lines().count(), 4002);
    for line in printed.lines() {
        let whole = line.starts_with("quiltpath: error: ") && line.ends_with("different points");
        assert!(whole || line == "2000 of 2000 failed", "{line}");
    }
}
