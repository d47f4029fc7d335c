//! Path data as editors write it: every command, written loosely or as tightly as the grammar of
//! SVG 2, section 9.3.9, allows.

use super::dice::Dice;

/// How numbers and what is between them are written.
#[derive(Clone, Copy)]
pub(crate) struct Hand {
    pub(crate) decimals: usize,
    /// No zero before the point, no space that isn't needed.
    pub(crate) tight: bool,
    pub(crate) exponents: bool,
    pub(crate) plus_signs: bool,
    pub(crate) between: &'static str,
    /// Of four commands, how many are relative.
    pub(crate) relative: usize,
}

impl Hand {
    pub(crate) fn new(dice: &mut Dice) -> Self {
        Self {
            decimals: dice.pick(&[0, 1, 2, 3, 3, 4, 6, 8]),
            tight: dice.once_in(2),
            exponents: dice.once_in(4),
            plus_signs: dice.once_in(6),
            between: dice.pick(&[" ", ",", ", ", " , ", "  ", "\n", "\t"]),
            relative: dice.pick(&[0, 1, 2, 3, 4, 4]),
        }
    }

    pub(crate) fn number(&self, dice: &mut Dice, value: f64) -> String {
        let mut text = if self.exponents && dice.once_in(3) {
            let text = format!("{:.*e}", self.decimals.max(2), value);
            match dice.below(3) {
                0 => text.replace('e', "E"),
                1 if !text.contains("e-") => text.replace('e', "e+"),
                _ => text,
            }
        } else {
            format!("{value:.*}", self.decimals)
        };
        if self.tight {
            text = text.replacen("-0.", "-.", 1);
            if text.starts_with("0.") {
                text.remove(0);
            }
        }
        if self.plus_signs && !text.starts_with('-') && dice.once_in(3) {
            text.insert(0, '+');
        }
        text
    }
}

/// A text of commands that grows.
struct Data<'a> {
    dice: &'a mut Dice,
    hand: Hand,
    text: String,
    command: char,
    /// The number before, where one can be glued to it only with care.
    before: Option<String>,
    after_flag: bool,
}

impl Data<'_> {
    /// Writes a command, or leaves it out where the one before goes on.
    fn command(&mut self, command: char) {
        let goes_on = match self.command {
            'M' => command == 'L',
            'm' => command == 'l',
            'Z' | 'z' => false,
            known => command == known,
        };
        if goes_on && self.dice.once_in(2) {
            return;
        }
        if !self.hand.tight && !self.text.is_empty() {
            self.text.push_str(self.dice.pick(&[" ", "\n", ""]));
        }
        self.text.push(command);
        if !self.hand.tight {
            self.text.push_str(self.dice.pick(&[" ", "", "\t"]));
        }
        self.command = command;
        self.before = None;
        self.after_flag = false;
    }

    fn put(&mut self, text: String) {
        if let Some(before) = &self.before {
            let signed = text.starts_with(['-', '+']);
            let pointed = text.starts_with('.') && before.contains(['.', 'e', 'E']);
            if !(self.hand.tight && (signed || pointed)) {
                // `usvg` stops at a blank and a comma after a flag, which the grammar allows.
                let comma = self.after_flag && self.hand.between.contains(',');
                let between = if comma { "," } else { self.hand.between };
                self.text.push_str(between);
            }
        }
        self.text.push_str(&text);
        self.before = Some(text);
        self.after_flag = false;
    }

    fn numbers(&mut self, values: &[f64]) {
        for &value in values {
            let text = self.hand.number(self.dice, value);
            self.put(text);
        }
    }

    /// A flag is one digit, so whatever comes next may be glued to it.
    fn flag(&mut self) {
        let flag = self.dice.pick(&["0", "1"]);
        self.put(flag.to_owned());
        self.after_flag = true;
        if self.hand.tight {
            self.before = None;
        }
    }
}

/// Path data of one to three subpaths within about `size` of the origin.
pub(crate) fn path_data(dice: &mut Dice, hand: Hand, size: f64) -> String {
    let subpaths = dice.pick(&[1, 1, 1, 2, 3]);
    let mut data = Data {
        dice,
        hand,
        text: String::new(),
        command: ' ',
        before: None,
        after_flag: false,
    };
    for _ in 0..subpaths {
        subpath(&mut data, size);
    }
    let mut text = data.text;
    if dice.once_in(8) {
        text = format!(" {text}\n");
    }
    text
}

fn subpath(data: &mut Data<'_>, size: f64) {
    let closed_before = matches!(data.command, 'Z' | 'z');
    let mut relative = data.dice.below(4) < data.hand.relative;
    // After a closing command one may draw on from where the subpath began.
    if !(closed_before && data.dice.once_in(2)) {
        data.command(if relative { 'm' } else { 'M' });
        let at = [data.dice.between(0.0, size), data.dice.between(0.0, size)];
        data.numbers(&at);
    }
    let segments = 2 + data.dice.below(8);
    for at in 0..segments {
        if data.dice.once_in(3) {
            relative = data.dice.below(4) < data.hand.relative;
        }
        // The first is a curve, so that what is only filled has an inside.
        let kinds: &[u8] = if at == 0 { b"CQ" } else { b"LLHVCCSSQTTA" };
        let kind = data.dice.pick(kinds);
        segment(data, kind, relative, size);
    }
    if data.dice.once_in(3) {
        let close = data.dice.pick(&['Z', 'z']);
        data.command(close);
    }
}

fn segment(data: &mut Data<'_>, kind: u8, relative: bool, size: f64) {
    let command = char::from(kind);
    let command = if relative {
        command.to_ascii_lowercase()
    } else {
        command
    };
    data.command(command);
    let (from, to) = if relative {
        (-0.3 * size, 0.3 * size)
    } else {
        (0.0, size)
    };
    let mut some =
        |count: usize| -> Vec<f64> { (0..count).map(|_| data.dice.between(from, to)).collect() };
    match kind {
        b'H' | b'V' => {
            let to = some(1);
            data.numbers(&to);
        }
        b'C' => {
            let to = some(6);
            data.numbers(&to);
        }
        b'S' | b'Q' => {
            let to = some(4);
            data.numbers(&to);
        }
        b'A' => {
            let to = some(2);
            let radii = [
                data.dice.between(0.05 * size, 0.5 * size),
                data.dice.between(0.05 * size, 0.5 * size),
            ];
            let radii = if data.dice.once_in(2) {
                [radii[0]; 2]
            } else {
                radii
            };
            let turn = data.dice.pick(&[0.0, 0.0, 30.0, -45.0, 90.0, 123.0]);
            data.numbers(&[radii[0], radii[1], turn]);
            data.flag();
            data.flag();
            data.numbers(&to);
        }
        _ => {
            let to = some(2);
            data.numbers(&to);
        }
    }
}
