//! The licences of all dependencies, held against lists of what is accepted.
//!
//! A licence is an SPDX expression (SPDX specification, annex D): `AND` binds closer than `OR`,
//! `WITH` names an exception; `/` for `OR` is what packages wrote before. What is missing, unknown
//! or no expression is refused.

use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;

use serde_json::Value;

/// For what users build: the library, the command, the C interface and all below them.
const SHIPPED: &[&str] = &["MIT", "Apache-2.0", "BSD-3-Clause", "Unicode-3.0"];

/// For tests, measurements and what makes the worksheet page: none of it is in what users get.
/// Zlib is the licence of a hash function that the tools of wasm-bindgen use.
const TOOLS_ONLY: &[&str] = &["BSD-2-Clause", "Zlib"];

/// True when the expression allows a choice of which everything is on the list.
fn accepted(expression: &str, list: &[&str]) -> bool {
    let spaced = expression
        .replace('/', " OR ")
        .replace('(', " ( ")
        .replace(')', " ) ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut reader = Reader {
        words: &words,
        list,
    };
    reader.any() == Some(true) && reader.words.is_empty()
}

struct Reader<'a> {
    words: &'a [&'a str],
    list: &'a [&'a str],
}

impl Reader<'_> {
    fn next_is(&mut self, word: &str) -> bool {
        let is = self.words.first() == Some(&word);
        if is {
            self.words = &self.words[1..];
        }
        is
    }

    fn any(&mut self) -> Option<bool> {
        let mut fine = self.all()?;
        while self.next_is("OR") {
            fine |= self.all()?;
        }
        Some(fine)
    }

    fn all(&mut self) -> Option<bool> {
        let mut fine = self.one()?;
        while self.next_is("AND") {
            fine &= self.one()?;
        }
        Some(fine)
    }

    fn one(&mut self) -> Option<bool> {
        if self.next_is("(") {
            let fine = self.any()?;
            return self.next_is(")").then_some(fine);
        }
        let (word, rest) = self.words.split_first()?;
        if ["AND", "OR", "WITH", ")"].contains(word) {
            return None;
        }
        self.words = rest;
        if !self.next_is("WITH") {
            return Some(self.list.contains(word));
        }
        // An exception only adds to what its licence allows, but the pair has to be on the list.
        let (exception, rest) = self.words.split_first()?;
        self.words = rest;
        Some(
            self.list
                .contains(&format!("{word} WITH {exception}").as_str()),
        )
    }
}

#[test]
fn expressions_are_read_as_spdx_says() {
    for fine in [
        "MIT",
        "MIT OR Apache-2.0",
        "MIT/Apache-2.0",
        "Unlicense OR MIT",
        "(MIT OR Apache-2.0) AND Unicode-3.0",
        "Apache-2.0 WITH LLVM-exception OR Apache-2.0 OR MIT",
        "GPL-3.0-only AND MIT OR MIT",
    ] {
        assert!(accepted(fine, SHIPPED), "{fine}");
    }
    for refused in [
        "",
        "GPL-3.0-only",
        "mit",
        "MIT AND GPL-3.0-only",
        "MIT AND (GPL-3.0-only OR LGPL-2.1-or-later)",
        "Apache-2.0 WITH LLVM-exception",
        "MIT OR",
        "MIT Apache-2.0",
        "(MIT",
        "MIT)",
        "OR MIT",
        "LicenseRef-Our-Own",
    ] {
        assert!(!accepted(refused, SHIPPED), "{refused}");
    }
}

fn cargo(arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("cargo runs");
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{errors}");
    String::from_utf8(output.stdout).expect("UTF-8")
}

/// What the lock file names for this machine, as `cargo metadata` tells it without the network.
fn metadata() -> Value {
    let version = cargo(&["-vV"]);
    let host = version.lines().find_map(|line| line.strip_prefix("host: "));
    let arguments = [
        "metadata",
        "--locked",
        "--offline",
        "--format-version",
        "1",
        "--filter-platform",
        host.expect("a host"),
    ];
    serde_json::from_str(&cargo(&arguments)).expect("JSON")
}

fn text<'a>(value: &'a Value, key: &str) -> &'a str {
    value[key].as_str().unwrap_or_default()
}

fn list<'a>(value: &'a Value, key: &str) -> &'a [Value] {
    value[key].as_array().map_or(&[], Vec::as_slice)
}

/// The packages that these bring into a build, by id; those for tests alone are not followed.
fn shipped(metadata: &Value, from: &[&str]) -> BTreeSet<String> {
    let nodes: BTreeMap<&str, &Value> = list(&metadata["resolve"], "nodes")
        .iter()
        .map(|node| (text(node, "id"), node))
        .collect();
    let named = |package: &&Value| from.contains(&text(package, "name"));
    let mut open: Vec<&str> = list(metadata, "packages")
        .iter()
        .filter(named)
        .map(|package| text(package, "id"))
        .collect();
    assert_eq!(open.len(), from.len());
    let mut found = BTreeSet::new();
    while let Some(id) = open.pop() {
        if found.insert(id.to_owned()) {
            let built = |dependency: &&Value| {
                let kinds = list(dependency, "dep_kinds");
                kinds.iter().any(|kind| text(kind, "kind") != "dev")
            };
            let dependencies = list(nodes[id], "deps").iter().filter(built);
            open.extend(dependencies.map(|dependency| text(dependency, "pkg")));
        }
    }
    found
}

#[test]
fn every_dependency_has_an_accepted_licence_and_comes_from_a_registry() {
    let metadata = metadata();
    let own = [
        "quiltpath-core",
        "quiltpath-c",
        "quiltpath-web",
        "quiltpath-cli",
    ];
    let shipped = shipped(&metadata, &own);
    let packages = list(&metadata, "packages");
    assert!(packages.len() > shipped.len() && shipped.len() > 20);
    let everything = [SHIPPED, TOOLS_ONLY].concat();
    let mut wrong = Vec::new();
    for package in packages {
        let (name, licence) = (text(package, "name"), text(package, "license"));
        let accepts = match shipped.contains(text(package, "id")) {
            true => SHIPPED,
            false => &everything,
        };
        if !accepted(licence, accepts) {
            wrong.push(format!(
                "{name}: the licence \"{licence}\" is not among {accepts:?}"
            ));
        }
        // The project's own have no source.
        let source = &package["source"];
        if !(source.is_null() || text(package, "source").starts_with("registry+")) {
            wrong.push(format!("{name}: comes from {source}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
