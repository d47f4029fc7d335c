//! `stitch`: needle points held against the line, numbers against formulas, what goes in and out.

#[path = "../common/mod.rs"]
mod common;
mod estimate;
mod in_and_out;
mod needles;

use common::{Bench, points};
use serde_json::Value;

type Point = [f64; 2];

fn apart(a: Point, b: Point) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

fn gaps(points: &[Point]) -> Vec<f64> {
    points
        .windows(2)
        .map(|pair| apart(pair[0], pair[1]))
        .collect()
}

fn line_of(points: &str) -> String {
    format!("{{\"unit\":\"in\",\"name\":\"line\",\"points\":{points}}}")
}

/// A straight line of 10 in.
fn ten_inches() -> Bench {
    Bench::new().with("a.json", line_of("[[0,1],[10,1]]"))
}

/// Needle points and report of `a.json` with these options.
fn stitched(bench: &Bench, more: &[&str]) -> (Vec<Point>, Value) {
    let args = [
        "stitch", "a.json", "--force", "--out", "b.json", "--report", "r.json",
    ];
    bench.run(&[args.as_slice(), more].concat()).ok();
    (points(&bench.json("b.json")), bench.json("r.json"))
}

fn close(found: &Value, wanted: f64) {
    let found = found.as_f64().expect("a number");
    assert!(
        (found - wanted).abs() < 1e-9 * wanted.abs().max(1.0),
        "{found} {wanted}"
    );
}
