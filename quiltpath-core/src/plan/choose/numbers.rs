//! The number of repeats of each side, by what is allowed there.

use crate::chain::Repeat;
use crate::error::Error;
use crate::fit::{Count, SpanFit, fit_span};
use crate::plan::spans::SideSpan;

/// The whole number of repeats that fits each side best, with its neighbours.
pub(in crate::plan) fn fits(
    spans: &[SideSpan],
    counts: &[Count],
    repeat: &Repeat,
) -> Result<Vec<SpanFit>, Error> {
    let fit = |(span, count): (&SideSpan, &Count)| {
        fit_span(span.length(), repeat.pitch(span.depth()), count)
            .map_err(|e| e.in_element(format!("side, {}", span.side.name())))
    };
    spans.iter().zip(counts).map(fit).collect()
}
