//! Hostile and odd input through the command: every run within bounds of time and memory, exit code
//! and message held.
#![cfg(target_os = "linux")]
#![allow(
    clippy::print_stdout,
    reason = "what a run took, for who asks by --nocapture"
)]

mod bounds;
#[path = "../common/mod.rs"]
mod common;
mod json;
mod large;
mod names;
mod plans;
mod streams;
mod svg;

use bounds::Bounds;
use common::Bench;

/// All commands that read a drawing, with what they write to stdout; it takes the place of `@`.
const READERS: [&[&str]; 8] = [
    &["measure", "@"],
    &["convert", "@", "--out", "-", "--format", "json"],
    &[
        "transform",
        "@",
        "--op",
        "rotate 30",
        "--out",
        "-",
        "--format",
        "json",
    ],
    &[
        "fit", "@", "--span", "9 in", "--depth", "1 in", "--out", "-", "--format", "json",
    ],
    &[
        "corner", "@", "--style", "mitred", "--depth", "1 in", "--out", "-", "--format", "json",
    ],
    &[
        "trim",
        "@",
        "--to",
        "l",
        "--width",
        "9 in",
        "--height",
        "9 in",
        "--leg-depth",
        "4 in",
        "--out",
        "-",
        "--format",
        "json",
    ],
    &["stitch", "@", "--out", "-", "--format", "json"],
    &["template", "@", "--out", "-"],
];

/// A plan with this motif on its sides, and more keys of a side and of the plan.
fn plan(motif: &str, side: &str, more: &str) -> String {
    format!(
        "{{\"unit\":\"in\",\"quilt\":{{\"width\":64,\"height\":80}},\"borders\":[{{\"width\":6,\"corner\":{{\"style\":\"open\"}},\"side\":{{\"motif\":\"{motif}\"{side}}}}}]{more}}}"
    )
}

/// Each command that reads, given this file, fails with exit code 1 and this message, which starts
/// behind the file's name.
fn refused(name: &str, content: impl AsRef<[u8]>, message: &str) {
    refused_within(&Bounds::SMALL, name, content, message);
}

fn refused_within(bounds: &Bounds, name: &str, content: impl AsRef<[u8]>, message: &str) {
    let bench = Bench::new()
        .with(name, content)
        .with("plan.json", plan(name, "", ""));
    let words = format!("quiltpath: error: {name}{message}");
    let check = |args: &[&str], exact: bool| {
        let run = bounds.run(&bench, args);
        run.failed(1, &[]);
        let found = run.err.trim_end();
        assert!(
            if exact {
                found == words
            } else {
                !found.is_empty()
            },
            "{args:?}:\n{found}\ninstead of\n{words}"
        );
        run.err
    };
    for args in READERS {
        let args: Vec<&str> = args
            .iter()
            .map(|&a| if a == "@" { name } else { a })
            .collect();
        check(&args, true);
    }
    check(&["rank", name, "--span", "9 in", "--depth", "1 in"], true);
    // A plan says where it names the motif, too.
    let err = check(&["plan", "plan.json", "--out", "-"], false);
    let reason = message.rsplit(": ").next().unwrap_or(message);
    assert!(err.contains(name) && err.contains(reason), "{err}");
    assert_eq!(bench.names(".").len(), 2, "something was left behind");
}
