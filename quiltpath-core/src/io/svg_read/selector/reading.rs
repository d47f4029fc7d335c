//! A selector read from its text.

use super::matching::{Combinator, Operator, Selector, Test};
use crate::io::svg_read::css::split_outside;

/// How many compounds a selector may have, and how deep brackets in it may be nested.
const MAX_PARTS: usize = 64;
const MAX_NESTED: usize = 4;

impl Selector {
    /// Reads one selector, without commas.
    pub(in crate::io::svg_read) fn parse(text: &str) -> Option<Self> {
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
    const LARGEST: u64 = 1_000_000_000;
    let text: String = text.chars().filter(|c| !c.is_whitespace()).collect();
    let text = text.to_ascii_lowercase();
    let number = |text: &str| -> Option<i64> {
        let value: i64 = text.strip_prefix('+').unwrap_or(text).parse().ok()?;
        (value.unsigned_abs() <= LARGEST).then_some(value)
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
