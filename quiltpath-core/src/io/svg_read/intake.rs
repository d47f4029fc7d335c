//! Bytes to a parsed document, refusing what is no SVG and what would unfold beyond all bounds.

use roxmltree::{Document, ParsingOptions};

use super::limits::{MAX_ATTRIBUTE_PAIRS, MAX_ENTITY_TEXT, MAX_MARKUP, MAX_NAMESPACES};
use super::place::position;
use crate::error::{DrawingFault, Error, Position};

pub(super) const SVG: &str = "http://www.w3.org/2000/svg";

/// The XML tree of a text whose outermost element is `svg`.
pub(super) fn document(text: &str) -> Result<Document<'_>, Error> {
    check_markup(text)?;
    check_entities(text)?;
    let options = ParsingOptions {
        allow_dtd: true,
        nodes_limit: u32::try_from(MAX_MARKUP).unwrap_or(u32::MAX),
        entity_resolver: None,
    };
    let document = Document::parse_with_options(text, options)
        .map_err(|fault| explain(text, &fault).caused_by(fault))?;
    let root = document.root_element();
    let name = root.tag_name();
    let is_svg = name.name() == "svg" && matches!(name.namespace(), None | Some(SVG));
    if !is_svg {
        let root_name = name.name().to_owned();
        let fault = DrawingFault::NotSvg { root: root_name };
        return Err(at_offset(text, root.range().start, fault));
    }
    Ok(document)
}

fn explain(text: &str, fault: &roxmltree::Error) -> Error {
    use roxmltree::Error as Xml;
    let cut_off = || "the file ends before its last element does, so it looks cut off".to_owned();
    let (offset, reason) = match fault {
        Xml::NodesLimitReached => {
            return DrawingFault::TooMany {
                what: "elements",
                limit: MAX_MARKUP,
            }
            .into();
        }
        Xml::UnclosedRootNode | Xml::UnexpectedEndOfStream => (Some(text.len()), cut_off()),
        Xml::NoRootNode => (None, "it has no element".to_owned()),
        other => {
            let place = format!(" at {}", other.pos());
            (None, other.to_string().replace(&place, ""))
        }
    };
    let error = Error::from(DrawingFault::NotXml { reason });
    let Position { row, column } = match offset {
        Some(offset) => position(text, offset),
        None => Position {
            row: fault.pos().row,
            column: fault.pos().col,
        },
    };
    error.at(row, column)
}

fn at_offset(text: &str, offset: usize, fault: DrawingFault) -> Error {
    let Position { row, column } = position(text, offset);
    Error::from(fault).at(row, column)
}

/// Holds the numbers of tags, attributes and namespaces against their limits.
///
/// The XML parser reserves memory for every `<` and `=`, compares each attribute of an element
/// with all the others, and copies the namespaces in scope: harmless below these limits only.
fn check_markup(text: &str) -> Result<(), Error> {
    let too_many = |what, limit| Err(DrawingFault::TooMany { what, limit }.into());
    let declarations = text
        .match_indices('x')
        .filter(|(at, _)| text[*at..].starts_with("xmlns"));
    if declarations.count() > MAX_NAMESPACES {
        return too_many("namespace declarations", MAX_NAMESPACES);
    }
    let (mut tags, mut attributes, mut pairs) = (0, 0, 0u64);
    // No attribute value may hold a `<`, so what lies between two of them is one tag at most.
    for tag in text.split('<') {
        let here = tag.matches('=').count();
        tags += 1;
        attributes += here;
        pairs += (here as u64).pow(2) / 2;
    }
    if tags > MAX_MARKUP || attributes > MAX_MARKUP {
        return too_many("tags and attributes", MAX_MARKUP);
    }
    if pairs > MAX_ATTRIBUTE_PAIRS as u64 {
        return too_many("pairs of attributes", MAX_ATTRIBUTE_PAIRS);
    }
    Ok(())
}

/// Bounds what the entities of the document type can unfold to.
///
/// Drawing programs declare flat entities for namespaces and styles. One that holds elements or
/// refers to another is refused, so that all references together unfold to no more than their
/// number times the longest entity.
fn check_entities(text: &str) -> Result<(), Error> {
    let mut longest = 0;
    let mut last = None;
    for (offset, mark) in text.match_indices("<!ENTITY") {
        last = Some(offset);
        let declaration = &text[offset + mark.len()..];
        let Some(open) = declaration.find(['"', '\'']) else {
            continue;
        };
        let quote = char::from(declaration.as_bytes()[open]);
        let value = declaration[open + 1..].split(quote).next().unwrap_or("");
        if value.contains('<') || references(value) > 0 {
            return Err(at_offset(text, offset, DrawingFault::MarkupInEntity));
        }
        longest = longest.max(value.len());
    }
    match last {
        Some(offset) if references(text).saturating_mul(longest) > MAX_ENTITY_TEXT => {
            let limit = MAX_ENTITY_TEXT;
            Err(at_offset(text, offset, DrawingFault::EntityText { limit }))
        }
        _ => Ok(()),
    }
}

/// How many references to entities of the file's own there are, at most.
fn references(text: &str) -> usize {
    let plain = ["#", "lt;", "gt;", "amp;", "quot;", "apos;"];
    text.match_indices('&')
        .filter(|(at, _)| !plain.iter().any(|name| text[at + 1..].starts_with(name)))
        .count()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(text: &str) -> String {
        document(text).expect_err(text).to_string()
    }

    #[test]
    fn flat_entities_are_read() {
        let text = "<!DOCTYPE svg [<!ENTITY n \"http://www.w3.org/2000/svg\"><!ENTITY s 'fill:none'>]>\
                    <svg xmlns=\"&n;\"><path style='&s;&amp;&#65;'/></svg>";
        let document = document(text).expect("flat");
        let path = document.root_element().first_element_child().expect("path");
        assert_eq!(path.attribute("style"), Some("fill:none&A"));
    }

    #[test]
    fn what_is_no_svg_is_named() {
        assert!(refused("<html/>").starts_with("1:1: the outermost element is <html>"));
        assert!(refused("hello").starts_with("1:1: not a readable SVG: "));
        let cut = refused("<svg>\n<path d='M0");
        assert!(cut.starts_with("2:12: not a readable SVG: "), "{cut}");
        let cut = refused("<svg><g>");
        assert!(cut.contains("cut off"), "{cut}");
        let crossed = refused("<svg>\n<g></svg>");
        assert!(
            crossed.starts_with("2:4: not a readable SVG: expected 'g' tag, not 'svg';"),
            "{crossed}"
        );
    }

    #[test]
    fn what_the_reader_found_is_the_source() {
        use std::error::Error as _;
        let error = document("<svg><g></svg>").expect_err("crossed");
        let source = error.source().expect("a source");
        assert!(source.downcast_ref::<roxmltree::Error>().is_some());
    }

    #[test]
    fn attributes_of_one_element_are_bounded() {
        let many = |count: usize| {
            let attributes: String = (0..count).map(|i| format!(" a{i}='>'")).collect();
            format!("<!-- it's --><svg><g{attributes}/></svg>")
        };
        assert!(check_markup(&many(1_000)).is_ok());
        assert!(refused(&many(100_000)).contains("pairs of attributes"));
    }
}
