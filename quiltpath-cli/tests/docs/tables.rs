//! Tables of the guide have every word that the command knows or writes.

use std::collections::BTreeSet;

use serde_json::Value;

use super::common::{Bench, demo};
use super::keys::{Schema, member};
use super::{Page, root};

#[test]
fn every_corner_style_has_a_row() {
    let schema = Schema::print();
    let steps = ["borders", "0", "corner", "style"];
    let style = steps
        .into_iter()
        .fold(schema.root(), |of, step| schema.resolve(member(of, step)));
    let styles = style["oneOf"].as_array().expect("a list of styles");
    assert!(styles.len() >= 6, "{styles:?}");
    for style in styles {
        let name = style["const"].as_str().expect("a name");
        let row = format!("\n| `{name}` |");
        assert!(Page::guide("plan").text.contains(&row), "{name}");
    }
}

#[test]
fn every_format_has_a_row() {
    for format in ["svg", "json", "jsonl", "dxf", "gcode"] {
        let row = format!("\n| `{format}` | `.{format}`");
        assert!(Page::guide("drawings").text.contains(&row), "{format}");
    }
}

/// All keys in a value, however deep.
fn keys(value: &Value, found: &mut BTreeSet<String>) {
    match value {
        Value::Object(object) => {
            for (key, value) in object {
                found.insert(key.clone());
                keys(value, found);
            }
        }
        Value::Array(list) => list.iter().for_each(|value| keys(value, found)),
        _ => {}
    }
}

fn all_are_listed(written: &[Value]) {
    let mut found = BTreeSet::new();
    for value in written {
        keys(value, &mut found);
    }
    assert!(found.len() > 10, "{found:?}");
    let text = Page::guide("results").text;
    for key in found {
        let listed = [format!("`{key}`"), format!("`{key}[]`")];
        assert!(listed.iter().any(|key| text.contains(key)), "{key}");
    }
}

#[test]
fn every_key_of_a_result_is_listed() {
    let bench = Bench::new();
    let mut results = Vec::new();
    for entry in std::fs::read_dir(root().join("fixtures/demo")).expect("the demo") {
        let path = entry.expect("an entry").path();
        if path.extension().is_some_and(|end| end == "json") {
            let plan = path.to_str().expect("UTF-8");
            let run = bench.run(&["plan", plan, "--turned", "--out", "-"]).ok();
            results.push(serde_json::from_str(&run.out).expect("JSON"));
        }
    }
    assert!(results.len() >= 13, "{} plans", results.len());
    all_are_listed(&results);
}

#[test]
fn every_key_of_a_report_is_listed() {
    let bench = Bench::new().with_demo();
    let lines = |args: &[&str]| -> Vec<Value> {
        let run = bench.run(args).ok();
        let value = |line: &str| serde_json::from_str(line).expect("JSON");
        run.out.lines().map(value).collect()
    };
    let corner = demo("corner.svg");
    let corner = corner.to_str().expect("UTF-8");
    let stitch = ["stitch", corner, "--minimum", "0.07 in", "--report", "-"];
    all_are_listed(&lines(&stitch));
    all_are_listed(&lines(&["measure", "border.svg", "corner.svg", "--json"]));
    all_are_listed(
        &[
            lines(&["rank", "border.svg", "--plan", "plan.json", "--json"]),
            lines(&["measure", "border.svg", "--json"]),
        ]
        .concat(),
    );
}
