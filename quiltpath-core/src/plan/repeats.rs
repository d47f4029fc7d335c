//! The repeats of a border: one design for all sides, or one for each side that has one.

use super::lay::place::Side;
use super::middle::{Middle, SpacerAsked};
use crate::chain::Repeat;
use crate::error::{Error, PlanFault};
use crate::fit::Count;

/// The designs of a border's sides.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Repeats {
    designs: Vec<Repeat>,
    /// The number of each side's design; `None` where a side stays plain.
    of: Vec<Option<usize>>,
    /// What lies in the middle of each side; none beyond the end.
    middles: Vec<Option<Middle>>,
}

impl Repeats {
    /// Designs, and the number of the one that each side has.
    pub(in crate::plan) fn new(designs: Vec<Repeat>, of: Vec<Option<usize>>) -> Self {
        Self {
            designs,
            of,
            middles: Vec::new(),
        }
    }

    /// The same repeats round these middles of the sides.
    pub(in crate::plan) fn with_middles(mut self, middles: Vec<Option<Middle>>) -> Self {
        self.middles = middles;
        self
    }

    /// What lies in the middle of a side.
    pub(in crate::plan) fn middle(&self, side: Side) -> Option<&Middle> {
        self.middles.get(side.index())?.as_ref()
    }

    /// Whether a side's repeats keep their proportions, since a spacer takes the rest.
    pub(in crate::plan) fn keep_proportions(&self, side: Side) -> bool {
        let spacer = self.middle(side).map(|middle| middle.spacer);
        spacer == Some(SpacerAsked::Rest)
    }

    /// Whether something lies in the middle of any side.
    pub(in crate::plan) fn has_middles(&self) -> bool {
        self.middles.iter().any(Option::is_some)
    }

    /// The numbers of repeats that a side of this length and depth may have among those that are
    /// allowed.
    pub(in crate::plan) fn count(
        &self,
        side: Side,
        size: (f64, f64),
        allowed: Count,
    ) -> Result<Count, Error> {
        match self.middle(side) {
            Some(middle) => middle.count(side, size, self.of(side)?.pitch(size.1), allowed),
            None => Ok(allowed),
        }
    }

    /// How much of the length of a side of this length and depth so many repeats have, or any
    /// number where it is `None`.
    pub(in crate::plan) fn room(
        &self,
        side: Side,
        size: (f64, f64),
        repeats: Option<usize>,
    ) -> Result<f64, Error> {
        match self.middle(side) {
            Some(middle) => middle.room(side, size, self.of(side)?.pitch(size.1), repeats),
            None => Ok(size.0),
        }
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
