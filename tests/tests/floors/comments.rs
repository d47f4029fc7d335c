//! Comments fit a hundred columns, examples and tables apart.

use std::collections::BTreeMap;

/// The comment lines that don't fit, each by its file and number.
pub(crate) fn too_long(sources: &BTreeMap<String, String>, columns: usize) -> Vec<String> {
    let mut found = Vec::new();
    for (file, text) in sources {
        let mut example = false;
        for (at, line) in text.lines().enumerate() {
            let trimmed = line.trim_start();
            let words = ["//!", "///", "//"]
                .iter()
                .find_map(|sign| trimmed.strip_prefix(sign));
            let Some(words) = words.map(str::trim_start) else {
                example = false;
                continue;
            };
            example ^= words.starts_with("```");
            let apart = example || words.starts_with('|') || words.starts_with('[');
            if !apart && line.chars().count() > columns {
                found.push(format!("{file}:{}", at + 1));
            }
        }
    }
    found
}

#[test]
fn a_line_is_found_where_it_is_prose() {
    let long = "long ".repeat(20);
    let text = format!(
        "//! {long}\nlet {long};\n/// ```\n/// {long}\n/// ```\n/// | {long}\n    // {long}\n// short\n"
    );
    let sources = BTreeMap::from([("a.rs".to_owned(), text)]);
    assert_eq!(too_long(&sources, 100), ["a.rs:1", "a.rs:7"]);
}
