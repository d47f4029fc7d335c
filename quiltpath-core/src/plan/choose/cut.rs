//! Which of the equally good cuts the mitres of a border take: the one with the least worst
//! stretch.
//!
//! Mitres of a symmetrical repeat can be cut in several places that turn as little; their legs
//! differ in length, and so do the spans between them. Each cut is laid out and its numbers of
//! repeats chosen; stretches that differ by less than a millionth are equal, and the first cut
//! wins.

use super::depth::choose_depth;
use super::group::limit;
use crate::error::Error;
use crate::plan::finding::Finding;
use crate::plan::kept::KeptBorder;
use crate::plan::laid::{Border, Laid, lay};

/// A border, laid out at its full depth, with what was found there.
pub(in crate::plan) type Full<'a> = (Border<'a>, (Laid, Vec<Finding>));

/// Worst stretches whose logarithms differ by less are equal.
const EQUAL_COST: f64 = 1e-6;

/// More than the logarithm of any stretch that a number can be.
const BEYOND: f64 = 1e3;

/// A border with the cut that suits its spans best, laid out at its full depth.
///
/// # Complexity
///
/// O(points of the corners) for each cut.
pub(in crate::plan) fn cut_best<'a>(border: &Border<'a>) -> Result<Full<'a>, Error> {
    let first = lay(border, border.layout.clone());
    let cuts = match &first {
        Ok((laid, _)) => laid.corners.cuts,
        Err(_) => 1,
    };
    if cuts == 1 {
        return first.map(|full| (*border, full));
    }
    let costed = |cut: usize| {
        let other = Border { cut, ..*border };
        let full = lay(&other, other.layout.clone())?;
        // What is stitched was cut in one of the ways, and the rest is to be like it.
        let cost = match other.kept.is_some_and(KeptBorder::ties_corners) {
            true => full.0.corners.off,
            false => cost(&other, full.clone())?,
        };
        Ok((cost, other, full))
    };
    // A cut that leaves no room for its border is none to choose.
    let mut best: Result<(f64, Border<'a>, _), Error> = costed(0);
    for other in (1..cuts).map(costed) {
        best = match (best, other) {
            (Ok(best), Ok(other)) if other.0 < best.0 - EQUAL_COST => Ok(other),
            (Err(_), Ok(other)) => Ok(other),
            (best, _) => best,
        };
    }
    best.map(|(_, border, full)| (border, full))
}

/// What the worst stretch of a border costs: its logarithm, and more than any logarithm within the
/// limit where a side is beyond that.
fn cost(border: &Border<'_>, full: (Laid, Vec<Finding>)) -> Result<f64, Error> {
    let (chosen, _) = choose_depth(border, full)?;
    let fits = chosen.fits(border)?;
    let limit = limit(border);
    let beyond = fits.iter().any(|fit| !limit.allows(fit.chosen.stretch));
    let costs = fits.iter().map(|fit| fit.chosen.stretch.ln().abs());
    let within = if beyond { BEYOND } else { 0.0 };
    Ok(costs.fold(within, |worst, cost| worst.max(within + cost)))
}
