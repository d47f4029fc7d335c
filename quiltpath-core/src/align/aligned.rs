//! The map by readings, and how far each of them is from it.

use super::course::{fitted, others};
use super::doubts::{ReadingDoubt, doubt};
use super::line::leverage;
use super::map::ClothMap;
use super::reading::{Reading, merged};
use crate::error::Error;
use crate::geom::Vector;

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
    /// How much of an affine map at its place is its own doing, 0 to 1: at 1, as for one that is
    /// met exactly, no other reading tells whether it is right.
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
    let (map, error) = fitted(&marks);
    let (drawn, others) = (leverage(&marks), others(&marks));
    let reports = marks.iter().enumerate().map(|(at, mark)| ReadingReport {
        mark: mark.mark.clone(),
        off: mark.read - map.map(mark.planned),
        off_others: others.get(at).map(|others| others.off),
        leverage: if mark.exact { 1.0 } else { drawn[at].min(1.0) },
    });
    Ok(Aligned {
        readings: reports.collect(),
        doubt: doubt(&marks, error, &others),
        map,
    })
}

/// The map that meets every one of these readings, whatever they are marked as: where the cloth was
/// touched.
///
/// # Errors
///
/// As [`align`].
///
/// # Complexity
///
/// O(n³) for n marks.
pub fn align_exactly(readings: &[Reading]) -> Result<ClothMap, Error> {
    let exact: Vec<Reading> = readings.iter().cloned().map(Reading::exactly).collect();
    Ok(fitted(&merged(&exact)?).0)
}

#[cfg(test)]
mod tests;
