//! What else would keep every side within a limit of stretch, when the best fit does not.
//!
//! Problem: the quilter wants to choose: another depth, other numbers of repeats, easing, longer
//! corner legs, or plain spacers at the middle of the sides; each with its numbers. Method: another
//! depth or a longer leg moves all ratios r = start ± rate·x the same way by one number x (over 1 ±
//! bend·x on a side whose own band is deeper than the shared one). For a tie, the x at which n
//! repeats hold are an interval whose start moves up from one allowed n to the next, so the least x
//! from a given one on is found by trying them in order. Raising x to that of each tie in turn
//! until none moves it leads to the least x at which all hold, since no step passes over one. A
//! spacer concerns its own side: the most repeats that are not squeezed too much leave the least
//! room for it. Guarantee: the depth is the nearest one on either side of the fit's; the leg and
//! the spacers are the shortest, at the fit's depth; each result holds, up to 1e-9. Checked against
//! a grid. Failure: none; what can't hold is left out, and so is a depth more than twice as large
//! or less than half as large as the fit's, which would be another design.

use super::choose::{checked_ties, fit_ring};
use super::group::{DepthGroup, GroupFit};
use super::limit::StretchLimit;
use super::ratio::{Allowed, Tie};
use crate::error::{Error, FitFault};
use crate::fit::span::{Choice, Count};

/// How many times as large, or as small, another depth may be.
const MAX_DEPTH_CHANGE: f64 = 2.0;

/// The results are to hold however they are rounded.
const MARGIN: f64 = 1e-9;

/// One way out when a fit breaks the limit of stretch.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Alternative {
    /// Another depth, with the fit at it; every side holds. It may be the fit's own depth with
    /// other numbers, where a limit allows more stretch one way than the other.
    Depth(GroupFit),
    /// Other numbers of repeats, were sides neither tied nor bound to multiples, parities or fixed
    /// numbers; the worst stretch is less, but the limit may still be broken.
    Counts(GroupFit),
    /// The stretch stays, but is put where it shows least.
    #[non_exhaustive]
    Ease {
        /// The sides that break the limit, each with its stretch.
        sides: Vec<(usize, f64)>,
    },
    /// Each corner leg of a ring reaches farther along at the fit's depth; every side of it holds.
    #[non_exhaustive]
    LongerLeg {
        /// The ring.
        ring: usize,
        /// The extra length of each leg.
        extra: f64,
        /// The sides of the ring and of those tied to them, with what they come to.
        sides: Vec<(usize, Choice)>,
    },
    /// Plain spacers at the middle of sides, at the fit's depth; these sides hold.
    #[non_exhaustive]
    Spacers {
        /// Sides, each with the length of its spacer and what it comes to.
        sides: Vec<(usize, f64, Choice)>,
    },
}

/// The ways to keep every side within the limit; none when the fit does so already.
///
/// In order: other depths, the nearest first; other numbers; easing; longer legs, ring by ring;
/// spacers. Which one is best is for the quilter to decide.
///
/// ```
/// use quiltpath_core::fit::{
///     Alternative, DepthGroup, DepthRange, RingSide, StretchLimit, alternatives, fit_ring,
/// };
///
/// // A runner with a short end that holds one and a half repeats.
/// let side = |length| RingSide::between_corners(length, 0.0, 1.5);
/// let group = DepthGroup::new(DepthRange::fixed(4.0), vec![side(9.0), side(60.0)]);
/// let fit = fit_ring(&group)?;
/// assert!(fit.worst > 1.3);
/// let ways = alternatives(&group, &fit, StretchLimit::either_way(0.1))?;
/// let Alternative::Depth(nearest) = &ways[0] else { panic!("a depth comes first") };
/// assert_eq!(nearest.sides[0].repeats, 2);
/// assert!(nearest.depth < 4.0 && nearest.worst < 1.12);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`fit_ring`]; a fit error when the fit was made of another group, or the limit is not on both
/// sides of 1.
///
/// # Complexity
///
/// O(s·b) for s sides whose numbers of repeats change b times up to the depth or length found.
pub fn alternatives(
    group: &DepthGroup,
    fit: &GroupFit,
    limit: StretchLimit,
) -> Result<Vec<Alternative>, Error> {
    let StretchLimit { least, most } = limit;
    if !(0.0 < least && least <= 1.0 && 1.0 <= most && most.is_finite()) {
        return Err(FitFault::LimitNotAroundOne { least, most }.into());
    }
    let ties = checked_ties(group)?;
    let usable = |choice: &Choice| choice.repeats > 0 && choice.stretch > 0.0;
    let depth_usable = fit.depth > 0.0 && (1.0 / fit.depth).is_finite();
    if fit.sides.len() != group.sides.len() || !fit.sides.iter().all(usable) || !depth_usable {
        return Err(FitFault::OtherGroup.into());
    }
    let broken: Vec<usize> = (0..fit.sides.len())
        .filter(|&side| !limit.allows(fit.sides[side].stretch))
        .collect();
    if broken.is_empty() {
        return Ok(Vec::new());
    }
    let case = Case {
        group,
        ties: &ties,
        fit,
        limit: StretchLimit {
            least: least * (1.0 + MARGIN).min(1.0 / least),
            most: most * (1.0 - MARGIN).max(1.0 / most),
        },
    };
    let mut ways = case.depths();
    ways.extend(free_counts(group, fit)?.map(Alternative::Counts));
    ways.push(Alternative::Ease {
        sides: (broken.iter())
            .map(|&side| (side, fit.sides[side].stretch))
            .collect(),
    });
    let mut rings: Vec<usize> = broken.iter().map(|&side| group.sides[side].ring).collect();
    rings.sort_unstable();
    rings.dedup();
    ways.extend(rings.into_iter().filter_map(|ring| case.longer_leg(ring)));
    let spacers: Vec<_> = ties
        .iter()
        .filter(|tie| tie.sides.iter().any(|side| broken.contains(side)))
        .filter_map(|tie| case.spacers(tie))
        .flatten()
        .collect();
    if !spacers.is_empty() {
        ways.push(Alternative::Spacers { sides: spacers });
    }
    Ok(ways)
}

/// The fit without ties and bounds on the numbers, when that is better.
fn free_counts(group: &DepthGroup, fit: &GroupFit) -> Result<Option<GroupFit>, Error> {
    let mut free = group.clone();
    for side in &mut free.sides {
        (side.count, side.tie) = (Count::default(), None);
    }
    if free == *group {
        return Ok(None);
    }
    Ok(Some(fit_ring(&free)?).filter(|free| free.worst < fit.worst * (1.0 - MARGIN)))
}

struct Case<'a> {
    group: &'a DepthGroup,
    ties: &'a [Tie],
    fit: &'a GroupFit,
    /// A little narrower than what was asked for.
    limit: StretchLimit,
}

impl Case<'_> {
    fn depths(&self) -> Vec<Alternative> {
        let now = 1.0 / self.fit.depth;
        let lines = self.ties.iter().map(|tie| Moving {
            ratios: (tie.lines.iter())
                .map(|line| {
                    // In x from now on: what stood over 1 + bend·u now stands over 1 + bend·x.
                    let over = 1.0 + line.bend * now;
                    Ratio {
                        start: line.at(now),
                        rate: line.slope / over,
                        bend: line.bend / over,
                    }
                })
                .collect(),
            allowed: tie.allowed,
        });
        let lines: Vec<Moving> = lines.collect();
        let deeper = now * (1.0 - 1.0 / MAX_DEPTH_CHANGE);
        let shallower = now * (MAX_DEPTH_CHANGE - 1.0);
        let mut found: Vec<GroupFit> = [
            (Ratios::Shrink, deeper, -1.0),
            (Ratios::Grow, shallower, 1.0),
        ]
        .into_iter()
        .filter_map(|(ratios, farthest, sign)| {
            let (x, counts) = first_holding(&lines, self.limit, ratios, farthest)?;
            let depth = 1.0 / (now + sign * x);
            Some(self.at_depth(depth, &counts))
        })
        .collect();
        let away = |fit: &GroupFit| (fit.depth - self.fit.depth).abs();
        found.sort_by(|a, b| away(a).total_cmp(&away(b)));
        // Where other numbers hold at this very depth, both ways lead there.
        found.dedup_by(|a, b| a.depth == b.depth);
        found.into_iter().map(Alternative::Depth).collect()
    }

    /// The least stretched fit at a depth where these numbers hold.
    fn at_depth(&self, depth: f64, holding: &[usize]) -> GroupFit {
        let counts: Vec<usize> = self
            .ties
            .iter()
            .zip(holding)
            .map(|(tie, &holding)| {
                let best = tie.best(1.0 / depth, None);
                let stretches = || {
                    tie.sides
                        .iter()
                        .map(|&side| self.group.sides[side].ratio(depth) / best as f64)
                };
                // The limit need not lie evenly around 1, so the best may break it.
                let holds = stretches().all(|stretch| self.limit.allows(stretch));
                if holds { best } else { holding }
            })
            .collect();
        GroupFit::at(self.group, self.ties, &counts, depth)
    }

    fn longer_leg(&self, ring: usize) -> Option<Alternative> {
        let depth = self.fit.depth;
        let concerned: Vec<&Tie> = (self.ties.iter())
            .filter(|tie| (tie.sides.iter()).any(|&side| self.group.sides[side].ring == ring))
            .collect();
        let ratio = |side: usize| {
            let side = &self.group.sides[side];
            let legs = if side.ring == ring { side.legs } else { 0 };
            Ratio {
                start: side.ratio(depth),
                rate: f64::from(legs) / side.pitch_at(depth),
                bend: 0.0,
            }
        };
        let moving: Vec<Moving> = (concerned.iter())
            .map(|tie| Moving {
                ratios: tie.sides.iter().map(|&side| ratio(side)).collect(),
                allowed: tie.allowed,
            })
            .collect();
        let (extra, counts) = first_holding(&moving, self.limit, Ratios::Shrink, f64::INFINITY)?;
        let mut sides = Vec::new();
        for (tie, repeats) in concerned.iter().zip(counts) {
            sides.extend(tie.sides.iter().map(|&side| {
                let stretch = ratio(side).at(-extra) / repeats as f64;
                (side, Choice { repeats, stretch })
            }));
        }
        sides.sort_by_key(|&(side, _)| side);
        Some(Alternative::LongerLeg { ring, extra, sides })
    }

    /// The shortest spacers that bring a tie within the limit; `None` when none can.
    fn spacers(&self, tie: &Tie) -> Option<Vec<(usize, f64, Choice)>> {
        let ratios =
            || (tie.sides.iter()).map(|&side| self.group.sides[side].ratio(self.fit.depth));
        let shortest = ratios().fold(f64::INFINITY, f64::min);
        let repeats = tie.allowed.at_most(shortest / self.limit.least)?;
        let spacer = |(&side, ratio): (&usize, f64)| {
            let ratio_left = ratio.min(repeats as f64 * self.limit.most);
            let length = (ratio - ratio_left) * self.group.sides[side].pitch_at(self.fit.depth);
            let stretch = ratio_left / repeats as f64;
            (side, length, Choice { repeats, stretch })
        };
        Some(tie.sides.iter().zip(ratios()).map(spacer).collect())
    }
}

/// Which way the ratios of a search move.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ratios {
    Grow,
    Shrink,
}

/// A ratio that moves with x, either way: (start + rate · x) / (1 + bend · x), which never falls.
#[derive(Clone, Copy)]
struct Ratio {
    start: f64,
    rate: f64,
    bend: f64,
}

impl Ratio {
    fn at(self, x: f64) -> f64 {
        (self.start + self.rate * x) / (1.0 + self.bend * x)
    }
}

/// A tie whose ratios move.
struct Moving {
    ratios: Vec<Ratio>,
    allowed: Allowed,
}

impl Moving {
    /// The least x from this one on at which the tie holds, with the number of repeats there.
    fn from(&self, x: f64, limit: StretchLimit, ratios: Ratios) -> Option<(f64, usize)> {
        let sign = if ratios == Ratios::Grow { 1.0 } else { -1.0 };
        let at = |x: f64| (self.ratios.iter()).map(move |ratio| ratio.at(sign * x));
        let least = |x: f64| at(x).fold(f64::INFINITY, f64::min);
        let greatest = |x: f64| at(x).fold(0.0, f64::max);
        let mut count = match ratios {
            Ratios::Grow => self.allowed.at_least(greatest(x) / limit.most)?,
            Ratios::Shrink => self.allowed.at_most(least(x) / limit.least)?,
        };
        loop {
            let n = count as f64;
            let bound = match ratios {
                Ratios::Grow => n * limit.least,
                Ratios::Shrink => n * limit.most,
            };
            let reach = |&Ratio { start, rate, bend }: &Ratio| {
                let missing = sign * (bound - start);
                let rate = rate - bound * bend;
                // Without this, a ratio that stands still within the limit would give 0/0.
                match (missing <= 0.0, rate > 0.0) {
                    (true, _) => 0.0,
                    (false, true) => missing / rate,
                    (false, false) => f64::INFINITY,
                }
            };
            let needed = self.ratios.iter().map(reach).fold(x, f64::max);
            if !needed.is_finite() {
                return None;
            }
            let holds = match ratios {
                Ratios::Grow => greatest(needed) <= n * limit.most,
                Ratios::Shrink => least(needed) >= n * limit.least,
            };
            if holds {
                return Some((needed, count));
            }
            count = match ratios {
                Ratios::Grow => self.allowed.next(count)?,
                Ratios::Shrink => self.allowed.before(count)?,
            };
        }
    }
}

/// The least x up to `farthest` at which all hold, with the numbers of repeats there.
fn first_holding(
    ties: &[Moving],
    limit: StretchLimit,
    ratios: Ratios,
    farthest: f64,
) -> Option<(f64, Vec<usize>)> {
    let mut x: f64 = 0.0;
    loop {
        let before = x;
        let mut counts = Vec::with_capacity(ties.len());
        for tie in ties {
            let (needed, count) = tie.from(x, limit, ratios)?;
            x = needed;
            counts.push(count);
        }
        if x > farthest {
            return None;
        }
        if x == before {
            return Some((x, counts));
        }
    }
}

#[cfg(test)]
mod tests;
