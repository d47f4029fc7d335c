//! Every block of commands runs, chapter by chapter, and writes what the block after it shows.

use std::ffi::OsString;
use std::path::Path;
use std::process::Command;

use super::common::Bench;
use super::{Block, Page, root};

/// What the README calls the command as, before it is installed.
const UNINSTALLED: &str = "cargo run --release -p quiltpath-cli -- ";

/// A folder that holds what the repository's top does, as far as commands read it.
fn repository() -> Bench {
    let bench = Bench::new();
    copy(&root().join("fixtures"), &bench.path("fixtures"));
    bench
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir(to).expect("made");
    for entry in std::fs::read_dir(from).expect("a folder") {
        let entry = entry.expect("an entry");
        let to = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &to);
        } else {
            std::fs::copy(entry.path(), to).expect("copied");
        }
    }
}

/// Runs a block in a folder, every line of it, and gives both of its streams.
fn run(folder: &Path, block: &Block) -> String {
    let script = block.text.replace(UNINSTALLED, "quiltpath ");
    assert!(
        !script.contains("cargo "),
        "not to be run in a test: {script}"
    );
    let built = Path::new(env!("CARGO_BIN_EXE_quiltpath")).parent();
    let mut path = OsString::from(built.expect("a folder"));
    path.push(":");
    path.push(std::env::var_os("PATH").expect("a path"));
    let output = Command::new("sh")
        .args(["-euc", &format!("exec 2>&1\n{script}")])
        .current_dir(folder)
        .env("PATH", path)
        .env_remove("CLICOLOR_FORCE")
        .output()
        .expect("a shell");
    let text = String::from_utf8(output.stdout).expect("UTF-8");
    assert!(output.status.success(), "{script}\n{text}");
    text
}

/// Holds what a block shows against what came; `…` alone in a line stands for any number of lines.
fn compare(shown: &str, came: &str, page: &str) {
    let came: Vec<&str> = came.lines().collect();
    let mut at = 0;
    let mut anywhere = false;
    for line in shown.lines() {
        if line == "…" {
            anywhere = true;
            continue;
        }
        let found = came[at..].iter().position(|other| *other == line);
        match found {
            Some(skipped) if anywhere || skipped == 0 => at += skipped + 1,
            _ => panic!("{page}: no {line:?} where it is shown; this came:\n{came:#?}"),
        }
        anywhere = false;
    }
    assert!(anywhere || at == came.len(), "{page}: more came: {came:#?}");
}

/// Runs all blocks of a page in a folder; how many.
fn run_all(page: &Page, folder: &Path) -> usize {
    let mut came = None;
    let mut count = 0;
    for block in page.blocks() {
        match block.kind {
            "sh" if block.reason.is_empty() => {
                came = Some(run(folder, &block));
                count += 1;
            }
            "sh" => {
                let reason = block.reason.strip_prefix("not run by a test: ");
                let named = reason.is_some_and(|reason| reason.len() > 10);
                assert!(named, "{}: {}", page.path, block.reason);
            }
            "text" => {
                let came = came.take().expect("commands before their output");
                compare(block.text, &came, &page.path);
            }
            "json" | "rust" | "c" => {}
            other => panic!("{}: a block of {other:?}", page.path),
        }
    }
    count
}

#[test]
fn those_of_the_readmes() {
    assert_eq!(run_all(&Page::read("README.md"), &repository().path("")), 3);
    let core = Page::read("quiltpath-core/README.md");
    run_all(&core, &repository().path(""));
}

/// Runs a chapter in the folder that the guide makes for its examples.
fn chapter(name: &str) -> usize {
    let bench = repository();
    run_all(&Page::guide("README"), &bench.path(""));
    run_all(&Page::guide(name), &bench.path("try"))
}

#[test]
fn those_of_the_guide() {
    let chapters: Vec<Page> = super::pages();
    let names = chapters
        .iter()
        .filter_map(|page| page.path.strip_prefix("quiltpath-cli/guide/"))
        .filter_map(|name| name.strip_suffix(".md"))
        .filter(|name| *name != "README");
    let count: usize = names.map(chapter).sum();
    assert!(count >= 10, "{count} blocks of commands");
}

#[test]
#[should_panic(expected = "no \"b\" where it is shown")]
fn an_output_that_differs_is_noticed() {
    compare("a\nb\n…\n", "a\nx\nb\n", "a page");
}

#[test]
#[should_panic(expected = "more came")]
fn an_output_that_goes_on_is_noticed() {
    compare("a\n…\nb\n", "a\nx\nb\nc\n", "a page");
}
