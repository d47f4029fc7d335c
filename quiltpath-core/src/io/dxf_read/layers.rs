//! The layers of a DXF: which there are, which are shown, which are read.
//!
//! Names are the same in capitals and small letters. A layer that entities name and no table lists
//! is one like any other.

use std::collections::HashMap;

use super::pairs::Record;
use super::text::name;
use crate::error::{DxfFault, Error};

/// The layer that entities of a block leave to who inserts it.
pub(super) const ZERO: usize = 0;

/// How many names an error lists.
const MAX_LISTED: usize = 20;

#[derive(Debug)]
pub(super) struct Layer {
    pub(super) name: String,
    pub(super) off: bool,
    pub(super) frozen: bool,
    pub(super) dashed: bool,
}

#[derive(Debug)]
pub(super) struct Layers {
    all: Vec<Layer>,
    places: HashMap<String, usize>,
}

impl Layers {
    pub(super) fn new() -> Self {
        let mut layers = Self {
            all: Vec::new(),
            places: HashMap::new(),
        };
        layers.place("0");
        layers
    }

    /// The number of the layer with this name, as it is written.
    pub(super) fn place(&mut self, written: &str) -> usize {
        // Most files write a name as the table has it.
        if let Some(&place) = self.places.get(written) {
            return place;
        }
        let name = name(written);
        let key = key(&name);
        let place = self.places.get(&key).copied().unwrap_or_else(|| {
            self.all.push(Layer {
                name,
                off: false,
                frozen: false,
                dashed: false,
            });
            self.all.len() - 1
        });
        self.places.insert(key, place);
        self.places.insert(written.to_owned(), place);
        place
    }

    /// Takes a record `LAYER` of the table.
    pub(super) fn read(&mut self, record: &Record<'_>) -> Result<(), Error> {
        let Some(written) = record.text(2) else {
            return Ok(());
        };
        let place = self.place(written);
        let [flags, colour] = record.numbers([70, 62])?;
        let layer = &mut self.all[place];
        layer.frozen = flags.unwrap_or_default() as i64 & 1 != 0;
        layer.off = colour.unwrap_or_default() < 0.0;
        layer.dashed = record.text(6).is_some_and(is_dashed);
        Ok(())
    }

    /// Which layers these names choose; all where there are none.
    pub(super) fn chosen(&self, names: &[String]) -> Result<Vec<bool>, Error> {
        let mut chosen = vec![names.is_empty(); self.all.len()];
        for wanted in names {
            let Some(&place) = self.places.get(&key(wanted)) else {
                let layers = self.all.iter().take(MAX_LISTED);
                return Err(DxfFault::NoLayer {
                    name: wanted.clone(),
                    layers: layers.map(|layer| layer.name.clone()).collect(),
                }
                .into());
            };
            chosen[place] = true;
        }
        Ok(chosen)
    }
}

impl std::ops::Index<usize> for Layers {
    type Output = Layer;

    fn index(&self, place: usize) -> &Layer {
        &self.all[place]
    }
}

/// True for the name of a line type that is not drawn through.
pub(super) fn is_dashed(linetype: &str) -> bool {
    let whole = ["", "CONTINUOUS", "BYLAYER", "BYBLOCK"];
    !whole.iter().any(|name| linetype.eq_ignore_ascii_case(name))
}

/// The name as names are compared.
pub(super) fn key(name: &str) -> String {
    name.to_uppercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_the_same_in_any_case() {
        let mut layers = Layers::new();
        let leaf = layers.place("Bl\u{e4}tter");
        assert_eq!(layers.place("BL\\U+00C4TTER"), leaf);
        assert_eq!(layers.place("0"), ZERO);
        let names = |names: &[&str]| names.iter().map(ToString::to_string).collect::<Vec<_>>();
        assert_eq!(layers.chosen(&[]).expect("all"), [true, true]);
        let one = layers.chosen(&names(&["bl\u{e4}tter"])).expect("known");
        assert_eq!(one, [false, true]);
        let error = layers.chosen(&names(&["guides"])).expect_err("unknown");
        assert_eq!(
            error.to_string(),
            "no layer is called \"guides\"; there are \"0\", \"Bl\u{e4}tter\""
        );
    }
}
