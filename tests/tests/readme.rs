//! What the README shows is what runs: its Rust example, its commands, its tables.

#[path = "../../quiltpath-core/examples/whole_plan.rs"]
#[allow(unreachable_pub)]
mod whole_plan;

use quiltpath_core::io::json::plan_schema;
use std::path::{Path, PathBuf};

fn root() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn readme() -> String {
    std::fs::read_to_string(root().join("README.md")).expect("the README")
}

#[test]
fn the_example_is_the_file_and_runs() {
    let file = root().join("quiltpath-core/examples/whole_plan.rs");
    let example = std::fs::read_to_string(file).expect("the example");
    let (_, code) = example.split_once("\n\n").expect("a head and code");
    assert!(
        readme().contains(code),
        "the README's example is another one"
    );
    std::env::set_current_dir(root()).expect("the top of the repository");
    whole_plan::main().expect("the example runs");
}

/// The source files under a folder.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).expect("a folder");
    let mut files = Vec::new();
    for entry in entries {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            files.extend(sources(&path));
        } else {
            files.push(path);
        }
    }
    files
}

#[test]
fn every_code_of_a_finding_is_in_the_table() {
    let mut codes = Vec::new();
    for file in sources(&root().join("quiltpath-core/src/plan")) {
        let text = std::fs::read_to_string(file).expect("a source file");
        let calls = text.split("Finding::").skip(1);
        codes.extend(calls.filter_map(|call| {
            let kind = call.split('(').next()?;
            let code = call.split('"').nth(1)?.to_owned();
            matches!(kind, "note" | "warning" | "error" | "new").then_some(code)
        }));
        let told = text.split("tell.all(").skip(1);
        codes.extend(told.filter_map(|call| Some(call.split('"').nth(1)?.to_owned())));
    }
    codes.retain(|code| code.bytes().all(|b| b.is_ascii_lowercase() || b == b'_'));
    assert!(codes.len() >= 25, "{codes:?}");
    for code in codes {
        assert!(
            readme().contains(&format!("| `{code}` |")),
            "{code} is missing"
        );
    }
}

#[test]
fn the_plan_shown_is_a_plan_and_the_styles_are_the_schemas() {
    let readme = readme();
    let plan = readme
        .split("```json\n")
        .nth(1)
        .and_then(|rest| rest.split("```").next());
    let plan = plan.expect("a plan in the README");
    quiltpath_core::io::json::read_plan(plan.as_bytes()).expect("a plan that is read");
    let schema: serde_json::Value = serde_json::from_str(&plan_schema()).expect("JSON");
    let styles = &schema["$defs"]["CornerStyle"]["oneOf"];
    let styles = styles.as_array().expect("a list of styles");
    for style in styles {
        let name = style["const"].as_str().expect("a name");
        assert!(
            readme.contains(&format!("| `{name}` |")),
            "{name} is missing"
        );
    }
}
