//! Whether a shape leaves anything to be seen: fill, stroke and what makes them transparent.

use super::length::{Length, parse};
use super::style::Look;

/// What an element paints with, inherited as SVG 2, chapter 13, says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Paint {
    filled: bool,
    stroked: bool,
    fill_shows: bool,
    stroke_shows: bool,
    stroke_is_wide: bool,
    dashed: bool,
    /// True where a group round it, or the element itself, is fully transparent.
    transparent: bool,
}

impl Paint {
    pub(super) fn initial() -> Self {
        Self {
            filled: true,
            stroked: false,
            fill_shows: true,
            stroke_shows: true,
            stroke_is_wide: true,
            dashed: false,
            transparent: false,
        }
    }

    /// The paint of an element with this look, inside one with this paint.
    pub(super) fn within(mut self, look: &Look<'_>) -> Self {
        let set = |name: &str, shows: &mut bool, read: fn(&str) -> Option<bool>| {
            if let Some(value) = look.get(name).and_then(read) {
                *shows = value;
            }
        };
        set("fill", &mut self.filled, |value| {
            Some(is_paint(value, true))
        });
        set("stroke", &mut self.stroked, |value| {
            Some(is_paint(value, false))
        });
        set("fill-opacity", &mut self.fill_shows, is_opaque);
        set("stroke-opacity", &mut self.stroke_shows, is_opaque);
        set(
            "stroke-width",
            &mut self.stroke_is_wide,
            |value| match parse(value).ok()? {
                Length::Absolute { mm: size, .. }
                | Length::User(size)
                | Length::Percent(size)
                | Length::Font(size)
                | Length::RootFont(size) => Some(size != 0.0),
            },
        );
        set("stroke-dasharray", &mut self.dashed, |value| {
            // A list of nothing but zeros is a whole line.
            Some(value.bytes().any(|byte| matches!(byte, b'1'..=b'9')))
        });
        if look.get("opacity").and_then(is_opaque) == Some(false) {
            self.transparent = true;
        }
        self
    }

    /// True where the inside of a shape is painted.
    pub(super) fn fills(self) -> bool {
        self.filled && self.fill_shows && !self.transparent
    }

    fn strokes(self) -> bool {
        self.stroked && self.stroke_shows && self.stroke_is_wide && !self.transparent
    }

    pub(super) fn is_seen(self) -> bool {
        self.fills() || self.strokes()
    }

    pub(super) fn is_dashed(self) -> bool {
        self.dashed && self.strokes()
    }
}

/// Whether a paint paints; `initial` is what the property is without any value.
fn is_paint(value: &str, initial: bool) -> bool {
    let value = value.trim().to_ascii_lowercase();
    match value.as_str() {
        "none" | "transparent" => false,
        "initial" => initial,
        _ => !is_clear(&value),
    }
}

/// True for a colour whose alpha is 0: CSS Color 4, sections 4.1 and 5.2.
fn is_clear(value: &str) -> bool {
    if let Some(digits) = value.strip_prefix('#') {
        return matches!(digits.len(), 4 | 8)
            && digits.ends_with(if digits.len() == 4 { "0" } else { "00" });
    }
    let Some((name, inside)) = value.split_once('(') else {
        return false;
    };
    if ![
        "rgb", "rgba", "hsl", "hsla", "hwb", "lab", "lch", "oklab", "oklch", "color",
    ]
    .contains(&name.trim())
    {
        return false;
    }
    let inside = inside.trim_end_matches(')');
    let alpha = match inside.split_once('/') {
        Some((_, alpha)) => Some(alpha),
        None => inside.split(',').nth(3),
    };
    alpha.and_then(is_opaque) == Some(false)
}

/// Whether an opacity, a number or a percentage, lets anything be seen.
fn is_opaque(value: &str) -> Option<bool> {
    let value = value.trim();
    if value.eq_ignore_ascii_case("initial") {
        return Some(true);
    }
    let number: f64 = value
        .strip_suffix('%')
        .unwrap_or(value)
        .trim()
        .parse()
        .ok()?;
    Some(number > 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::io::svg_read::notes::Notes;
    use crate::io::svg_read::style::Sheet;

    fn paint(attributes: &str) -> Paint {
        let text = format!("<svg {attributes}/>");
        let document = roxmltree::Document::parse(&text).expect("XML");
        let sheet = Sheet::of(&document, &mut Notes::default());
        let look = sheet.look(document.root_element()).expect("a look");
        Paint::initial().within(&look)
    }

    #[test]
    fn what_paints_is_seen() {
        for (attributes, seen) in [
            ("", true),
            ("fill='none'", false),
            ("fill='none' stroke='black'", true),
            ("style='fill:none;stroke:none'", false),
            ("fill='none' style='stroke:red'", true),
            ("opacity='0'", false),
            ("opacity='0%'", false),
            ("opacity='.01'", true),
            ("opacity='-1'", false),
            ("fill-opacity='0'", false),
            ("fill-opacity='0' stroke='red'", true),
            ("fill='none' stroke='red' stroke-opacity='0.0'", false),
            ("fill='none' stroke='red' stroke-width='0'", false),
            ("fill='none' stroke='red' stroke-width='0px'", false),
            ("fill='transparent'", false),
            ("fill='#1230'", false),
            ("fill='#12300000'", false),
            ("fill='#123000'", true),
            ("fill='rgba(1, 2, 3, 0)'", false),
            ("fill='rgb(1 2 3 / 0%)'", false),
            ("fill='rgba(1,2,3,.5)'", true),
            ("fill='url(#a)'", true),
            ("fill='initial'", true),
            ("fill='none' stroke='initial'", false),
        ] {
            assert_eq!(paint(attributes).is_seen(), seen, "{attributes}");
        }
        for (dashes, dashed) in [("4 2", true), ("none", false), ("0 0", false), (".5", true)] {
            let found = paint(&format!("stroke='red' stroke-dasharray='{dashes}'"));
            assert_eq!(found.is_dashed(), dashed, "{dashes}");
        }
        assert!(!paint("stroke-dasharray='4'").is_dashed());
    }
}
