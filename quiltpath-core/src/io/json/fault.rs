//! What serde_json reports, turned into errors with a place and a way out.

use serde::de::DeserializeOwned;

use super::objects::Objects;
use crate::error::{DataFault, Error};

/// Reads a value of a type from JSON text, with the key path in the error.
pub(super) fn from_str<T: DeserializeOwned>(text: &str) -> Result<T, Error> {
    let mut reader = serde_json::Deserializer::from_str(text);
    let value = serde_path_to_error::deserialize(Objects(&mut reader)).map_err(|error| {
        // Where the text ends inside a key, serde can't name it.
        let path = error.path().to_string().replace(".?", "");
        let located = located(text, error.into_inner());
        if path == "." || path == "?" {
            located
        } else {
            located.in_element(path)
        }
    })?;
    reader.end().map_err(|error| located(text, error))?;
    Ok(value)
}

/// The text of these bytes.
///
/// `accepted` is what a file should hold that turns out to be empty.
pub(super) fn utf8<'a>(bytes: &'a [u8], accepted: &'static str) -> Result<&'a str, Error> {
    if bytes.starts_with(b"\xff\xfe") || bytes.starts_with(b"\xfe\xff") {
        return Err(DataFault::Utf16.into());
    }
    let text = std::str::from_utf8(bytes)
        .map_err(|error| not_text(&bytes[..error.valid_up_to()]).caused_by(error))?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    match text.trim_start().chars().next() {
        None => Err(DataFault::Empty { accepted }.into()),
        Some('<') => {
            let reason = format!("this is SVG or other XML, no JSON; give {accepted}");
            Err(Error::from(DataFault::Syntax { reason }).at(1, 1))
        }
        Some(_) => Ok(text),
    }
}

/// That what follows these bytes is no text.
fn not_text(valid: &[u8]) -> Error {
    let rows = valid.iter().filter(|byte| **byte == b'\n').count();
    let row_start = valid
        .iter()
        .rposition(|byte| *byte == b'\n')
        .map_or(0, |at| at + 1);
    let is_start = |byte: &&u8| (**byte & 0xc0) != 0x80;
    let column = valid[row_start..].iter().filter(is_start).count();
    let count = |n: usize| u32::try_from(n + 1).unwrap_or(u32::MAX);
    Error::from(DataFault::NotText).at(count(rows), count(column))
}

fn located(text: &str, error: serde_json::Error) -> Error {
    let message = error.to_string();
    let place = format!(" at line {} column {}", error.line(), error.column());
    let message = message.strip_suffix(&place).unwrap_or(&message);
    let line = text
        .lines()
        .nth(error.line().saturating_sub(1))
        .unwrap_or("");
    let bytes = line.as_bytes();
    let column = bytes[..error.column().min(bytes.len())]
        .iter()
        .filter(|byte| (**byte & 0xc0) != 0x80)
        .count();
    let fault = unknown_name(message).unwrap_or_else(|| DataFault::Syntax {
        reason: explain(message, line, error.column()),
    });
    // serde counts rows from 1; column 0 stands for the end of the row before.
    let (row, column) = (error.line() as u32, column.max(1) as u32);
    Error::from(fault).at(row, column).caused_by(error)
}

/// Serde's "unknown field `x`, expected one of `a`, `b`", with the nearest accepted name.
fn unknown_name(message: &str) -> Option<DataFault> {
    let (is_key, rest) = match message.strip_prefix("unknown field ") {
        Some(rest) => (true, rest),
        None => (false, message.strip_prefix("unknown variant ")?),
    };
    let mut names = rest.split('`').skip(1).step_by(2).map(str::to_owned);
    let given = names.next()?;
    let accepted: Vec<String> = names.collect();
    let nearest = accepted
        .iter()
        .map(|name| {
            (
                strsim::damerau_levenshtein(name, &given.to_lowercase()),
                name,
            )
        })
        .min()
        .filter(|(distance, name)| *distance <= 1.max(name.len() / 3))
        .map(|(_, name)| name.clone());
    Some(if is_key {
        DataFault::UnknownKey {
            key: given,
            nearest,
            accepted,
        }
    } else {
        DataFault::UnknownValue {
            value: given,
            nearest,
            accepted,
        }
    })
}

/// Serde's message, with a way out where the text shows what was meant.
fn explain(message: &str, line: &str, column: usize) -> String {
    let word_start = line
        .char_indices()
        .take_while(|(at, _)| *at < column)
        .filter(|(_, c)| !c.is_alphanumeric() && *c != '-')
        .last()
        .map_or(0, |(at, c)| at + c.len_utf8());
    let word: String = line[word_start..]
        .chars()
        .take_while(|c| c.is_alphanumeric())
        .collect();
    let is_word = |accepted: &[&str]| accepted.iter().any(|a| word.eq_ignore_ascii_case(a));
    if is_word(&["nan", "inf", "infinity"]) {
        format!("{word} is not a JSON number; write a finite number such as 4.5")
    } else if message.starts_with("number out of range") {
        "number out of range; coordinates may go from -1e9 to 1e9".to_owned()
    } else if let Some(key) = message.strip_prefix("duplicate field `") {
        let key = key.trim_end_matches('`');
        format!("the key \"{key}\" is there twice; give it once")
    } else if message.starts_with("recursion limit") {
        "the values are nested more than 127 deep; give fewer levels".to_owned()
    } else if let Some(key) = message.strip_prefix("missing field `") {
        let key = key.trim_end_matches('`');
        format!("the key \"{key}\" is missing; add it")
    } else if message == "expected value" {
        match line.as_bytes().get(column.wrapping_sub(1)) {
            // These begin valid JSON, so only a word in quotes is accepted here.
            Some(b'0'..=b'9' | b'-' | b'[' | b'n' | b't' | b'f') => "expected a word in quotes",
            _ => "expected a value, such as a number, a text in quotes or a list",
        }
        .to_owned()
    } else if message == "key must be a string" {
        "a key has to stand in double quotes".to_owned()
    } else if message == "trailing comma" {
        "nothing follows this comma; remove it".to_owned()
    } else if message == "trailing characters" {
        "something follows the end; remove it".to_owned()
    } else if message.starts_with("EOF") {
        format!("the text ends too soon ({message}); the file may be cut off")
    } else {
        wrong_kind(message).unwrap_or_else(|| message.to_owned())
    }
}

/// What to give instead of what stands there, from serde's "invalid type: string "a", expected
/// f64": its names of types are those of the program, not those of JSON.
fn wrong_kind(message: &str) -> Option<String> {
    let rest = message.strip_prefix("invalid ")?;
    let (found, expected) = rest.rsplit_once(", expected ")?;
    let (what, found) = found.split_once(' ')?;
    let quoted = |kind| found.strip_prefix(kind)?.strip_suffix('`');
    let found = match (what, found) {
        ("length", count) => format!("a list of {count}"),
        (_, "sequence") => "a list".to_owned(),
        (_, "map") => "an object in braces".to_owned(),
        (_, found) => match found.strip_prefix("string ") {
            Some(text) => format!("the text {text}"),
            None => ["integer `", "floating point `", "boolean `"]
                .into_iter()
                .find_map(quoted)
                .unwrap_or(found)
                .to_owned(),
        },
    };
    let expected = match expected {
        "f64" => "a number",
        "usize" | "u64" => "a whole number, 0 or more",
        "a string" | "string" => "a text in quotes",
        "a boolean" => "true or false",
        "a sequence" => "a list in square brackets",
        "an array of length 2" => "a list of two",
        "unit" => "the word alone, in quotes",
        other => other,
    };
    Some(format!("give {expected}, not {found}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_reader_found_is_the_source() {
        use std::error::Error as _;
        for text in ["{", "[1", "1 2", "\"a\""] {
            let error = from_str::<f64>(text).expect_err(text);
            let source = error.source().expect("a source");
            assert!(
                source.downcast_ref::<serde_json::Error>().is_some(),
                "{text}"
            );
        }
        let error = utf8(b"\xFF", "text").expect_err("no text");
        let source = error.source().expect("a source");
        assert!(source.downcast_ref::<std::str::Utf8Error>().is_some());
    }

    #[test]
    fn a_misspelt_name_gets_the_nearest_one() {
        let message = "unknown field `bordrs`, expected one of `borders`, `unit`";
        let fault = unknown_name(message).expect("a fault").to_string();
        assert_eq!(
            fault,
            "unknown key \"bordrs\"; did you mean \"borders\"?; accepted here: borders, unit"
        );
        let far = unknown_name("unknown variant `zigzag`, expected `leg` or `open`");
        assert_eq!(
            far.expect("a fault").to_string(),
            "unknown value \"zigzag\"; accepted here: leg, open"
        );
        assert!(unknown_name("something else").is_none());
    }

    #[test]
    fn what_is_of_the_wrong_kind_is_named_in_words_of_json() {
        for (message, words) in [
            (
                "type: string \"a, expected b\", expected f64",
                "a number, not the text \"a, expected b\"",
            ),
            (
                "value: integer `-1`, expected usize",
                "a whole number, 0 or more, not -1",
            ),
            (
                "type: floating point `1.5`, expected a string",
                "a text in quotes, not 1.5",
            ),
            (
                "type: boolean `true`, expected a sequence",
                "a list in square brackets, not true",
            ),
            ("type: null, expected a boolean", "true or false, not null"),
            (
                "type: map, expected a point [x, y]",
                "a point [x, y], not an object in braces",
            ),
            (
                "length 1, expected an array of length 2",
                "a list of two, not a list of 1",
            ),
        ] {
            let words_of = wrong_kind(&format!("invalid {message}"));
            assert_eq!(words_of, Some(format!("give {words}")));
        }
        assert_eq!(wrong_kind("invalid number"), None);
    }
}
