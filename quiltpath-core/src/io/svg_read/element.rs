//! What one element says of itself: its title, its box, whether it is seen; and errors at its
//! place.

use roxmltree::Node;

use super::intake::SVG;
use super::length::Measured;
use super::place::position;
use super::shapes;
use super::style::Look;
use crate::error::{DrawingFault, Error};
use crate::geom::Bounds;
use crate::geom::curve_bounds::curve_bounds;
use crate::io::pen::Pen;
use crate::transform::Transform;

/// The box of a shape in its own coordinates; `None` for what is no shape.
pub(super) fn fill_box(of: Measured<'_, '_, '_>) -> Result<Option<Bounds>, Error> {
    if !shapes::is_shape(of.node.tag_name().name()) {
        return Ok(None);
    }
    let mut pen = Pen::new(&Transform::identity());
    shapes::draw(of, &mut pen)?;
    // What is too far out is refused when it is drawn.
    Ok(pen.finish().ok().and_then(|path| curve_bounds(&path)))
}

pub(super) fn is_clipped(look: &Look<'_>) -> bool {
    ["clip-path", "mask", "mask-image"].iter().any(|name| {
        look.get(name)
            .is_some_and(|value| !value.eq_ignore_ascii_case("none"))
    })
}

/// What `visibility` sets; `None` where it is inherited.
pub(super) fn is_visible(look: &Look<'_>) -> Option<bool> {
    match look.get("visibility")?.to_ascii_lowercase().as_str() {
        "hidden" | "collapse" => Some(false),
        "visible" | "initial" => Some(true),
        _ => None,
    }
}

/// An id with its percent signs undone: RFC 3986, section 2.1.
pub(super) fn unescaped(id: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(id.len());
    let mut rest = id.bytes();
    while let Some(byte) = rest.next() {
        if byte != b'%' {
            bytes.push(byte);
            continue;
        }
        let mut digit = || char::from(rest.next()?).to_digit(16);
        let value = digit()? * 16 + digit()?;
        bytes.push(u8::try_from(value).ok()?);
    }
    String::from_utf8(bytes).ok()
}

/// The text of the title, which the standard wants first inside its element.
pub(super) fn title(node: Node<'_, '_>) -> Option<String> {
    const NEAR: usize = 8;
    let title = node.children().take(NEAR).find(|child| {
        child.tag_name().name() == "title"
            && matches!(child.tag_name().namespace(), None | Some(SVG))
    })?;
    let text = title.text()?.trim();
    (!text.is_empty()).then(|| text.to_owned())
}

pub(super) fn at_node(node: Node<'_, '_>, error: Error) -> Error {
    let place = position(node.document().input_text(), node.range().start);
    error.at(place.row, place.column)
}

pub(super) fn too_many(node: Node<'_, '_>, what: &'static str, limit: usize) -> Error {
    at_node(node, DrawingFault::TooMany { what, limit }.into())
}
