//! The repeats of a border: one design for all sides, or one for each side that has one.

use super::lay::place::Side;
use crate::chain::Repeat;
use crate::error::{Error, PlanFault};

/// The designs of a border's sides.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Repeats {
    designs: Vec<Repeat>,
    /// The number of each side's design; `None` where a side stays plain.
    of: Vec<Option<usize>>,
}

impl Repeats {
    /// Designs, and the number of the one that each side has.
    pub(in crate::plan) fn new(designs: Vec<Repeat>, of: Vec<Option<usize>>) -> Self {
        Self { designs, of }
    }

    /// The same design on every side that has one.
    pub(in crate::plan) fn alike(repeat: Repeat, sides: &[bool]) -> Self {
        let of = sides.iter().map(|side| side.then_some(0)).collect();
        Self::new(vec![repeat], of)
    }

    /// The designs, each once.
    pub(in crate::plan) fn designs(&self) -> &[Repeat] {
        &self.designs
    }

    /// The number of a side's design among [`designs`](Self::designs).
    pub(in crate::plan) fn number(&self, side: Side) -> Option<usize> {
        self.of.get(side.index()).copied().flatten()
    }

    /// The repeat of a side that is stitched.
    ///
    /// # Errors
    ///
    /// A plan error where the side stays plain.
    pub(in crate::plan) fn of(&self, side: Side) -> Result<&Repeat, Error> {
        let own = self
            .number(side)
            .and_then(|number| self.designs.get(number));
        own.ok_or_else(|| {
            PlanFault::NotThere {
                what: "design of side",
                number: side.index(),
                count: self.designs.len(),
            }
            .into()
        })
    }

    /// The one design of all sides, from which corners of this style are made.
    ///
    /// # Errors
    ///
    /// A plan error where the sides have none, or have different ones.
    pub(in crate::plan) fn shared(&self, style: &'static str) -> Result<&Repeat, Error> {
        match self.designs.as_slice() {
            [] => Err(PlanFault::NoRepeat { style }.into()),
            [design] => Ok(design),
            [one, other, ..] => Err(PlanFault::MixedRepeats {
                style,
                names: [one.name(), other.name()].map(str::to_owned),
            }
            .into()),
        }
    }
}
