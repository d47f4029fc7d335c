//! The floors of quiltpath-core: a file imports only from its own floor or a lower one, no cycles.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// Module paths by floor; a path stands for everything below it, the longest one that fits counts.
const FLOORS: &[(&str, u8)] = &[
    // How many cases a property takes, in `lib.rs`.
    ("cases", 0),
    ("error", 0),
    ("both", 0),
    ("units", 0),
    ("geom", 0),
    ("graph", 0),
    ("transform", 1),
    ("warp", 1),
    ("motif", 2),
    ("leg", 3),
    ("trim", 3),
    ("fit", 4),
    ("corner", 4),
    ("chain", 4),
    ("stitch", 5),
    ("order", 5),
    ("check", 5),
    ("plan", 6),
    ("io", 7),
    ("io::canvas", 7),
    ("io::drawing", 7),
    ("io::dxf", 7),
    ("io::gcode", 7),
    ("io::html", 7),
    ("io::json", 7),
    ("io::lines", 7),
    ("io::numbers", 7),
    ("io::paper", 7),
    ("io::picture", 7),
    ("io::plain", 7),
    ("io::svg_read", 7),
    ("io::svg_write", 7),
    ("io::sheet", 7),
    ("io::template", 7),
    ("io::ticks", 7),
    ("interop", 7),
    ("lib", 8),
];

fn floor(module: &str) -> Option<(&'static str, u8)> {
    FLOORS
        .iter()
        .copied()
        .filter(|(name, _)| module == *name || module.starts_with(&format!("{name}::")))
        .max_by_key(|(name, _)| name.len())
}

/// The module path of a file and the paths that it names after `crate::`.
fn imports(root: &Path, file: &Path) -> (String, Vec<String>) {
    let relative = file.strip_prefix(root).expect("inside").with_extension("");
    let module: Vec<_> = relative.iter().map(|part| part.to_string_lossy()).collect();
    let text = std::fs::read_to_string(file).expect("a source file");
    // Tests stand at the foot of a file, or in a tests.rs, and may reach upwards.
    let code = text
        .lines()
        .take_while(|line| *line != "#[cfg(test)]")
        .filter(|line| !line.trim_start().starts_with("//"));
    let names = code.flat_map(|line| line.split("crate::").skip(1).map(str::to_owned));
    let path = |rest: String| {
        let end = rest.find(|c: char| !c.is_alphanumeric() && c != '_' && c != ':');
        rest[..end.unwrap_or(rest.len())]
            .trim_end_matches(':')
            .to_owned()
    };
    (module.join("::"), names.map(path).collect())
}

fn sources(folder: &Path, found: &mut Vec<std::path::PathBuf>) {
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs") && !path.ends_with("tests.rs") {
            found.push(path);
        }
    }
}

#[test]
fn no_floor_imports_a_higher_one() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../quiltpath-core/src");
    let mut files = Vec::new();
    sources(&root, &mut files);
    assert!(files.len() > 20);
    let mut edges: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for file in &files {
        let (module, names) = imports(&root, file);
        let (from, own) = floor(&module).unwrap_or_else(|| panic!("{module} stands on no floor"));
        for name in names.iter().filter(|name| *name != "Error") {
            let (to, other) = floor(name).unwrap_or_else(|| panic!("{module} imports {name}"));
            assert!(
                other <= own,
                "{module} (floor {own}) imports {name} (floor {other})"
            );
            if from != to {
                edges.entry(from).or_default().insert(to);
            }
        }
    }
    // Modules without imports among those left are taken away until none is left: no cycle.
    while !edges.is_empty() {
        let free: Vec<&str> = edges
            .iter()
            .filter(|(_, to)| to.iter().all(|to| !edges.contains_key(to)))
            .map(|(from, _)| *from)
            .collect();
        assert!(!free.is_empty(), "a cycle among {edges:?}");
        for module in free {
            edges.remove(module);
        }
    }
}
