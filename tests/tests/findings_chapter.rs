//! The guide's table of findings is made from the docs of the library's kinds of findings.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use syn::{Attribute, Fields, Item, ItemEnum, ItemStruct, Type};

const CHAPTER: &str = "quiltpath-cli/guide/findings.md";

const HEAD: &str = "| code | severity | what it means | `data` |\n| --- | --- | --- | --- |\n";

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The items of a source file of the library.
fn items(file: &str) -> Vec<Item> {
    let path = root().join("quiltpath-core/src").join(file);
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{file}: {e}"));
    syn::parse_file(&text).expect("Rust").items
}

fn kinds() -> ItemEnum {
    let items = items("plan/finding/kind.rs").into_iter();
    let mut kinds = items.filter_map(|item| match item {
        Item::Enum(item) if item.ident == "FindingKind" => Some(item),
        _ => None,
    });
    kinds.next().expect("the kinds of findings")
}

/// What easing comes to, whose numbers stand for themselves in `data`.
fn ease_report() -> ItemStruct {
    let items = items("fit/ease.rs").into_iter();
    let mut reports = items.filter_map(|item| match item {
        Item::Struct(item) if item.ident == "EaseReport" => Some(item),
        _ => None,
    });
    reports.next().expect("the report of easing")
}

/// The paragraphs of a doc comment, each as one line.
fn docs(attributes: &[Attribute]) -> Vec<String> {
    let lines = attributes.iter().filter_map(|attribute| {
        let syn::Meta::NameValue(pair) = &attribute.meta else {
            return None;
        };
        match &pair.value {
            syn::Expr::Lit(syn::ExprLit {
                lit: syn::Lit::Str(text),
                ..
            }) if pair.path.is_ident("doc") => Some(text.value().trim().to_owned()),
            _ => None,
        }
    });
    let text = lines.collect::<Vec<_>>().join("\n");
    let paragraphs = text.split("\n\n");
    paragraphs.map(|lines| lines.replace('\n', " ")).collect()
}

fn snake_case(name: &str) -> String {
    let mut text = String::new();
    for c in name.chars() {
        if c.is_uppercase() && !text.is_empty() {
            text.push('_');
        }
        text.extend(c.to_lowercase());
    }
    text
}

/// The severity that the second paragraph of a kind's docs gives, as the start of a cell.
fn severity(paragraph: &str, code: &str) -> String {
    let bare = paragraph.strip_suffix('.');
    let starts = ["A note", "A warning", "An error", "As severe"];
    assert!(
        starts.iter().any(|start| paragraph.starts_with(start)),
        "{code}: {paragraph:?} is no severity"
    );
    let bare = bare.expect("a sentence");
    let bare = bare.strip_prefix("An ").or(bare.strip_prefix("A "));
    let bare = bare.unwrap_or(paragraph.trim_end_matches('.'));
    bare.replace("As severe", "as severe")
}

/// The numbers of a kind: `name`, what it is.
fn numbers(fields: &Fields) -> Vec<String> {
    let of = |field: &syn::Field| {
        let is_report = matches!(&field.ty, Type::Path(path) if path.path.is_ident("EaseReport"));
        if is_report {
            // What the optimum itself is stays in the library.
            let listed = numbers(&ease_report().fields).into_iter();
            return listed.filter(|text| !text.contains('∫')).collect();
        }
        let name = field.ident.as_ref().expect("a name");
        let text = docs(&field.attrs).concat();
        let text = text.trim_end_matches('.').replace("`None`", "null");
        vec![format!("`{name}`: {text}")]
    };
    fields.iter().flat_map(of).collect()
}

fn table() -> String {
    let mut table = HEAD.to_owned();
    for kind in kinds().variants {
        let code = snake_case(&kind.ident.to_string());
        let docs = docs(&kind.attrs);
        let [meaning, severe] = docs.as_slice() else {
            panic!("{code}: give what it means, then how severe it is: {docs:?}");
        };
        let meaning = meaning.split(". ").next().expect("a sentence");
        let (severity, numbers) = (severity(severe, &code), numbers(&kind.fields).join("<br>"));
        let _ = writeln!(
            table,
            "| `{code}` | {severity} | {} | {numbers} |",
            meaning.trim_end_matches('.')
        );
    }
    table
}

/// To be written anew by `WRITE_GUIDE=1 cargo test -p quiltpath-tests --test findings_chapter`.
#[test]
fn the_table_is_made_of_the_docs() {
    let path = root().join(CHAPTER);
    let page = std::fs::read_to_string(&path).expect("the chapter");
    let (before, rest) = page.split_once(HEAD).expect("the table");
    let after = rest.trim_start_matches(|c: char| c != '\n');
    let end = after.find("\n\n").map_or("", |at| &after[at + 1..]);
    let made = format!("{before}{}{end}", table());
    if std::env::var_os("WRITE_GUIDE").is_some() {
        std::fs::write(&path, &made).expect("written");
        return;
    }
    assert!(
        page == made,
        "{CHAPTER} is not what the docs make of it; write it anew with WRITE_GUIDE=1"
    );
}

#[test]
fn codes_are_the_names_of_kinds() {
    let text = std::fs::read_to_string(root().join("quiltpath-core/src/plan/finding/kind.rs"));
    let text = text.expect("the kinds of findings");
    let kinds = kinds().variants;
    assert!(kinds.len() >= 30, "{} kinds", kinds.len());
    for kind in kinds {
        let code = snake_case(&kind.ident.to_string());
        let arm = format!("Self::{} {{ .. }} => \"{code}\"", kind.ident);
        assert!(text.contains(&arm), "{arm}");
    }
}
