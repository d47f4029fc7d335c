//! A drawing as an editor writes it, with what the generator knows of it.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::dice::Dice;
use super::path_data::Hand;

/// What a drawing holds, and what there is to be said about it.
#[derive(Default)]
pub(crate) struct Known {
    /// The ids of the shapes that can be seen, in the order of drawing.
    pub(crate) seen: Vec<String>,
    /// The titles of shapes by their id.
    pub(crate) titles: BTreeMap<String, String>,
    /// What is counted in a note, by words of the note.
    pub(crate) noted: BTreeMap<&'static str, usize>,
    /// The ids of the shapes in each layer that has a label.
    pub(crate) layers: BTreeMap<String, Vec<String>>,
    /// What was made at all, for a look at how much the drawings cover.
    pub(crate) made: BTreeMap<&'static str, usize>,
}

/// The stroke of what is in a marker: `usvg` draws markers, we don't stitch them.
pub(crate) const MARKER: [u8; 3] = [0xA1, 0xB2, 0xC3];
/// The stroke of a dot: `usvg` keeps it for its round ends, a needle can't sew it.
pub(crate) const DOT: [u8; 3] = [0xD4, 0xE5, 0xF6];

pub(crate) struct Drawing {
    pub(crate) dice: Dice,
    pub(crate) hand: Hand,
    pub(crate) quote: char,
    pub(crate) prefix: &'static str,
    pub(crate) indent: bool,
    pub(crate) body: String,
    pub(crate) css: String,
    pub(crate) defs: String,
    pub(crate) size: f64,
    pub(crate) next: usize,
    pub(crate) depth: usize,
    /// Shapes in what is not displayed are not counted.
    pub(crate) silent: bool,
    /// `usvg` takes percentages in a symbol from the size of the `use`, where SVG 2, section 8.9,
    /// takes the symbol's viewBox.
    pub(crate) no_percent: bool,
    pub(crate) layer: Option<String>,
    pub(crate) known: Known,
}

impl Drawing {
    pub(crate) fn make(seed: u64) -> (String, Known) {
        let mut dice = Dice::new(seed);
        let hand = Hand::new(&mut dice);
        let mut drawing = Self {
            quote: dice.pick(&['"', '"', '"', '\'']),
            prefix: dice.pick(&["", "", "", "", "s:"]),
            indent: !dice.once_in(4),
            size: dice.pick(&[40.0, 100.0, 300.0, 1000.0]),
            hand,
            dice,
            body: String::new(),
            css: String::new(),
            defs: String::new(),
            next: 0,
            depth: 0,
            silent: false,
            no_percent: false,
            layer: None,
            known: Known::default(),
        };
        let text = drawing.whole();
        (text, drawing.known)
    }

    fn whole(&mut self) -> String {
        // Its place tells where the origin of the page is.
        self.line(
            "path",
            &[
                ("id", "mark"),
                ("d", "M0 0H1V1"),
                ("fill", "none"),
                ("stroke", "black"),
            ],
        );
        self.known.seen.push("mark".to_owned());
        if self.dice.once_in(3) {
            self.page_box();
        }
        let layers = self.dice.below(4);
        for _ in 0..3 + self.dice.below(4) {
            self.piece();
        }
        for at in 0..layers {
            self.labelled(at);
        }
        self.decoration();
        super::page::page(self)
    }

    // What `page` needs.

    pub(crate) fn parts(&mut self) -> (&mut Dice, &str, &str, &str, f64) {
        (&mut self.dice, &self.body, &self.css, &self.defs, self.size)
    }

    pub(crate) fn style(&self) -> (char, &'static str, bool) {
        (self.quote, self.prefix, self.indent)
    }

    pub(crate) fn made(&mut self, what: &'static str) {
        *self.known.made.entry(what).or_default() += 1;
    }

    // Writing.

    fn blank(&mut self) {
        if self.indent {
            self.body.push('\n');
            for _ in 0..=self.depth {
                self.body.push_str("  ");
            }
        }
    }

    pub(crate) fn start(&mut self, tag: &str, attributes: &[(&str, &str)], end: &str) {
        self.blank();
        let (prefix, quote) = (self.prefix, self.quote);
        let _ = write!(self.body, "<{prefix}{tag}");
        for (name, value) in attributes {
            let value = value.replace('&', "&amp;").replace('<', "&lt;");
            let value = value.replace(quote, if quote == '"' { "&quot;" } else { "&apos;" });
            let between = if self.indent {
                self.dice.pick(&[" ", " ", "\n  "])
            } else {
                " "
            };
            let _ = write!(self.body, "{between}{name}={quote}{value}{quote}");
        }
        self.body.push_str(end);
    }

    pub(crate) fn line(&mut self, tag: &str, attributes: &[(&str, &str)]) {
        let end = self.dice.pick(&["/>", " />"]);
        self.start(tag, attributes, end);
    }

    pub(crate) fn inside(
        &mut self,
        tag: &str,
        attributes: &[(&str, &str)],
        make: impl FnOnce(&mut Self),
    ) {
        self.start(tag, attributes, ">");
        self.depth += 1;
        make(self);
        self.depth -= 1;
        self.blank();
        let _ = write!(self.body, "</{}{tag}>", self.prefix);
    }

    /// Makes something in the definitions instead of where it stands.
    pub(crate) fn aside(&mut self, make: impl FnOnce(&mut Self)) {
        let body = std::mem::take(&mut self.body);
        make(self);
        let made = std::mem::replace(&mut self.body, body);
        self.defs.push_str(&made);
    }

    pub(crate) fn fresh(&mut self, kind: &str) -> String {
        self.next += 1;
        format!("{kind}{}", self.next)
    }

    pub(crate) fn see(&mut self, id: &str) {
        if self.silent {
            return;
        }
        self.known.seen.push(id.to_owned());
        if let Some(layer) = &self.layer {
            let ids = self.known.layers.entry(layer.clone()).or_default();
            ids.push(id.to_owned());
        }
    }

    pub(crate) fn note(&mut self, words: &'static str) {
        if !self.silent {
            *self.known.noted.entry(words).or_default() += 1;
        }
    }

    pub(crate) fn number(&mut self, from: f64, to: f64) -> String {
        let value = self.dice.between(from, to);
        self.hand.number(&mut self.dice, value)
    }
}
