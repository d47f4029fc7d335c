//! The chapter that lists every key of a plan is what the schema makes of it.

use std::fmt::Write as _;

use serde_json::Value;

use super::common::Bench;
use super::{Page, root};

const CHAPTER: &str = "quiltpath-cli/guide/keys.md";

/// The schema of plans, as the command prints it.
pub(crate) struct Schema(Value);

impl Schema {
    pub(crate) fn print() -> Self {
        let text = Bench::new().run(&["schema"]).ok().out;
        Self(serde_json::from_str(&text).expect("JSON"))
    }

    pub(crate) fn root(&self) -> &Value {
        &self.0
    }

    /// What a value is, behind references, lists and the choice to leave it out.
    pub(crate) fn resolve<'a>(&'a self, value: &'a Value) -> &'a Value {
        if let Some(path) = value["$ref"].as_str() {
            let path = path.strip_prefix('#').expect("in the schema itself");
            return self.resolve(self.0.pointer(path).expect("it is there"));
        }
        match value["anyOf"].as_array().map(Vec::as_slice) {
            Some([one, null]) if null["type"] == "null" => self.resolve(one),
            _ => value,
        }
    }

    /// The values that can be given, in a few words.
    fn kind(&self, value: &Value) -> String {
        let value = self.resolve(value);
        if choices(value).next().is_some() {
            let more = value["oneOf"].as_array().into_iter().flatten();
            let place = more.into_iter().any(|other| other["type"] == "array");
            return ["a word", "a word, or two lengths"][usize::from(place)].to_owned();
        }
        if value["oneOf"].is_array() {
            return "a length".to_owned();
        }
        if let Some([one, more @ ..]) = value["anyOf"].as_array().map(Vec::as_slice) {
            let one = self.kind(one);
            let by_side = more.iter().any(|other| other["type"] == "array");
            return match one.as_str() {
                one if by_side => format!("{one}, or one for each side"),
                one => format!("{one}, or a name"),
            };
        }
        let types = &value["type"];
        let name = types.as_str().or_else(|| types[0].as_str());
        match name.expect("a type") {
            "array" => {
                let of = self.resolve(&value["items"]);
                let of = match of["type"].as_str() {
                    _ if of["properties"].is_object() => "objects",
                    Some("string") => "texts",
                    None if of["anyOf"].is_array() => "names or numbers",
                    _ => "points",
                };
                format!("a list of {of}")
            }
            "object" => "an object".to_owned(),
            "boolean" => "true or false".to_owned(),
            "integer" => "a whole number".to_owned(),
            "number" => "a number".to_owned(),
            "string" => "text".to_owned(),
            other => panic!("a kind of value without words: {other}"),
        }
    }

    /// What a key means, and the values to choose from.
    fn meaning(&self, value: &Value) -> String {
        let mut text = one_line(value);
        for (name, choice) in choices(self.resolve(value)) {
            let meaning = one_line(choice);
            let words = name.replace('_', " ");
            let same = meaning.to_lowercase().starts_with(&words);
            let more = if same {
                String::new()
            } else {
                format!(": {meaning}")
            };
            let _ = write!(text, "<br>`{name}`{more}");
        }
        text
    }

    /// Writes the keys of an object, then those of the objects in it.
    fn section(&self, path: &str, of: &Value, page: &mut String) {
        let heading = match path {
            "" => "The plan".to_owned(),
            path => format!("`{path}`"),
        };
        let _ = write!(
            page,
            "\n## {heading}\n\n{}\n\n| key | value | meaning |\n| --- | --- | --- |\n",
            one_line(of)
        );
        let properties = of["properties"].as_object().expect("keys");
        let needed = |key: &String| {
            let list = of["required"].as_array().into_iter().flatten();
            list.into_iter().any(|other| other == key)
        };
        let (first, then): (Vec<_>, Vec<_>) = properties.iter().partition(|(key, _)| needed(key));
        for (key, value) in first.iter().chain(&then) {
            let needed = if needed(key) { " (needed)" } else { "" };
            let (kind, meaning) = (self.kind(value), self.meaning(value));
            let _ = writeln!(page, "| `{key}`{needed} | {kind} | {meaning} |");
        }
        for (key, value) in first.into_iter().chain(then) {
            let value = self.resolve(value);
            let (list, inner) = match value["items"].is_object() {
                true => ("[]", self.resolve(&value["items"])),
                false => ("", value),
            };
            if inner["properties"].is_object() {
                let path = path.to_owned() + if path.is_empty() { "" } else { "." };
                self.section(&format!("{path}{key}{list}"), inner, page);
            }
        }
    }
}

/// What the schema has on a value, without its line ends.
fn one_line(value: &Value) -> String {
    let text = value["description"].as_str().expect("a description");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The words to choose from, with what the schema has on each.
fn choices(value: &Value) -> impl Iterator<Item = (&str, &Value)> {
    let choices = value["oneOf"].as_array().into_iter().flatten();
    choices.filter_map(|choice| Some((choice["const"].as_str()?, choice)))
}

/// What belongs to a key of an object, or to a place in a list.
pub(crate) fn member<'a>(of: &'a Value, step: &str) -> &'a Value {
    match step.parse::<usize>() {
        Ok(_) => &of["items"],
        Err(_) => &of["properties"][step],
    }
}

/// To be written anew by `WRITE_GUIDE=1 cargo test -p quiltpath-cli --test docs keys`.
#[test]
fn are_those_of_the_schema() {
    let schema = Schema::print();
    let mut page = "# Every key of a plan\n\n\
        [The plan](plan.md) and [The frame](frame.md) show how these are used. What is not marked as \
        needed may be left out. A length is a number in the plan's unit, or text such as `\"4 1/2\"`, \
        `\"4 1/2 in\"`, `\"11.4cm\"` or `\"114 mm\"`.\n"
        .to_owned();
    schema.section("", schema.root(), &mut page);
    if std::env::var_os("WRITE_GUIDE").is_some() {
        std::fs::write(root().join(CHAPTER), &page).expect("written");
    }
    assert!(
        Page::read(CHAPTER).text == page,
        "{CHAPTER} is not what the schema makes of it; write it anew with WRITE_GUIDE=1"
    );
}
