//! What a DXF holds that is not drawn, or not as its author sees it: one note for each kind.

use super::pairs::excerpt;

/// A kind of thing that is worth a note.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Note {
    Invisible,
    LayerOff,
    Paper,
    MissingBlock,
    Flattened,
    Dot,
    FitPoints,
    Height,
    Tilted,
    Wide,
    Dashed,
}

impl Note {
    fn words(self, count: usize, example: &str) -> String {
        let many = |one: &str, more: &str| match count {
            1 => format!("1 {one}"),
            _ => format!("{count} {more}"),
        };
        let entities = many("entity", "entities");
        let lines = many("line", "lines");
        match self {
            Self::Invisible => format!("{entities} skipped that the drawing hides"),
            Self::LayerOff => format!(
                "{entities} skipped on layers that are off or frozen, such as \"{example}\""
            ),
            Self::Paper => format!("{entities} skipped in paper space; only model space is drawn"),
            Self::MissingBlock => format!(
                "{} skipped: the block \"{example}\" is not in this file",
                many("inserted block", "inserted blocks")
            ),
            Self::Flattened => format!(
                "{} skipped: the scale leaves no area",
                many("inserted block", "inserted blocks")
            ),
            Self::Dot => format!("{} without length skipped", many("line", "lines")),
            Self::FitPoints => format!(
                "{} given by fit points alone skipped; save the drawing with control points, or turn {} into polylines there",
                many("SPLINE", "SPLINEs"),
                if count == 1 { "it" } else { "them" }
            ),
            Self::Height => format!("{entities} with a height above the page, z, which is dropped"),
            Self::Tilted => format!("{entities} tilted out of the page: drawn as seen from above"),
            Self::Wide => format!("{lines} with a width: drawn along the middle"),
            Self::Dashed => format!("{lines} with dashes: drawn as whole lines"),
        }
    }
}

/// The notes in the order of the first of each kind, counted, and the entities that are no lines.
#[derive(Debug, Default)]
pub(super) struct Notes {
    counted: Vec<(Note, usize, String)>,
    skipped: Vec<(String, usize)>,
    others: usize,
}

impl Notes {
    /// How many kinds of skipped entities are listed by name.
    const NAMED: usize = 12;

    /// Counts one more of a kind; `example` shows the first.
    pub(super) fn add(&mut self, note: Note, example: &str) {
        match self.counted.iter_mut().find(|(known, _, _)| *known == note) {
            Some((_, count, _)) => *count += 1,
            None => self.counted.push((note, 1, excerpt(example))),
        }
    }

    /// Counts one more entity of this name that is not drawn.
    pub(super) fn skip(&mut self, name: &str) {
        if let Some((_, count)) = self.skipped.iter_mut().find(|(known, _)| known == name) {
            *count += 1;
        } else if self.skipped.len() < Self::NAMED {
            self.skipped.push((name.to_owned(), 1));
        } else {
            self.others += 1;
        }
    }

    pub(super) fn into_words(self) -> Vec<String> {
        let mut words: Vec<String> = Vec::new();
        if !self.skipped.is_empty() {
            let mut kinds: Vec<String> = self
                .skipped
                .iter()
                .map(|(name, count)| format!("{count} {name}"))
                .collect();
            if self.others > 0 {
                kinds.push(format!("{} others", self.others));
            }
            words.push(format!(
                "skipped, since they are no lines: {}; to stitch them, explode them or trace them in the drawing program",
                kinds.join(", ")
            ));
        }
        let counted = self.counted.into_iter();
        words.extend(counted.map(|(note, count, example)| note.words(count, &example)));
        words
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_note_for_each_kind() {
        let mut notes = Notes::default();
        notes.add(Note::LayerOff, "guides");
        notes.skip("TEXT");
        notes.add(Note::Dot, "");
        notes.skip("HATCH");
        notes.add(Note::LayerOff, "scrap");
        notes.skip("TEXT");
        assert_eq!(
            notes.into_words(),
            [
                "skipped, since they are no lines: 2 TEXT, 1 HATCH; to stitch them, explode them or trace them in the drawing program",
                "2 entities skipped on layers that are off or frozen, such as \"guides\"",
                "1 line without length skipped",
            ]
        );
    }

    #[test]
    fn names_without_end_are_counted() {
        let mut notes = Notes::default();
        for at in 0..100 {
            notes.skip(&format!("KIND{at}"));
        }
        let words = notes.into_words();
        assert!(words[0].contains("1 KIND11, 88 others;"), "{}", words[0]);
    }
}
