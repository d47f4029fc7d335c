//! What a drawing holds that is not drawn, or not as its author sees it: one note for each kind.

use crate::io::words::counted;

/// A kind of thing that is worth a note.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Note {
    Text,
    Image,
    ForeignObject,
    Switch,
    MissingTarget,
    NotDisplayed,
    Hidden,
    Unpainted,
    Dot,
    PageBox,
    CutBox,
    Dashed,
    Clipped,
    Overflow,
    Unmoved,
    RootTransform,
    Flattened,
    RefPoint,
    FontLength,
    Selector,
    AtRule,
    ForeignStyle,
    OutsideStyle,
    BadProperty,
    AssumedPixels,
}

impl Note {
    fn words(self, count: usize, example: &str) -> String {
        let many = |one: &str, more: &str| match count {
            1 => format!("1 {one}"),
            _ => format!("{count} {more}"),
        };
        let s = if count == 1 { "" } else { "s" };
        let shapes = counted(count, "shape");
        let elements = counted(count, "element");
        match self {
            Self::Text => {
                format!("{count} <text> element{s} skipped; convert text to paths to stitch it")
            }
            Self::Image => format!("{count} <image> element{s} skipped; trace images to stitch them"),
            Self::ForeignObject => format!("{count} <foreignObject> element{s} skipped"),
            Self::Switch => format!(
                "{count} <switch> element{s}: only the first choice is drawn that needs no language or extension"
            ),
            Self::MissingTarget => format!(
                "{count} <use> element{s} skipped: \"{example}\" is not in this file"
            ),
            Self::NotDisplayed => format!("{elements} skipped with \"display: none\""),
            Self::Hidden => format!("{shapes} skipped with \"visibility: hidden\""),
            Self::Unpainted => format!(
                "{shapes} skipped that can't be seen: no fill and no stroke, or fully transparent"
            ),
            Self::Dot => format!("{shapes} with dots, parts without length, which are skipped"),
            Self::PageBox => format!(
                "{} as large as the page, drawn with the rest; if it is a background, delete it in the drawing or choose the layers to read",
                many("filled rectangle is", "filled rectangles are")
            ),
            Self::CutBox => format!(
                "{} beyond the edge of the page, where it is cut off on a screen; drawn whole",
                many("filled rectangle goes", "filled rectangles go")
            ),
            Self::Dashed => format!("{shapes} with dashes: drawn as whole lines"),
            Self::Clipped => format!(
                "{elements} with a clip path or a mask: drawn whole, without clipping"
            ),
            Self::Overflow => format!(
                "{shapes} beyond the frame of a nested <svg> or <symbol>, which cuts them off on a screen; drawn whole"
            ),
            Self::Unmoved => format!(
                "{elements} moved by a style that is not applied, \"{example}\"; use the attribute transform"
            ),
            Self::RootTransform => {
                "the transform of the outermost <svg> is not applied; group the drawing and transform the group".to_owned()
            }
            Self::Flattened => format!("{elements} skipped: their transform leaves them no area"),
            Self::RefPoint => format!(
                "{count} <symbol> element{s} with refX or refY, which {} not applied",
                if count == 1 { "is" } else { "are" }
            ),
            Self::FontLength => format!(
                "{elements} with lengths in ex or ch, taken as half the size of the text"
            ),
            Self::Selector => format!(
                "{count} style rule{s} skipped: the selector \"{example}\" can't be read"
            ),
            Self::AtRule => format!("{count} style rule{s} skipped: \"{example}\" is not applied"),
            Self::ForeignStyle => format!(
                "{count} <style> element{s} skipped: the type \"{example}\" is not text/css"
            ),
            Self::OutsideStyle => format!(
                "{count} style sheet{s} in other files not read; save the drawing with its styles inside"
            ),
            Self::BadProperty => format!(
                "{elements} with a style that can't be read, \"{example}\", which is not applied"
            ),
            Self::AssumedPixels => format!(
                "no width and height in a unit of length: 1 unit of the drawing is taken as 1/96 in, which makes what is drawn {example}; to change that give <svg> a width and a height such as width=\"6in\""
            ),
        }
    }
}

/// The notes in the order of the first of each kind, counted.
#[derive(Debug, Default)]
pub(super) struct Notes(Vec<(Note, usize, String)>);

impl Notes {
    /// Counts one more of a kind; `example` shows the first.
    pub(super) fn add(&mut self, note: Note, example: &str) {
        match self.0.iter_mut().find(|(known, _, _)| *known == note) {
            Some((_, count, _)) => *count += 1,
            None => {
                let words = example.split_whitespace().collect::<Vec<_>>().join(" ");
                let shown = words.chars().take(60).collect();
                self.0.push((note, 1, shown));
            }
        }
    }

    pub(super) fn into_words(self) -> Vec<String> {
        self.0
            .into_iter()
            .map(|(note, count, example)| note.words(count, &example))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_note_for_each_kind() {
        let mut notes = Notes::default();
        notes.add(Note::Text, "");
        notes.add(Note::MissingTarget, "#leaf");
        notes.add(Note::Text, "");
        assert_eq!(
            notes.into_words(),
            [
                "2 <text> elements skipped; convert text to paths to stitch it",
                "1 <use> element skipped: \"#leaf\" is not in this file",
            ]
        );
    }
}
