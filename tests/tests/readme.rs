//! The Rust example in the library's README runs, and the guide's table of findings has every code.

#[path = "../../quiltpath-core/examples/whole_plan.rs"]
#[allow(unreachable_pub)]
mod whole_plan;

use std::path::{Path, PathBuf};

fn root() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn page(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).expect("a page")
}

#[test]
fn the_example_is_the_file_and_runs() {
    let file = root().join("quiltpath-core/examples/whole_plan.rs");
    let example = std::fs::read_to_string(file).expect("the example");
    let (_, code) = example.split_once("\n\n").expect("a head and code");
    assert!(
        page("quiltpath-core/README.md").contains(&format!("```rust\n{code}```\n")),
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
    let findings = page("quiltpath-cli/guide/findings.md");
    for code in codes {
        assert!(
            findings.contains(&format!("| `{code}` |")),
            "{code} is missing"
        );
    }
}
