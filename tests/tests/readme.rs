//! The Rust example in the library's README is the file that runs.

#[path = "../../quiltpath-core/examples/whole_plan.rs"]
#[allow(unreachable_pub)]
mod whole_plan;

use std::path::Path;

fn root() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

#[test]
fn the_example_is_the_file_and_runs() {
    let file = root().join("quiltpath-core/examples/whole_plan.rs");
    let example = std::fs::read_to_string(file).expect("the example");
    let (_, code) = example.split_once("\n\n").expect("a head and code");
    let readme = std::fs::read_to_string(root().join("quiltpath-core/README.md"));
    assert!(
        readme
            .expect("the README")
            .contains(&format!("```rust\n{code}```\n")),
        "the README's example is another one"
    );
    std::env::set_current_dir(root()).expect("the top of the repository");
    whole_plan::main().expect("the example runs");
}
