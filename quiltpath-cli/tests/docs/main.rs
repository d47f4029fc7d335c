//! What the README and the guide show is what runs: commands, outputs, plans, tables, links.
// The commands shown are those of a shell with GNU coreutils.
#![cfg(target_os = "linux")]

mod commands;
#[path = "../common/mod.rs"]
mod common;
mod keys;
mod links;
mod plans;
mod tables;

use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
    folder.parent().expect("a folder above").to_owned()
}

/// A page, by its path from the top of the repository.
struct Page {
    path: String,
    text: String,
}

impl Page {
    fn read(path: &str) -> Self {
        let text = fs::read_to_string(root().join(path));
        Self {
            path: path.to_owned(),
            text: text.unwrap_or_else(|error| panic!("{path}: {error}")),
        }
    }

    fn guide(chapter: &str) -> Self {
        Self::read(&format!("quiltpath-cli/guide/{chapter}.md"))
    }

    fn folder(&self) -> PathBuf {
        let path = root().join(&self.path);
        path.parent().expect("a folder").to_owned()
    }

    /// The blocks between fences, in order.
    fn blocks(&self) -> Vec<Block<'_>> {
        let mut blocks = Vec::new();
        let mut rest = self.text.as_str();
        while let Some(at) = rest.find("\n```") {
            let (info, after) = rest[at + 4..].split_once('\n').expect("a line after it");
            let end = if after.starts_with("```") {
                0
            } else {
                after.find("\n```").expect("an end of the block") + 1
            };
            let (kind, reason) = info.split_once(' ').unwrap_or((info, ""));
            blocks.push(Block {
                kind,
                reason,
                text: &after[..end],
            });
            rest = &after[end + 3..];
        }
        blocks
    }
}

/// What stands between fences.
struct Block<'a> {
    /// The first word after the fence.
    kind: &'a str,
    /// The rest of the line: why the block is not run.
    reason: &'a str,
    text: &'a str,
}

/// All pages that a user reads.
fn pages() -> Vec<Page> {
    let mut paths = vec![
        "README.md".to_owned(),
        "DEVELOPERS.md".to_owned(),
        "CHANGELOG.md".to_owned(),
        "quiltpath-core/README.md".to_owned(),
    ];
    let guide = "quiltpath-cli/guide";
    for entry in fs::read_dir(root().join(guide)).expect("the guide") {
        let name = entry.expect("an entry").file_name();
        paths.push(format!("{guide}/{}", name.to_string_lossy()));
    }
    paths.sort();
    paths.iter().map(|path| Page::read(path)).collect()
}

#[test]
fn the_readme_is_short() {
    let lines = Page::read("README.md").text.lines().count();
    assert!(lines <= 150, "{lines} lines; the rest belongs in the guide");
}

#[test]
fn the_guide_lists_its_chapters() {
    let guide = Page::guide("README");
    for page in pages() {
        let name = page.path.strip_prefix("quiltpath-cli/guide/");
        if let Some(name) = name.filter(|name| *name != "README.md") {
            assert!(guide.text.contains(&format!("]({name})")), "{name}");
        }
    }
}
