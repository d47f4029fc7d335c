//! Stretch put where it shows least: stems give, flowers and loops stay round.
//!
//! Problem: one repeat has to become `stretch` times as long. Find a rising map E of its
//! fractions along, the same for all copies, such that the local stretch v = stretch · E′
//! minimises ∫ρ(v − 1)² du with ∫v du = stretch and least ≤ v ≤ most. The stiffness ρ
//! (`stiffness`) is high where a stretch would show: on curved and slanted ink, and highest
//! across loops.
//! Method: v is taken at even knots, round the period, and straight between them, so E is made of
//! parabolas and both E and its slope are continuous, across the seams of repeats as well. The
//! integrals become sums over the knots. The problem is convex with one equation, so by its
//! Lagrange multiplier μ the solution is v = clamp(1 + μ/ρ, least, most); ∫v grows with μ, which
//! bisection finds. ρ is smooth, so v is.
//! Guarantee: the optimum over the knots (held against random changes below); E(u + 1) =
//! E(u) + 1, E(0) = 0; E rises; a stretch of 1 gives the identity; the objective is never above
//! that of the even stretch. What the stems can't take within the limits, the loops do: the
//! report has how much, and where that is most of it the even stretch may look better.
//! Failure: a stretch or limits that can't be. A stretch beyond the limits is spread evenly.

mod loops;
mod stiffness;

pub use stiffness::Stiffness;

use crate::error::{Error, positive};
use stiffness::KNOTS;

/// How far one part of a repeat may be pressed together or drawn out.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct EaseLimits {
    /// The least local stretch, above 0 and at most 1.
    pub least: f64,
    /// The greatest local stretch, at least 1.
    pub most: f64,
}

impl EaseLimits {
    /// A local stretch from `least`, above 0 and at most 1, to `most`, at least 1.
    #[must_use]
    pub fn new(least: f64, most: f64) -> Self {
        Self { least, most }
    }
}

impl Default for EaseLimits {
    /// Two thirds to three halves: our own choice.
    fn default() -> Self {
        Self {
            least: 2.0 / 3.0,
            most: 1.5,
        }
    }
}

/// What easing a repeat comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct EaseReport {
    /// The local stretch in loops that is farthest from 1; `None` when the repeat has no loop.
    pub loops: Option<f64>,
    /// The share of the length that lies outside loops and so can take stretch.
    pub absorbing: f64,
    /// The share of the stretch that the loops had to take: 0 when stems take it all.
    pub unabsorbed: f64,
    /// The stretches of the whole repeat that its stems could take within the limits.
    pub takes: [f64; 2],
    /// ∫ρ(v − 1)² of the map.
    pub objective: f64,
    /// ∫ρ(v − 1)² of the even stretch.
    pub uniform_objective: f64,
}

impl EaseReport {
    /// How round a circle in a loop stays: 1 when fully, 0.9 when it becomes a tenth too long or
    /// too short.
    #[must_use]
    pub fn roundness(&self) -> f64 {
        1.0 - self.loops.map_or(0.0, |stretch| (stretch - 1.0).abs())
    }
}

/// A rising map of fractions along a repeat that keeps its start, its end and its period.
#[derive(Debug, Clone, PartialEq)]
pub struct Ease {
    /// E at the knots, 0 first and 1 last.
    values: Vec<f64>,
    /// E′ at the knots; the last is the first again.
    slopes: Vec<f64>,
    stretch: f64,
    report: EaseReport,
}

impl Ease {
    /// The map for this stretch, the length along the band by the length at the proportions.
    ///
    /// ```
    /// use quiltpath_core::fit::{Ease, EaseLimits, Stiffness};
    ///
    /// // A flat stem, a diamond-shaped loop, a flat stem; twice as long as high.
    /// let points = [(0.0, 0.0), (0.5, 0.0), (0.7, 0.5), (0.5, 1.0), (0.3, 0.5), (0.5, 0.0), (1.0, 0.0)];
    /// let stiffness = Stiffness::of(&points, 2.0)?;
    /// let ease = Ease::new(&stiffness, 1.1, &EaseLimits::default())?;
    /// assert_eq!((ease.apply(0.0), ease.apply(1.0)), (0.0, 1.0));
    /// // The loop keeps its shape, the stems take the stretch.
    /// assert!((ease.local_stretch(0.5) - 1.0).abs() < 0.002);
    /// assert!(ease.local_stretch(0.1) > 1.1);
    /// assert!(ease.report().unabsorbed < 0.01);
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// A geometry error when the stretch is not above 0, or the limits are not on both sides of 1.
    ///
    /// # Complexity
    ///
    /// O(knots), whatever the number of points.
    pub fn new(stiffness: &Stiffness, stretch: f64, limits: &EaseLimits) -> Result<Self, Error> {
        let bad = Error::bad_number;
        positive("the stretch", stretch, "a number above 0")?;
        if !(1.0 / stretch).is_finite() {
            return Err(bad("the stretch", stretch, "a number that has an inverse"));
        }
        let EaseLimits { least, most } = *limits;
        if !(least > 0.0 && least <= 1.0) {
            let accepted = "a number above 0 and up to 1";
            return Err(bad("the least local stretch", least, accepted));
        }
        if !(most >= 1.0 && most.is_finite()) {
            return Err(bad(
                "the greatest local stretch",
                most,
                "a number of 1 or more",
            ));
        }
        let give = stiffness.give();
        let extra = solve(give, stretch, [least.min(stretch), most.max(stretch)]);
        Ok(Self::of_extra(stiffness, stretch, limits, &extra))
    }

    fn of_extra(stiffness: &Stiffness, stretch: f64, limits: &EaseLimits, extra: &[f64]) -> Self {
        let mut values = Vec::with_capacity(KNOTS + 1);
        let mut sum = 0.0;
        values.push(sum);
        for knot in 0..KNOTS {
            sum += 1.0 + f64::midpoint(extra[knot], extra[(knot + 1) % KNOTS]);
            values.push(sum);
        }
        values.iter_mut().for_each(|value| *value /= sum);
        let slope = |extra: &f64| (1.0 + extra) * KNOTS as f64 / sum;
        let mut slopes: Vec<f64> = extra.iter().map(slope).collect();
        slopes.push(slopes[0]);
        Self {
            values,
            slopes,
            stretch,
            report: report(stiffness, stretch, limits, extra),
        }
    }

    /// The number of even parts that the map is made of; knot k lies at k / `parts`.
    #[must_use]
    pub fn parts(&self) -> usize {
        KNOTS
    }

    /// The images of the knots, from 0 to 1.
    #[must_use]
    pub fn values(&self) -> &[f64] {
        &self.values
    }

    /// The stretch of the whole repeat.
    #[must_use]
    pub fn stretch(&self) -> f64 {
        self.stretch
    }

    /// What the map comes to.
    #[must_use]
    pub fn report(&self) -> &EaseReport {
        &self.report
    }

    /// The image of a fraction along; those below 0 and above 1 lie in neighbouring copies.
    #[must_use]
    pub fn apply(&self, u: f64) -> f64 {
        let (copy, knot, along) = place(u);
        let [from, to] = [self.slopes[knot], self.slopes[knot + 1]];
        let part = 1.0 / KNOTS as f64;
        let step = along * part * (from + (to - from) * along / 2.0);
        // So that rounding can't make the map fall.
        copy + (self.values[knot] + step).min(self.values[knot + 1])
    }

    /// The slope of the map: how much of the room this place gets, 1 on average.
    #[must_use]
    pub fn slope(&self, u: f64) -> f64 {
        let (_, knot, along) = place(u);
        self.slopes[knot] + (self.slopes[knot + 1] - self.slopes[knot]) * along
    }

    /// By how much the repeat is stretched at this place.
    #[must_use]
    pub fn local_stretch(&self, u: f64) -> f64 {
        self.stretch * self.slope(u)
    }

    /// How far E may lie from its chord between two fractions, at most.
    pub(crate) fn bow(&self, u: f64, other: f64) -> f64 {
        let parts = KNOTS as f64;
        let (from, to) = (u.min(other), u.max(other));
        let first = (from * parts).floor();
        let covered = ((to * parts).ceil() - first).clamp(1.0, parts) as usize;
        let start = place(first / parts).1;
        let bends = (start..start + covered).map(|knot| {
            let knot = knot % KNOTS;
            (self.slopes[knot + 1] - self.slopes[knot]).abs() * parts
        });
        bends.fold(0.0, f64::max) * (to - from).powi(2) / 8.0
    }
}

/// The copy in which a fraction along lies, the knot before it and the way on to the next, 0 to 1.
fn place(u: f64) -> (f64, usize, f64) {
    let copy = u.floor();
    let along = (u - copy) * KNOTS as f64;
    let knot = (along as usize).min(KNOTS - 1);
    (copy, knot, along - knot as f64)
}

/// v − 1 = clamp(μ · give, least − 1, most − 1) with the μ at which the mean of v is the stretch.
///
/// Less 1, because a stretch near 1 would lose its digits otherwise.
fn solve(give: &[f64], stretch: f64, [least, most]: [f64; 2]) -> Vec<f64> {
    let wanted = stretch - 1.0;
    if wanted == 0.0 {
        return vec![0.0; give.len()];
    }
    let extra = |mu: f64| (give.iter()).map(move |g| (mu * g).clamp(least - 1.0, most - 1.0));
    let mean = |mu: f64| extra(mu).sum::<f64>() / give.len() as f64;
    let hardest = give.iter().copied().fold(f64::INFINITY, f64::min);
    let farthest = if wanted > 0.0 { most } else { least };
    // At the far end every place is at its limit.
    let (mut near, mut far) = (0.0, (farthest - 1.0) / hardest);
    // Until the two are neighbours among the numbers.
    loop {
        let middle = f64::midpoint(near, far);
        if middle == near || middle == far {
            break;
        }
        if (mean(middle) - wanted) * wanted < 0.0 {
            near = middle;
        } else {
            far = middle;
        }
    }
    extra(far).collect()
}

fn report(stiffness: &Stiffness, stretch: f64, limits: &EaseLimits, extra: &[f64]) -> EaseReport {
    let part = 1.0 / KNOTS as f64;
    let objective = |costs: &dyn Fn(usize) -> f64| -> f64 {
        let give = stiffness.give().iter().enumerate();
        give.map(|(knot, give)| costs(knot).powi(2) / give)
            .sum::<f64>()
            * part
    };
    let in_loops = || {
        let marked = extra.iter().zip(stiffness.is_loop());
        marked.filter_map(|(extra, is_loop)| is_loop.then_some(*extra))
    };
    let loops = in_loops().count() as f64 * part;
    let taken = in_loops().sum::<f64>() * part;
    let farther = |one: f64, other: f64| if other.abs() > one.abs() { other } else { one };
    EaseReport {
        loops: in_loops().reduce(farther).map(|extra| 1.0 + extra),
        absorbing: 1.0 - loops,
        unabsorbed: if stretch == 1.0 {
            0.0
        } else {
            (taken / (stretch - 1.0)).clamp(0.0, 1.0)
        },
        takes: [limits.least, limits.most].map(|limit| 1.0 + (1.0 - loops) * (limit - 1.0)),
        objective: objective(&|knot| extra[knot]),
        uniform_objective: objective(&|_| stretch - 1.0),
    }
}

#[cfg(test)]
mod tests;
