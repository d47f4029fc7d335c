//! Where an element lies: the attribute `transform`, and `transform`, `translate`, `rotate`,
//! `scale`, `transform-origin` and `transform-box` of CSS.
//!
//! By SVG 2, section 8.5, and CSS Transforms 1 and 2, as far as they stay in the plane. What can't
//! be applied is reported, never dropped.

use roxmltree::Node;
use svgtypes::{TransformListParser, TransformListToken};

use super::length::{Axis, Length, Room, css_length, parse};
use super::place::Flaw;
use super::scan::Scanner;
use super::style::Look;
use crate::error::Error;
use crate::geom::Bounds;
use crate::transform::Transform;

/// The properties of CSS that move an element, in the order in which they act on it, last first.
const MOVES: [&str; 4] = ["translate", "rotate", "scale", "transform"];

/// The move of an element, and the style that could not be applied.
pub(super) struct Move {
    pub(super) own: Transform,
    pub(super) unapplied: Option<String>,
}

/// The element's own move; `fill_box` gives the box of a shape where there is one.
pub(super) fn own(
    node: Node<'_, '_>,
    look: &Look<'_>,
    room: Room,
    fill_box: impl FnOnce() -> Result<Option<Bounds>, Error>,
) -> Result<Move, Error> {
    let mut unapplied = None;
    let mut parts: Vec<Transform> = Vec::new();
    let boxed = look.get("transform-box").map(str::to_ascii_lowercase);
    let of_page = matches!(boxed.as_deref(), None | Some("view-box" | "initial"));
    let moved =
        node.has_attribute("transform") || MOVES.iter().any(|name| look.styled(name).is_some());
    let mut refuse = |name: &str, value: &str| {
        unapplied.get_or_insert(format!("{name}: {value}"));
    };
    if look
        .styled("offset-path")
        .is_some_and(|path| !path.eq_ignore_ascii_case("none"))
    {
        refuse(
            "offset-path",
            look.styled("offset-path").unwrap_or_default(),
        );
    }
    let mut corner = (0.0, 0.0);
    let mut room = room;
    if moved && !of_page {
        let found = match boxed.as_deref() {
            Some("fill-box" | "content-box") => fill_box()?,
            _ => None,
        };
        match found {
            Some(bounds) => {
                corner = (bounds.min.x, bounds.min.y);
                room.size = Some((bounds.width(), bounds.height()));
            }
            None => refuse("transform-box", boxed.as_deref().unwrap_or_default()),
        }
    }
    let mut by_attribute = true;
    for name in MOVES {
        let Some(value) = look.styled(name) else {
            continue;
        };
        let read = match name {
            "transform" => functions(value, room),
            "translate" => translation(value, room),
            "rotate" => rotation(value),
            _ => scaling(value),
        };
        match read {
            Some(part) => {
                by_attribute = by_attribute && name != "transform";
                parts.push(part);
            }
            None => refuse(name, value),
        }
    }
    let mut own = match by_attribute {
        true => attribute(node)?,
        false => Transform::identity(),
    };
    if !by_attribute {
        own = parts.pop().unwrap_or(own);
    }
    for part in parts.into_iter().rev() {
        own = own.then(part);
    }
    let origin = match look.value("transform-origin") {
        Some(value) if moved => {
            origin(&value.text, room, value.is_attribute).unwrap_or_else(|| {
                refuse("transform-origin", &value.text);
                (0.0, 0.0)
            })
        }
        _ => (0.0, 0.0),
    };
    let (x, y) = (origin.0 + corner.0, origin.1 + corner.1);
    if (x, y) != (0.0, 0.0) {
        own = Transform::translate(-x, -y)
            .then(own)
            .then(Transform::translate(x, y));
    }
    Ok(Move { own, unapplied })
}

/// The attribute `transform`.
fn attribute(node: Node<'_, '_>) -> Result<Transform, Error> {
    let Some(attribute) = node.attribute_node("transform") else {
        return Ok(Transform::identity());
    };
    let value = attribute.value();
    let mut whole = Transform::identity();
    for token in TransformListParser::from(value) {
        let one = match token.map_err(|fault| flaw(value, &fault).locate(node, &attribute))? {
            TransformListToken::Matrix { a, b, c, d, e, f } => Transform::new([a, b, c, d, e, f]),
            TransformListToken::Translate { tx, ty } => Transform::translate(tx, ty),
            TransformListToken::Scale { sx, sy } => Transform::scale(sx, sy),
            TransformListToken::Rotate { angle } => Transform::rotate_degrees(angle),
            TransformListToken::SkewX { angle } => skew(angle, 0.0),
            TransformListToken::SkewY { angle } => skew(0.0, angle),
        };
        whole = one.then(whole);
    }
    Ok(whole)
}

/// The error for transforms that are too large together.
pub(super) fn too_large(node: Node<'_, '_>) -> Error {
    let why = "its numbers and those of the transforms round it are too large together";
    let flaw = Flaw::refused(0, why);
    match node.attribute_node("transform") {
        Some(attribute) => flaw.locate(node, &attribute),
        None => flaw.in_style(
            node,
            "transform",
            node.attribute("style").unwrap_or_default(),
        ),
    }
}

fn skew(x: f64, y: f64) -> Transform {
    Transform::new([
        1.0,
        y.to_radians().tan(),
        x.to_radians().tan(),
        1.0,
        0.0,
        0.0,
    ])
}

/// The place of a fault of the transform parser, which counts characters from 1.
fn flaw(value: &str, fault: &svgtypes::Error) -> Flaw {
    use svgtypes::Error as Svg;
    let (place, what) = match fault {
        Svg::InvalidNumber(place) => (*place, "a number"),
        Svg::InvalidChar(_, place) => (*place, "a bracket"),
        Svg::UnexpectedData(place) | Svg::InvalidString(_, place) => {
            (*place, "matrix, translate, scale, rotate, skewX or skewY")
        }
        _ => (usize::MAX, "a bracket or a number"),
    };
    let at = value.char_indices().nth(place.saturating_sub(1));
    Flaw::expected(at.map_or(value.len(), |(at, _)| at), what)
}

/// The functions of the property `transform`.
fn functions(value: &str, room: Room) -> Option<Transform> {
    let mut whole = Transform::identity();
    let mut rest = value.trim();
    if rest.eq_ignore_ascii_case("none") {
        return Some(whole);
    }
    while !rest.is_empty() {
        let (name, after) = rest.split_once('(')?;
        let (inside, after) = after.split_once(')')?;
        rest = after.trim_start();
        let list: Vec<&str> = inside.split(',').map(str::trim).collect();
        let number = |text: &str| ratio(text);
        let across = |text: &str| css_length(text, Axis::Width, room);
        let down = |text: &str| css_length(text, Axis::Height, room);
        let one = match (name.trim().to_ascii_lowercase().as_str(), &list[..]) {
            ("matrix", [a, b, c, d, e, f]) => Transform::new([
                number(a)?,
                number(b)?,
                number(c)?,
                number(d)?,
                number(e)?,
                number(f)?,
            ]),
            ("translate", [x]) | ("translatex", [x]) => Transform::translate(across(x)?, 0.0),
            ("translate", [x, y]) => Transform::translate(across(x)?, down(y)?),
            ("translatey", [y]) => Transform::translate(0.0, down(y)?),
            ("scale", [both]) => Transform::scale(number(both)?, number(both)?),
            ("scale", [x, y]) => Transform::scale(number(x)?, number(y)?),
            ("scalex", [x]) => Transform::scale(number(x)?, 1.0),
            ("scaley", [y]) => Transform::scale(1.0, number(y)?),
            ("rotate" | "rotatez", [turn]) => Transform::rotate_degrees(degrees(turn)?),
            ("skew", [x]) | ("skewx", [x]) => skew(degrees(x)?, 0.0),
            ("skew", [x, y]) => skew(degrees(x)?, degrees(y)?),
            ("skewy", [y]) => skew(0.0, degrees(y)?),
            _ => return None,
        };
        whole = one.then(whole);
    }
    Some(whole)
}

fn translation(value: &str, room: Room) -> Option<Transform> {
    let words: Vec<&str> = value.split_whitespace().collect();
    match words[..] {
        [none] if none.eq_ignore_ascii_case("none") => Some(Transform::identity()),
        [x] => Some(Transform::translate(css_length(x, Axis::Width, room)?, 0.0)),
        [x, y] => Some(Transform::translate(
            css_length(x, Axis::Width, room)?,
            css_length(y, Axis::Height, room)?,
        )),
        _ => None,
    }
}

fn rotation(value: &str) -> Option<Transform> {
    let words: Vec<&str> = value.split_whitespace().collect();
    match words[..] {
        [none] if none.eq_ignore_ascii_case("none") => Some(Transform::identity()),
        [turn] => Some(Transform::rotate_degrees(degrees(turn)?)),
        [axis, turn] | [turn, axis] if axis.eq_ignore_ascii_case("z") => {
            Some(Transform::rotate_degrees(degrees(turn)?))
        }
        _ => None,
    }
}

fn scaling(value: &str) -> Option<Transform> {
    let words: Vec<&str> = value.split_whitespace().collect();
    match words[..] {
        [none] if none.eq_ignore_ascii_case("none") => Some(Transform::identity()),
        [both] => Some(Transform::scale(ratio(both)?, ratio(both)?)),
        [x, y] => Some(Transform::scale(ratio(x)?, ratio(y)?)),
        _ => None,
    }
}

/// A number or a percentage.
fn ratio(text: &str) -> Option<f64> {
    let mut scan = Scanner::new(text);
    let value = scan.number().ok()?;
    match scan.rest() {
        "" => Some(value),
        "%" => Some(value / 100.0),
        _ => None,
    }
}

fn degrees(text: &str) -> Option<f64> {
    let mut scan = Scanner::new(text);
    let value = scan.number().ok()?;
    match scan.rest().to_ascii_lowercase().as_str() {
        "deg" => Some(value),
        "grad" => Some(value * 0.9),
        "rad" => Some(value.to_degrees()),
        "turn" => Some(value * 360.0),
        "" if value == 0.0 => Some(0.0),
        _ => None,
    }
}

/// The point that an element turns and grows round; an attribute may leave the unit out.
fn origin(value: &str, room: Room, is_attribute: bool) -> Option<(f64, f64)> {
    let lower = value.to_ascii_lowercase();
    let mut words: Vec<&str> = lower.split_whitespace().collect();
    if let [_, _, depth] = words[..] {
        css_length(depth, Axis::Width, room).filter(|z| *z == 0.0)?;
        words.pop();
    }
    let pair = match words[..] {
        ["initial"] => return Some((0.0, 0.0)),
        [y @ ("top" | "bottom")] => ["center", y],
        [x] => [x, "center"],
        [y @ ("top" | "bottom"), x] | [y, x @ ("left" | "right")] => [x, y],
        [x, y] => [x, y],
        _ => return None,
    };
    let place = |text: &str, axis, ends: [&str; 2]| {
        let percent = match text {
            "center" => "50%",
            _ if text == ends[0] => "0%",
            _ if text == ends[1] => "100%",
            other if is_attribute => {
                if let Ok(Length::User(value)) = parse(other) {
                    return Some(value);
                }
                other
            }
            other => other,
        };
        css_length(percent, axis, room)
    };
    let x = place(pair[0], Axis::Width, ["left", "right"])?;
    Some((x, place(pair[1], Axis::Height, ["top", "bottom"])?))
}

#[cfg(test)]
mod tests;
