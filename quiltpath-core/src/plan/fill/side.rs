//! The repeats of one side: eased where the plan asks for it, and chained along its span.
//!
//! How stiff a repeat is along its length is found once for a border; the map that puts a side's
//! stretch into the stems is made for each side, since each has a stretch of its own.

use std::borrow::Cow;

use super::middle::chain_around;
use crate::chain::{ChainOptions, MAX_POINTS, Repeat};
use crate::error::{Error, FitFault};
use crate::fit::{EaseReport, SpanFit, Stiffness};
use crate::geom::Point;
use crate::plan::chained;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::laid::Border;
use crate::plan::piece::{PieceLine, SideDetail};
use crate::plan::spans::SideSpan;

/// A turn where a repeat meets another is reported from this many degrees on: our own choice.
const LEAST_REPEAT_KINK_DEGREES: f64 = 20.0;

/// A turn where a repeat meets its mirror image is reported from this many degrees on: our own
/// choice.
const LEAST_KINK_DEGREES: f64 = 10.0;

/// A side filled with repeats.
#[derive(Debug, Clone)]
pub(in crate::plan) struct FilledSide {
    pub(in crate::plan) line: PieceLine,
    pub(in crate::plan) detail: SideDetail,
    /// What of it is stitched, as shares of its length.
    pub(in crate::plan) stretches: Vec<[f64; 2]>,
}

/// Fills a side of a border; `points` is how many points the sides before it have.
///
/// # Complexity
///
/// O(points written).
pub(in crate::plan) fn fill_side(
    border: &Border<'_>,
    span: &SideSpan,
    fit: SpanFit,
    stiffness: &[Stiffness],
    points: usize,
) -> Result<(FilledSide, Vec<Finding>), Error> {
    let in_side = |e: Error| e.in_element(format!("side, {}", span.side.name()));
    let tolerances = border.tolerances;
    let (repeat, ease) = eased(border, span, fit.chosen.stretch, stiffness).map_err(in_side)?;
    let options = ChainOptions {
        repeats: fit.chosen.repeats,
        alternate: border.asked.side.pattern,
        ends: border.asked.side.ends,
        join_tolerance: tolerances.join,
        flattening: tolerances.flattening,
    };
    check_room(points, options.repeats, &repeat).map_err(in_side)?;
    let room = room(border, span, &fit)?;
    let (chain, middle) = match border.repeats.middle(span.side) {
        None => (span.chain(&repeat, &options).map_err(in_side)?, None),
        Some(middle) => {
            let all = (0..options.repeats, span.terminals());
            let chain = chain_around(span, (&repeat, &options), middle, all, room);
            let (chain, detail) = chain.map_err(in_side)?;
            (chain, Some(detail))
        }
    };
    let across = span.depth() / repeat.drawn_depth();
    let detail = SideDetail {
        side: span.side,
        fit,
        span: span.length(),
        pitch: room / fit.chosen.repeats as f64,
        scale: [fit.chosen.stretch * across, across],
        middle,
        levelled: chain.levelled,
        links: chain.links,
        kink_degrees: chain.kink_degrees.max(chain.repeat_kink_degrees),
        ease,
    };
    let kinks = [chain.kink_degrees, chain.repeat_kink_degrees];
    let findings = found(border, &detail, kinks, chain.motif.start().point);
    let side = FilledSide {
        line: PieceLine::new(chain.motif, chain.ends),
        detail,
        stretches: Vec::new(),
    };
    Ok((side, findings))
}

/// The length that the repeats of a side have.
pub(super) fn room(border: &Border<'_>, span: &SideSpan, fit: &SpanFit) -> Result<f64, Error> {
    let repeats = Some(fit.chosen.repeats);
    border.repeats.room(span.side, span.size(), repeats)
}

/// How stiff each repeat of a border is along its length; none unless the plan asks for ease.
pub(in crate::plan) fn stiffness(border: &Border<'_>) -> Result<Vec<Stiffness>, Error> {
    chained::stiffness(border.repeats, border.asked.side.ease)
}

/// The repeat of a side as it is to be chained with this stretch, and what easing it comes to.
pub(super) fn eased<'a>(
    border: &Border<'a>,
    span: &SideSpan,
    stretch: f64,
    stiffness: &[Stiffness],
) -> Result<(Cow<'a, Repeat>, Option<EaseReport>), Error> {
    let number = border.repeats.number(span.side);
    let stiffness = number.and_then(|number| stiffness.get(number));
    let tolerance = border.tolerances.flattening / span.depth();
    chained::eased(border.repeats.of(span.side)?, stiffness, stretch, tolerance)
}

/// Refuses a side that would make too many points with those that are filled.
pub(super) fn check_room(points: usize, repeats: usize, repeat: &Repeat) -> Result<(), Error> {
    let here = repeats as f64 * (repeat.points().len() as f64 + 1.0);
    let (count, limit) = (points as f64 + here, MAX_POINTS);
    match count > limit as f64 {
        true => Err(FitFault::TooManyInAll { count, limit }.into()),
        false => Ok(()),
    }
}

/// What there is to report of a side that starts there, with its sharpest turns where a repeat
/// meets its mirror image and where it meets another.
pub(super) fn found(
    border: &Border<'_>,
    detail: &SideDetail,
    [kink, repeat_kink]: [f64; 2],
    start: Point,
) -> Vec<Finding> {
    let chain = (detail.levelled, detail.links);
    let mut findings = chained::noted(chain, detail.ease, border.tolerances.join);
    if kink > LEAST_KINK_DEGREES {
        let degrees = kink;
        findings.push(Finding::turn(degrees, FindingKind::MirrorKink { degrees }));
    }
    if repeat_kink > LEAST_REPEAT_KINK_DEGREES {
        let degrees = repeat_kink;
        findings.push(Finding::turn(degrees, FindingKind::RepeatKink { degrees }));
    }
    let index = border.asked.index;
    let here = |finding: Finding| finding.on_side(index, detail.side).at(start);
    findings.into_iter().map(here).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fit::{Ease, EaseLimits};
    use crate::plan::practice::ease_is_limited;

    #[test]
    fn loops_that_do_not_stay_round_are_reported_however_long_the_stems_are() {
        // A square on its tip, an eighth as long as the repeat, on a level stem.
        let points = [
            (0.0, 0.5),
            (0.5, 0.5),
            (0.5625, 0.75),
            (0.5, 1.0),
            (0.4375, 0.75),
            (0.5, 0.5),
            (1.0, 0.5),
        ];
        let stiffness = Stiffness::of(&points, 4.0).expect("stiffness");
        let limited = |stretch: f64| {
            let ease = Ease::new(&stiffness, stretch, &EaseLimits::default()).expect("ease");
            (ease_is_limited(ease.report()), *ease.report())
        };
        // Below the limits the stretch is spread evenly: the loop takes its share of the length
        // alone.
        let (is_limited, report) = limited(0.63);
        assert!((report.roundness() - 0.63).abs() < 1e-9 && report.unabsorbed < 0.15);
        assert!(is_limited, "{report:?}");
        assert!(!limited(0.9).0 && !limited(1.1).0);
    }
}
