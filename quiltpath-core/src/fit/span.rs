//! How many whole repeats fill one span, and how much each is stretched.
//!
//! Problem: with r = span / pitch of one repeat at its proportions, choose a whole n from the
//! allowed ones so that the stretch r/n is as near to 1 as possible, that is |ln(r/n)| is least
//! (stretching to twice the length is as bad as squeezing to half of it).
//! Method: |ln(r/n)| falls while n < r and rises afterwards, so only the allowed neighbours
//! a ≤ r < b matter, and b is better exactly when r/a > b/r, that is r > √(a·b).
//! Guarantee: optimal among all allowed n; a tie goes to the fewer repeats.
//! Failure: no allowed n (a contradiction such as an odd multiple of 2), a span that is not above
//! 0, or more than 100 000 repeats, which only wrong units bring about.

use crate::error::{Error, FitFault};

/// The most repeats that one span may hold: 100 000.
pub(crate) const MAX_REPEATS: usize = 100_000;

/// Whether the number of repeats has to be even or odd.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum Parity {
    /// Any number.
    #[default]
    Any,
    /// An even number.
    Even,
    /// An odd number.
    Odd,
}

/// Which numbers of repeats are allowed; any by default.
///
/// ```
/// use quiltpath_core::fit::{Count, Parity};
///
/// let odd_multiples_of_3 = Count::default().with_every(3).with_parity(Parity::Odd);
/// let twelve = Count::default().with_fixed(12);
/// # let _ = (odd_multiples_of_3, twelve);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Count {
    /// The number has to be a multiple of this; from 1 to 100 000.
    pub every: usize,
    /// Whether it has to be even or odd.
    pub parity: Parity,
    /// Exactly this number, from 1 to 100 000, when given; it goes before the other two.
    pub fixed: Option<usize>,
}

impl Count {
    /// The same, for multiples of this number.
    #[must_use]
    pub fn with_every(mut self, every: usize) -> Self {
        self.every = every;
        self
    }

    /// The same, for even or odd numbers.
    #[must_use]
    pub fn with_parity(mut self, parity: Parity) -> Self {
        self.parity = parity;
        self
    }

    /// The same, for exactly this number; `None` for any that the rest allows.
    #[must_use]
    pub fn with_fixed(mut self, fixed: impl Into<Option<usize>>) -> Self {
        self.fixed = fixed.into();
        self
    }
}

impl Default for Count {
    fn default() -> Self {
        Self {
            every: 1,
            parity: Parity::Any,
            fixed: None,
        }
    }
}

/// One way to fill a span.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Choice {
    /// The whole number of repeats.
    pub repeats: usize,
    /// Length along the band divided by the length that keeps the motif's proportions.
    pub stretch: f64,
}

/// The best way to fill a span, with its neighbours to choose from.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct SpanFit {
    /// The allowed number with the least stretch, or the fixed one.
    pub chosen: Choice,
    /// The next smaller allowed number, when there is one.
    pub fewer: Option<Choice>,
    /// The next larger allowed number.
    pub more: Option<Choice>,
}

/// Chooses the whole number of repeats that fills the span with the least stretch.
///
/// `span` and `pitch` (how far one repeat of the wanted depth leads along at its proportions)
/// are lengths in one unit, both above 0.
///
/// ```
/// use quiltpath_core::fit::{Count, fit_span};
///
/// let fit = fit_span(38.25, 6.0, &Count::default())?;
/// assert_eq!(fit.chosen.repeats, 6);
/// assert_eq!(fit.chosen.stretch, 1.0625);
/// assert_eq!(fit.more.unwrap().repeats, 7);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A fit error when a length is not above 0, when no number is allowed, or when the best number
/// or the fixed one is above 100 000.
///
/// # Complexity
///
/// O(1).
pub fn fit_span(span: f64, pitch: f64, count: &Count) -> Result<SpanFit, Error> {
    if !(span > 0.0 && span.is_finite()) {
        return Err(FitFault::SpanNotPositive { span }.into());
    }
    if !(pitch > 0.0 && pitch.is_finite()) {
        return Err(FitFault::RepeatHasNoPitch.into());
    }
    let ratio = span / pitch;
    let (first, step) = progression(count)?;
    if ratio > MAX_REPEATS as f64 {
        return Err(FitFault::TooMany {
            count: ratio,
            limit: MAX_REPEATS,
        }
        .into());
    }
    let choice = |repeats: usize| Choice {
        repeats,
        stretch: ratio / repeats as f64,
    };
    let below = if ratio < first as f64 {
        first
    } else {
        first + (ratio as usize - first) / step * step
    };
    let above = below + step;
    let chosen = match count.fixed {
        Some(fixed) => fixed,
        None if ratio > (below as f64 * above as f64).sqrt() => above,
        None => below,
    };
    check_number(chosen)?;
    // A fixed number may lie off the progression; its neighbours are then those that don't.
    let fewer = (chosen > first).then(|| first + (chosen - first - 1) / step * step);
    let more = if chosen < first {
        first
    } else {
        (chosen - first) / step * step + first + step
    };
    Ok(SpanFit {
        chosen: choice(chosen),
        fewer: fewer.map(choice),
        more: (more <= MAX_REPEATS).then(|| choice(more)),
    })
}

/// The allowed numbers of repeats around the best one, and around the fixed one where there is one,
/// rising, each with its stretch: `around` on either side where there are so many.
///
/// ```
/// use quiltpath_core::fit::{Count, choices_around};
///
/// let choices = choices_around(38.25, 6.0, &Count::default().with_every(2), 1)?;
/// let numbers: Vec<usize> = choices.iter().map(|choice| choice.repeats).collect();
/// assert_eq!(numbers, [4, 6, 8]);
/// assert_eq!(choices[1].stretch, 1.0625);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`fit_span`].
///
/// # Complexity
///
/// O(around).
pub fn choices_around(
    span: f64,
    pitch: f64,
    count: &Count,
    around: usize,
) -> Result<Vec<Choice>, Error> {
    let best = fit_span(span, pitch, &count.with_fixed(None))?
        .chosen
        .repeats;
    let (first, step) = progression(count)?;
    let mut numbers = Vec::new();
    for centre in [Some(best), count.fixed].into_iter().flatten() {
        check_number(centre)?;
        // How many allowed numbers lie below; a fixed one may lie between two.
        let below = centre.saturating_sub(first).div_ceil(step);
        let above = centre.saturating_sub(first) / step + usize::from(centre >= first);
        let number = |at: usize| first + at * step;
        numbers.extend((below.saturating_sub(around)..below).map(number));
        numbers.push(centre);
        numbers.extend((above..above + around).map(number));
    }
    numbers.retain(|&repeats| repeats <= MAX_REPEATS);
    numbers.sort_unstable();
    numbers.dedup();
    let choice = |repeats: usize| Choice {
        repeats,
        stretch: span / pitch / repeats as f64,
    };
    Ok(numbers.into_iter().map(choice).collect())
}

/// Refuses a number of repeats beyond the limit.
pub(super) fn check_number(repeats: usize) -> Result<(), Error> {
    let limit = MAX_REPEATS;
    match repeats > limit {
        true => Err(FitFault::NumberTooLarge { repeats, limit }.into()),
        false => Ok(()),
    }
}

/// The allowed numbers as first, first + step, first + 2 step …
pub(super) fn progression(count: &Count) -> Result<(usize, usize), Error> {
    if count.fixed == Some(0) {
        return Err(FitFault::NoRepeats.into());
    }
    match (count.every, count.parity) {
        (every, _) if every == 0 || every > MAX_REPEATS => {
            let limit = MAX_REPEATS;
            Err(FitFault::EveryOutOfRange { every, limit }.into())
        }
        (every, Parity::Any) => Ok((every, every)),
        (every, Parity::Even) if every % 2 == 0 => Ok((every, every)),
        (every, Parity::Even) => Ok((2 * every, 2 * every)),
        (every, Parity::Odd) if every % 2 == 1 => Ok((every, 2 * every)),
        (every, Parity::Odd) => Err(FitFault::OddMultiple { every }.into()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::error::ErrorKind;
    use proptest::prelude::*;

    fn count() -> impl Strategy<Value = Count> {
        let parity = prop::sample::select(vec![Parity::Any, Parity::Even, Parity::Odd]);
        (1usize..6, parity).prop_map(|(every, parity)| Count {
            every,
            parity,
            fixed: None,
        })
    }

    fn allows(count: &Count, n: usize) -> bool {
        n.is_multiple_of(count.every)
            && match count.parity {
                Parity::Any => true,
                Parity::Even => n.is_multiple_of(2),
                Parity::Odd => !n.is_multiple_of(2),
            }
    }

    proptest! {
        #[test]
        fn choices_are_the_nearest_allowed_numbers_on_either_side(
            span in 0.01..500.0f64, pitch in 0.5..20.0f64, count in count(),
            fixed in prop::option::of(1usize..60), around in 0usize..4,
        ) {
            let count = count.with_fixed(fixed);
            let Ok(found) = choices_around(span, pitch, &count, around) else {
                prop_assert!(count.every % 2 == 0 && count.parity == Parity::Odd);
                return Ok(());
            };
            let allowed: Vec<usize> = (1..5000).filter(|&n| allows(&count, n)).collect();
            let cost = |n: usize| (span / pitch / n as f64).ln().abs();
            let best = *allowed.iter().min_by(|&&a, &&b| cost(a).total_cmp(&cost(b))).expect("one");
            let mut wanted = Vec::new();
            for centre in [Some(best), fixed].into_iter().flatten() {
                let mut below: Vec<usize> = allowed.iter().copied().filter(|&n| n < centre).collect();
                below.reverse();
                wanted.extend(below.into_iter().take(around));
                wanted.push(centre);
                wanted.extend(allowed.iter().copied().filter(|&n| n > centre).take(around));
            }
            wanted.sort_unstable();
            wanted.dedup();
            let numbers: Vec<usize> = found.iter().map(|choice| choice.repeats).collect();
            prop_assert_eq!(numbers, wanted);
            for choice in found {
                let filled = choice.stretch * pitch * choice.repeats as f64;
                prop_assert!((filled - span).abs() <= 1e-12 * span);
            }
        }

        #[test]
        fn no_allowed_number_is_better(span in 0.01..500.0f64, pitch in 0.5..20.0f64, count in count()) {
            let allowed = || (1..5000).filter(|&n| allows(&count, n));
            let Ok(fit) = fit_span(span, pitch, &count) else {
                prop_assert!(count.every % 2 == 0 && count.parity == Parity::Odd);
                return Ok(());
            };
            let cost = |n: usize| (span / pitch / n as f64).ln().abs();
            let best = allowed().map(cost).fold(f64::INFINITY, f64::min);
            prop_assert!(allows(&count, fit.chosen.repeats));
            prop_assert!(cost(fit.chosen.repeats) <= best + 1e-12);
            prop_assert_eq!(fit.fewer.map(|c| c.repeats), allowed().take_while(|&n| n < fit.chosen.repeats).last());
            prop_assert_eq!(fit.more.map(|c| c.repeats), allowed().find(|&n| n > fit.chosen.repeats));
            let filled = fit.chosen.stretch * pitch * fit.chosen.repeats as f64;
            prop_assert!((filled - span).abs() <= 1e-12 * span);
        }
    }

    #[test]
    fn where_two_numbers_are_equally_good_the_fewer_repeats_are_taken() {
        // The ratio is the rounded root of the product of two neighbours.
        for (below, above) in [(1, 2), (2, 3), (3, 4), (10, 11)] {
            let ratio = f64::from(below * above).sqrt();
            let fit = fit_span(ratio, 1.0, &Count::default()).expect("fit");
            assert_eq!(fit.chosen.repeats, below as usize);
        }
        let odd = Count {
            parity: Parity::Odd,
            ..Count::default()
        };
        let fit = fit_span(15f64.sqrt(), 1.0, &odd).expect("fit");
        assert_eq!(fit.chosen.repeats, 3);
    }

    #[test]
    fn a_fixed_number_is_taken_and_its_neighbours_are_shown() {
        let count = Count {
            every: 2,
            fixed: Some(5),
            ..Count::default()
        };
        let fit = fit_span(10.0, 1.0, &count).expect("fit");
        let numbers = [fit.fewer, Some(fit.chosen), fit.more].map(|c| c.map(|c| c.repeats));
        assert_eq!(numbers, [Some(4), Some(5), Some(6)]);
        assert_eq!(fit.chosen.stretch, 2.0);
    }

    #[test]
    fn what_can_not_be_filled_is_refused() {
        let plain = Count::default();
        let too_large = |repeats| {
            let limit = MAX_REPEATS;
            ErrorKind::Fit(FitFault::NumberTooLarge { repeats, limit })
        };
        for span in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(fit_span(span, 1.0, &plain).expect_err("no span").is_fit());
        }
        let odd_pairs = Count {
            every: 2,
            parity: Parity::Odd,
            fixed: None,
        };
        let error = fit_span(9.0, 1.0, &odd_pairs).expect_err("contradiction");
        let fault = FitFault::OddMultiple { every: 2 };
        assert_eq!(error.kind(), &ErrorKind::Fit(fault));
        let error = fit_span(1e9, 1e-3, &plain).expect_err("too many");
        assert!(error.to_string().contains("check the units"), "{error}");
        for fixed in [MAX_REPEATS + 1, u32::MAX as usize, usize::MAX] {
            let error = fit_span(9.0, 1.0, &plain.with_fixed(fixed)).expect_err("too many");
            assert_eq!(error.kind(), &too_large(fixed));
            let message = error.to_string();
            assert!(message.starts_with(&format!("{fixed} repeats are asked for; up to 100000 ")));
        }
        let even = plain.with_every(MAX_REPEATS - 1).with_parity(Parity::Even);
        let error = fit_span(9.0, 1.0, &even).expect_err("the least even multiple");
        assert_eq!(error.kind(), &too_large(2 * (MAX_REPEATS - 1)));
        // Of two multiples, the better one lies beyond the limit.
        let error = fit_span(9e4, 1.0, &plain.with_every(6e4 as usize)).expect_err("the better");
        assert_eq!(error.kind(), &too_large(120_000));
        // A number that is given needs no other to be accepted.
        assert_eq!(
            fit_span(9.0, 1.0, &even.with_fixed(Some(7)))
                .expect("7")
                .more,
            None
        );
        let most = fit_span(1e5, 1.0, &plain).expect("the most").chosen.repeats;
        assert_eq!(most, MAX_REPEATS);
        let fit = fit_span(9.0, 1.0, &plain.with_fixed(MAX_REPEATS)).expect("as fixed");
        assert_eq!((fit.chosen.repeats, fit.more), (MAX_REPEATS, None));
    }
}
