//! Which copies of a repeat are mirrored: patterns from copy to copy, split from what a mirror
//! does.
//!
//! A mirrored copy is travelled on in the direction of the band, so one with left and right changed
//! starts at the offset at which the drawing ends. Copies of which one is the other's mirror image
//! therefore meet at one height; where the drawing is sloped at that end, the line turns there.

use crate::error::{Error, FitFault};
use crate::fit::{Count, Parity};
use crate::transform::Mirror;

/// Which repeats are mirrored.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum Alternate {
    /// All repeats are alike.
    #[default]
    None,
    /// Every second repeat has left and right changed; it starts as the one before ended.
    LeftRight,
    /// Every second repeat has inside and outside changed.
    TopBottom,
    /// All repeats of the second half of a side have left and right changed, so that the side turns
    /// round at its middle and is symmetrical about it; takes an even number of repeats.
    /// Between mitred corners it is the first half, so that the side goes on as they do.
    #[cfg_attr(feature = "json", serde(alias = "centered"))]
    Centred,
    /// As `Centred`, with the first half mirrored. A mitred corner ends with a mirrored repeat and
    /// starts with one as drawn, so between two of them this one goes on without a kink. It has no
    /// word in data: a plan asks for `centred` there.
    #[cfg_attr(feature = "json", serde(skip))]
    CentredFirst,
}

impl Alternate {
    /// The mirror of this copy, counted from 0, of so many in all.
    ///
    /// ```
    /// use quiltpath_core::{chain::Alternate, transform::Mirror};
    ///
    /// let mirrors = [0, 1, 2, 3].map(|copy| Alternate::Centred.of_copy(copy, 4));
    /// assert_eq!(mirrors, [None, None, Some(Mirror::LeftRight), Some(Mirror::LeftRight)]);
    /// ```
    #[must_use]
    pub fn of_copy(self, copy: usize, total: usize) -> Option<Mirror> {
        let second_of_two = copy % 2 == 1;
        let second_half = copy >= total.div_ceil(2);
        match self {
            Self::None => None,
            Self::LeftRight => second_of_two.then_some(Mirror::LeftRight),
            Self::TopBottom => second_of_two.then_some(Mirror::TopBottom),
            Self::Centred => second_half.then_some(Mirror::LeftRight),
            Self::CentredFirst => (!second_half).then_some(Mirror::LeftRight),
        }
    }

    /// The numbers of copies that this pattern can have among those that are allowed.
    ///
    /// # Errors
    ///
    /// A fit error when it needs an even number and an odd one is asked for.
    pub fn count(self, allowed: Count) -> Result<Count, Error> {
        if !self.is_centred() {
            return Ok(allowed);
        }
        if let Some(fixed) = allowed.fixed {
            self.check(fixed)?;
        }
        if allowed.parity == Parity::Odd {
            return Err(FitFault::CentredParity.into());
        }
        Ok(Count {
            parity: Parity::Even,
            ..allowed
        })
    }

    /// Whether the copies of one half are mirrored.
    pub(crate) fn is_centred(self) -> bool {
        matches!(self, Self::Centred | Self::CentredFirst)
    }

    /// Refuses a number of copies that the pattern can't have.
    pub(super) fn check(self, repeats: usize) -> Result<(), Error> {
        if self.is_centred() && !repeats.is_multiple_of(2) {
            return Err(FitFault::CentredOdd { repeats }.into());
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::fit_span;
    use proptest::prelude::*;

    const CENTRED: [Alternate; 2] = [Alternate::Centred, Alternate::CentredFirst];

    #[test]
    fn centred_copies_are_each_others_mirror_images_about_the_middle() {
        for total in [2, 4, 10, 36] {
            for centred in CENTRED {
                let of = |copy| centred.of_copy(copy, total);
                for copy in 0..total {
                    assert_ne!(of(copy), of(total - 1 - copy));
                    let first = copy < total / 2;
                    assert_eq!(
                        of(copy).is_some(),
                        first == (centred == Alternate::CentredFirst)
                    );
                }
            }
        }
    }

    #[test]
    fn an_odd_number_is_refused_with_what_is_accepted() {
        let refused = |fixed, parity| {
            let count = Count {
                fixed,
                parity,
                ..Count::default()
            };
            Alternate::Centred
                .count(count)
                .expect_err("odd")
                .to_string()
        };
        assert!(refused(Some(5), Parity::Any).contains("not 5; give 4 or 6"));
        assert!(refused(Some(1), Parity::Odd).contains("not 1; give 2"));
        assert!(refused(None, Parity::Odd).contains("leave the parity out"));
        let odd = Count {
            fixed: Some(5),
            ..Count::default()
        };
        assert_eq!(Alternate::LeftRight.count(odd).expect("any number"), odd);
    }

    #[cfg(feature = "json")]
    #[test]
    fn a_pattern_is_read_in_either_spelling_and_written_in_one() {
        for word in ["\"centred\"", "\"centered\""] {
            let read: Alternate = serde_json::from_str(word).expect("a pattern");
            assert_eq!(read, Alternate::Centred);
        }
        let written = |pattern| serde_json::to_string(&pattern).expect("a word");
        assert_eq!(written(Alternate::Centred), "\"centred\"");
        assert_eq!(written(Alternate::LeftRight), "\"left_right\"");
        assert!(serde_json::from_str::<Alternate>("\"centred_first\"").is_err());
    }

    proptest! {
        #[test]
        fn a_centred_span_takes_an_even_number(ratio in 0.1..90.0f64, every in 1usize..6, even in any::<bool>()) {
            let parity = if even { Parity::Even } else { Parity::Any };
            let count = Count { every, parity, fixed: None };
            let count = Alternate::Centred.count(count).expect("allowed");
            let repeats = fit_span(ratio, 1.0, &count).expect("a fit").chosen.repeats;
            prop_assert!(repeats.is_multiple_of(2) && repeats.is_multiple_of(every));
        }
    }
}
