//! Where a fault lies: offsets in attribute values to rows and columns of the file.

use roxmltree::{Attribute, Node};

use crate::error::{DrawingFault, Error, Position};

/// What is wrong in the value of an attribute, and at which byte of the value.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Flaw {
    pub(super) at: usize,
    pub(super) problem: Problem,
}

#[derive(Debug, Clone, PartialEq)]
pub(super) enum Problem {
    /// Something else should stand here.
    Expected(&'static str),
    /// What stands here can be read but not accepted.
    Refused(&'static str),
}

impl Flaw {
    pub(super) fn expected(at: usize, what: &'static str) -> Self {
        let problem = Problem::Expected(what);
        Self { at, problem }
    }

    pub(super) fn refused(at: usize, why: &'static str) -> Self {
        let problem = Problem::Refused(why);
        Self { at, problem }
    }

    /// The error for this flaw of an attribute, located at the offending character.
    pub(super) fn locate(&self, node: Node<'_, '_>, attribute: &Attribute<'_, '_>) -> Error {
        let text = node.document().input_text();
        let offset = offset_in_file(text, attribute, self.at);
        self.of(node, attribute.name(), attribute.value(), offset)
    }

    /// The error for this flaw of a value in a style, located at the element.
    pub(super) fn in_style(&self, node: Node<'_, '_>, name: &str, value: &str) -> Error {
        self.of(node, name, value, node.range().start)
    }

    fn of(&self, node: Node<'_, '_>, name: &str, value: &str, offset: usize) -> Error {
        let reason = match (
            &self.problem,
            value.get(self.at..).map(|s| s.chars().next()),
        ) {
            (Problem::Expected(what), Some(Some(found))) => {
                format!("expected {what}, not \"{found}\"")
            }
            (Problem::Expected(what), _) => format!("ends where {what} is expected"),
            (Problem::Refused(why), _) => (*why).to_owned(),
        };
        let text = node.document().input_text();
        let Position { row, column } = position(text, offset);
        Error::from(DrawingFault::BadAttribute {
            element: node.tag_name().name().to_owned(),
            attribute: name.to_owned(),
            value: excerpt(value, self.at),
            reason,
        })
        .at(row, column)
    }
}

/// The part of a value round a place, short enough for a message.
fn excerpt(value: &str, at: usize) -> String {
    const BEFORE: usize = 24;
    const AFTER: usize = 12;
    let at = (0..=at.min(value.len()))
        .rev()
        .find(|&at| value.is_char_boundary(at))
        .unwrap_or(0);
    let (head, tail) = value.split_at(at);
    let start = head
        .char_indices()
        .rev()
        .nth(BEFORE - 1)
        .map(|(index, _)| index)
        .filter(|&index| index > 0);
    let end = tail.char_indices().nth(AFTER).map(|(index, _)| index);
    format!(
        "{}{}{}{}",
        if start.is_some() { "…" } else { "" },
        &head[start.unwrap_or(0)..],
        &tail[..end.unwrap_or(tail.len())],
        if end.is_some() { "…" } else { "" }
    )
}

/// The byte of the file that the byte of an attribute's value came from.
///
/// XML shortens line ends and references while reading, so the two differ by what it took out.
fn offset_in_file(text: &str, attribute: &Attribute<'_, '_>, at: usize) -> usize {
    let range = attribute.range_value();
    let Some(raw) = text.get(range.clone()) else {
        return attribute.range().start;
    };
    if raw.len() == attribute.value().len() {
        return range.start + at;
    }
    let mut left = at;
    let mut offset = 0;
    while let Some(c) = raw[offset..].chars().next() {
        let (written, read) = match c {
            '\r' if raw[offset + 1..].starts_with('\n') => (1, 0),
            '&' => {
                let reference = raw[offset..].split_inclusive(';').next().unwrap_or("&");
                match referred(reference) {
                    Some(length) => (reference.len(), length),
                    None => break,
                }
            }
            c => (c.len_utf8(), c.len_utf8()),
        };
        if left < read {
            break;
        }
        left -= read;
        offset += written;
    }
    range.start + offset
}

/// How many bytes a character reference stands for; `None` for an entity of the file's own.
fn referred(reference: &str) -> Option<usize> {
    match reference {
        "&lt;" | "&gt;" | "&amp;" | "&quot;" | "&apos;" => return Some(1),
        _ => {}
    }
    let number = reference.strip_prefix("&#")?.strip_suffix(';')?;
    let code = match number.strip_prefix('x') {
        Some(hex) => u32::from_str_radix(hex, 16),
        None => number.parse(),
    };
    char::from_u32(code.ok()?).map(char::len_utf8)
}

/// The row and the column of a byte of the text, both from 1, columns in characters.
pub(super) fn position(text: &str, offset: usize) -> Position {
    positions(text, [offset])[0]
}

/// The rows and columns of bytes of the text, in the order asked.
///
/// # Complexity
///
/// O(text + n log n), so that a million elements in one row cost no more than one pass.
pub(super) fn positions(text: &str, offsets: impl IntoIterator<Item = usize>) -> Vec<Position> {
    let offsets: Vec<usize> = offsets.into_iter().collect();
    let mut order: Vec<usize> = (0..offsets.len()).collect();
    order.sort_by_key(|&index| offsets[index]);
    let mut found = vec![Position { row: 1, column: 1 }; offsets.len()];
    let (mut at, mut row, mut column) = (0, 1, 1);
    for index in order {
        let stop = offsets[index].min(text.len());
        let passed = &text.as_bytes()[at..stop];
        let rows = passed.iter().filter(|&&b| b == b'\n').count();
        let in_row = match passed.iter().rposition(|&b| b == b'\n') {
            Some(last) => {
                column = 1;
                &passed[last + 1..]
            }
            None => passed,
        };
        row += rows;
        column += in_row.iter().filter(|&&b| b & 0xC0 != 0x80).count();
        at = stop;
        found[index] = Position {
            row: u32::try_from(row).unwrap_or(u32::MAX),
            column: u32::try_from(column).unwrap_or(u32::MAX),
        };
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn place(svg: &str, at: usize) -> (u32, u32) {
        let doc = roxmltree::Document::parse(svg).expect("XML");
        let node = doc.root_element();
        let attribute = node.attribute_node("d").expect("d");
        let error = Flaw::expected(at, "a number").locate(node, &attribute);
        let Position { row, column } = error.position().expect("a place");
        (row, column)
    }

    #[test]
    fn places_count_characters_rows_and_what_xml_shortens() {
        assert_eq!(place("<p d=\"M0 x\"/>", 3), (1, 10));
        assert_eq!(place("<é\n é='ü' d='M0 x'/>", 3), (2, 14));
        assert_eq!(place("<p d='M0\r\n 0\r\n x'/>", 7), (3, 2));
        assert_eq!(place("<p d='&#77;&#x30; x'/>", 3), (1, 19));
        assert_eq!(place("<p d='M0 '/>", 3), (1, 10));
    }

    #[test]
    fn places_come_back_in_the_order_asked() {
        let text = "ab\ncé d\n";
        let found = positions(text, [7, 0, 3, 100]);
        let pairs: Vec<_> = found.iter().map(|p| (p.row, p.column)).collect();
        assert_eq!(pairs, [(2, 4), (1, 1), (2, 1), (3, 1)]);
    }

    #[test]
    fn long_values_are_cut_round_the_fault() {
        let value = format!("M0 0 {} L 5 x 9 9 9 9 9 9 9 9 9", "L 1 1 ".repeat(50));
        let at = value.find('x').expect("x");
        assert_eq!(
            excerpt(&value, at),
            "… L 1 1 L 1 1 L 1 1  L 5 x 9 9 9 9 9 …"
        );
        assert_eq!(excerpt("M0 0", 99), "M0 0");
        assert_eq!(excerpt("é", 1), "é");
    }
}
