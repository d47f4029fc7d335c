//! Ratios of span to pitch over u = 1/depth, where products of them pass a value, and sides tied to
//! one number of repeats.

use std::collections::HashMap;

use super::group::RingSide;
use super::limit::StretchLimit;
use crate::error::{Error, FitFault};
use crate::fit::span::{Count, MAX_REPEATS, Parity, check_number, progression};

/// The growing curve slope · (u − zero) / (1 + bend · u): a line where the side's own depth is the
/// shared one, so that `bend` is 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line {
    pub(super) slope: f64,
    zero: f64,
    pub(super) bend: f64,
}

impl Line {
    pub(super) fn of(side: &RingSide) -> Self {
        Self {
            slope: side.fixed / side.pitch,
            zero: -side.per_depth / side.fixed,
            bend: side.deeper,
        }
    }

    pub(super) fn at(self, u: f64) -> f64 {
        self.slope * (u - self.zero) / (1.0 + self.bend * u)
    }

    /// Whether it grows: the sign of its derivative is the same everywhere.
    pub(super) fn grows(self) -> bool {
        self.slope > 0.0 && 1.0 + self.bend * self.zero > 0.0
    }

    /// The line divided by a number of repeats: the stretch.
    pub(super) fn over(self, count: usize) -> Self {
        Self {
            slope: self.slope / count as f64,
            ..self
        }
    }

    /// Where the curve is at this value; infinite where it stays below.
    fn reaches(self, value: f64) -> f64 {
        let rate = self.slope - value * self.bend;
        match rate > 0.0 {
            true => (self.slope * self.zero + value) / rate,
            false => f64::INFINITY,
        }
    }

    /// Where both lines are above 0 and their product is `target`; infinite where it stays below.
    fn root(self, other: Self, target: f64) -> f64 {
        if self.bend != 0.0 || other.bend != 0.0 {
            return self.bent_root(other, target);
        }
        let half = (self.zero - other.zero) / 2.0;
        let middle = f64::midpoint(self.zero, other.zero);
        middle + (half * half + target / self.slope / other.slope).sqrt()
    }

    /// The same by the quadratic equation that curves lead to: of its roots, the product passes the
    /// target at the first one beyond both zeros.
    fn bent_root(self, other: Self, target: f64) -> f64 {
        let slopes = self.slope * other.slope;
        let a = slopes - target * self.bend * other.bend;
        let b = -slopes * (self.zero + other.zero) - target * (self.bend + other.bend);
        let c = slopes * self.zero * other.zero - target;
        let from = self.zero.max(other.zero);
        let within = |line: Self, u: f64| 1.0 + line.bend * u > 0.0;
        let root = |u: f64| (u > from && within(self, u) && within(other, u)).then_some(u);
        // Without cancellation: one root by its sum of equal signs, the other by their product c/a.
        let sum = -0.5 * (b + b.signum() * (b * b - 4.0 * a * c).sqrt());
        let roots = [sum / a, c / sum].into_iter().filter_map(root);
        roots.fold(f64::INFINITY, f64::min)
    }
}

/// Where the greatest of the lines times the least of them is `target`.
pub(super) fn meeting(lines: impl Iterator<Item = Line> + Clone, target: f64) -> f64 {
    let latest = |line: Line| {
        lines
            .clone()
            .map(|other| line.root(other, target))
            .fold(f64::NEG_INFINITY, f64::max)
    };
    lines.clone().map(latest).fold(f64::INFINITY, f64::min)
}

/// The allowed numbers: first, first + step …; only the first one for a step of 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Allowed {
    first: usize,
    step: usize,
}

impl Allowed {
    fn of(count: &Count) -> Result<Self, Error> {
        let (first, step) = progression(count)?;
        let allowed = match count.fixed {
            Some(first) => Self { first, step: 0 },
            None => Self { first, step },
        };
        check_number(allowed.first)?;
        Ok(allowed)
    }

    /// The next larger allowed number.
    pub(super) fn next(self, count: usize) -> Option<usize> {
        (self.step > 0 && count + self.step <= MAX_REPEATS).then_some(count + self.step)
    }

    /// The next smaller allowed number.
    pub(super) fn before(self, count: usize) -> Option<usize> {
        (self.step > 0 && count >= self.first + self.step).then(|| count - self.step)
    }

    /// The largest allowed number that is not above this.
    pub(super) fn at_most(self, most: f64) -> Option<usize> {
        let most = most.min(MAX_REPEATS as f64);
        // So that a number that is no number is not passed either.
        if most.is_nan() || most < self.first as f64 {
            return None;
        }
        let over = most as usize - self.first;
        Some(self.first + over.checked_div(self.step).unwrap_or(0) * self.step)
    }

    /// The least allowed number that is not below this.
    pub(super) fn at_least(self, least: f64) -> Option<usize> {
        match self.at_most(least) {
            Some(below) if below as f64 >= least => Some(below),
            Some(below) => self.next(below),
            None => (!least.is_nan()).then_some(self.first),
        }
    }
}

/// Sides that get the same number of repeats; most often a side by itself.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Tie {
    pub(super) lines: Vec<Line>,
    /// The indices of the sides, as the lines.
    pub(super) sides: Vec<usize>,
    pub(super) allowed: Allowed,
}

impl Tie {
    /// The allowed number with the least stretch at this u, the smaller of two equal ones; of those
    /// within the limit, where any is.
    pub(super) fn best(&self, u: f64, limit: Option<StretchLimit>) -> usize {
        let ratios = || self.lines.iter().map(|line| line.at(u).max(0.0));
        let greatest = ratios().fold(0.0, f64::max);
        let least = ratios().fold(f64::INFINITY, f64::min);
        let product = greatest * least;
        let near = match self.allowed.at_most(product.sqrt()) {
            None => self.allowed.first,
            Some(below) => self
                .allowed
                .next(below)
                .filter(|above| product > below as f64 * *above as f64)
                .unwrap_or(below),
        };
        let Some(limit) = limit else { return near };
        let (from, to) = (greatest / limit.most, least / limit.least);
        let nearest = match near as f64 {
            count if count < from => self.allowed.at_least(from),
            count if count > to => self.allowed.at_most(to),
            _ => Some(near),
        };
        let holds = |count: &usize| (from..=to).contains(&(*count as f64));
        nearest.filter(holds).unwrap_or(near)
    }

    /// From which u to which this number keeps every side within the limit; `None` where it nowhere
    /// does.
    pub(super) fn within(&self, count: usize, limit: StretchLimit) -> Option<[f64; 2]> {
        let reached = |by: f64| {
            let lines = self.lines.iter();
            lines.map(move |line| line.reaches(count as f64 * by))
        };
        let from = reached(limit.least).fold(f64::NEG_INFINITY, f64::max);
        let to = reached(limit.most).fold(f64::INFINITY, f64::min);
        (from <= to).then_some([from, to])
    }

    /// The u at which the larger of two neighbouring allowed numbers becomes the better one.
    pub(super) fn change(&self, count: usize, next: usize, limit: Option<StretchLimit>) -> f64 {
        let at = meeting(self.lines.iter().copied(), count as f64 * next as f64);
        let within = |count| limit.and_then(|limit| self.within(count, limit));
        // Of the two the one within the limit goes first; where both are, or neither, the nearer.
        match (within(count), within(next)) {
            (Some([_, left]), Some([entered, _])) => {
                at.max(left.min(entered)).min(left.max(entered))
            }
            (Some([_, left]), None) => at.max(left),
            (None, Some([entered, _])) => at.min(entered),
            (None, None) => at,
        }
    }
}

/// The sides gathered by their ties, with the numbers that all sides of a tie allow.
pub(super) fn ties(sides: &[RingSide]) -> Result<Vec<Tie>, Error> {
    let mut places: HashMap<usize, usize> = HashMap::new();
    let mut ties: Vec<Vec<usize>> = Vec::new();
    for (index, side) in sides.iter().enumerate() {
        let place = side
            .tie
            .map_or(ties.len(), |name| *places.entry(name).or_insert(ties.len()));
        if place == ties.len() {
            ties.push(Vec::new());
        }
        ties[place].push(index);
    }
    let tie = |members: Vec<usize>| {
        Ok(Tie {
            lines: members.iter().map(|&side| Line::of(&sides[side])).collect(),
            allowed: in_common(sides, &members)?,
            sides: members,
        })
    };
    ties.into_iter().map(tie).collect()
}

/// The numbers that all these sides allow; a fixed one goes before the bounds of all of them.
fn in_common(sides: &[RingSide], members: &[usize]) -> Result<Allowed, Error> {
    let mut fixed: Option<usize> = None;
    let mut bounds = Ok(Count::default());
    for &index in members {
        let count = &sides[index].count;
        let named = |e: Error| e.in_element(format!("side {index}"));
        // Each side has to make sense by itself, or the message would be about the tie.
        Allowed::of(count).map_err(named)?;
        if let (Some(one), Some(other)) = (fixed, count.fixed)
            && one != other
        {
            return Err(named(FitFault::NumbersDiffer { one, other }.into()));
        }
        fixed = fixed.or(count.fixed);
        bounds = bounds.and_then(|before| both(&before, count).map_err(named));
    }
    match fixed {
        Some(_) => Allowed::of(&Count {
            fixed,
            ..Count::default()
        }),
        None => Allowed::of(&bounds?),
    }
}

/// The numbers within the bounds of both, fixed ones aside; at least one is.
fn both(one: &Count, other: &Count) -> Result<Count, Error> {
    let parity = match (one.parity, other.parity) {
        (Parity::Any, parity) | (parity, Parity::Any) => parity,
        (one, other) if one == other => one,
        _ => return Err(FitFault::ParitiesDiffer.into()),
    };
    let every = least_common_multiple(one.every, other.every);
    let bounds = Count {
        // As large as a number can be, where it does not fit: that is refused just as well.
        every: usize::try_from(every).unwrap_or(usize::MAX),
        parity,
        fixed: None,
    };
    Allowed::of(&bounds)?;
    Ok(bounds)
}

/// The least number that is a multiple of both, which are at most [`MAX_REPEATS`] and above 0.
fn least_common_multiple(one: usize, other: usize) -> u64 {
    let (mut factor, mut rest) = (one, other);
    while rest > 0 {
        (factor, rest) = (rest, factor % rest);
    }
    (one / factor) as u64 * other as u64
}
