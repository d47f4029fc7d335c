//! Lengths in the units of CSS.
//!
//! By CSS Values and Units 3, section 6.2: 1in = 96px = 2.54cm = 25.4mm = 72pt = 6pc = 101.6Q.

use roxmltree::{Attribute, Node};

use super::place::Flaw;
use super::scan::Scanner;
use super::style::Look;
use crate::error::Error;
use crate::units::Unit;

/// How many millimetres one CSS pixel is.
pub(super) const PX_MM: f64 = 25.4 / 96.0;

/// The text size that everything starts from: CSS Fonts Level 3, section 3.5, as browsers have it.
const FONT_PX: f64 = 16.0;

/// What lengths without a size of their own are parts of, in user units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Room {
    /// The viewport, when the drawing gives its size.
    pub(super) size: Option<(f64, f64)>,
    /// The size of the text.
    pub(super) font: f64,
    /// The size of the text of the outermost element.
    pub(super) root_font: f64,
}

impl Room {
    pub(super) fn new() -> Self {
        Self {
            size: None,
            font: FONT_PX,
            root_font: FONT_PX,
        }
    }

    /// The whole that percentages along an axis are parts of.
    pub(super) fn whole(&self, axis: Axis) -> Option<f64> {
        let (width, height) = self.size?;
        Some(match axis {
            Axis::Width => width,
            Axis::Height => height,
            Axis::Diagonal => width.hypot(height) / std::f64::consts::SQRT_2,
        })
    }

    /// The same with the size of text that an element has.
    pub(super) fn with_font(mut self, look: &Look<'_>) -> Self {
        // In `font` the size comes first of all lengths, with the height of lines behind a stroke.
        let short = look.get("font").and_then(|font| {
            let words = font.split([' ', '/']);
            words.into_iter().find(|word| {
                word.starts_with(|c: char| c.is_ascii_digit() || c == '.')
                    && word.ends_with(|c: char| c.is_ascii_alphabetic() || c == '%')
            })
        });
        if let Some(size) = look.get("font-size").or(short) {
            self.font = self
                .font_of(size)
                .filter(|size| *size > 0.0)
                .unwrap_or(self.font);
        }
        self
    }

    fn font_of(&self, size: &str) -> Option<f64> {
        // CSS Fonts Level 3, section 3.5: the keywords as parts of `medium`.
        let factors = [
            ("xx-small", 0.6),
            ("x-small", 0.75),
            ("small", 8.0 / 9.0),
            ("medium", 1.0),
            ("large", 1.2),
            ("x-large", 1.5),
            ("xx-large", 2.0),
        ];
        if let Some((_, factor)) = factors
            .iter()
            .find(|(word, _)| size.eq_ignore_ascii_case(word))
        {
            return Some(FONT_PX * factor);
        }
        Some(match parse(size).ok()? {
            Length::Absolute { mm, .. } => mm / PX_MM,
            Length::User(value) => value,
            Length::Percent(percent) => self.font * percent / 100.0,
            Length::Font(times) => self.font * times,
            Length::RootFont(times) => self.root_font * times,
        })
    }
}

/// An element whose lengths are read: from its styles, or else from its attributes.
#[derive(Clone, Copy)]
pub(super) struct Measured<'n, 'a, 'input> {
    pub(super) node: Node<'a, 'input>,
    pub(super) look: &'n Look<'n>,
    pub(super) room: Room,
}

/// What a percentage is a part of.
#[derive(Debug, Clone, Copy)]
pub(super) enum Axis {
    Width,
    Height,
    Diagonal,
}

/// A length of a document.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Length {
    /// Millimetres, and the unit that people would measure it in.
    Absolute { mm: f64, unit: Unit },
    /// User units.
    User(f64),
    /// A part of the viewport.
    Percent(f64),
    /// Multiples of the size of the text.
    Font(f64),
    /// Multiples of the size of the text of the outermost element.
    RootFont(f64),
}

/// Reads a length with its unit.
pub(super) fn parse(text: &str) -> Result<Length, Flaw> {
    let mut scan = Scanner::new(text);
    scan.skip_space();
    let value = scan.number()?;
    let absolute = |factor: f64, unit| Length::Absolute {
        mm: value * factor,
        unit,
    };
    Ok(match scan.rest().trim().to_ascii_lowercase().as_str() {
        "" | "px" => Length::User(value),
        "in" => absolute(25.4, Unit::In),
        "cm" => absolute(10.0, Unit::Cm),
        "mm" => absolute(1.0, Unit::Mm),
        "q" => absolute(0.25, Unit::Mm),
        "pt" => absolute(25.4 / 72.0, Unit::In),
        "pc" => absolute(25.4 / 6.0, Unit::In),
        "%" => Length::Percent(value),
        "em" => Length::Font(value),
        "rem" => Length::RootFont(value),
        // Half an em without a font: CSS Values and Units 3, section 6.1.1.
        "ex" | "ch" => Length::Font(value / 2.0),
        _ => {
            let what = "one of the units in, cm, mm, Q, pt, pc, px or none";
            return Err(Flaw::expected(scan.at(), what));
        }
    })
}

/// A length of an element in user units; `None` when it is not there or `auto`.
pub(super) fn length(
    of: Measured<'_, '_, '_>,
    name: &str,
    axis: Axis,
) -> Result<Option<f64>, Error> {
    let Measured { node, look, room } = of;
    if let Some(style) = look.styled(name) {
        return Ok(css_length(style, axis, room));
    }
    let Some(attribute) = given(node, name) else {
        return Ok(None);
    };
    let locate = |flaw: Flaw| flaw.locate(node, &attribute);
    Ok(Some(match parse(attribute.value()).map_err(locate)? {
        Length::Absolute { mm, .. } => mm / PX_MM,
        Length::User(value) => value,
        Length::Font(times) => times * room.font,
        Length::RootFont(times) => times * room.root_font,
        Length::Percent(value) => {
            let why = "a percentage needs an <svg> with a viewBox or with a width and a height";
            let whole = room.whole(axis);
            value / 100.0 * whole.ok_or_else(|| locate(Flaw::refused(0, why)))?
        }
    }))
}

/// A length of CSS in user units, which needs a unit unless it is 0.
pub(super) fn css_length(text: &str, axis: Axis, room: Room) -> Option<f64> {
    let text = text.trim();
    let has_unit = text.ends_with(|c: char| c.is_ascii_alphabetic() || c == '%');
    match parse(text).ok()? {
        Length::User(value) if !has_unit && value != 0.0 => None,
        Length::User(value) => Some(value),
        Length::Absolute { mm, .. } => Some(mm / PX_MM),
        Length::Font(times) => Some(times * room.font),
        Length::RootFont(times) => Some(times * room.root_font),
        Length::Percent(percent) => Some(percent / 100.0 * room.whole(axis)?),
    }
}

/// The path data in a value of the property `d`; empty for `none`.
pub(super) fn css_path(value: &str) -> Option<&str> {
    if value.eq_ignore_ascii_case("none") {
        return Some("");
    }
    let inside = value.strip_prefix("path(")?.strip_suffix(')')?.trim();
    let quoted = |quote| inside.strip_prefix(quote)?.strip_suffix(quote);
    quoted('"').or_else(|| quoted('\''))
}

/// Takes out styles of place and size that can't be read, as a browser does; the first of them.
pub(super) fn drop_unreadable(look: &mut Look<'_>, room: Room) -> Option<String> {
    let mut first = None;
    let sides = [
        ("x", Axis::Width, false),
        ("y", Axis::Height, false),
        ("cx", Axis::Width, false),
        ("cy", Axis::Height, false),
        ("r", Axis::Diagonal, true),
        ("rx", Axis::Width, true),
        ("ry", Axis::Height, true),
        ("width", Axis::Width, true),
        ("height", Axis::Height, true),
    ];
    for (name, axis, is_extent) in sides {
        let fine = |value: &str| {
            value.eq_ignore_ascii_case("auto")
                || css_length(value, axis, room).is_some_and(|size| !is_extent || size >= 0.0)
        };
        drop_unless(look, name, fine, &mut first);
    }
    drop_unless(look, "d", |value| css_path(value).is_some(), &mut first);
    first
}

fn drop_unless(
    look: &mut Look<'_>,
    name: &str,
    fine: impl Fn(&str) -> bool,
    first: &mut Option<String>,
) {
    let Some(value) = look.styled(name).filter(|value| !fine(value)) else {
        return;
    };
    first.get_or_insert(format!("{name}: {value}"));
    look.remove(name);
}

/// Whether any attribute is measured in the height of small letters or the width of a nought.
pub(super) fn needs_a_font(node: Node<'_, '_>) -> bool {
    node.attributes().any(|attribute| {
        let value = attribute.value().trim_end();
        value.len() < 32
            && value.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | '+'))
            && (value.ends_with("ex") || value.ends_with("ch"))
    })
}

/// The attribute of this name, unless it is `auto`.
pub(super) fn given<'a, 'input>(
    node: Node<'a, 'input>,
    name: &str,
) -> Option<Attribute<'a, 'input>> {
    node.attribute_node(name)
        .filter(|attribute| attribute.value().trim() != "auto")
}

/// As [`length`], refusing what is negative.
pub(super) fn extent(
    of: Measured<'_, '_, '_>,
    name: &str,
    axis: Axis,
) -> Result<Option<f64>, Error> {
    match (length(of, name, axis)?, given(of.node, name)) {
        (Some(value), Some(attribute)) if value < 0.0 => {
            Err(Flaw::refused(0, "give a length of 0 or more").locate(of.node, &attribute))
        }
        (value, _) => Ok(value),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_have_the_ratios_of_css_values() {
        // CSS Values and Units 3, section 6.2.
        for text in [
            "96px", "96", "1in", "2.54cm", "25.4mm", "72pt", "6pc", "101.6Q", "1 IN",
        ] {
            let mm = match parse(text).expect(text) {
                Length::Absolute { mm, .. } => mm,
                Length::User(px) => px * PX_MM,
                other => panic!("{text}: {other:?}"),
            };
            assert!((mm - 25.4).abs() < 1e-13, "{text}: {mm}");
        }
        assert_eq!(parse("2ex"), Ok(Length::Font(1.0)));
        assert_eq!(parse("1e1%"), Ok(Length::Percent(10.0)));
        assert!(parse("1 furlong").is_err() && parse("").is_err() && parse("1in 2").is_err());
    }
}
