//! The depth and the whole numbers of repeats with which the worst stretch of a quilt is least.
//!
//! Problem: the sides of one or several rings share a depth d, free within [min, max] (the slack of
//! the gaps). The span of side i is fᵢ + pᵢ·d (its length less what the corners take, which grows
//! with the depth), one repeat leads kᵢ·(d + eᵢ) along, where eᵢ is 0 but for a side whose own band
//! is deeper or shallower. Choose d and a whole nᵢ from the allowed ones, equal on tied sides, such
//! that the greatest |ln(stretch)| of all sides is least.
//!
//! Method: with u = 1/d the ratio span / pitch is the line rᵢ(u) = (fᵢ·u + pᵢ)/kᵢ, and fᵢ > 0 makes
//! it grow; over 1 + eᵢ·u it is a hyperbola, which grows where fᵢ > eᵢ·pᵢ. All below needs nothing
//! but growth, and the roots of products, of the second degree in either case. (a) At a given u
//! each tie has its own best n, which changes only where max r · min r over the tie (r² for a side
//! by itself) passes the product n·n⁺ of two neighbours of the allowed numbers. These breakpoints
//! cut the range of u into intervals. (b) Within one, with all n constant, the worst is max(ln P,
//! −ln Q), P = max rᵢ/nᵢ and Q = min rᵢ/nᵢ. The first grows, the second falls, so the best u is
//! where P·Q = 1, or the end of the interval that is nearest to it. (c) The best of all intervals
//! wins. (d) Where a limit of the stretch is given, what keeps it goes before what doesn't: a tie
//! takes the best of the numbers within it, where any is, and a depth at which all sides are within
//! it beats one at which not all are. A number keeps the limit over one range of u; its ends,
//! closed forms, are breakpoints as well.
//!
//! Proof. (a) For one n the worst of a tie is max(ln(max r) − ln n, ln n − ln(min r)) =
//! |ln n − m| + h with m the mean and h half the difference of ln(max r) and ln(min r). It falls
//! up to n = eᵐ and rises afterwards, so the larger of the neighbours n < n⁺ is better exactly
//! when e²ᵐ = max r · min r > n·n⁺, and that product grows with u. (b) A strictly rising and a
//! strictly falling function: their maximum has one minimum in an interval, where they are equal
//! or at the end nearest to it. (c) The intervals cover the range.
//! Where P·Q = T is found without search: P·Q ≤ T means that for every i there is a j with
//! pᵢ(u)·pⱼ(u) ≤ T, pᵢ = rᵢ/nᵢ. Each product grows, so that is u ≤ uᵢⱼ for its root, and the
//! place is min over i of max over j of uᵢⱼ: a closed form, once a pair.
//!
//! Guarantee: exact up to the rounding of f64, checked against brute force. Every optimum is one
//! of finitely many depths; of those within 1e-12 the one with the least sum of squares of
//! ln(stretch) is taken, then the one nearest to the preferred depth, then the deepest. Groups
//! with depths of their own don't touch each other, so the best of each is the best of all.
//! Failure: no sides, a range of depths or a length that can't be, a side whose span does not
//! grow when the depth shrinks, no span left at any depth, contradictory counts, and more than
//! 100 000 repeats, which only wrong units bring about.

use super::group::{DepthGroup, DepthRange, GroupFit, RingSide};
use super::limit::StretchLimit;
use super::ratio::{Line, Tie, meeting, ties};
use crate::error::{Error, FitFault};
use crate::fit::span::{Choice, MAX_REPEATS};

/// Differences of |ln(stretch)| and of sums of its squares below this are rounding.
const ROUNDING: f64 = 1e-12;

/// What is within the limit is to stay so however it is rounded.
const MARGIN: f64 = 1e-9;

/// Chooses each group's depth and the whole numbers of repeats of its sides.
///
/// ```
/// use quiltpath_core::fit::{DepthGroup, DepthRange, RingSide, fit_rings};
///
/// // 60 by 80 in, corners that reach 2 depths along each side, repeats as long as deep.
/// let side = |length| RingSide::between_corners(length, 4.0, 1.0);
/// let sides = vec![side(60.0), side(80.0), side(60.0), side(80.0)];
/// let group = DepthGroup::new(DepthRange::new(3.5, 4.5), sides);
/// let fit = &fit_rings(&[group])?[0];
/// // At a depth of 4 in the repeats fit without any stretch: 60/4 - 4 = 11 and 80/4 - 4 = 16.
/// assert!((fit.depth - 4.0).abs() < 1e-12);
/// assert_eq!(fit.sides.iter().map(|s| s.repeats).collect::<Vec<_>>(), [11, 16, 11, 16]);
/// assert!(fit.worst < 1.0 + 1e-12);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A fit error, with the index of the group and the side at fault: no sides, a range of depths or a
/// length that can't be, a side whose span does not grow when the depth shrinks, no span left at
/// any depth, contradictory numbers of repeats, or more than 100 000 of them.
///
/// # Complexity
///
/// O(b·s²) for s sides of a group whose numbers of repeats change b times within its range.
pub fn fit_rings(groups: &[DepthGroup]) -> Result<Vec<GroupFit>, Error> {
    let fit = |(index, group): (usize, &DepthGroup)| {
        fit_ring(group).map_err(|e| e.in_element(format!("group {index}")))
    };
    groups.iter().enumerate().map(fit).collect()
}

/// Chooses the depth of one group and the whole numbers of repeats of its sides.
///
/// ```
/// use quiltpath_core::fit::{DepthGroup, DepthRange, RingSide, fit_ring};
///
/// // A span of 20 whatever the depth, and repeats as long as the band is deep.
/// let side = RingSide::new(20.0, 0.0, 1.0);
/// let fit = fit_ring(&DepthGroup::new(DepthRange::new(3.0, 5.0), vec![side]))?;
/// assert_eq!(fit.sides[0].repeats as f64 * fit.depth, 20.0);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`fit_rings`].
///
/// # Complexity
///
/// As [`fit_rings`].
pub fn fit_ring(group: &DepthGroup) -> Result<GroupFit, Error> {
    let ties = checked_ties(group)?;
    let DepthRange { min, max, .. } = group.depth;
    let (from, to) = (1.0 / max, 1.0 / min);

    let limit = group.limit.map(|limit| StretchLimit {
        least: (limit.least + MARGIN).min(1.0),
        most: (limit.most - MARGIN).max(1.0),
    });
    let mut counts: Vec<usize> = ties.iter().map(|tie| tie.best(from, limit)).collect();
    let mut breaks: Vec<Break> = Vec::new();
    for (index, tie) in ties.iter().enumerate() {
        let mut count = counts[index];
        let mut last = f64::NEG_INFINITY;
        loop {
            let within = limit.and_then(|limit| tie.within(count, limit));
            let ends = within.into_iter().flatten();
            breaks.extend(ends.map(|at| Break { at, change: None }));
            let Some(next) = tie.allowed.next(count) else {
                break;
            };
            let at = tie.change(count, next, limit);
            // A root that is no number can't be passed; lengths beyond all reason bring it about.
            if at.is_nan() || at >= to {
                break;
            }
            let change = Some((index, next));
            let at = at.max(last);
            last = at;
            breaks.push(Break { at, change });
            count = next;
        }
    }
    breaks.retain(|found| found.at < to && (found.change.is_some() || found.at > from));
    breaks.sort_by(|a, b| a.at.total_cmp(&b.at));

    let mut best: Option<Candidate> = None;
    let mut start = from;
    for found in breaks.iter().map(Some).chain([None]) {
        let end = found.map_or(to, |found| found.at.max(from));
        if end > start || found.is_none() {
            let balanced = meeting(
                ties.iter()
                    .zip(&counts)
                    .flat_map(|(tie, &count)| tie.lines.iter().map(move |line| line.over(count))),
                1.0,
            );
            let u = balanced.max(start).min(end);
            // The ends of the range are the caller's numbers, not the inverses of inverses.
            let depth = if u == from {
                max
            } else if u == to {
                min
            } else {
                (1.0 / u).max(min).min(max)
            };
            let candidate = Candidate::new(group, &ties, &counts, depth);
            if best.as_ref().is_none_or(|best| candidate.beats(best)) {
                best = Some(candidate);
            }
        }
        start = end;
        if let Some((index, count)) = found.and_then(|found| found.change) {
            counts[index] = count;
        }
    }
    let best = best.filter(|best| best.worst.is_finite());
    let best = best.ok_or_else(|| no_span(group))?;
    Ok(GroupFit::at(group, &ties, &best.counts, best.depth))
}

impl GroupFit {
    pub(super) fn at(group: &DepthGroup, ties: &[Tie], counts: &[usize], depth: f64) -> Self {
        let mut sides = vec![
            Choice {
                repeats: 0,
                stretch: 0.0
            };
            group.sides.len()
        ];
        for (tie, &repeats) in ties.iter().zip(counts) {
            for &side in &tie.sides {
                sides[side] = Choice {
                    repeats,
                    stretch: group.sides[side].ratio(depth) / repeats as f64,
                };
            }
        }
        let worst = sides
            .iter()
            .map(|side| side.stretch.max(1.0 / side.stretch))
            .fold(1.0, f64::max);
        Self {
            depth,
            sides,
            worst,
        }
    }
}

/// Where one interval of u ends and the next starts.
struct Break {
    at: f64,
    /// The tie whose number changes there, and its next number.
    change: Option<(usize, usize)>,
}

/// The best depth of one interval with what it is compared by.
struct Candidate {
    counts: Vec<usize>,
    depth: f64,
    /// Whether a side is beyond the limit of the stretch.
    beyond: bool,
    worst: f64,
    squares: f64,
    away: f64,
}

impl Candidate {
    fn new(group: &DepthGroup, ties: &[Tie], counts: &[usize], depth: f64) -> Self {
        let (mut worst, mut squares, mut beyond) = (0.0_f64, 0.0, false);
        for (tie, &count) in ties.iter().zip(counts) {
            for &side in &tie.sides {
                let stretch = group.sides[side].ratio(depth) / count as f64;
                beyond |= group.limit.is_some_and(|limit| !limit.allows(stretch));
                let log = stretch.ln().abs();
                worst = worst.max(log);
                squares += log * log;
            }
        }
        Self {
            counts: counts.to_vec(),
            depth,
            beyond,
            // A ratio that is not above 0 shows in the squares alone: `max` passes over NaN.
            worst: if squares.is_finite() {
                worst
            } else {
                f64::INFINITY
            },
            squares,
            away: (depth - group.depth.preferred).abs(),
        }
    }

    fn beats(&self, other: &Self) -> bool {
        // What is no number may be within no limit, but it must not win.
        if self.beyond != other.beyond && self.worst.is_finite() && other.worst.is_finite() {
            return other.beyond;
        }
        for (own, others) in [(self.worst, other.worst), (self.squares, other.squares)] {
            if (own - others).abs() > ROUNDING {
                return own < others;
            }
        }
        self.away < other.away
    }
}

/// The sides by their ties, when the group makes sense.
pub(super) fn checked_ties(group: &DepthGroup) -> Result<Vec<Tie>, Error> {
    let DepthRange {
        min,
        preferred,
        max,
    } = group.depth;
    let in_order = 0.0 < min && min <= preferred && preferred <= max && max.is_finite();
    if !(in_order && (1.0 / min).is_finite()) {
        return Err(FitFault::DepthRange {
            min,
            preferred,
            max,
        }
        .into());
    }
    if group.sides.is_empty() {
        return Err(FitFault::NoSides.into());
    }
    for (index, side) in group.sides.iter().enumerate() {
        check_side(side, min).map_err(|e| e.in_element(format!("side {index}")))?;
    }
    ties(&group.sides)
}

fn check_side(side: &RingSide, min_depth: f64) -> Result<(), Error> {
    if !(side.pitch > 0.0 && side.pitch.is_finite()) {
        return Err(FitFault::RepeatHasNoPitch.into());
    }
    // The ratio has to grow, in f64 as well, when the depth shrinks.
    let slope = side.fixed / side.pitch;
    let line = Line::of(side);
    let lasting = line.grows() && min_depth + side.deeper > 0.0;
    if !(lasting && slope.is_finite() && (side.per_depth / side.pitch).is_finite()) {
        let (fixed, per_depth) = (side.fixed, side.per_depth);
        return Err(FitFault::SideHasNoLength { fixed, per_depth }.into());
    }
    let span = side.span(min_depth);
    if span <= 0.0 {
        return Err(FitFault::SpanNotPositive { span }.into());
    }
    let count = side.ratio(min_depth);
    if count.is_nan() || count > MAX_REPEATS as f64 {
        let limit = MAX_REPEATS;
        return Err(FitFault::TooMany { count, limit }.into());
    }
    Ok(())
}

fn no_span(group: &DepthGroup) -> Error {
    let spans = group.sides.iter().map(|side| side.span(group.depth.min));
    let span = spans.fold(f64::INFINITY, f64::min);
    FitFault::SpanNotPositive { span }.into()
}
