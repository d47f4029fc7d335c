//! The properties of an element: its attributes, the rules of `<style>`, and `style`.
//!
//! Only properties that decide whether and where something is drawn are kept, so that fonts and
//! other looks cost nothing.

use std::borrow::Cow;
use std::collections::HashMap;

use roxmltree::{Document, Node, NodeType};

use super::css::{Rule, declarations, on_screen, rules, split_outside, without_comments};
use super::limits::MAX_MATCHING;
use super::notes::{Note, Notes};
use super::selector::{Budget, Key, Selector};
use crate::error::{DrawingFault, Error};

/// Properties that count as attributes, too.
const PRESENTATION: [&str; 15] = [
    "display",
    "visibility",
    "opacity",
    "fill",
    "stroke",
    "fill-opacity",
    "stroke-opacity",
    "stroke-width",
    "stroke-dasharray",
    "transform-origin",
    "transform-box",
    "clip-path",
    "mask",
    "overflow",
    "font-size",
];

/// Properties that are read from styles alone; attributes of these names have their own reader.
const STYLE_ONLY: [&str; 17] = [
    "transform",
    "translate",
    "rotate",
    "scale",
    "offset-path",
    "mask-image",
    "d",
    "x",
    "y",
    "cx",
    "cy",
    "r",
    "rx",
    "ry",
    "width",
    "height",
    "font",
];

/// How deep blocks such as `@media` may be nested.
const MAX_NESTED: usize = 8;

fn styled(name: &str) -> Option<&'static str> {
    let mut known = PRESENTATION.iter().chain(&STYLE_ONLY);
    known
        .find(|known| name.eq_ignore_ascii_case(known))
        .copied()
}

/// A value with where it comes from, which decides whether a length needs a unit.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Value<'a> {
    pub(super) text: Cow<'a, str>,
    pub(super) is_attribute: bool,
}

/// What an element sets; what it inherits is not in it.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Look<'a>(Vec<(&'static str, Value<'a>)>);

impl<'a> Look<'a> {
    /// What is set for a property, unless it is set to be inherited.
    pub(super) fn get(&self, name: &str) -> Option<&str> {
        let text = self.value(name)?.text.as_ref();
        let inherited = ["inherit", "unset", "revert"];
        (!inherited.iter().any(|word| text.eq_ignore_ascii_case(word))).then_some(text)
    }

    pub(super) fn value(&self, name: &str) -> Option<&Value<'a>> {
        self.0
            .iter()
            .find(|(known, _)| *known == name)
            .map(|(_, value)| value)
    }

    /// What a style sets for a property that attributes set otherwise.
    pub(super) fn styled(&self, name: &str) -> Option<&str> {
        self.value(name).filter(|value| !value.is_attribute)?;
        self.get(name)
    }

    pub(super) fn is(&self, name: &str, word: &str) -> bool {
        self.get(name)
            .is_some_and(|value| value.eq_ignore_ascii_case(word))
    }

    fn set(&mut self, name: &'static str, text: Cow<'a, str>, is_attribute: bool) {
        let value = Value { text, is_attribute };
        match self.0.iter_mut().find(|(known, _)| *known == name) {
            Some((_, old)) => *old = value,
            None => self.0.push((name, value)),
        }
    }

    pub(super) fn remove(&mut self, name: &str) {
        self.0.retain(|(known, _)| *known != name);
    }
}

/// A declaration of a rule: its property, its value, and whether it is important.
type Declaration = (&'static str, String, bool);

/// A selector and the body that it gives an element.
struct Ruling {
    selector: Selector,
    body: usize,
}

/// The rules of all `<style>` elements, the weaker first, by what they need.
pub(super) struct Sheet {
    rulings: Vec<Ruling>,
    bodies: Vec<Vec<Declaration>>,
    by_key: HashMap<Key, Vec<usize>>,
    budget: Budget,
}

impl Sheet {
    pub(super) fn of(document: &Document<'_>, notes: &mut Notes) -> Self {
        let mut sheet = Self {
            rulings: Vec::new(),
            bodies: Vec::new(),
            by_key: HashMap::new(),
            budget: Budget::default(),
        };
        for node in document.root().children() {
            if node.node_type() == NodeType::PI
                && node.pi().is_some_and(|pi| pi.target == "xml-stylesheet")
            {
                notes.add(Note::OutsideStyle, "");
            }
        }
        for style in document.descendants() {
            if !style.is_element() || style.tag_name().name() != "style" {
                continue;
            }
            let kind = style.attribute("type").unwrap_or_default();
            let media_type = kind.split(';').next().unwrap_or_default().trim();
            if !(media_type.is_empty() || media_type.eq_ignore_ascii_case("text/css")) {
                notes.add(Note::ForeignStyle, kind);
                continue;
            }
            let media = style.attribute("media").unwrap_or_default();
            match on_screen(media) {
                Some(true) => {
                    let text: String = style.children().filter_map(|child| child.text()).collect();
                    sheet.add(&without_comments(&text), 0, notes);
                }
                Some(false) => {}
                None => notes.add(Note::AtRule, &format!("media=\"{media}\"")),
            }
        }
        // Stable, so that of two equally strong rules the later one wins.
        sheet.rulings.sort_by_key(|ruling| ruling.selector.strength);
        for (at, ruling) in sheet.rulings.iter().enumerate() {
            sheet
                .by_key
                .entry(ruling.selector.key())
                .or_default()
                .push(at);
        }
        sheet
    }

    /// Takes the rules of a style sheet without comments that matter here.
    fn add(&mut self, text: &str, depth: usize, notes: &mut Notes) {
        for rule in rules(text) {
            match rule {
                Rule::Plain { selectors, body } => self.add_plain(selectors, body, notes),
                Rule::At {
                    name,
                    prelude,
                    body,
                } => match name.as_str() {
                    "charset"
                    | "font-face"
                    | "page"
                    | "namespace"
                    | "property"
                    | "counter-style"
                    | "viewport"
                    | "font-feature-values" => {}
                    _ if name.ends_with("keyframes") => {}
                    "import" => notes.add(Note::OutsideStyle, ""),
                    "media" if depth < MAX_NESTED && on_screen(prelude).is_some() => {
                        if on_screen(prelude) == Some(true) {
                            self.add(body, depth + 1, notes);
                        }
                    }
                    _ => notes.add(Note::AtRule, &format!("@{name} {prelude}")),
                },
            }
        }
    }

    fn add_plain(&mut self, selectors: &str, body: &str, notes: &mut Notes) {
        let kept: Vec<Declaration> = declarations(body)
            .filter_map(|(name, value, important)| {
                Some((styled(name)?, value.to_owned(), important))
            })
            .collect();
        if kept.is_empty() {
            return;
        }
        let parsed = split_outside(selectors, b',').map(Selector::parse);
        let Some(parsed) = parsed.collect::<Option<Vec<_>>>() else {
            // One that can't be read makes the whole list invalid.
            notes.add(Note::Selector, selectors);
            return;
        };
        let body = self.bodies.len();
        self.bodies.push(kept);
        self.rulings
            .extend(parsed.into_iter().map(|selector| Ruling { selector, body }));
    }

    /// The look of an element by the cascade: attributes, rules, `style`, then what is important.
    pub(super) fn look<'a>(&'a self, node: Node<'a, '_>) -> Result<Look<'a>, Error> {
        let mut look = Look::default();
        let mut style = Cow::Borrowed("");
        for attribute in node.attributes().filter(|a| a.namespace().is_none()) {
            if attribute.name() == "style" {
                style = without_comments(attribute.value());
            } else if let Some(name) = PRESENTATION.iter().find(|name| **name == attribute.name()) {
                look.set(name, Cow::Borrowed(attribute.value().trim()), true);
            }
        }
        let matched = self.matched(node);
        let bodies = || {
            matched
                .iter()
                .filter_map(|&at| self.bodies.get(self.rulings[at].body))
        };
        for wanted in [false, true] {
            for (name, value, important) in bodies().flatten() {
                if *important == wanted {
                    look.set(name, Cow::Borrowed(value), false);
                }
            }
            for (name, value, important) in declarations(&style) {
                if let (Some(name), true) = (styled(name), important == wanted) {
                    look.set(name, Cow::Owned(value.to_owned()), false);
                }
            }
        }
        let read = bodies().map(Vec::len).sum::<usize>() + style.len() / 8;
        if self.budget.take(read) {
            return Ok(look);
        }
        let what = "steps to apply the style sheet";
        let limit = MAX_MATCHING;
        Err(DrawingFault::TooMany { what, limit }.into())
    }

    /// The rulings that match, the weaker first.
    fn matched(&self, node: Node<'_, '_>) -> Vec<usize> {
        if self.rulings.is_empty() {
            return Vec::new();
        }
        let classes = node.attribute("class").unwrap_or_default();
        let id = node.attribute("id").map(|id| Key::Id(id.to_owned()));
        let mut keys: Vec<Key> = vec![Key::Any, Key::Type(node.tag_name().name().to_owned())];
        keys.extend(id);
        keys.extend(
            classes
                .split_ascii_whitespace()
                .map(|c| Key::Class(c.to_owned())),
        );
        self.budget.take(keys.len());
        let mut found: Vec<usize> = keys
            .iter()
            .filter_map(|key| self.by_key.get(key))
            .flatten()
            .copied()
            .filter(|&at| self.rulings[at].selector.matches(node, &self.budget))
            .collect();
        found.sort_unstable();
        found.dedup();
        found
    }
}

#[cfg(test)]
mod tests;
