//! Which files each file of a crate imports from: by `use`, and by paths inside the code.

use std::collections::{BTreeMap, BTreeSet};

use syn::visit::{self, Visit};
use syn::{Expr, ExprCall, ItemUse, Macro, Path};

use crate::tree::{File, Tree, imports, is_test, passes_on};

/// The files that each file imports from; what it only passes on (`pub use`) does not count.
pub(crate) type Edges = BTreeMap<File, BTreeSet<File>>;

pub(crate) fn edges(tree: &Tree) -> Edges {
    let mut edges = Edges::new();
    for (number, module) in tree.modules.iter().enumerate() {
        let mut reader = Reader {
            tree,
            module: number,
            found: BTreeSet::new(),
        };
        for item in &module.items {
            reader.visit_item(item);
        }
        reader.found.remove(&module.file);
        edges
            .entry(module.file.clone())
            .or_default()
            .extend(reader.found);
    }
    edges
}

struct Reader<'a> {
    tree: &'a Tree,
    module: usize,
    found: BTreeSet<File>,
}

impl Reader<'_> {
    fn take(&mut self, path: &[String]) {
        self.found.extend(self.tree.files(self.module, path));
    }

    /// A path of the code: one of several names, or the name of a type that this module passes on
    /// and uses itself.
    fn take_code(&mut self, path: &[String]) {
        match path {
            [name] if self.tree.passes_on(self.module, name) && is_type(name) => self.take(path),
            [_] => {}
            _ => self.take(path),
        }
    }
}

/// Lower-case names by themselves may be local variables.
fn is_type(name: &str) -> bool {
    name.starts_with(char::is_uppercase)
}

fn names(path: &Path) -> Vec<String> {
    path.segments
        .iter()
        .map(|segment| segment.ident.to_string())
        .collect()
}

impl<'ast> Visit<'ast> for Reader<'_> {
    fn visit_item(&mut self, item: &'ast syn::Item) {
        let attributes = match item {
            syn::Item::Fn(item) => &item.attrs[..],
            syn::Item::Mod(item) => &item.attrs[..],
            _ => &[],
        };
        if !is_test(attributes) {
            visit::visit_item(self, item);
        }
    }

    fn visit_impl_item_fn(&mut self, function: &'ast syn::ImplItemFn) {
        if !is_test(&function.attrs) {
            visit::visit_impl_item_fn(self, function);
        }
    }

    fn visit_item_use(&mut self, item: &'ast ItemUse) {
        if !passes_on(item) {
            for import in imports(item) {
                self.take(&import.path);
            }
        }
    }

    fn visit_path(&mut self, path: &'ast Path) {
        if path.leading_colon.is_none() {
            self.take_code(&names(path));
        }
        visit::visit_path(self, path);
    }

    fn visit_expr_call(&mut self, call: &'ast ExprCall) {
        if let Expr::Path(called) = &*call.func
            && let [name] = &names(&called.path)[..]
            && self.tree.passes_on(self.module, name)
        {
            self.take(std::slice::from_ref(name));
        }
        visit::visit_expr_call(self, call);
    }

    /// What a macro is given is no tree of expressions yet; its words are enough to see the paths.
    fn visit_macro(&mut self, given: &'ast Macro) {
        let text = given.tokens.to_string();
        let words: Vec<&str> = text
            .split(|c: char| !(c.is_alphanumeric() || c == '_' || c == ':'))
            .filter(|word| !word.is_empty())
            .collect();
        // Tokens print as `crate :: geom :: Point`.
        let mut path: Vec<String> = Vec::new();
        let mut joined = false;
        for word in words.into_iter().chain([""]) {
            match word {
                "::" => joined = true,
                word => {
                    if !joined && !path.is_empty() {
                        let whole = std::mem::take(&mut path);
                        self.take_code(&whole);
                    }
                    joined = false;
                    path.push(word.to_owned());
                }
            }
        }
        visit::visit_macro(self, given);
    }
}
