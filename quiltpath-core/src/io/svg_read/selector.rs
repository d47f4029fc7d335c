//! Selectors of style sheets: Selectors Level 4, as far as drawing programs and people use them.
//!
//! Types, ids, classes, attributes, the four combinators, places among siblings, `:root`, `:empty`,
//! `:not()`, `:is()` and `:where()`. What depends on a pointer or on text never matches. Anything
//! else is no selector, so that its rule is reported.

use std::cell::Cell;

use roxmltree::Node;

use super::css::split_outside;
use super::limits::MAX_MATCHING;

/// How many compounds a selector may have, and how deep brackets in it may be nested.
const MAX_PARTS: usize = 64;
const MAX_NESTED: usize = 4;

/// How strong a selector is: ids, classes and the like, types.
pub(super) type Strength = [usize; 3];

#[derive(Debug, Clone, PartialEq)]
pub(super) struct Selector {
    /// From left to right; the last describes the element itself.
    parts: Vec<(Combinator, Vec<Test>)>,
    pub(super) strength: Strength,
}

/// How a compound stands to the one before it.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Combinator {
    Inside,
    Child,
    Next,
    After,
}

#[derive(Debug, Clone, PartialEq)]
enum Test {
    Any,
    Type(String),
    Id(String),
    Class(String),
    Attribute(String, Operator, String),
    Place {
        step: i64,
        offset: i64,
        from_end: bool,
        of_type: bool,
    },
    Root,
    Empty,
    Never,
    /// One of these (`true`), or none of them.
    Choice(bool, Vec<Selector>),
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Operator {
    Exists,
    Is,
    Word,
    Dash,
    Start,
    End,
    Part,
}

/// What an element needs at least for a selector to match it, to look rules up by.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) enum Key {
    Id(String),
    Class(String),
    Type(String),
    Any,
}

/// Counts the steps of matching, which hostile selectors can make endless.
#[derive(Debug, Default)]
pub(super) struct Budget(Cell<usize>);

impl Budget {
    /// Takes steps; false when there are none left.
    pub(super) fn take(&self, steps: usize) -> bool {
        self.0.set(self.0.get().saturating_add(steps));
        !self.is_spent()
    }

    pub(super) fn is_spent(&self) -> bool {
        self.0.get() > MAX_MATCHING
    }
}

impl Selector {
    /// Reads one selector, without commas.
    pub(super) fn parse(text: &str) -> Option<Self> {
        Self::nested(text, 0)
    }

    fn nested(text: &str, depth: usize) -> Option<Self> {
        let mut reader = Reader {
            rest: text.trim(),
            depth,
        };
        let mut parts = vec![(Combinator::Inside, reader.compound()?)];
        while !reader.rest.is_empty() {
            let spaced = reader.rest.trim_start();
            let (combinator, rest) = match spaced.chars().next()? {
                '>' => (Combinator::Child, &spaced[1..]),
                '+' => (Combinator::Next, &spaced[1..]),
                '~' => (Combinator::After, &spaced[1..]),
                _ if spaced.len() < reader.rest.len() => (Combinator::Inside, spaced),
                _ => return None,
            };
            reader.rest = rest.trim_start();
            parts.push((combinator, reader.compound()?));
            if parts.len() > MAX_PARTS {
                return None;
            }
        }
        let mut strength = [0; 3];
        for test in parts.iter().flat_map(|(_, tests)| tests) {
            let own = test.strength();
            strength = [0, 1, 2].map(|at| strength[at] + own[at]);
        }
        Some(Self { parts, strength })
    }

    pub(super) fn key(&self) -> Key {
        let tests = self.parts.last().map_or(&[][..], |(_, tests)| tests);
        let of = |found: fn(&Test) -> Option<Key>| tests.iter().find_map(found);
        of(|test| match test {
            Test::Id(id) => Some(Key::Id(id.clone())),
            _ => None,
        })
        .or_else(|| {
            of(|test| match test {
                Test::Class(name) => Some(Key::Class(name.clone())),
                _ => None,
            })
        })
        .or_else(|| {
            of(|test| match test {
                Test::Type(name) => Some(Key::Type(name.clone())),
                _ => None,
            })
        })
        .unwrap_or(Key::Any)
    }

    pub(super) fn matches(&self, node: Node<'_, '_>, budget: &Budget) -> bool {
        self.matches_to(self.parts.len(), node, budget)
    }

    /// Whether the first `count` parts match, the last of them this element.
    fn matches_to(&self, count: usize, node: Node<'_, '_>, budget: &Budget) -> bool {
        let Some((combinator, tests)) = count.checked_sub(1).and_then(|at| self.parts.get(at))
        else {
            return true;
        };
        if !tests.iter().all(|test| test.holds(node, budget)) {
            return false;
        }
        if count == 1 {
            return true;
        }
        let next = |node: Node<'_, '_>| budget.take(1) && self.matches_to(count - 1, node, budget);
        match combinator {
            Combinator::Child => node.parent_element().is_some_and(next),
            Combinator::Next => node.prev_sibling_element().is_some_and(next),
            Combinator::Inside => {
                std::iter::successors(node.parent_element(), Node::parent_element)
                    .take_while(|_| !budget.is_spent())
                    .any(next)
            }
            Combinator::After => {
                std::iter::successors(node.prev_sibling_element(), Node::prev_sibling_element)
                    .take_while(|_| !budget.is_spent())
                    .any(next)
            }
        }
    }
}

impl Test {
    fn strength(&self) -> Strength {
        match self {
            Self::Any => [0, 0, 0],
            Self::Type(_) => [0, 0, 1],
            Self::Id(_) => [1, 0, 0],
            Self::Choice(_, selectors) => {
                let strengths = selectors.iter().map(|selector| selector.strength);
                strengths.max().unwrap_or_default()
            }
            _ => [0, 1, 0],
        }
    }

    fn holds(&self, node: Node<'_, '_>, budget: &Budget) -> bool {
        budget.take(1);
        match self {
            Self::Any => true,
            Self::Type(name) => node.tag_name().name() == name,
            Self::Id(id) => node.attribute("id") == Some(id),
            Self::Class(name) => node.attribute("class").is_some_and(|classes| {
                budget.take(classes.len() / 8);
                classes.split_ascii_whitespace().any(|class| class == name)
            }),
            Self::Attribute(name, operator, wanted) => {
                node.attribute(name.as_str()).is_some_and(|value| {
                    budget.take(value.len() / 8);
                    operator.holds(value, wanted)
                })
            }
            Self::Place {
                step,
                offset,
                from_end,
                of_type,
            } => {
                let mut place = 1;
                let mut at = node;
                while let Some(other) = match from_end {
                    true => at.next_sibling_element(),
                    false => at.prev_sibling_element(),
                } {
                    if !budget.take(1) {
                        return false;
                    }
                    if !of_type || other.tag_name() == node.tag_name() {
                        place += 1;
                    }
                    at = other;
                }
                let past = place - offset;
                match step {
                    0 => past == 0,
                    step => past % step == 0 && past / step >= 0,
                }
            }
            Self::Root => node.parent_element().is_none(),
            Self::Empty => !node.has_children(),
            Self::Never => false,
            Self::Choice(wanted, selectors) => {
                let any = selectors.iter().any(|one| one.matches(node, budget));
                any == *wanted
            }
        }
    }
}

impl Operator {
    fn holds(self, value: &str, wanted: &str) -> bool {
        match self {
            Self::Exists => true,
            Self::Is => value == wanted,
            Self::Word => value.split_ascii_whitespace().any(|word| word == wanted),
            Self::Dash => {
                let rest = value.strip_prefix(wanted);
                rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
            }
            _ if wanted.is_empty() => false,
            Self::Start => value.starts_with(wanted),
            Self::End => value.ends_with(wanted),
            Self::Part => value.contains(wanted),
        }
    }
}

struct Reader<'a> {
    rest: &'a str,
    depth: usize,
}

impl<'a> Reader<'a> {
    fn compound(&mut self) -> Option<Vec<Test>> {
        let mut tests = Vec::new();
        loop {
            let test = match self.rest.chars().next() {
                Some('*') if tests.is_empty() => {
                    self.rest = &self.rest[1..];
                    Test::Any
                }
                Some('#') => {
                    self.rest = &self.rest[1..];
                    Test::Id(self.name()?)
                }
                Some('.') => {
                    self.rest = &self.rest[1..];
                    Test::Class(self.name()?)
                }
                Some('[') => self.attribute()?,
                Some(':') => self.pseudo()?,
                Some(c) if tests.is_empty() && is_name(c) => Test::Type(self.name()?),
                _ => return (!tests.is_empty()).then_some(tests),
            };
            // A namespace before a name would need its declarations.
            if self.rest.starts_with('|') {
                return None;
            }
            tests.push(test);
        }
    }

    /// A name, its escapes undone.
    fn name(&mut self) -> Option<String> {
        let mut name = String::new();
        while let Some(c) = self.rest.chars().next() {
            if is_name(c) && c != '\\' {
                name.push(c);
                self.rest = &self.rest[c.len_utf8()..];
                continue;
            }
            let Some(escaped) = self.rest.strip_prefix('\\') else {
                break;
            };
            let digits = escaped
                .bytes()
                .take(6)
                .take_while(u8::is_ascii_hexdigit)
                .count();
            if digits > 0 {
                let code = u32::from_str_radix(&escaped[..digits], 16).ok()?;
                name.push(char::from_u32(code).unwrap_or(char::REPLACEMENT_CHARACTER));
                let after = &escaped[digits..];
                self.rest = after.strip_prefix([' ', '\t', '\n']).unwrap_or(after);
            } else {
                let c = escaped.chars().next()?;
                name.push(c);
                self.rest = &escaped[c.len_utf8()..];
            }
        }
        (!name.is_empty()).then_some(name)
    }

    fn attribute(&mut self) -> Option<Test> {
        let (inside, rest) = bracketed(self.rest, '[', ']')?;
        self.rest = rest;
        let mut reader = Reader {
            rest: inside.trim(),
            depth: self.depth,
        };
        let name = reader.name()?;
        let after = reader.rest.trim_start();
        if after.is_empty() {
            return Some(Test::Attribute(name, Operator::Exists, String::new()));
        }
        let operators = [
            ("=", Operator::Is),
            ("~=", Operator::Word),
            ("|=", Operator::Dash),
            ("^=", Operator::Start),
            ("$=", Operator::End),
            ("*=", Operator::Part),
        ];
        let (operator, value) = operators
            .iter()
            .find_map(|(mark, operator)| Some((*operator, after.strip_prefix(mark)?.trim())))?;
        let quoted = ['"', '\'']
            .iter()
            .find_map(|&quote| value.strip_prefix(quote)?.strip_suffix(quote));
        let value = match quoted {
            Some(value) if !value.contains(['"', '\'', '\\']) => value.to_owned(),
            Some(_) => return None,
            None => {
                reader.rest = value;
                let value = reader.name()?;
                reader.rest.is_empty().then_some(value)?
            }
        };
        Some(Test::Attribute(name, operator, value))
    }

    fn pseudo(&mut self) -> Option<Test> {
        self.rest = &self.rest[1..];
        if let Some(element) = self.rest.strip_prefix(':') {
            self.rest = element;
            self.name()?;
            return Some(Test::Never);
        }
        let name = self.name()?.to_ascii_lowercase();
        if !self.rest.starts_with('(') {
            let place = |from_end, of_type| Test::Place {
                step: 0,
                offset: 1,
                from_end,
                of_type,
            };
            return Some(match name.as_str() {
                "first-child" => place(false, false),
                "last-child" => place(true, false),
                "first-of-type" => place(false, true),
                "last-of-type" => place(true, true),
                "root" => Test::Root,
                "empty" => Test::Empty,
                "hover" | "active" | "focus" | "focus-within" | "focus-visible" | "visited"
                | "target" | "before" | "after" | "first-line" | "first-letter" => Test::Never,
                _ => return None,
            });
        }
        let (inside, rest) = bracketed(self.rest, '(', ')')?;
        self.rest = rest;
        let place = |from_end, of_type| {
            let (step, offset) = steps(inside)?;
            Some(Test::Place {
                step,
                offset,
                from_end,
                of_type,
            })
        };
        match name.as_str() {
            "nth-child" => place(false, false),
            "nth-last-child" => place(true, false),
            "nth-of-type" => place(false, true),
            "nth-last-of-type" => place(true, true),
            "not" | "is" if self.depth < MAX_NESTED => {
                let parts = split_outside(inside, b',');
                let selectors = parts.map(|part| Selector::nested(part, self.depth + 1));
                Some(Test::Choice(
                    name == "is",
                    selectors.collect::<Option<_>>()?,
                ))
            }
            "where" if self.depth < MAX_NESTED => {
                let parts = split_outside(inside, b',');
                let selectors = parts.map(|part| {
                    let mut one = Selector::nested(part, self.depth + 1)?;
                    one.strength = [0; 3];
                    Some(one)
                });
                Some(Test::Choice(true, selectors.collect::<Option<_>>()?))
            }
            _ => None,
        }
    }
}

/// What is between the bracket that the text starts with and its partner, and what follows.
fn bracketed(text: &str, open: char, close: char) -> Option<(&str, &str)> {
    let inside = text.strip_prefix(open)?;
    let close = u8::try_from(close).ok()?;
    let inside_end = split_outside(inside, close).next()?.len();
    let after = inside.get(inside_end + 1..)?;
    Some((&inside[..inside_end], after))
}

fn is_name(c: char) -> bool {
    c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '\\') || !c.is_ascii()
}

/// Reads `odd`, `even`, `3` or `2n + 1` as a step and an offset.
fn steps(text: &str) -> Option<(i64, i64)> {
    const LARGEST: i64 = 1_000_000_000;
    let text: String = text.chars().filter(|c| !c.is_whitespace()).collect();
    let text = text.to_ascii_lowercase();
    let number = |text: &str| -> Option<i64> {
        let value: i64 = text.strip_prefix('+').unwrap_or(text).parse().ok()?;
        (value.abs() <= LARGEST).then_some(value)
    };
    match text.as_str() {
        "odd" => return Some((2, 1)),
        "even" => return Some((2, 0)),
        _ => {}
    }
    let Some((step, offset)) = text.split_once('n') else {
        return Some((0, number(&text)?));
    };
    let step = match step {
        "" | "+" => 1,
        "-" => -1,
        step => number(step)?,
    };
    let offset = if offset.is_empty() {
        0
    } else {
        number(offset)?
    };
    Some((step, offset))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The ids of the elements that match, in order.
    fn matched(selector: &str) -> String {
        let text = "<svg><g id='a' class='x y' label='one two'><p id='b'/><q id='c' class='x'/>\
                    <p id='d' lang='de-AT'/><p id='e' class='sm:z'/></g><q id='f'/></svg>";
        let document = roxmltree::Document::parse(text).expect("XML");
        let selector = Selector::parse(selector).unwrap_or_else(|| panic!("{selector}"));
        let nodes = document.descendants().filter(Node::is_element);
        let found = nodes.filter(|node| selector.matches(*node, &Budget::default()));
        found.filter_map(|node| node.attribute("id")).collect()
    }

    #[test]
    fn selectors_match_as_the_standard_says() {
        for (selector, ids) in [
            ("*", "abcdef"),
            ("p", "bde"),
            ("p#b", "b"),
            (".x", "ac"),
            ("q.x", "c"),
            ("g p", "bde"),
            ("svg>q", "f"),
            ("p + q", "c"),
            ("q ~ p", "de"),
            ("[label]", "a"),
            ("[label~=two]", "a"),
            ("[lang|='de']", "d"),
            ("[id^=a]", "a"),
            ("[label$='two']", "a"),
            ("[label*=' ']", "a"),
            ("p:not(.x, #d)", "be"),
            ("g > :not(p)", "c"),
            (":not(g) > q", "f"),
            (":is(#b, q)", "bcf"),
            (":where(#b)", "b"),
            ("p:first-child", "b"),
            ("p:last-child", "e"),
            (":nth-child(2)", "cf"),
            ("g > :nth-child(odd)", "bd"),
            ("g > :nth-child(2n)", "ce"),
            ("g > :nth-child(-n + 2)", "bc"),
            ("p:nth-of-type(2)", "d"),
            ("p:nth-last-child(1)", "e"),
            ("g:hover", ""),
            ("p::before", ""),
            (r".sm\:z", "e"),
            (r"#\65 ", "e"),
            ("q:empty", "cf"),
        ] {
            assert_eq!(matched(selector), ids, "{selector}");
        }
    }

    #[test]
    fn what_cannot_be_read_is_no_selector() {
        for text in [
            "",
            ">",
            "p >",
            "svg|p",
            "p:nth-child(x)",
            ":has(p)",
            "p:not(",
            "[a='b",
            "p!",
            "..a",
            ":lang(de)",
            "[a=b i]",
        ] {
            assert_eq!(Selector::parse(text), None, "{text}");
        }
        assert_eq!(Selector::parse(&"x + ".repeat(100_000)), None);
    }

    #[test]
    fn strength_counts_ids_classes_and_types() {
        for (text, strength) in [
            ("*", [0, 0, 0]),
            ("g p", [0, 0, 2]),
            ("#a.b[c]:first-child", [1, 3, 0]),
            ("p:not(#a, q)", [1, 0, 1]),
            (":where(#a)", [0, 0, 0]),
        ] {
            assert_eq!(
                Selector::parse(text).expect(text).strength,
                strength,
                "{text}"
            );
        }
    }
}
