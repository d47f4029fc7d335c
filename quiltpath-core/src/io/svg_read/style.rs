//! What hides an element: `display` and `visibility` as attributes, in `style`, and in `<style>`.
//!
//! Selectors are read and matched by `simplecss`; rules that set neither are skipped, so that
//! fonts and colours cost nothing. CSS may also move an element (`transform`), which is noted.

use std::cell::Cell;

use roxmltree::{Document, Node};
use simplecss::{AttributeOperator, Element, PseudoClass, Selector};

use super::limits::MAX_MATCHING;
use crate::error::{DrawingFault, Error};

/// Whether an element is drawn, as far as its own properties decide.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Look {
    /// True for `display: none`.
    pub(super) gone: bool,
    /// What `visibility` sets; `None` to inherit it.
    pub(super) visible: Option<bool>,
    /// True when a style moves the element by the CSS property `transform`.
    pub(super) moved: bool,
}

impl Look {
    fn set(&mut self, name: &str, value: &str) {
        let value = value.trim();
        if name.eq_ignore_ascii_case("display") {
            self.gone = value.eq_ignore_ascii_case("none");
        } else if name.eq_ignore_ascii_case("visibility") {
            self.visible = match value.to_ascii_lowercase().as_str() {
                "hidden" | "collapse" => Some(false),
                "visible" => Some(true),
                _ => None,
            };
        } else if name.eq_ignore_ascii_case("transform") {
            self.moved = !value.eq_ignore_ascii_case("none");
        }
    }
}

/// A declaration that matters here: its name, its value, and whether it is important.
type Declaration<'a> = (&'a str, &'a str, bool);

/// The declarations of a body that hide, show or move.
fn declarations(body: &str) -> impl Iterator<Item = Declaration<'_>> {
    body.split(';').filter_map(|declaration| {
        let (name, value) = declaration.split_once(':')?;
        let name = name.rsplit("*/").next().unwrap_or(name).trim();
        ["display", "visibility", "transform"]
            .iter()
            .any(|known| name.eq_ignore_ascii_case(known))
            .then(|| match value.split_once('!') {
                Some((value, _)) => (name, value, true),
                None => (name, value, false),
            })
    })
}

/// The rules of all `<style>` elements that hide, show or move, the weaker first.
pub(super) struct Sheet<'a> {
    rules: Vec<(Selector<'a>, &'a str)>,
    steps: Cell<usize>,
}

impl<'a> Sheet<'a> {
    pub(super) fn of(document: &'a Document<'_>) -> Self {
        let mut rules = Vec::new();
        for style in document.descendants() {
            if style.is_element() && style.tag_name().name() == "style" {
                for text in style.children().filter_map(|child| child.text()) {
                    rules_of(text, &mut rules);
                }
            }
        }
        rules.sort_by_cached_key(|(selector, _)| selector.specificity());
        Self {
            rules,
            steps: Cell::new(0),
        }
    }

    /// The look of an element by the cascade: attributes, rules, `style`, then what is important.
    pub(super) fn look(&self, node: Node<'_, '_>) -> Result<Look, Error> {
        let mut look = Look::default();
        let mut style = None;
        for attribute in node.attributes().filter(|a| a.namespace().is_none()) {
            match attribute.name() {
                "style" => style = Some(attribute.value()),
                "transform" => {}
                name => look.set(name, attribute.value()),
            }
        }
        if self.rules.is_empty() && style.is_none() {
            return Ok(look);
        }
        let matched = self.rules.iter().filter(|(selector, _)| {
            let element = Counted {
                node,
                chain: 0,
                steps: &self.steps,
            };
            selector.matches(&element)
        });
        let bodies: Vec<&str> = matched.map(|(_, body)| *body).chain(style).collect();
        let mut important = Vec::new();
        for (name, value, wins) in bodies.iter().flat_map(|body| declarations(body)) {
            if wins {
                important.push((name, value));
            } else {
                look.set(name, value);
            }
        }
        for (name, value) in important {
            look.set(name, value);
        }
        let read: usize = bodies.iter().map(|body| body.len()).sum();
        self.steps.set(self.steps.get() + read);
        if self.steps.get() > MAX_MATCHING {
            let what = "steps to apply the style sheet";
            return Err(DrawingFault::TooMany {
                what,
                limit: MAX_MATCHING,
            }
            .into());
        }
        Ok(look)
    }
}

/// Splits a style sheet into selectors and the bodies that matter; at-rules are skipped.
fn rules_of<'a>(text: &'a str, rules: &mut Vec<(Selector<'a>, &'a str)>) {
    let mut rest = text;
    loop {
        rest = skip_blank(rest);
        if let Some(at_rule) = rest.strip_prefix('@') {
            rest = after_at_rule(at_rule);
            continue;
        }
        let Some((prelude, after)) = rest.split_once('{') else {
            return;
        };
        let (body, after) = after.split_once('}').unwrap_or((after, ""));
        if declarations(body).next().is_some() {
            let selectors = prelude.split(',').filter_map(Selector::parse);
            rules.extend(selectors.map(|selector| (selector, body)));
        }
        rest = after;
    }
}

fn skip_blank(mut text: &str) -> &str {
    loop {
        text = text.trim_start();
        let skipped = ["<!--", "-->"]
            .iter()
            .find_map(|mark| text.strip_prefix(mark));
        text = match (skipped, text.strip_prefix("/*")) {
            (Some(rest), _) => rest,
            (None, Some(comment)) => comment.split_once("*/").map_or("", |(_, rest)| rest),
            (None, None) => return text,
        };
    }
}

fn after_at_rule(text: &str) -> &str {
    let mut depth = 0;
    for (at, byte) in text.bytes().enumerate() {
        match byte {
            b'{' => depth += 1,
            b'}' if depth <= 1 => return &text[at + 1..],
            b'}' => depth -= 1,
            b';' if depth == 0 => return &text[at + 1..],
            _ => {}
        }
    }
    ""
}

/// An element that counts the steps of matching.
///
/// Matching tries every way through the ancestors, which hostile selectors can make endless, and
/// recurses along siblings: beyond the limits there are no further relatives to try.
struct Counted<'a, 'input, 'c> {
    node: Node<'a, 'input>,
    chain: usize,
    steps: &'c Cell<usize>,
}

impl<'a, 'input> Counted<'a, 'input, '_> {
    const CHAIN: usize = 600;

    fn relative(&self, node: Option<Node<'a, 'input>>) -> Option<Self> {
        let steps = self.steps.get() + 1;
        self.steps.set(steps);
        let chain = self.chain + 1;
        (chain < Self::CHAIN && steps <= MAX_MATCHING).then_some(())?;
        let steps = self.steps;
        node.map(|node| Self { node, chain, steps })
    }
}

impl Element for Counted<'_, '_, '_> {
    fn parent_element(&self) -> Option<Self> {
        self.relative(self.node.parent_element())
    }

    fn prev_sibling_element(&self) -> Option<Self> {
        self.relative(self.node.prev_sibling_element())
    }

    fn has_local_name(&self, name: &str) -> bool {
        self.steps.set(self.steps.get() + 1);
        self.node.tag_name().name() == name
    }

    fn attribute_matches(&self, local_name: &str, operator: AttributeOperator<'_>) -> bool {
        let value = self.node.attribute(local_name);
        let cost = 1 + value.map_or(0, |value| value.len() / 8);
        self.steps.set(self.steps.get() + cost);
        value.is_some_and(|value| operator.matches(value))
    }

    fn pseudo_class_matches(&self, class: PseudoClass<'_>) -> bool {
        matches!(class, PseudoClass::FirstChild) && self.node.prev_sibling_element().is_none()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The look of the element whose id is `e`.
    fn look(style: &str, element: &str) -> Look {
        let text = format!("<svg><style>{style}</style><g class='a b'>{element}</g></svg>");
        let document = Document::parse(&text).expect("XML");
        let node = document
            .descendants()
            .find(|n| n.attribute("id") == Some("e"));
        let sheet = Sheet::of(&document);
        sheet.look(node.expect("e")).expect("a look")
    }

    #[test]
    fn the_cascade_decides() {
        for (style, element, gone) in [
            ("", "<p id='e' display='none'/>", true),
            ("", "<p id='e' display=' none '/>", true),
            ("", "<p id='e' style='fill:red;display: none'/>", true),
            ("", "<p id='e' style='DISPLAY:None;/*x*/ fill:red'/>", true),
            (
                "",
                "<p id='e' style='/*x*/display:none!important;display:inline'/>",
                true,
            ),
            ("#e{display:none}", "<p id='e'/>", true),
            (".x{display:none}", "<p id='e' class='x y'/>", true),
            ("p{display:none}", "<p id='e'/>", true),
            ("g > p{display:none}", "<p id='e'/>", true),
            (".b p{display:none}", "<p id='e'/>", true),
            ("g{display:none}", "<p id='e'/>", false),
            ("q, p{display:none}", "<p id='e'/>", true),
            ("#e{display:inline} p{display:none}", "<p id='e'/>", false),
            (
                "p{display:none}",
                "<p id='e' style='display:inline'/>",
                false,
            ),
            (
                "p{display:none !important}",
                "<p id='e' style='display:inline'/>",
                true,
            ),
            ("p{display:inline}", "<p id='e' display='none'/>", false),
            ("@media print{p{display:none}} q{}", "<p id='e'/>", false),
            ("@import 'x'; /* } */ p{display:none}", "<p id='e'/>", true),
            ("p:first-child{display:none}", "<q/><p id='e'/>", false),
            ("q + p{display:none}", "<q/><p id='e'/>", true),
        ] {
            assert_eq!(look(style, element).gone, gone, "{style} {element}");
        }
        let hidden = look("", "<p id='e' visibility='collapse' transform='scale(2)'/>");
        assert_eq!((hidden.visible, hidden.moved), (Some(false), false));
        assert!(look("p{transform: scale(2)}", "<p id='e'/>").moved);
    }

    #[test]
    fn hostile_selectors_end() {
        let depth = 200;
        let text = format!(
            "<svg><style>{} x{{display:none}}</style>{}<x/>{}</svg>",
            "g ".repeat(12).replacen('g', "nowhere", 1),
            "<g>".repeat(depth),
            "</g>".repeat(depth)
        );
        let document = Document::parse(&text).expect("XML");
        let sheet = Sheet::of(&document);
        let x = document
            .descendants()
            .find(|n| n.has_tag_name("x"))
            .expect("x");
        let error = sheet.look(x).expect_err("endless");
        assert!(
            error.to_string().contains("steps to apply the style sheet"),
            "{error}"
        );
        let siblings = format!(
            "<svg><style>{}x{{display:none}}</style>{}</svg>",
            "x + ".repeat(100_000),
            "<x/>".repeat(100_002)
        );
        let document = Document::parse(&siblings).expect("XML");
        let last = document.root_element().last_element_child().expect("x");
        assert!(!Sheet::of(&document).look(last).expect("a look").gone);
    }
}
