//! The title of the picture, in rows that fit its width.

use maud::{Markup, html};

use crate::io::canvas::Canvas;
use crate::io::svg_write::xml_text;

/// The title's letters are so much larger.
pub(super) const TITLE: f64 = 1.75;

/// From row to row of the title, in its letters.
const ROW: f64 = 1.3;

/// The most rows that a title takes.
pub(super) const MOST_ROWS: usize = 4;

/// How wide a letter is where fonts are wide, in its height: nobody knows which font there will be.
pub(super) const LETTER: f64 = 0.6;

/// The rows of a title.
pub(super) struct Title {
    rows: Vec<String>,
    given: bool,
}

impl Title {
    /// A title in rows, each so many of the picture's letters wide.
    pub(super) fn of(title: Option<&str>, wide: f64) -> Self {
        let rows =
            title.map(|title| set_in_rows(&xml_text(title), (wide / (TITLE * LETTER)) as usize));
        Self {
            given: rows.is_some(),
            rows: rows.unwrap_or_default(),
        }
    }

    /// How high it is, in the picture's letters.
    pub(super) fn height(&self) -> f64 {
        let below = if self.given { 0.6 } else { 0.0 };
        TITLE * (ROW * self.rows.len() as f64 + below)
    }

    /// The rows from `left`, below `top`, both in steps of the grid.
    pub(super) fn draw(&self, canvas: &Canvas, [left, top]: [i64; 2]) -> Markup {
        html! {
            @for (words, at) in self.rows.iter().zip(0..) {
                text class="head" x=(left)
                    y=(top + canvas.grid(TITLE * canvas.em * (1.6 + ROW * f64::from(at)))) { (words) }
            }
        }
    }
}

/// Words in rows of at most so many characters; what goes beyond the last row is cut off there.
pub(super) fn set_in_rows(words: &str, wide: usize) -> Vec<String> {
    let wide = wide.max(1);
    let mut rows: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        let letters: Vec<char> = word.chars().collect();
        // A word that is wider than a row is broken.
        for part in letters.chunks(wide) {
            let part: String = part.iter().collect();
            let long = part.chars().count();
            match rows
                .last_mut()
                .filter(|row| row.chars().count() + 1 + long <= wide)
            {
                Some(row) => *row = format!("{row} {part}"),
                None => rows.push(part),
            }
        }
    }
    if rows.len() > MOST_ROWS {
        rows.truncate(MOST_ROWS);
        if let Some(last) = rows.last_mut() {
            *last = last.chars().take(wide - 1).chain(['…']).collect();
        }
    }
    rows
}
