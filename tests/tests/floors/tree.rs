//! The modules of a crate as its sources declare them, and which file defines what a path names.
//!
//! Sources are given as text by path, so that made-up trees can be tried. What stands under
//! `#[cfg(test)]` is left out: tests may reach anywhere.

use std::collections::BTreeMap;

use syn::{Attribute, Item, ItemUse, UseTree, Visibility};

/// A source file, by its path from the root of the crate, such as `geom/region.rs`.
pub(crate) type File = String;

/// What a name stands for in a module.
#[derive(Debug, Clone)]
enum Meaning {
    /// An item that stands in the module's file.
    Item,
    /// The module of this number.
    Module(usize),
    /// Whatever this path names; `true` for what only passes the name on (`pub use`).
    Alias(Vec<String>, bool),
}

/// A module, in a file of its own or inside another's.
pub(crate) struct Module {
    pub(crate) file: File,
    parent: Option<usize>,
    names: BTreeMap<String, Vec<Meaning>>,
    globs: Vec<Vec<String>>,
    /// Its items, those of inline modules aside.
    pub(crate) items: Vec<Item>,
}

/// A `use` of a single name, or of all names when it ends in `*`.
pub(crate) struct Import {
    pub(crate) path: Vec<String>,
    name: String,
}

pub(crate) struct Tree {
    pub(crate) modules: Vec<Module>,
}

pub(crate) fn is_test(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        let condition = attribute.meta.require_list().map(|list| &list.tokens);
        attribute.path().is_ident("cfg")
            && condition.is_ok_and(|condition| {
                let words = condition.to_string();
                words == "test" || words.starts_with("all (test")
            })
    })
}

fn attributes(item: &Item) -> &[Attribute] {
    match item {
        Item::Const(item) => &item.attrs,
        Item::Enum(item) => &item.attrs,
        Item::Fn(item) => &item.attrs,
        Item::Impl(item) => &item.attrs,
        Item::Macro(item) => &item.attrs,
        Item::Mod(item) => &item.attrs,
        Item::Static(item) => &item.attrs,
        Item::Struct(item) => &item.attrs,
        Item::Trait(item) => &item.attrs,
        Item::Type(item) => &item.attrs,
        Item::Use(item) => &item.attrs,
        _ => &[],
    }
}

fn name(item: &Item) -> Option<String> {
    let name = match item {
        Item::Const(item) => &item.ident,
        Item::Enum(item) => &item.ident,
        Item::Fn(item) => &item.sig.ident,
        Item::Static(item) => &item.ident,
        Item::Struct(item) => &item.ident,
        Item::Trait(item) => &item.ident,
        Item::Type(item) => &item.ident,
        Item::Union(item) => &item.ident,
        _ => return None,
    };
    Some(name.to_string())
}

/// The single names that a `use` brings in.
pub(crate) fn imports(item: &ItemUse) -> Vec<Import> {
    fn walk(tree: &UseTree, path: &[String], found: &mut Vec<Import>) {
        let with = |name: &syn::Ident| [path, &[name.to_string()]].concat();
        match tree {
            UseTree::Path(inner) => walk(&inner.tree, &with(&inner.ident), found),
            UseTree::Group(group) => group.items.iter().for_each(|tree| walk(tree, path, found)),
            UseTree::Glob(_) => found.push(Import {
                path: [path, &["*".to_owned()]].concat(),
                name: "*".to_owned(),
            }),
            UseTree::Name(inner) if inner.ident == "self" => found.push(Import {
                path: path.to_vec(),
                name: path.last().cloned().unwrap_or_default(),
            }),
            UseTree::Name(inner) => found.push(Import {
                path: with(&inner.ident),
                name: inner.ident.to_string(),
            }),
            UseTree::Rename(inner) => found.push(Import {
                path: match inner.ident == "self" {
                    true => path.to_vec(),
                    false => with(&inner.ident),
                },
                name: inner.rename.to_string(),
            }),
        }
    }
    let mut found = Vec::new();
    walk(&item.tree, &[], &mut found);
    found
}

pub(crate) fn passes_on(item: &ItemUse) -> bool {
    !matches!(item.vis, Visibility::Inherited)
}

impl Tree {
    /// Reads a crate from its root file on, `lib.rs` or `main.rs`.
    pub(crate) fn new(sources: &BTreeMap<File, String>, root: &str) -> Self {
        let mut tree = Self {
            modules: Vec::new(),
        };
        tree.read_file(sources, root, None, "");
        tree
    }

    /// Reads the file of a module whose children lie in this folder.
    fn read_file(
        &mut self,
        sources: &BTreeMap<File, String>,
        file: &str,
        parent: Option<usize>,
        folder: &str,
    ) -> usize {
        let text = &sources[file];
        let parsed = syn::parse_file(text).unwrap_or_else(|error| panic!("{file}: {error}"));
        self.read(sources, file, parent, folder, parsed.items)
    }

    fn read(
        &mut self,
        sources: &BTreeMap<File, String>,
        file: &str,
        parent: Option<usize>,
        folder: &str,
        items: Vec<Item>,
    ) -> usize {
        let number = self.modules.len();
        self.modules.push(Module {
            file: file.to_owned(),
            parent,
            names: BTreeMap::new(),
            globs: Vec::new(),
            items: Vec::new(),
        });
        for item in items.into_iter().filter(|item| !is_test(attributes(item))) {
            match item {
                Item::Mod(inner) => {
                    let name = inner.ident.to_string();
                    let below = format!("{folder}{name}/");
                    let child = match inner.content {
                        Some((_, items)) => self.read(sources, file, Some(number), &below, items),
                        None => {
                            let own = [format!("{folder}{name}.rs"), format!("{below}mod.rs")];
                            let own = own.iter().find(|file| sources.contains_key(*file));
                            let own = own.unwrap_or_else(|| panic!("{file}: no file for {name}"));
                            self.read_file(sources, own, Some(number), &below)
                        }
                    };
                    self.means(number, name, Meaning::Module(child));
                }
                Item::Use(inner) => {
                    for import in imports(&inner) {
                        if import.name == "*" {
                            self.modules[number].globs.push(import.path);
                        } else {
                            let alias = Meaning::Alias(import.path, passes_on(&inner));
                            self.means(number, import.name, alias);
                        }
                    }
                    self.modules[number].items.push(Item::Use(inner));
                }
                item => {
                    if let Some(name) = name(&item) {
                        self.means(number, name, Meaning::Item);
                    }
                    self.modules[number].items.push(item);
                }
            }
        }
        number
    }

    fn means(&mut self, module: usize, name: String, meaning: Meaning) {
        let meanings = self.modules[module].names.entry(name).or_default();
        meanings.push(meaning);
    }

    /// The files that define what a path names, as seen from a module; none for what another crate
    /// defines, for a module by itself, and for a local name.
    pub(crate) fn files(&self, module: usize, path: &[String]) -> Vec<File> {
        let mut found = Vec::new();
        self.find(module, path, 0, &mut found);
        found.sort();
        found.dedup();
        found
    }

    /// Whether a module passes this name on from elsewhere.
    pub(crate) fn passes_on(&self, module: usize, name: &str) -> bool {
        let meanings = self.modules[module].names.get(name);
        let mut meanings = meanings.into_iter().flatten();
        meanings.any(|meaning| matches!(meaning, Meaning::Alias(_, true)))
    }

    fn find(&self, from: usize, path: &[String], depth: usize, found: &mut Vec<File>) {
        // Deeper than any chain of names that compiles: a name that is an alias of itself.
        const DEEPEST: usize = 32;
        let Some((first, rest)) = path.split_first() else {
            return;
        };
        if depth > DEEPEST {
            return;
        }
        match first.as_str() {
            "crate" => self.inside(0, rest, depth, found),
            "self" => self.inside(from, rest, depth, found),
            "super" => {
                let parent = self.modules[from].parent.unwrap_or_default();
                match rest.first().map(String::as_str) {
                    Some("super") => self.find(parent, rest, depth + 1, found),
                    _ => self.inside(parent, rest, depth, found),
                }
            }
            // A name in scope, or another crate.
            name if self.modules[from].names.contains_key(name) => {
                self.inside(from, path, depth, found);
            }
            _ => {}
        }
    }

    /// Follows a path that starts inside a module.
    fn inside(&self, module: usize, path: &[String], depth: usize, found: &mut Vec<File>) {
        let Some((first, rest)) = path.split_first() else {
            return;
        };
        let here = &self.modules[module];
        if first == "*" {
            // All that the module has to give.
            for name in here.names.keys() {
                self.inside(module, std::slice::from_ref(name), depth, found);
            }
            return;
        }
        let Some(meanings) = here.names.get(first) else {
            let before = found.len();
            for glob in &here.globs {
                let stem = &glob[..glob.len() - 1];
                self.find(module, &[stem, path].concat(), depth + 1, found);
            }
            // Of a name that nothing declares, a macro of this file makes the item.
            if found.len() == before {
                found.push(here.file.clone());
            }
            return;
        };
        for meaning in meanings {
            match meaning {
                Meaning::Item => found.push(here.file.clone()),
                Meaning::Module(child) => self.inside(*child, rest, depth, found),
                Meaning::Alias(path, _) => {
                    // An alias of a module goes on below it, one of an item ends there.
                    self.find(module, &[path, rest].concat(), depth + 1, found);
                }
            }
        }
    }
}
