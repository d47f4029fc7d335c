//! Every plan shown is read as one, whole or in part; every point list shown is a drawing.

use quiltpath_core::io::json::read_plan;
use serde_json::{Value, json};

use super::common::Bench;
use super::keys::{Schema, member};
use super::{Page, pages};

/// The objects in a plan that all of these keys may belong to: the plan, a border, its side, …
fn homes(schema: &Schema, keys: &Value) -> Vec<&'static str> {
    let keys: Vec<&String> = keys.as_object().expect("keys").keys().collect();
    let homes = [
        "",
        "/borders/0",
        "/borders/0/side",
        "/borders/0/corner",
        "/machine",
        "/quilt",
        "/blocks",
        "/blocks/sashing",
    ];
    let of_home = |home: &&str| {
        let of = home.split('/').filter(|step| !step.is_empty());
        let of = of.fold(schema.root(), |of, step| schema.resolve(member(of, step)));
        keys.iter().all(|key| of["properties"].get(key).is_some())
    };
    let homes: Vec<&str> = homes.into_iter().filter(of_home).collect();
    assert!(!homes.is_empty(), "no object has all of {keys:?}");
    homes
}

/// Reads a plan, or a part of one put into a plan.
fn check(schema: &Schema, text: &str, page: &str) {
    let text = text.trim();
    if text.starts_with('{') {
        read_plan(text.as_bytes()).unwrap_or_else(|error| panic!("{page}: {error}: {text}"));
        return;
    }
    let part: Value = serde_json::from_str(&format!("{{{text}}}"))
        .unwrap_or_else(|error| panic!("{page}: {error}: {text}"));
    let plan = json!({
        "unit": "in",
        "quilt": { "width": 60, "height": 80 },
        "borders": [{
            "width": 6,
            "corner": { "style": "leg", "motif": "corner.svg" },
            "side": { "motif": "border.svg" },
        }],
        "machine": {},
        "blocks": {
            "rows": 2,
            "columns": 2,
            "block": { "motif": "block.svg" },
            "sashing": { "width": 2 },
        },
    });
    // A key such as "lie" has its own words in each of its homes.
    let read = homes(schema, &part).into_iter().map(|home| {
        let mut plan = plan.clone();
        let home = plan.pointer_mut(home).expect("it is there");
        for (key, value) in part.as_object().expect("keys") {
            home[key] = value.clone();
        }
        read_plan(plan.to_string().as_bytes()).map(|_| ())
    });
    let read = read.reduce(Result::or).expect("a home");
    read.unwrap_or_else(|error| panic!("{page}: {error}: {text}"));
}

/// Code in a line that gives a key and its value.
fn in_lines(page: &Page) -> impl Iterator<Item = &str> {
    let outside = page.text.split("\n```").step_by(2);
    let code = outside.flat_map(|text| text.split('`').skip(1).step_by(2));
    code.filter(|code| code.starts_with('"') && code.contains("\": "))
}

#[test]
fn are_read() {
    let schema = Schema::print();
    let bench = Bench::new();
    let (mut plans, mut lists) = (0, 0);
    for page in pages() {
        let blocks = page.blocks();
        let blocks = blocks.iter().filter(|block| block.kind == "json");
        for text in blocks.map(|block| block.text).chain(in_lines(&page)) {
            if text.contains("\"points\"") {
                let run = bench.run_with(&["measure", "-"], text).ok();
                assert!(run.out.contains("length"), "{}: {text}", page.path);
                lists += 1;
            } else {
                check(&schema, text, &page.path);
                plans += 1;
            }
        }
    }
    assert!(plans > 12 && lists >= 2, "{plans} plans, {lists} lists");
}
