//! The map that marks bear: the richest trend that they tell, met exactly where it has to be.

use super::line::{Linear, leverage, on_a_line, weight};
use super::map::{ClothMap, Trend};
use super::reading::Reading;
use super::spline::Spline;
use crate::geom::Vector;

/// From so many readings on bends are told.
pub(super) const BENDS_FROM: usize = 6;

/// Smoothnesses that are tried, as powers of ten. Rougher ones bring the border no nearer in the
/// simulation of the tests, and hide mistakes.
const SMOOTH: [f64; 9] = [2.0, 1.5, 1.0, 0.5, 0.0, -0.5, -1.0, -1.5, -2.0];

/// The marks without one.
pub(super) fn without(marks: &[Reading], gone: usize) -> Vec<Reading> {
    let others = marks.iter().enumerate().filter(|(at, _)| *at != gone);
    others.map(|(_, mark)| mark.clone()).collect()
}

/// What the other marks alone have to say about one.
pub(super) struct Others {
    /// From where they have it to where it was read.
    pub(super) off: Vector,
    /// Their error of leaving one out.
    pub(super) error: f64,
}

/// What the others say about each mark; nothing about one that is alone.
pub(super) fn others(marks: &[Reading]) -> Vec<Others> {
    if marks.len() < 2 {
        return Vec::new();
    }
    let each = marks.iter().enumerate().map(|(at, mark)| {
        let (map, error) = fitted(&without(marks, at));
        let off = mark.read - map.map(mark.planned);
        Others { off, error }
    });
    each.collect()
}

/// The map by these marks and, from [`BENDS_FROM`] on, its error of leaving one out.
pub(super) fn fitted(marks: &[Reading]) -> (ClothMap, f64) {
    let (map, error) = trend(marks);
    (map.clone().meeting(marks).unwrap_or(map), error)
}

fn trend(marks: &[Reading]) -> (ClothMap, f64) {
    if marks.len() == 1 {
        return (ClothMap::linear(Trend::Shift, Linear::shift(marks)), 0.0);
    }
    let affine = match marks.len() > 2 && !on_a_line(marks) {
        true => Linear::affine(marks),
        false => None,
    };
    let Some(affine) = affine else {
        return (ClothMap::linear(Trend::Line, Linear::line(marks)), 0.0);
    };
    let straight = ClothMap::linear(Trend::Affine, affine);
    if marks.len() < BENDS_FROM {
        return (straight, 0.0);
    }
    let drawn = leverage(marks);
    let left = marks.iter().zip(drawn).map(|(mark, drawn)| {
        let off = mark.read - affine.map(mark.planned);
        off / (1.0 - drawn).max(1e-9)
    });
    let mut best = (straight, error(marks, left));
    for power in SMOOTH {
        let Some(spline) = Spline::of(marks, f64::powf(10.0, power)) else {
            continue;
        };
        let error = error(marks, spline.left_out.iter().copied());
        // Of maps that are as good to rounding the smoothest counts.
        if error < best.1 * (1.0 - 1e-9) {
            best = (ClothMap::spline(spline), error);
        }
    }
    best
}

/// The root of the mean square of these, each by how well it is read.
fn error(marks: &[Reading], left_out: impl Iterator<Item = Vector>) -> f64 {
    let all: f64 = marks.iter().map(weight).sum();
    let sum: f64 = marks
        .iter()
        .zip(left_out)
        .map(|(mark, off)| weight(mark) * off.norm_squared())
        .sum();
    (sum / all).sqrt()
}
