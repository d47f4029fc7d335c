//! What a drawing holds that is not drawn, or not as its author sees it: one note for each kind.

/// A kind of thing that is worth a note.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Note {
    Text,
    Image,
    ForeignObject,
    Switch,
    MissingTarget,
    Clipped,
    MovedByStyle,
    RootTransform,
    Flattened,
    AssumedPixels,
}

impl Note {
    fn words(self, count: usize, example: &str) -> String {
        let s = if count == 1 { "" } else { "s" };
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
            Self::Clipped => format!(
                "{count} element{s} with a clip path or a mask: drawn whole, without clipping"
            ),
            Self::MovedByStyle => format!(
                "{count} element{s} with the style property transform, which is not applied; use the attribute transform"
            ),
            Self::RootTransform => {
                "the transform of the outermost <svg> is not applied; group the drawing and transform the group".to_owned()
            }
            Self::Flattened => format!("{count} element{s} skipped: their transform leaves them no area"),
            Self::AssumedPixels => {
                "no width and height in a unit of length: 1 unit of the drawing is taken as 1/96 in".to_owned()
            }
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
                let shown = example.chars().take(60).collect();
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
