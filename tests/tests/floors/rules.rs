//! What is asked of the imports between files: floors, no child that imports its parent, no circle.

use std::collections::{BTreeMap, BTreeSet};

use crate::paths::Edges;
use crate::tree::File;

/// Module paths by floor; a path stands for everything below it.
pub(crate) type Floors = &'static [(&'static str, u8)];

/// The path of the module that a file holds, such as `geom::region`.
fn module(file: &str) -> String {
    let stem = file.strip_suffix(".rs").unwrap_or(file);
    stem.strip_suffix("/mod").unwrap_or(stem).replace('/', "::")
}

/// The floor that a file stands on, that of the longest path that fits.
fn floor(floors: Floors, file: &str) -> Option<u8> {
    let module = module(file);
    floors
        .iter()
        .filter(|(name, _)| module == *name || module.starts_with(&format!("{name}::")))
        .max_by_key(|(name, _)| name.len())
        .map(|(_, floor)| *floor)
}

/// The files that stand on no floor.
pub(crate) fn without_floor(edges: &Edges, floors: Floors) -> Vec<File> {
    let files = edges.keys();
    files
        .filter(|file| floor(floors, file).is_none())
        .cloned()
        .collect()
}

fn all(edges: &Edges) -> impl Iterator<Item = [&File; 2]> {
    edges
        .iter()
        .flat_map(|(from, to)| to.iter().map(move |to| [from, to]))
}

fn words([from, to]: [&File; 2]) -> String {
    format!("{from} imports {to}")
}

/// The imports from a higher floor.
pub(crate) fn upwards(edges: &Edges, floors: Floors) -> BTreeSet<String> {
    let higher = |[from, to]: &[&File; 2]| floor(floors, to) > floor(floors, from);
    all(edges).filter(higher).map(words).collect()
}

/// The imports of a file from one that holds a module around it.
pub(crate) fn from_parents(edges: &Edges) -> BTreeSet<String> {
    let is_parent = |[from, to]: &[&File; 2]| {
        let root = to.as_str() == "lib.rs" || to.as_str() == "main.rs";
        root || module(from).starts_with(&format!("{}::", module(to)))
    };
    all(edges).filter(is_parent).map(words).collect()
}

/// The files that lie on a circle of imports, each with a shortest circle that it lies on.
pub(crate) fn on_circles(edges: &Edges) -> BTreeMap<File, String> {
    let circle = |file: &File| Some((file.clone(), circle(edges, file)?.join(" -> ")));
    edges.keys().filter_map(circle).collect()
}

/// A shortest way from a file back to it.
fn circle(edges: &Edges, file: &File) -> Option<Vec<File>> {
    let mut came: BTreeMap<&File, &File> = BTreeMap::new();
    let mut front: Vec<&File> = vec![file];
    while !front.is_empty() {
        let mut next = Vec::new();
        for at in front {
            for to in edges.get(at).into_iter().flatten() {
                if to == file {
                    let mut way = vec![file.clone(), at.clone()];
                    let mut at = at;
                    while at != file {
                        at = came[at];
                        way.push(at.clone());
                    }
                    way.reverse();
                    return Some(way);
                }
                if !came.contains_key(to) {
                    came.insert(to, at);
                    next.push(to);
                }
            }
        }
        front = next;
    }
    None
}
