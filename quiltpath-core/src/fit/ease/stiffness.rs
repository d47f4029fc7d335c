//! How much a stretch would show along a repeat.
//!
//! Problem: give each place along the repeat a stiffness ρ.
//! Method: the ink is sampled at even distances. A stretch of 1 + ε turns a line of the slant θ
//! by about ε·sin 2θ / 2, so each piece of ink adds its length times sin² 2θ; and curves change
//! their roundness, so each adds the angle by which it turns. These sums by length along the
//! band, in depths of the band, on top of a floor for ink that shows nothing, are ρ. Across loops
//! (`loops`) it is raised to a plateau. What is kept is its inverse, how much a place gives, made
//! smooth by a blur round the period, before which the loops are widened by the blur's reach, so
//! that nothing of a stem's give leaks into a loop.
//! Guarantee: finite and above 0 everywhere; the same for a drawing and, mirrored, for its
//! mirror image, up to rounding. The weights are our own choice, not a law.
//! Failure: fewer than two points, coordinates that are not finite, no pitch.

use super::loops::{CLOSED, mark_loops};
use crate::error::{Error, FitFault, GeometryFault};
use crate::geom::{Point, Vector};

/// The number of knots along a repeat.
pub(super) const KNOTS: usize = 512;

/// The stiffness of ink that shows no stretch, such as a line along the band.
const FLOOR: f64 = 0.1;

/// How much stiffer a loop is than the stiffest place outside loops.
const PLATEAU: f64 = 1000.0;

/// Tighter curves than this radius, in depths, count as this: a stretch shows no kink.
const TIGHTEST: f64 = 0.05;

/// The reach of the blur as a part of the period, and of the longest run without loops.
const BLUR: [usize; 2] = [32, 8];

/// The most samples of the ink; longer ink is sampled more coarsely.
const MAX_SAMPLES: f64 = 100_000.0;

/// How stiff a repeat is along its length; made once, good for any stretch.
#[derive(Debug, Clone, PartialEq)]
pub struct Stiffness {
    give: Vec<f64>,
    is_loop: Vec<bool>,
}

impl Stiffness {
    /// The stiffness of a repeat given by its points (fraction along, offset across) and the
    /// length of one repeat in depths of the band.
    ///
    /// Ink that reaches out of the repeat counts where it lies in the neighbouring copy.
    ///
    /// # Errors
    ///
    /// A geometry error for fewer than two different points and for coordinates that are not
    /// finite or too large; a fit error when the length of a repeat is not above 0.
    ///
    /// # Complexity
    ///
    /// O(points + length of the ink in parts of a repeat), at most 100 000 samples.
    pub fn of(points: &[(f64, f64)], aspect: f64) -> Result<Self, Error> {
        if !(1e-9..=1e9).contains(&aspect) {
            return Err(FitFault::RepeatHasNoPitch.into());
        }
        let ink: Vec<Point> = (points.iter())
            .map(|&(u, t)| Point::new(u * aspect, t))
            .collect();
        let ink = crate::geom::Polyline::new(ink)?;
        let length = ink.length();
        if !length.is_finite() || length == 0.0 {
            return Err(GeometryFault::NoLength.into());
        }
        let finest = (aspect / (2 * KNOTS) as f64).min(0.01);
        let count = (length / finest).ceil().clamp(16.0, MAX_SAMPLES);
        let samples = even_samples(ink.points(), length, count as usize);

        let mut is_loop = vec![false; KNOTS];
        // Finer samples than that show no other loops.
        let stride = (0.7 * CLOSED * count / length).max(1.0) as usize;
        let coarse: Vec<Point> = samples.iter().copied().step_by(stride).collect();
        mark_loops(&coarse, length / count * stride as f64, |from, to| {
            let from = (from / aspect * KNOTS as f64).floor();
            let to = (to / aspect * KNOTS as f64).ceil();
            for step in 0..=(to - from).min(KNOTS as f64) as usize {
                is_loop[wrapped(from + step as f64)] = true;
            }
        });
        let raw = raw(&samples, aspect);
        Ok(Self {
            give: smooth(&raw, &is_loop),
            is_loop,
        })
    }

    /// The inverse of ρ at the knots.
    pub(super) fn give(&self) -> &[f64] {
        &self.give
    }

    /// Which knots lie in loops.
    pub(super) fn is_loop(&self) -> &[bool] {
        &self.is_loop
    }

    /// The stretches of the repeat, as fractions along from 0 to 1, that loops lie over.
    #[must_use]
    pub fn loops(&self) -> Vec<[f64; 2]> {
        let mut runs: Vec<[f64; 2]> = Vec::new();
        for (knot, _) in self.is_loop.iter().enumerate().filter(|(_, is)| **is) {
            let at = knot as f64 / KNOTS as f64;
            match runs.last_mut() {
                Some(run) if run[1] == (knot as f64 - 1.0) / KNOTS as f64 => run[1] = at,
                _ => runs.push([at, at]),
            }
        }
        runs
    }
}

/// The knot, of those round the period, with this number or the one a whole period away.
fn wrapped(knot: f64) -> usize {
    (knot.rem_euclid(KNOTS as f64) as usize).min(KNOTS - 1)
}

/// Points at even distances along a line, its ends included.
pub(super) fn even_samples(points: &[Point], length: f64, count: usize) -> Vec<Point> {
    let step = length / count as f64;
    let mut samples = Vec::with_capacity(count + 1);
    let mut before = 0.0;
    for pair in points.windows(2) {
        let size = (pair[1] - pair[0]).norm();
        while samples.len() < count && samples.len() as f64 * step <= before + size {
            let along = (samples.len() as f64 * step - before) / size;
            samples.push(pair[0] + (pair[1] - pair[0]) * along.max(0.0));
        }
        before += size;
    }
    samples.resize(count + 1, points[points.len() - 1]);
    samples
}

/// ρ without loops and without blur.
fn raw(samples: &[Point], aspect: f64) -> Vec<f64> {
    let mut sums = vec![0.0; KNOTS];
    let by_length = KNOTS as f64 / aspect;
    // Shared by the two knots around a place, so that rounding moves nothing from knot to knot.
    let mut add = |x: f64, amount: f64| {
        let at = x * by_length;
        let share = at - at.floor();
        sums[wrapped(at.floor())] += (1.0 - share) * amount * by_length;
        sums[wrapped(at.floor() + 1.0)] += share * amount * by_length;
    };
    let mut before: Option<Vector> = None;
    for pair in samples.windows(2) {
        let step = pair[1] - pair[0];
        let size = step.norm();
        if size == 0.0 {
            continue;
        }
        let double_sine = 2.0 * step.x * step.y / (size * size);
        add(
            f64::midpoint(pair[0].x, pair[1].x),
            size * double_sine * double_sine,
        );
        if let Some(before) = before {
            let turn = before.perp(&step).atan2(before.dot(&step)).abs();
            add(pair[0].x, turn.min(size / TIGHTEST));
        }
        before = Some(step);
    }
    sums.iter_mut().for_each(|sum| *sum += FLOOR);
    sums
}

/// The inverse of ρ, low across loops, blurred round the period.
fn smooth(raw: &[f64], is_loop: &[bool]) -> Vec<f64> {
    let outside = raw.iter().zip(is_loop).filter(|(_, is)| !**is);
    let stiffest = outside.map(|(rho, _)| *rho).fold(0.0, f64::max);
    if stiffest == 0.0 {
        return vec![1.0; KNOTS];
    }
    let half = (KNOTS / BLUR[0]).min(longest_run(is_loop) / BLUR[1]).max(2) / 2;
    let reach = 2 * half;
    let near_loop = |knot: usize| {
        (0..=2 * reach).any(|offset| is_loop[(knot + KNOTS + offset - reach) % KNOTS])
    };
    let mut give: Vec<f64> = (0..KNOTS)
        .map(|knot| {
            if near_loop(knot) {
                1.0 / (PLATEAU * stiffest)
            } else {
                1.0 / raw[knot]
            }
        })
        .collect();
    for _ in 0..2 {
        give = blurred(&give, half);
    }
    give
}

/// The longest run of knots outside loops, round the period.
fn longest_run(is_loop: &[bool]) -> usize {
    let (mut longest, mut run) = (0, 0);
    for is_loop in is_loop.iter().chain(is_loop) {
        run = if *is_loop { 0 } else { run + 1 };
        longest = longest.max(run);
    }
    longest.min(KNOTS)
}

/// The mean over this many knots either way, round the period.
fn blurred(values: &[f64], half: usize) -> Vec<f64> {
    let width = 2 * half + 1;
    (0..KNOTS)
        .map(|knot| {
            let around = (0..width).map(|offset| values[(knot + KNOTS + offset - half) % KNOTS]);
            around.sum::<f64>() / width as f64
        })
        .collect()
}
