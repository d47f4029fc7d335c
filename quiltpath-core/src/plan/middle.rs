//! What lies in the middle of a side, between two groups of as many repeats each: a centre motif as
//! large as the band makes it, plain spacers, or a centre between two spacers.
//!
//! Problem: a side of length L at depth d holds n repeats of pitch p·d, n even, and a middle of
//! length m(d) = c·d + k·s: a centre of pitch c, never stretched, and k spacers of length s each,
//! one alone or one at either side of a centre. Method: the repeats have L − m(d) for themselves,
//! so a side stays a straight line in the depth, and numbers and depth are chosen as on any other.
//! A spacer that takes the rest makes it the other way round: n is the greatest even number with
//! n·p·d ≤ L − c·d, the repeats keep their proportions, and s is what is left. Guarantee: the
//! middle of the middle is the middle of the side. Failure: no room for two repeats.

use super::lay::place::Side;
use crate::chain::Repeat;
use crate::error::{Error, PlanFault};
use crate::fit::{Choice, Count, choices_around};

/// Repeats may be longer than their room by this share: rounding.
const ROUNDING: f64 = 1e-9;

/// A share of a side that is less leaves repeats no room.
const LEAST_ROOM: f64 = 1e-6;

/// How long a spacer is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::plan) enum SpacerAsked {
    /// So long, in millimetres; 0 where there is none.
    Given(f64),
    /// What the repeats leave when they keep their proportions.
    Rest,
}

/// The middle of a side.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Middle {
    pub(in crate::plan) centre: Option<Repeat>,
    pub(in crate::plan) spacer: SpacerAsked,
}

/// The middle of a side as it comes to lie.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct MiddleDetail {
    /// The length of the centre motif along the band, in millimetres; 0 where there is none.
    pub centre: f64,
    /// The length of each spacer: the one between the repeats, or those on either side of the
    /// centre motif.
    pub spacer: f64,
}

impl MiddleDetail {
    /// How many spacers there are.
    fn spacers(&self) -> f64 {
        if self.centre > 0.0 { 2.0 } else { 1.0 }
    }

    /// What it leaves of a length.
    fn left_of(&self, length: f64) -> f64 {
        length - self.centre - self.spacers() * self.spacer
    }

    /// The length of all of it, in millimetres.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.centre + self.spacers() * self.spacer
    }
}

impl Middle {
    /// The length of the centre in a band of this depth.
    fn centre_length(&self, depth: f64) -> f64 {
        let centre = self.centre.as_ref();
        centre.map_or(0.0, |centre| centre.pitch(depth))
    }

    /// The middle of a stretch of so much length in a band of this depth, in which the repeats have
    /// so much room.
    pub(in crate::plan) fn detail(&self, length: f64, depth: f64, room: f64) -> MiddleDetail {
        let mut detail = MiddleDetail {
            centre: self.centre_length(depth),
            spacer: 0.0,
        };
        detail.spacer = ((length - detail.centre - room) / detail.spacers()).max(0.0);
        detail
    }

    /// The numbers of repeats of this pitch that are allowed beside it: one alone where a spacer
    /// takes the rest.
    ///
    /// # Errors
    ///
    /// A plan error when there is no room for the least of them.
    pub(in crate::plan) fn count(
        &self,
        side: Side,
        (length, depth): (f64, f64),
        pitch: f64,
        allowed: Count,
    ) -> Result<Count, Error> {
        if self.spacer != SpacerAsked::Rest || allowed.fixed.is_some() {
            return Ok(allowed);
        }
        let centre = self.centre_length(depth);
        // No room for one is none for two, which are the fewest.
        let room = (length - centre).max(pitch);
        let choices = choices_around(room, pitch, &allowed, 1)?;
        match as_drawn(&choices) {
            Some(most) => Ok(allowed.with_fixed(most.repeats)),
            None => {
                let least = choices.first().map_or(0, |least| least.repeats);
                Err(no_room(side, centre, length, pitch * least as f64))
            }
        }
    }

    /// The length that so many repeats of this pitch have beside it, or any number where it is
    /// `None`.
    ///
    /// # Errors
    ///
    /// A plan error when it leaves no room.
    pub(in crate::plan) fn room(
        &self,
        side: Side,
        (length, depth): (f64, f64),
        pitch: f64,
        repeats: Option<usize>,
    ) -> Result<f64, Error> {
        let centre = self.centre_length(depth);
        let room = match (self.spacer, repeats) {
            (SpacerAsked::Given(spacer), _) => MiddleDetail { centre, spacer }.left_of(length),
            (SpacerAsked::Rest, Some(repeats)) => (length - centre).min(repeats as f64 * pitch),
            (SpacerAsked::Rest, None) => length - centre,
        };
        match room > LEAST_ROOM * length {
            true => Ok(room),
            false => Err(no_room(side, length - room, length, 2.0 * pitch)),
        }
    }
}

/// Of rising numbers of repeats the greatest whose repeats have room as they are drawn.
pub(in crate::plan) fn as_drawn(choices: &[Choice]) -> Option<&Choice> {
    choices
        .iter()
        .rfind(|choice| choice.stretch >= 1.0 - ROUNDING)
}

fn no_room(side: Side, middle: f64, span: f64, repeats: f64) -> Error {
    let side = side.to_string();
    let fault = PlanFault::MiddleTooLong {
        side,
        middle,
        repeats,
        span,
    };
    Error::from(fault).in_element("side")
}
