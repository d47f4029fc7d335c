//! Numbers with their units as they are set: fractions stacked, and nothing breaks inside.
//!
//! The text itself stays as it was, for who copies it or has it read aloud; what is seen of a
//! fraction is drawn from its two attributes.

use maud::{Markup, html};

/// Words that belong to the number before them.
const UNITS: [&str; 8] = ["in", "mm", "cm", "m", "ft", "yd", "%", "degrees"];

/// A word without the signs of punctuation round it.
fn bare(word: &str) -> &str {
    word.trim_matches(|c: char| ",;:.()+-".contains(c))
}

/// True for a number such as 7, -0.7 or +2.5.
fn is_number(word: &str) -> bool {
    let word = bare(word);
    word.starts_with(|c: char| c.is_ascii_digit())
        && word.chars().all(|c| c.is_ascii_digit() || c == '.')
}

/// What comes before a fraction in its word, its two numbers, and what comes after.
fn fraction(word: &str) -> Option<[&str; 4]> {
    let inner = bare(word);
    let (above, below) = inner.split_once('/')?;
    let whole = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    let start = word.find(inner)?;
    let after = &word[start + inner.len()..];
    (whole(above) && whole(below)).then_some([&word[..start], above, below, after])
}

/// A number with its words; `key` is the way to the number in `result.json`.
pub(super) fn number(key: &str, value: impl std::fmt::Display, words: &str) -> Markup {
    html! { data data-key=(key) value=(maud::display(value)) { (set(words)) } }
}

/// A text with its numbers set.
pub(super) fn set(text: &str) -> Markup {
    let words: Vec<&str> = text.split(' ').collect();
    let mut groups: Vec<Vec<&str>> = Vec::new();
    for (at, &word) in words.iter().enumerate() {
        let before = at.checked_sub(1).map(|at| words[at]);
        let goes_on = before.is_some_and(|before| {
            let number = is_number(before) || fraction(before).is_some();
            let ends = before.ends_with([',', ';', ')']);
            number
                && !ends
                && (UNITS.contains(&bare(word)) || word == "%" || fraction(word).is_some())
        });
        match groups.last_mut() {
            Some(group) if goes_on => group.push(word),
            _ => groups.push(vec![word]),
        }
    }
    html! {
        @for (at, group) in groups.iter().enumerate() {
            @if at > 0 { " " }
            @if group.len() > 1 || fraction(group[0]).is_some() {
                span.n { @for (at, word) in group.iter().enumerate() { (one(word, at > 0)) } }
            } @else { (group[0]) }
        }
    }
}

/// A word of a group, with the space before it where it has one.
fn one(word: &str, spaced: bool) -> Markup {
    let space = if spaced { " " } else { "" };
    html! {
        @match fraction(word) {
            Some([before, above, below, after]) => {
                (before)
                span.unseen { (space) (above) "/" (below) }
                span.fr aria-hidden="true" data-above=(above) data-below=(below) {}
                (after)
            }
            None => { (space) (word) }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The text of markup without its tags.
    fn text(markup: &str) -> String {
        let parts = markup.split('<').enumerate();
        let after = |(at, part): (usize, &str)| match at {
            0 => part.to_owned(),
            _ => part.split_once('>').expect("a tag").1.to_owned(),
        };
        parts.map(after).collect()
    }

    #[test]
    fn the_text_stays_and_numbers_hold_together() {
        for (plain, held) in [
            ("64 1/4 in x 80 in", 2),
            ("about -1/2 in (1.59 mm), and 3 pieces", 2),
            ("5 of 7 7/16 in, in 37 1/4 in", 2),
            ("stretched by -0.7 %; 21 % longer", 2),
            ("no numbers", 0),
            ("7 in, 1/2 in", 2),
            ("on 3/8 of it", 1),
        ] {
            let set = set(plain).into_string();
            assert_eq!(text(&set), plain);
            assert_eq!(set.matches("class=\"n\"").count(), held, "{set}");
            assert_eq!(
                set.matches("class=\"fr\"").count(),
                plain.matches('/').count()
            );
        }
        let set = set("64 1/4 in").into_string();
        assert_eq!(
            set,
            "<span class=\"n\">64<span class=\"unseen\"> 1/4</span><span class=\"fr\" aria-hidden=\"true\" \
             data-above=\"1\" data-below=\"4\"></span> in</span>"
        );
    }
}
