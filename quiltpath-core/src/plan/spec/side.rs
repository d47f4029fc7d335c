//! What a plan asks of a border's sides: the pattern of mirrored repeats, and what it can't have.

use super::{AlternateSpec, BorderSpec, BySide, CornerStyle, SideSpec};
use crate::chain::{Alternate, Repeat};
use crate::error::Error;
use crate::fit::Count;
use crate::plan::Side;

impl SideSpec {
    /// Sides with this repeat, everything else left to its default.
    #[must_use]
    pub fn of(motif: impl Into<String>) -> Self {
        Self {
            motif: motif.into(),
            every: None,
            parity: None,
            repeats: None,
            opposite_alike: None,
            alternate: None,
            ease: None,
            ends: None,
            link_gaps: None,
        }
    }

    /// The numbers of repeats that are asked for on a side, whatever the pattern.
    pub(crate) fn asked(&self, side: Side) -> Count {
        let fixed = self
            .repeats
            .as_ref()
            .and_then(|repeats| repeats.get(side))
            .copied();
        Count {
            every: self.every.unwrap_or(1),
            parity: self.parity.map_or_else(Default::default, Into::into),
            fixed,
        }
    }

    /// Refuses numbers of repeats that a ring of so many sides or the pattern can't have.
    pub(crate) fn check(&self, sides: usize) -> Result<(), Error> {
        if let Some(repeats) = &self.repeats {
            repeats.check(sides).map_err(|e| e.in_element("repeats"))?;
        }
        let pattern = self.alternate.map_or(Alternate::None, Into::into);
        for side in Side::all(sides) {
            let asked = self.asked(side);
            let key = match (&self.repeats, asked.fixed) {
                (_, None) => "parity".to_owned(),
                (Some(BySide::One(_)), _) => "repeats".to_owned(),
                _ => format!("repeats.{}", side.name()),
            };
            pattern.count(asked).map_err(|e| e.in_element(key))?;
        }
        Ok(())
    }
}

impl BorderSpec {
    /// Which repeats of a side are mirrored.
    ///
    /// A centred side between mitred corners has its first half mirrored, so that it goes on as
    /// the corner's leg does.
    #[must_use]
    pub fn pattern(&self) -> Alternate {
        match self.side.alternate {
            None => Alternate::None,
            Some(AlternateSpec::Centred) if self.corner.style == CornerStyle::Mitred => {
                Alternate::CentredFirst
            }
            Some(other) => other.into(),
        }
    }

    /// The numbers of repeats that are allowed on a side.
    pub(crate) fn count(&self, side: Side) -> Count {
        let asked = self.side.asked(side);
        // What the pattern can't have was refused by `check`, before anything was solved.
        self.pattern().count(asked).unwrap_or(asked)
    }

    /// The offsets across at which a side starts and ends, before its number of repeats is known.
    pub(crate) fn ports(&self, repeat: &Repeat) -> [f64; 2] {
        match self.pattern() {
            pattern if pattern.is_centred() => repeat.chain_offsets(pattern, 2),
            _ => repeat.offsets(None),
        }
    }
}
