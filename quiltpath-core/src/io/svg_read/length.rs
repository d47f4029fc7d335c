//! Lengths in the units of CSS.
//!
//! By CSS Values and Units 3, section 6.2: 1in = 96px = 2.54cm = 25.4mm = 72pt = 6pc = 101.6Q.

use roxmltree::{Attribute, Node};

use super::place::Flaw;
use super::scan::Scanner;
use crate::error::Error;
use crate::units::Unit;

/// How many millimetres one CSS pixel is.
pub(super) const PX_MM: f64 = 25.4 / 96.0;

/// The size of the viewport in user units, when the drawing gives one.
pub(super) type Viewport = Option<(f64, f64)>;

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
    /// Multiples of the height of the text.
    Font(f64),
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
        // The initial font size of CSS is 16px; ex is half an em without a font.
        "em" | "rem" => Length::Font(value * 16.0),
        "ex" | "ch" => Length::Font(value * 8.0),
        _ => {
            let what = "one of the units in, cm, mm, Q, pt, pc, px or none";
            return Err(Flaw::expected(scan.at(), what));
        }
    })
}

/// The length of an attribute in user units; `None` when it is not there or `auto`.
pub(super) fn length(
    node: Node<'_, '_>,
    name: &str,
    axis: Axis,
    viewport: Viewport,
) -> Result<Option<f64>, Error> {
    let Some(attribute) = given(node, name) else {
        return Ok(None);
    };
    let locate = |flaw: Flaw| flaw.locate(node, &attribute);
    Ok(Some(match parse(attribute.value()).map_err(locate)? {
        Length::Absolute { mm, .. } => mm / PX_MM,
        Length::User(value) | Length::Font(value) => value,
        Length::Percent(value) => {
            let why = "a percentage needs an <svg> with a viewBox or with a width and a height";
            let (width, height) = viewport.ok_or_else(|| locate(Flaw::refused(0, why)))?;
            let whole = match axis {
                Axis::Width => width,
                Axis::Height => height,
                Axis::Diagonal => width.hypot(height) / std::f64::consts::SQRT_2,
            };
            value / 100.0 * whole
        }
    }))
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
    node: Node<'_, '_>,
    name: &str,
    axis: Axis,
    viewport: Viewport,
) -> Result<Option<f64>, Error> {
    match (length(node, name, axis, viewport)?, given(node, name)) {
        (Some(value), Some(attribute)) if value < 0.0 => {
            Err(Flaw::refused(0, "give a length of 0 or more").locate(node, &attribute))
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
        assert_eq!(parse("1em"), Ok(Length::Font(16.0)));
        assert_eq!(parse("1e1%"), Ok(Length::Percent(10.0)));
        assert!(parse("1 furlong").is_err() && parse("").is_err() && parse("1in 2").is_err());
    }
}
