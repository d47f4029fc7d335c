//! Tables of the guide have every word that the command knows or writes.

use std::collections::BTreeSet;
use std::io::Write;
use std::process::Stdio;

use serde_json::{Value, json};

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

fn all_are_listed(written: &[Value], chapter: &str) {
    let mut found = BTreeSet::new();
    for value in written {
        keys(value, &mut found);
    }
    assert!(found.len() > 10, "{found:?}");
    let text = Page::guide(chapter).text;
    for key in found {
        let listed = [format!("`{key}`"), format!("`{key}[]`")];
        assert!(listed.iter().any(|key| text.contains(key)), "{key}");
    }
}

/// The results of all demo plans, as they are and with these keys in the plan and in its borders.
fn results(plan_keys: &Value, border_keys: &Value) -> Vec<Value> {
    let bench = Bench::new();
    let folder = root().join("fixtures/demo");
    let mut results = Vec::new();
    for entry in std::fs::read_dir(&folder).expect("the demo") {
        let path = entry.expect("an entry").path();
        if path.extension().is_none_or(|end| end != "json") {
            continue;
        }
        let text = std::fs::read_to_string(&path).expect("a plan");
        let mut plan: Value = serde_json::from_str(&text).expect("JSON");
        for (key, value) in plan_keys.as_object().expect("keys") {
            plan[key] = value.clone();
        }
        for (key, value) in border_keys.as_object().expect("keys") {
            plan["borders"][0][key] = value.clone();
        }
        // Motifs are found from where the command runs, as the plan comes by standard input.
        let mut command = bench.command(&["plan", "-", "--turned", "--out", "-"]);
        let mut child = command
            .current_dir(&folder)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("started");
        let mut stdin = child.stdin.take().expect("stdin");
        let sent = stdin.write_all(plan.to_string().as_bytes());
        sent.expect("read to its end");
        drop(stdin);
        let output = child.wait_with_output().expect("ended");
        assert!(output.status.success(), "{}", path.display());
        results.push(serde_json::from_slice(&output.stdout).expect("JSON"));
    }
    assert!(results.len() >= 13, "{} plans", results.len());
    results
}

/// Takes the data of findings out of results: for each its code, its severity and the data.
fn take_findings(results: &mut [Value]) -> Vec<(String, String, Value)> {
    let findings = results.iter_mut().flat_map(|result| {
        let findings = result["findings"].as_array_mut().expect("a list");
        findings.iter_mut().map(|finding| {
            let word = |key: &str| finding[key].as_str().expect("a word").to_owned();
            (word("code"), word("severity"), finding["data"].take())
        })
    });
    findings.collect()
}

#[test]
fn every_key_of_a_result_is_listed() {
    let mut results = results(&json!({}), &json!({}));
    take_findings(&mut results);
    all_are_listed(&results, "results");
}

#[test]
fn every_finding_is_as_its_row_has_it() {
    let mut results = results(
        &json!({
            "max_stretch_percent": 0.01,
            "stitching": { "stitches_per_inch": 4 },
            "machine": { "throat": 4 },
            "checks": { "closest": "3/8", "densest": 2 },
        }),
        &json!({ "edge_gap": "1/8", "slack": "1/2" }),
    );
    let findings = take_findings(&mut results);
    let text = Page::guide("findings").text;
    let mut seen = BTreeSet::new();
    for (code, severity, data) in &findings {
        let start = format!("\n| `{code}` | ");
        let (_, row) = text.split_once(&start).expect("a row of the code");
        let (severities, _) = row.split_once(" | ").expect("a cell");
        let known = severities.contains(severity.as_str()) || code == "unlisted";
        assert!(known, "{code}: {severity}");
        let row = row.lines().next().expect("a line");
        for key in data.as_object().expect("an object").keys() {
            assert!(row.contains(&format!("`{key}`: ")), "{code}: {key}");
        }
        seen.insert(code.clone());
    }
    assert!(seen.len() >= 12, "{seen:?}");
    let data: Vec<Value> = findings.into_iter().map(|(_, _, data)| data).collect();
    all_are_listed(&data, "findings");
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
    all_are_listed(&lines(&stitch), "results");
    let measures = ["measure", "border.svg", "corner.svg", "--json"];
    all_are_listed(&lines(&measures), "results");
    let ranks = ["rank", "border.svg", "--plan", "plan.json", "--json"];
    all_are_listed(&[lines(&ranks), lines(&measures)].concat(), "results");
}
