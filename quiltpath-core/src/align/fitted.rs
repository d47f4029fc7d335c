//! The map that readings bear, and how far each of them is from it.

use super::doubts::{ReadingDoubt, doubt};
use super::line::{Linear, leverage, on_a_line, weight};
use super::map::{ClothMap, Trend};
use super::reading::{Reading, merged};
use super::spline::Spline;
use crate::error::Error;
use crate::geom::Vector;

/// From so many readings on bends are told.
pub(super) const BENDS_FROM: usize = 6;

/// Smoothnesses that are tried, as powers of ten. Rougher ones bring the border no nearer in the
/// simulation of the tests, and hide mistakes.
const SMOOTH: [f64; 9] = [2.0, 1.5, 1.0, 0.5, 0.0, -0.5, -1.0, -1.5, -2.0];

/// A map, and how far each reading is from it.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Aligned {
    /// Where each point of the plan lies.
    pub map: ClothMap,
    /// One for each mark, in the order of their first readings.
    pub readings: Vec<ReadingReport>,
    /// A reading that is likely to be a mistake; from six marks on.
    pub doubt: Option<ReadingDoubt>,
}

/// How a mark fits the others.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct ReadingReport {
    /// The name of the mark.
    pub mark: String,
    /// From where the map has it to where it was read.
    pub off: Vector,
    /// From where the other readings alone have it to where it was read; `None` for one alone.
    pub off_others: Option<Vector>,
    /// How much of the map at its place is its own doing, 0 to 1: at 1 no other reading tells
    /// whether it is right.
    pub leverage: f64,
}

/// The map from the plan to the machine by these readings.
///
/// Readings of one mark are averaged. Lengths are in the unit of the readings, for which
/// [`DEFAULT_NOISE_MM`](super::DEFAULT_NOISE_MM) is in millimetres.
///
/// ```
/// use quiltpath_core::align::{Reading, Trend, align};
/// use quiltpath_core::geom::Point;
///
/// let mark = |name: &str, x: f64, y: f64| Reading::new(name, Point::new(x, y), Point::new(x + 4.0, y - 3.0));
/// let found = align(&[mark("A", 0.0, 0.0), mark("B", 900.0, 0.0)])?;
/// assert_eq!(found.map.trend(), Trend::Line);
/// assert!((found.map.map(Point::new(450.0, 200.0)) - Point::new(454.0, 197.0)).norm() < 1e-9);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// An align error without readings and with more than 40, for readings of one mark that are further
/// apart than three times their noise, and for two marks at one place; a geometry error for
/// coordinates that are not finite or out of range, and a noise that is not above 0.
///
/// # Complexity
///
/// O(n⁴) for n marks: each is left out in turn.
pub fn align(readings: &[Reading]) -> Result<Aligned, Error> {
    let marks = merged(readings)?;
    let map = fitted(&marks).0;
    let drawn = leverage(&marks);
    let reports = marks.iter().enumerate().map(|(at, mark)| {
        let others = without(&marks, at);
        let off_others =
            (!others.is_empty()).then(|| mark.read - fitted(&others).0.map(mark.planned));
        ReadingReport {
            mark: mark.mark.clone(),
            off: mark.read - map.map(mark.planned),
            off_others,
            leverage: if mark.exact { 1.0 } else { drawn[at].min(1.0) },
        }
    });
    Ok(Aligned {
        readings: reports.collect(),
        doubt: doubt(&marks),
        map,
    })
}

/// The marks without one.
pub(super) fn without(marks: &[Reading], gone: usize) -> Vec<Reading> {
    let others = marks.iter().enumerate().filter(|(at, _)| *at != gone);
    others.map(|(_, mark)| mark.clone()).collect()
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

#[cfg(test)]
mod tests;
