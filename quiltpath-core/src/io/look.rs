//! The look of all that people see, from two style sheets.
//!
//! `type.css` has letters and what stands on paper, for pages. `look.css` has the colours by name,
//! for light and dark screens and for print, and the signs of drawings by class, their strokes in
//! pixels of `--px`. Pages take both as they are. Pictures that stand alone are read by programs
//! that know no custom properties, so there the names are replaced. Colours keep the contrast of
//! WCAG 2.2 (1.4.3: 4.5 to 1 for text; 1.4.11: 3 to 1 for marks); the tests compute it. No meaning
//! rests on colour alone.

/// Colours and signs for a page: custom properties for light and dark screens and for print, and
/// classes of what pictures draw, whose strokes are as wide as `--px` says a pixel is.
pub const LOOK: &str = include_str!("look.css");

/// The sheet of paper for a page: letters and their sizes, fractions, what is said softly, what
/// cautions, what is pressed; the class `paper` is the sheet.
pub const TYPE: &str = include_str!("type.css");

/// The colours of one medium: all names with their values.
fn colours(medium: usize) -> impl Iterator<Item = (&'static str, &'static str)> {
    let rule = LOOK.lines().nth(medium).unwrap_or_default();
    rule.split([';', '{', '}'])
        .filter_map(|part| part.split_once(':'))
        .filter(|(name, _)| name.starts_with("--"))
}

/// The signs as a style sheet without custom properties, on light paper, a pixel as large as this.
pub(super) fn plain(pixel: f64) -> String {
    let mut out: String = LOOK
        .lines()
        .skip(3)
        .fold(String::new(), |out, line| out + line + "\n");
    for (name, value) in colours(0) {
        out = out.replace(&format!("var({name})"), value);
    }
    let mut plain = String::new();
    let mut rest = out.as_str();
    while let Some((before, after)) = rest.split_once("calc(var(--px)*") {
        let (number, after) = after.split_once("px)").unwrap_or((after, ""));
        let pixels = number.parse().unwrap_or(1.0) * pixel;
        plain += &format!("{before}{pixels:.0}px");
        rest = after;
    }
    plain + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance as in WCAG 2.2, "relative luminance".
    fn luminance(colour: &str) -> f64 {
        let digits = colour.trim_start_matches('#');
        let channel = |at: usize| {
            let short = digits.len() == 3;
            let text = if short {
                digits[at..=at].repeat(2)
            } else {
                digits[2 * at..2 * at + 2].to_owned()
            };
            let byte = u8::from_str_radix(&text, 16).expect("a colour");
            let share = f64::from(byte) / 255.0;
            if share <= 0.040_45 {
                share / 12.92
            } else {
                ((share + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * channel(0) + 0.7152 * channel(1) + 0.0722 * channel(2)
    }

    /// Contrast ratio as in WCAG 2.2, "contrast ratio".
    fn contrast(one: &str, other: &str) -> f64 {
        let (a, b) = (luminance(one), luminance(other));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn text_and_marks_stand_out_on_every_screen() {
        assert!((contrast("#ffffff", "#000") - 21.0).abs() < 1e-9);
        // A worked value that checkers give for #777 on white.
        assert!((contrast("#777777", "#ffffff") - 4.48).abs() < 0.005);
        for medium in 0..3 {
            let colour = |wanted: &str| {
                let mut all = colours(medium);
                all.find(|(name, _)| name[2..] == *wanted).expect(wanted).1
            };
            for back in ["paper", "strip", "cloth", "touched"] {
                for name in ["ink", "soft", "hers", "corner", "look"] {
                    let found = contrast(colour(name), colour(back));
                    assert!(
                        found >= 4.5,
                        "{name} on {back} in medium {medium}: {found:.2}"
                    );
                }
                // Marks are paper inside a line of ink: either stands out.
                let mark = contrast(colour("ink"), colour(back));
                assert!(mark >= 3.0, "marks on {back} in medium {medium}: {mark:.2}");
            }
            for name in ["ink", "soft"] {
                assert!(
                    contrast(colour(name), colour("desk")) >= 4.5,
                    "{name} {medium}"
                );
            }
        }
    }

    #[test]
    fn every_medium_has_the_same_colours() {
        let names = |medium| colours(medium).map(|(name, _)| name).collect::<Vec<_>>();
        assert!(names(0).len() > 9);
        assert_eq!(names(0), names(1));
        assert_eq!(names(0), names(2));
    }

    #[test]
    fn a_picture_by_itself_needs_no_custom_properties() {
        let plain = plain(6.0);
        assert!(
            !plain.contains("var(") && !plain.contains("calc("),
            "{plain}"
        );
        assert!(
            plain.contains(".corner{stroke:#0a6a5c;stroke-width:12px}"),
            "{plain}"
        );
    }
}
