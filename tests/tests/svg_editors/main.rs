//! Drawings in the manner of drawing editors, made by rule, read by us and by `usvg`.
//!
//! Each has what editors write: layers, transforms, sizes in every unit, style sheets, symbols,
//! clip paths, path data as tight as the grammar allows, and so on. Ours has to give the same
//! strokes as `usvg` (f32), in the same order and direction, and what the generator knows of the
//! drawing: ids, titles, layers, and how much of it a note has to mention.
//!
//! Where the two rightly differ:
//! - The origin: `usvg` puts the page at (0, 0), we keep the drawing's own. The first path tells.
//! - Markers are drawn by `usvg`. They are signs on a line, which nobody stitches.
//! - Dots are kept by `usvg`, since round ends show. They have no length to stitch.

#[path = "../peer/mod.rs"]
mod peer;

mod compare;
mod dice;
mod drawing;
mod file;
mod look;
mod page;
mod path_data;
mod pieces;
mod shapes;

use std::collections::BTreeMap;

use quiltpath_core::io::svg_read::{SvgDrawing, read_svg, read_svg_layers};

use drawing::{Drawing, Known};
use file::File;

/// More than the hundred asked for: each takes a few milliseconds.
const DRAWINGS: u64 = 300;

/// The count at the start of the note with these words; 0 without one.
fn noted(drawing: &SvgDrawing, words: &str) -> usize {
    let note = drawing.notes.iter().find(|note| note.contains(words));
    note.map_or(0, |note| {
        let count = note.split(' ').next().expect("a word");
        count.parse().unwrap_or_else(|_| panic!("no count: {note}"))
    })
}

/// Holds what is read of a file against `usvg` and against what the generator knows.
fn check(file: &File, known: &Known) -> Result<usize, String> {
    let ours = read_svg(&file.bytes).map_err(|e| e.to_string())?;
    let ids: Vec<&str> = ours.paths.iter().map(|path| path.id.as_str()).collect();
    if ids != known.seen {
        return Err(format!("{ids:?} for {:?}", known.seen));
    }
    for path in &ours.paths {
        let title = known.titles.get(&path.id);
        if path.title.as_ref() != title {
            return Err(format!("title {:?} for {title:?}", path.title));
        }
    }
    for words in WORDS {
        let count = known.noted.get(words).copied().unwrap_or(0);
        if noted(&ours, words) != count {
            return Err(format!("{count} {words} but {:?}", ours.notes));
        }
    }
    compare::same(&ours, &file.text)
}

#[test]
fn drawings_of_editors_are_read_as_usvg_reads_them() {
    let mut made: BTreeMap<&str, usize> = BTreeMap::new();
    let mut strokes = 0;
    let mut faults = Vec::new();
    for seed in 0..DRAWINGS {
        let (text, known) = Drawing::make(seed);
        let file = file::file(seed, &text);
        match check(&file, &known) {
            Ok(count) => strokes += count,
            Err(fault) => faults.push((seed, fault, file.text)),
        }
        for (what, count) in known.made {
            *made.entry(what).or_default() += count;
        }
        for what in &file.made {
            *made.entry(what).or_default() += 1;
        }
    }
    if let Some((_, _, text)) = faults.first() {
        let list: Vec<String> = faults
            .iter()
            .map(|(seed, fault, _)| format!("drawing {seed}: {fault}"))
            .collect();
        panic!("{}\nthe first:\n{text}", list.join("\n"));
    }
    // A generator that no longer makes something compares nothing of it.
    for what in MADE {
        let count = made.get(what).copied().unwrap_or(0);
        assert!(count >= 5, "{what}: {count} of {made:?}");
    }
    assert!(strokes > 2000, "{strokes} strokes");
}

/// Words of the notes that the generator counts.
const WORDS: [&str; 10] = [
    "with dashes",
    "that can't be seen",
    "\"visibility: hidden\"",
    "\"display: none\"",
    "<text> element",
    "<image> element",
    "<switch> element",
    "with a clip path or a mask",
    "no area",
    "with dots",
];

const MADE: [&str; 40] = [
    "path",
    "line",
    "polyline",
    "polygon",
    "rect",
    "circle",
    "ellipse",
    "group",
    "layer",
    "symbol",
    "use",
    "nested page",
    "switch",
    "hidden layer",
    "invisible layer",
    "clip-path",
    "mask",
    "filter",
    "marker",
    "flat",
    "dot",
    "page box",
    "text",
    "image",
    "foreign",
    "entities",
    "mm",
    "pt",
    "in",
    "px",
    "cm",
    "pc",
    "no size",
    "CRLF",
    "UTF-8 with a mark",
    "UTF-16",
    "ISO-8859-1",
    "windows-1252",
    "gzip",
    "UTF-8",
];

#[test]
fn a_layer_has_what_the_whole_drawing_has_in_it() {
    let mut layers = 0;
    for seed in 0..DRAWINGS {
        let (text, known) = Drawing::make(seed);
        let file = file::file(seed, &text);
        let whole = read_svg(&file.bytes).expect("the test above reads it");
        for (label, ids) in known.layers.iter().filter(|(_, ids)| !ids.is_empty()) {
            let layer = read_svg_layers(&file.bytes, std::slice::from_ref(label))
                .unwrap_or_else(|e| panic!("{e}\n{}", file.text));
            let found: Vec<&str> = layer.paths.iter().map(|path| path.id.as_str()).collect();
            assert_eq!(&found, ids, "{label} of drawing {seed}:\n{}", file.text);
            for path in &layer.paths {
                assert!(whole.paths.contains(path), "{} of drawing {seed}", path.id);
            }
            layers += 1;
        }
    }
    assert!(layers > 100, "{layers} layers");
}
