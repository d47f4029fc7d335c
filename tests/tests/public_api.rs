//! The public API of the library, held against `tests/public-api.txt`: what changes is seen.
//!
//! Every item that is `pub` in the sources is listed, with its features and derived traits, without
//! docs and bodies. Nothing else is public, since the lint `unreachable_pub` stands for all that is
//! `pub` to be reachable, by a `pub use` in the list where its module is private. Out of sight are
//! implementations that macros write, and automatic traits such as `Send`.

use std::collections::HashSet;
use std::path::{Path, PathBuf};

use syn::{Attribute, Fields, ImplItem, Item, ItemImpl, TraitItem, Visibility};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The modules of the library, by path, with their items.
fn modules(folder: &Path, path: &str, found: &mut Vec<(String, Vec<Item>)>) {
    let mut entries: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("a folder")
        .map(|entry| entry.expect("an entry").path())
        .collect();
    entries.sort();
    for entry in entries {
        let name = entry.file_stem().expect("a name").to_string_lossy();
        let path = match name.as_ref() {
            "tests" => continue,
            "lib" => String::new(),
            name => format!("{path}{name}::"),
        };
        if entry.is_dir() {
            modules(&entry, &path, found);
        } else if entry.extension().is_some_and(|end| end == "rs") {
            let text = std::fs::read_to_string(&entry).expect("a source file");
            let file = syn::parse_file(&text);
            let file = file.unwrap_or_else(|e| panic!("{}: {e}", entry.display()));
            found.push((path, file.items));
        }
    }
}

fn is_public(visibility: &Visibility) -> bool {
    matches!(visibility, Visibility::Public(_))
}

fn is_test(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        let condition = attribute.parse_args::<syn::Ident>();
        attribute.path().is_ident("cfg") && condition.is_ok_and(|name| name == "test")
    })
}

/// Leaves the attributes that callers depend on.
fn strip(attributes: &mut Vec<Attribute>) {
    let kept = ["cfg", "derive", "non_exhaustive", "deprecated", "repr"];
    attributes.retain(|attribute| kept.iter().any(|name| attribute.path().is_ident(name)));
}

/// Fields that callers can't name are one that stands for all of them.
fn strip_fields(fields: &mut Fields, all_public: bool) {
    for field in fields.iter_mut() {
        strip(&mut field.attrs);
    }
    if all_public || fields.iter().all(|field| is_public(&field.vis)) {
        return;
    }
    match fields {
        Fields::Named(named) => {
            let public = named.named.iter().filter(|field| is_public(&field.vis));
            let mut public: Vec<_> = public.cloned().collect();
            let hidden: syn::FieldsNamed = syn::parse_quote!({ hidden: () });
            public.extend(hidden.named);
            named.named = public.into_iter().collect();
        }
        Fields::Unnamed(_) => *fields = Fields::Unnamed(syn::parse_quote!((_))),
        Fields::Unit => {}
    }
}

/// The implementation as callers see it, when they see any of it.
fn shown_impl(mut item: ItemImpl, types: &HashSet<String>) -> Option<Item> {
    let syn::Type::Path(of) = &*item.self_ty else {
        return None;
    };
    let name = of.path.segments.last()?.ident.to_string();
    if !types.contains(&name) {
        return None;
    }
    let of_trait = item.trait_.is_some();
    item.items.retain_mut(|inner| match inner {
        ImplItem::Fn(function) => {
            strip(&mut function.attrs);
            function.block = syn::parse_quote!({});
            !of_trait && is_public(&function.vis)
        }
        ImplItem::Const(constant) => {
            strip(&mut constant.attrs);
            !of_trait && is_public(&constant.vis)
        }
        ImplItem::Type(_) => true,
        _ => false,
    });
    strip(&mut item.attrs);
    (of_trait || !item.items.is_empty()).then_some(Item::Impl(item))
}

/// The item as callers see it, when they do.
fn shown(item: Item, types: &HashSet<String>) -> Option<Item> {
    macro_rules! public {
        ($item:ident, $kind:ident) => {{
            strip(&mut $item.attrs);
            is_public(&$item.vis).then_some(Item::$kind($item))
        }};
    }
    match item {
        Item::Impl(item) if !is_test(&item.attrs) => shown_impl(item, types),
        Item::Mod(mut item) if item.content.is_none() => public!(item, Mod),
        Item::Use(mut item) => public!(item, Use),
        Item::Const(mut item) => public!(item, Const),
        Item::Static(mut item) => public!(item, Static),
        Item::Type(mut item) => public!(item, Type),
        Item::Fn(mut item) => {
            item.block = syn::parse_quote!({});
            public!(item, Fn)
        }
        Item::Struct(mut item) => {
            strip_fields(&mut item.fields, false);
            public!(item, Struct)
        }
        Item::Enum(mut item) => {
            for variant in &mut item.variants {
                strip(&mut variant.attrs);
                strip_fields(&mut variant.fields, true);
            }
            public!(item, Enum)
        }
        Item::Trait(mut item) => {
            for inner in &mut item.items {
                if let TraitItem::Fn(function) = inner {
                    strip(&mut function.attrs);
                    function.default = function.default.as_ref().map(|_| syn::parse_quote!({}));
                }
            }
            public!(item, Trait)
        }
        _ => None,
    }
}

fn public_api() -> String {
    let mut all = Vec::new();
    modules(&root().join("quiltpath-core/src"), "", &mut all);
    all.sort_by(|(one, _), (other, _)| one.cmp(other));
    let public = all.iter().flat_map(|(_, items)| items);
    let types: HashSet<String> = public
        .filter_map(|item| match item {
            Item::Struct(item) if is_public(&item.vis) => Some(item.ident.to_string()),
            Item::Enum(item) if is_public(&item.vis) => Some(item.ident.to_string()),
            _ => None,
        })
        .collect();
    let mut text = String::new();
    for (path, items) in all {
        let items: Vec<Item> = items
            .into_iter()
            .filter_map(|item| shown(item, &types))
            .collect();
        if !items.is_empty() {
            let file = syn::File {
                shebang: None,
                attrs: Vec::new(),
                items,
            };
            let path = path.trim_end_matches("::");
            let path = if path.is_empty() { "the crate" } else { path };
            text += &format!("// {path}\n{}\n", prettyplease::unparse(&file));
        }
    }
    text
}

#[test]
fn the_public_api_is_the_one_written_down() {
    let file = root().join("tests/public-api.txt");
    let now = public_api();
    if std::env::var_os("WRITE_PUBLIC_API").is_some() {
        std::fs::write(&file, &now).expect("the list written");
    }
    let then = std::fs::read_to_string(&file).expect("the list");
    if now == then {
        return;
    }
    let [was, is] = [&then, &now].map(|text| text.lines().collect::<HashSet<_>>());
    let gone = then.lines().filter(|line| !is.contains(line));
    let new = now.lines().filter(|line| !was.contains(line));
    let changes = gone.map(|line| format!("- {line}\n"));
    let changes: String = changes
        .chain(new.map(|line| format!("+ {line}\n")))
        .collect();
    panic!(
        "the public API has changed:\n{changes}If it should, see \"Releases\" in DEVELOPERS.md, then\n\
         WRITE_PUBLIC_API=1 cargo test -p quiltpath-tests --test public_api"
    );
}

#[test]
fn the_list_has_what_every_toolmaker_starts_from() {
    let api = public_api();
    for line in [
        "// the crate\npub mod align;",
        "pub fn fit_span(span: f64, pitch: f64, count: &Count) -> Result<SpanFit, Error> {}",
        "pub fn read_plan(bytes: &[u8]) -> Result<PlanSpec, Error> {}",
        "#[cfg(feature = \"svg\")]\npub mod svg_read;",
        "pub enum ErrorKind {",
    ] {
        assert!(api.contains(line), "{line} is not in the list");
    }
    assert!(!api.contains("pub(crate)") && !api.contains("struct Inner"));
}
