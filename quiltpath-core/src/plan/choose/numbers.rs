//! The number of repeats of each side, by what is allowed there.

use crate::error::Error;
use crate::fit::{Choice, Count, SpanFit, fit_span};
use crate::plan::repeats::Repeats;
use crate::plan::spans::SideSpan;

/// The whole number of repeats that fits each span best, by its count, with its neighbours; one
/// beyond the limit of the stretch, a fraction either way, only where no other is within it.
///
/// Numbers go by the ratio, the limit by percent: 5 repeats at +9.2 % are nearer to 1 than 6 at
/// -9.0 %, but of the two only the latter is within 9 %.
pub(in crate::plan) fn fits(
    spans: &[SideSpan],
    counts: &[Count],
    repeats: &Repeats,
    max_stretch: f64,
) -> Result<Vec<SpanFit>, Error> {
    let fit = |(span, count): (&SideSpan, &Count)| {
        let pitch = repeats.of(span.side)?.pitch(span.depth());
        let room = repeats.room(span.side, span.size(), count.fixed)?;
        fit_within(room, pitch, count, max_stretch)
            .map_err(|e| e.in_element(format!("side, {}", span.side.name())))
    };
    spans.iter().zip(counts).map(fit).collect()
}

fn fit_within(span: f64, pitch: f64, count: &Count, max_stretch: f64) -> Result<SpanFit, Error> {
    let fit = fit_span(span, pitch, count)?;
    let within = |choice: &Choice| (choice.stretch - 1.0).abs() <= max_stretch;
    if count.fixed.is_some() || within(&fit.chosen) {
        return Ok(fit);
    }
    match [fit.fewer, fit.more].into_iter().flatten().find(within) {
        Some(other) => fit_span(span, pitch, &count.with_fixed(other.repeats)),
        None => Ok(fit),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_number_within_the_limit_goes_before_a_nearer_one_beyond_it() {
        let chosen = |limit| {
            let fit = fit_within(5.46, 1.0, &Count::default(), limit).expect("a fit");
            fit.chosen.repeats
        };
        assert_eq!((chosen(0.0901), chosen(0.1), chosen(0.05)), (6, 5, 5));
    }

    proptest! {
        #[test]
        fn none_is_beyond_the_limit_while_another_is_within(span in 0.5..60.0f64, limit in 0.01..0.5f64, every in 1..4usize) {
            let fit = fit_within(span, 1.0, &Count::default().with_every(every), limit).expect("a fit");
            let within = |repeats: usize| (span / repeats as f64 - 1.0).abs() <= limit;
            if !within(fit.chosen.repeats) {
                prop_assert!(!(1..200).map(|number| number * every).any(within));
            }
        }
    }
}
