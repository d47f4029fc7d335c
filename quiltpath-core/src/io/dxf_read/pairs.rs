//! Text to groups (a code on one row, its value on the next), and groups to records.
//!
//! A record begins with a group 0, whose value is its name. Nothing is copied: a record is a part
//! of the text, and its groups are read anew each time they are asked for.

use crate::error::{DxfFault, Error};

/// A code with its value.
#[derive(Debug, Clone, Copy)]
pub(super) struct Group<'a> {
    pub(super) code: i32,
    /// Without white space at its ends.
    pub(super) value: &'a str,
    /// The row of the value, from 1.
    pub(super) row: u32,
}

/// The groups of a text from a place on.
#[derive(Debug, Clone, Copy)]
pub(super) struct Groups<'a> {
    text: &'a str,
    at: usize,
    row: u32,
}

impl<'a> Groups<'a> {
    pub(super) fn new(text: &'a str) -> Self {
        Self {
            text,
            at: 0,
            row: 0,
        }
    }

    /// The next row, which ends with a line feed, a carriage return or both.
    fn line(&mut self) -> Option<&'a str> {
        let rest = &self.text[self.at..];
        if rest.is_empty() {
            return None;
        }
        let ends = rest.bytes().position(|byte| byte == b'\n' || byte == b'\r');
        let length = ends.unwrap_or(rest.len());
        let feed = match rest.as_bytes()[length..] {
            [b'\r', b'\n', ..] => 2,
            [] => 0,
            _ => 1,
        };
        self.at += length + feed;
        self.row = self.row.saturating_add(1);
        Some(rest[..length].trim())
    }

    fn error(&self, fault: DxfFault) -> Error {
        Error::from(fault).at(self.row.max(1), 1)
    }

    fn next(&mut self) -> Result<Group<'a>, Error> {
        let Some(code) = self.line() else {
            return Err(self.error(DxfFault::CutOff));
        };
        let read = code.parse::<i16>();
        // A file that is cut off in a code or behind it has a broken last row, or an empty one.
        if read.is_err() && self.text[self.at..].trim().is_empty() {
            return Err(self.error(DxfFault::CutOff));
        }
        let Ok(read) = read else {
            let found = excerpt(code);
            return Err(self.error(DxfFault::BadCode { found }));
        };
        match self.line() {
            Some(value) => Ok(Group {
                code: i32::from(read),
                value,
                row: self.row,
            }),
            None => Err(self.error(DxfFault::CutOff)),
        }
    }
}

/// What a group 0 begins.
#[derive(Debug, Clone, Copy)]
pub(super) struct Record<'a> {
    pub(super) name: &'a str,
    /// The row of its name.
    pub(super) row: u32,
    body: Groups<'a>,
}

impl<'a> Record<'a> {
    /// Its groups but the first.
    pub(super) fn groups(&self) -> impl Iterator<Item = Group<'a>> + use<'a> {
        let mut body = self.body;
        // All were read once when the end of the record was looked for.
        std::iter::from_fn(move || match body.at < body.text.len() {
            true => body.next().ok(),
            false => None,
        })
    }

    /// The first value of each of these codes as a number.
    pub(super) fn numbers<const N: usize>(
        &self,
        codes: [i32; N],
    ) -> Result<[Option<f64>; N], Error> {
        let mut found = [None; N];
        for group in self.groups() {
            let wanted = codes.iter().position(|code| *code == group.code);
            if let Some(at) = wanted.filter(|&at| found[at].is_none()) {
                found[at] = Some(self.number(group)?);
            }
        }
        Ok(found)
    }

    /// As [`Record::numbers`], where none may be missing.
    pub(super) fn needed<const N: usize>(&self, codes: [i32; N]) -> Result<[f64; N], Error> {
        let found = self.numbers(codes)?;
        if let Some(at) = found.iter().position(Option::is_none) {
            return Err(self.error(DxfFault::Missing {
                entity: excerpt(self.name),
                code: codes[at],
            }));
        }
        Ok(found.map(Option::unwrap_or_default))
    }

    /// The first value of a code.
    pub(super) fn text(&self, code: i32) -> Option<&'a str> {
        let mut groups = self.groups();
        groups
            .find(|group| group.code == code)
            .map(|group| group.value)
    }

    /// The value of a group as a finite number.
    pub(super) fn number(&self, group: Group<'a>) -> Result<f64, Error> {
        let number = group.value.parse::<f64>().ok();
        number
            .filter(|number| number.is_finite())
            .ok_or_else(|| self.refused(group, "a number such as 12.5, with a point and no comma"))
    }

    /// The error for a value that is not accepted.
    pub(super) fn refused(&self, group: Group<'_>, accepted: &'static str) -> Error {
        let fault = DxfFault::BadNumber {
            entity: excerpt(self.name),
            code: group.code,
            value: excerpt(group.value),
            accepted,
        };
        Error::from(fault).at(group.row, 1)
    }

    /// The error for this fault, located at the record.
    pub(super) fn error(&self, fault: DxfFault) -> Error {
        Error::from(fault).at(self.row, 1)
    }
}

/// The records of a file, one after the other.
pub(super) struct Records<'a> {
    groups: Groups<'a>,
    next: Group<'a>,
}

impl<'a> Records<'a> {
    /// The records of a text that begins as a DXF does; comments may stand before.
    pub(super) fn new(text: &'a str) -> Result<Self, Error> {
        if text.trim().is_empty() {
            return Err(DxfFault::Empty.into());
        }
        let mut groups = Groups::new(text);
        let first = loop {
            match groups.next() {
                Ok(comment) if comment.code == 999 => {}
                Ok(first) => break first,
                Err(error) if groups.row > 1 => return Err(error),
                Err(_) => {
                    let found = excerpt(text.trim().lines().next().unwrap_or_default());
                    return Err(groups.error(DxfFault::NotDxf { found }));
                }
            }
        };
        if (first.code, first.value) != (0, "SECTION") {
            let found = excerpt(&format!("{} {}", first.code, first.value));
            return Err(groups.error(DxfFault::NotDxf { found }));
        }
        Ok(Self {
            groups,
            next: first,
        })
    }

    /// The name of the next record.
    pub(super) fn peek(&self) -> &'a str {
        self.next.value
    }

    /// The next record; `EOF` stays the next one for good.
    pub(super) fn next(&mut self) -> Result<Record<'a>, Error> {
        let Group { value, row, .. } = self.next;
        let mut body = self.groups;
        if value == "EOF" {
            body.text = "";
            body.at = 0;
        } else {
            loop {
                let before = self.groups.at;
                let group = self.groups.next()?;
                if group.code == 0 {
                    body.text = &body.text[..before];
                    self.next = group;
                    break;
                }
            }
        }
        Ok(Record {
            name: value,
            row,
            body,
        })
    }
}

/// The beginning of a text, short enough for a message, without what can't be printed.
pub(super) fn excerpt(text: &str) -> String {
    const LONGEST: usize = 40;
    let printed = text
        .chars()
        .map(|c| if c.is_control() { '\u{fffd}' } else { c });
    printed.take(LONGEST).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(text: &str) -> String {
        let all = || {
            let mut records = Records::new(text)?;
            while records.next()?.name != "EOF" {}
            Ok::<(), Error>(())
        };
        all().expect_err(text).to_string()
    }

    #[test]
    fn rows_may_end_in_any_way() {
        for end in ["\n", "\r\n", "\r"] {
            let rows = [
                "999", "by hand", "  0", "SECTION", "  2", "HEADER", "0", "EOF", "",
            ];
            let text = rows.join(end);
            let mut records = Records::new(&text).expect("records");
            let section = records.next().expect("a record");
            assert_eq!((section.name, section.row), ("SECTION", 4));
            assert_eq!(section.text(2), Some("HEADER"));
            assert_eq!(section.text(3), None);
            assert_eq!(records.next().expect("a record").name, "EOF");
            assert_eq!(records.next().expect("a record").groups().count(), 0);
        }
    }

    #[test]
    fn what_is_no_dxf_is_refused_with_its_row() {
        for (text, words) in [
            ("", "the file is empty; give an ASCII DXF"),
            (" \r\n", "the file is empty; give an ASCII DXF"),
            ("hello", "1:1: not a readable DXF: it begins with \"hello\""),
            (
                "hello\nyou\n",
                "1:1: not a readable DXF: it begins with \"hello\"",
            ),
            (
                "0\nLINE\n",
                "2:1: not a readable DXF: it begins with \"0 LINE\"",
            ),
            ("0\nSECTION\n", "2:1: not a readable DXF: the file ends"),
            ("0\nSECTION\n  2", "3:1: not a readable DXF: the file ends"),
            (
                "0\nSECTION\n2\nENT",
                "4:1: not a readable DXF: the file ends",
            ),
            (
                "0\nSECTION\n2\nA\n\n",
                "5:1: not a readable DXF: the file ends",
            ),
            (
                "0\nSECTION\n2\nA\n1.5\nB\n0\nEOF\n",
                "5:1: not a readable DXF: \"1.5\" stands",
            ),
            (
                "0\nSECTION\n2\nA\n99999\nB\n0\nEOF\n",
                "5:1: not a readable DXF: \"99999\" stands",
            ),
        ] {
            let error = refused(text);
            assert!(error.starts_with(words), "{text:?}: {error}");
        }
    }

    #[test]
    fn numbers_are_finite_and_located() {
        let text = "0\nSECTION\n0\nLINE\n10\n 1.5E+001\n20\n1,5\n30\nnan\n40\n1e999\n0\nEOF\n";
        let mut records = Records::new(text).expect("records");
        records.next().expect("a section");
        let line = records.next().expect("a line");
        assert_eq!(line.numbers([10, 11]).expect("numbers"), [Some(15.0), None]);
        for (code, words) in [
            (
                20,
                "8:1: group 20 of LINE is \"1,5\"; give a number such as",
            ),
            (30, "10:1: group 30 of LINE is \"nan\""),
            (40, "12:1: group 40 of LINE is \"1e999\""),
            (50, "4:1: LINE has no group 50"),
        ] {
            let error = line.needed([code]).expect_err("refused").to_string();
            assert!(error.starts_with(words), "{error}");
        }
    }
}
