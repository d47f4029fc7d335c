//! The floors of the house: a file imports only from its own floor or a lower one, a child never
//! from its parent, and no files import each other in a circle.
//!
//! Imports are the `crate::`, `super::` and `self::` paths of a file, and those of names in scope,
//! each followed to the file that defines the item. `mod` lines and re-exports don't count. What
//! does not hold yet stands in `known.txt`, which only ever gets shorter.

mod comments;
mod made_up;
mod paths;
mod rules;
mod tree;

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use crate::paths::{Edges, edges};
use crate::rules::{Floors, from_parents, on_circles, upwards, without_floor};
use crate::tree::Tree;

const CORE: Floors = &[
    ("error", 0),
    ("units", 0),
    ("geom", 0),
    ("graph", 0),
    ("parallel", 0),
    ("transform", 1),
    ("warp", 1),
    ("motif", 2),
    ("strokes", 2),
    ("leg", 3),
    ("trim", 3),
    ("raster", 3),
    ("fit", 4),
    ("chain", 4),
    ("corner", 4),
    ("align", 5),
    ("stitch", 5),
    ("order", 5),
    ("check", 5),
    ("plan", 6),
    ("frame", 6),
    ("io", 7),
    ("interop", 7),
    ("worksheet", 8),
    ("lib", 9),
];

/// The crates that are read: where their sources lie, their root file, their floors.
const CRATES: [(&str, &str, Option<Floors>); 5] = [
    ("quiltpath-core/src", "lib.rs", Some(CORE)),
    ("quiltpath-core/c/src", "lib.rs", None),
    ("quiltpath-core/web/src", "lib.rs", None),
    ("quiltpath-core/web/make/src", "main.rs", None),
    ("quiltpath-cli/src", "main.rs", None),
];

fn workspace() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The sources below a folder, by their path from it.
fn sources(root: &Path, folder: &Path, found: &mut BTreeMap<String, String>) {
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            sources(root, &path, found);
        } else if path.extension().is_some_and(|end| end == "rs") {
            let parts = path.strip_prefix(root).expect("inside").iter();
            let parts: Vec<_> = parts.map(|part| part.to_string_lossy()).collect();
            let text = std::fs::read_to_string(&path).expect("a source file");
            found.insert(parts.join("/"), text);
        }
    }
}

fn read(folder: &str, root: &str) -> Edges {
    let folder = workspace().join(folder);
    let mut found = BTreeMap::new();
    sources(&folder, &folder, &mut found);
    edges(&Tree::new(&found, root))
}

/// What does not hold, as lines of the list, each with how to see it.
fn offences() -> BTreeMap<String, String> {
    let mut offences = BTreeMap::new();
    for (folder, root, floors) in CRATES {
        let edges = read(folder, root);
        assert!(edges.len() > 3, "{folder} has hardly a file");
        let mut found: BTreeSet<String> = from_parents(&edges);
        if let Some(floors) = floors {
            assert_eq!(without_floor(&edges, floors), [""; 0], "stand on no floor");
            found.extend(upwards(&edges, floors));
        }
        let imports = found.into_iter().map(|line| (line, String::new()));
        let circles = on_circles(&edges)
            .into_iter()
            .map(|(file, way)| (format!("{file} is on a circle"), format!(": {way}")));
        for (line, how) in imports.chain(circles) {
            offences.insert(format!("{folder}: {line}"), how);
        }
    }
    offences
}

#[test]
fn every_floor_stands_on_lower_ones_and_no_files_go_in_circles() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/floors/known.txt");
    let known = std::fs::read_to_string(&file).expect("the list");
    let known: BTreeSet<&str> = known.lines().collect();
    let found = offences();
    let new: Vec<String> = found
        .iter()
        .filter(|(line, _)| !known.contains(line.as_str()))
        .map(|(line, how)| format!("{line}{how}"))
        .collect();
    assert!(new.is_empty(), "new:\n{}", new.join("\n"));
    let mended: Vec<&str> = known
        .iter()
        .copied()
        .filter(|line| !found.contains_key(*line))
        .collect();
    if !mended.is_empty() && std::env::var_os("WRITE_PUBLIC_API").is_some() {
        let left: String = found.keys().map(|line| format!("{line}\n")).collect();
        std::fs::write(&file, left).expect("the list written");
        return;
    }
    assert!(
        mended.is_empty(),
        "mended, so take them out of known.txt:\n{}",
        mended.join("\n")
    );
}

#[test]
fn comments_fit_a_hundred_columns() {
    let root = workspace();
    let mut all = BTreeMap::new();
    for folder in ["quiltpath-core", "quiltpath-cli", "tests"] {
        sources(&root, &root.join(folder), &mut all);
    }
    assert!(all.len() > 500);
    let long = comments::too_long(&all, 100);
    assert!(long.is_empty(), "over 100 columns: {long:#?}");
}
