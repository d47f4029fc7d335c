//! What there is to report of spans: corners that run past each other, stations within a corner.

use super::span::SideSpan;
use crate::motif::Motif;
use crate::plan::corners::Corners;
use crate::plan::finding::{Finding, FindingKind};
use crate::plan::lay::layout::Layout;
use crate::plan::lay::place::Side;

/// Looks at the spans of a border, given with its number.
///
/// # Complexity
///
/// O(points of the corners).
pub(in crate::plan) fn report(
    (index, layout): (usize, &Layout),
    corners: &Corners,
    span: &SideSpan,
) -> Vec<Finding> {
    let side = span.side;
    let mut findings = Vec::new();
    let ends = [side.index(), layout.band.edge.after(side.index())];
    let joined = |at: usize| corners.joints(at).and_then(|_| corners.at(at));
    if let [Some(corner), Some(next)] = ends.map(joined)
        && let Some(past) = past(layout, side, [&corner.motif, &next.motif])
    {
        findings.push(
            Finding::warning(FindingKind::CornersClose { past })
                .on_side(index, side)
                .at(corner.motif.end().point),
        );
    }
    if span.passed_over > 0 {
        let stations = span.passed_over;
        findings.push(
            Finding::note(FindingKind::StationsInCorner { stations })
                .on_side(index, side)
                .at(layout.band.outer.corners()[side.index()]),
        );
    }
    findings
}

/// By how much two corners that leave room for the border run past each other, if they do.
fn past(layout: &Layout, side: Side, corners: [&Motif; 2]) -> Option<f64> {
    let strip = layout.strip(side);
    // Ink of the other leg lies beside this band, where slanted corners may lean back.
    let in_band = |&(_, t): &(f64, f64)| (-1e-9..=1.0 + 1e-9).contains(&t);
    let reach = |corner: &Motif| {
        let points = corner.points().iter();
        points
            .map(|&point| strip.locate(point))
            .filter(in_band)
            .fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], (s, _)| {
                [low.min(s), high.max(s)]
            })
    };
    let [_, last] = reach(corners[0]);
    let [first, _] = reach(corners[1]);
    let past = last - first;
    (past > 0.0).then_some(past)
}
