//! Style sheets as text: comments taken out, rules found, declarations split.
//!
//! By CSS Syntax Module Level 3, as far as it decides where a rule, a block or a value ends: quotes
//! and brackets are passed over whole.

use std::borrow::Cow;

/// A rule of a style sheet, or an at-rule with its name in lower case.
#[derive(Debug, PartialEq)]
pub(super) enum Rule<'a> {
    Plain {
        selectors: &'a str,
        body: &'a str,
    },
    At {
        name: String,
        prelude: &'a str,
        body: &'a str,
    },
}

/// The text with a space in place of each comment.
pub(super) fn without_comments(text: &str) -> Cow<'_, str> {
    if !text.contains("/*") {
        return Cow::Borrowed(text);
    }
    let mut kept = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(['"', '\'', '/']) {
        let (before, mark) = rest.split_at(at);
        kept.push_str(before);
        if let Some(comment) = mark.strip_prefix("/*") {
            kept.push(' ');
            rest = comment.split_once("*/").map_or("", |(_, after)| after);
        } else {
            let end = match mark.starts_with('/') {
                true => 1,
                false => string_end(mark),
            };
            kept.push_str(&mark[..end]);
            rest = &mark[end..];
        }
    }
    kept.push_str(rest);
    Cow::Owned(kept)
}

/// Where a string ends that starts with its quote; an unclosed one ends with its line.
fn string_end(text: &str) -> usize {
    let bytes = text.as_bytes();
    let mut at = 1;
    while at < bytes.len() {
        match bytes[at] {
            b'\\' => at += 1,
            b'\n' => return at,
            byte if byte == bytes[0] => return at + 1,
            _ => {}
        }
        at += 1;
    }
    text.len()
}

/// Where the first of these marks stands outside quotes and round and square brackets.
fn find_outside(text: &str, marks: &[u8]) -> Option<usize> {
    let bytes = text.as_bytes();
    let (mut at, mut depth) = (0, 0usize);
    while at < bytes.len() {
        match bytes[at] {
            byte if depth == 0 && marks.contains(&byte) => return Some(at),
            b'\\' => at += 1,
            b'"' | b'\'' => {
                at += string_end(&text[at..]);
                continue;
            }
            b'(' | b'[' => depth += 1,
            b')' | b']' => depth = depth.saturating_sub(1),
            _ => {}
        }
        at += 1;
    }
    None
}

/// The parts between these marks, quotes and brackets kept whole.
pub(super) fn split_outside(text: &str, mark: u8) -> impl Iterator<Item = &str> {
    let mut rest = Some(text);
    std::iter::from_fn(move || {
        let text = rest?;
        let (part, after) = match find_outside(text, &[mark]) {
            Some(at) => (&text[..at], Some(&text[at + 1..])),
            None => (text, None),
        };
        rest = after;
        Some(part)
    })
}

/// The inside of a block, from behind its brace, and what comes after it.
fn block(text: &str) -> (&str, &str) {
    let (mut depth, mut from) = (0usize, 0);
    while let Some(at) = find_outside(&text[from..], b"{}").map(|at| from + at) {
        from = at + 1;
        match (text.as_bytes()[at], depth) {
            (b'}', 0) => return (&text[..at], &text[from..]),
            (b'}', _) => depth -= 1,
            _ => depth += 1,
        }
    }
    (text, "")
}

/// The rules of a style sheet without comments, in their order.
pub(super) fn rules(text: &str) -> Vec<Rule<'_>> {
    let mut rules = Vec::new();
    let mut rest = text;
    loop {
        rest = rest.trim_start();
        if let Some(after) = ["<!--", "-->", "}"]
            .iter()
            .find_map(|m| rest.strip_prefix(m))
        {
            rest = after;
            continue;
        }
        let at_rule = rest.strip_prefix('@');
        let marks: &[u8] = if at_rule.is_some() { b"{;" } else { b"{" };
        let Some(at) = find_outside(rest, marks) else {
            // An at-rule at the very end needs no semicolon.
            if let Some(last) = at_rule {
                rules.push(at_rule_of(last.trim_end(), ""));
            }
            return rules;
        };
        let (prelude, mark) = rest.split_at(at);
        let (body, after) = match mark.strip_prefix('{') {
            Some(inside) => block(inside),
            None => ("", &mark[1..]),
        };
        rules.push(match prelude.strip_prefix('@') {
            Some(prelude) => at_rule_of(prelude, body),
            None => Rule::Plain {
                selectors: prelude,
                body,
            },
        });
        rest = after;
    }
}

fn at_rule_of<'a>(text: &'a str, body: &'a str) -> Rule<'a> {
    let end = text
        .find(|c: char| !(c.is_ascii_alphanumeric() || c == '-'))
        .unwrap_or(text.len());
    Rule::At {
        name: text[..end].to_ascii_lowercase(),
        prelude: text[end..].trim(),
        body,
    }
}

/// The declarations of a body without comments: name, value, and whether it is important.
pub(super) fn declarations(body: &str) -> impl Iterator<Item = (&str, &str, bool)> {
    split_outside(body, b';').filter_map(|declaration| {
        let (name, value) = declaration.split_once(':')?;
        let (value, important) = match value.rsplit_once('!') {
            Some((value, mark)) if mark.trim().eq_ignore_ascii_case("important") => (value, true),
            _ => (value, false),
        };
        Some((name.trim(), value.trim(), important))
    })
}

/// Whether a list of media queries holds for what is seen on a screen; `None` where it asks for
/// more than a kind of media.
pub(super) fn on_screen(queries: &str) -> Option<bool> {
    if queries.trim().is_empty() {
        return Some(true);
    }
    let answers: Vec<Option<bool>> = queries
        .split(',')
        .map(|query| {
            let query = query.trim().to_ascii_lowercase();
            let words: Vec<&str> = query.split_whitespace().collect();
            let kind = |word: &str| match word {
                "all" | "screen" => Some(true),
                "print" | "speech" | "aural" | "braille" | "embossed" | "handheld"
                | "projection" | "tty" | "tv" => Some(false),
                _ => None,
            };
            match words[..] {
                [word] | ["only", word] => kind(word),
                ["not", word] => kind(word).map(|holds| !holds),
                // Whatever else it asks for, it doesn't hold on a screen.
                [word, "and", ..] | ["only", word, "and", ..] if kind(word) == Some(false) => {
                    Some(false)
                }
                _ => None,
            }
        })
        .collect();
    if answers.contains(&Some(true)) {
        return Some(true);
    }
    (!answers.contains(&None)).then_some(false)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quotes_brackets_and_comments_are_passed_over() {
        assert_eq!(without_comments("a/*x*/b '/*y*/' /* z"), "a b '/*y*/'  ");
        let parts: Vec<&str> = split_outside("a(1;2);'b;c';d", b';').collect();
        assert_eq!(parts, ["a(1;2)", "'b;c'", "d"]);
        let found: Vec<_> = declarations("fill : url('a;b') ! IMPORTANT; ;x:y").collect();
        assert_eq!(found, [("fill", "url('a;b')", true), ("x", "y", false)]);
    }

    #[test]
    fn rules_are_found_in_order() {
        let text = "@import 'x;y'; <!-- p > q, r{a:b} @media print{s{c:d} t{}} u{e:f";
        assert_eq!(
            rules(text),
            [
                Rule::At {
                    name: "import".into(),
                    prelude: "'x;y'",
                    body: ""
                },
                Rule::Plain {
                    selectors: "p > q, r",
                    body: "a:b"
                },
                Rule::At {
                    name: "media".into(),
                    prelude: "print",
                    body: "s{c:d} t{}"
                },
                Rule::Plain {
                    selectors: "u",
                    body: "e:f"
                },
            ]
        );
    }

    #[test]
    fn kinds_of_media() {
        for (queries, holds) in [
            ("", Some(true)),
            ("all", Some(true)),
            ("print, screen", Some(true)),
            ("only screen", Some(true)),
            ("print", Some(false)),
            ("not screen", Some(false)),
            ("print and (color)", Some(false)),
            ("screen and (min-width: 10px)", None),
            ("(prefers-color-scheme: dark)", None),
        ] {
            assert_eq!(on_screen(queries), holds, "{queries}");
        }
    }
}
