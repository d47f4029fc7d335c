//! What a check reports: places on lines, the worst first, and spots that it did not go through.

use std::ops::RangeInclusive;

use crate::geom::Point;
use crate::geom::lines::Lines;
use crate::geom::near::Crowded;

/// The most places that one check reports; what is beyond is counted.
pub(crate) const MAX_PLACES: usize = 1000;

/// Places that differ by this share of their measure are equally bad.
const SAME: f64 = 1e-9;

/// What a check has found.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Found<T> {
    /// The places, the worst first, at most 1000.
    pub places: Vec<T>,
    /// How many more there are.
    pub left_out: usize,
    /// Spots that hold too many segments to go through all their pairs, the fullest first, at
    /// most 1000. Nothing is reported of the lines inside them; drawn lines have none.
    pub crowded: Vec<Crowded>,
}

impl<T> Found<T> {
    /// The places by how bad they are, with what is over the most counted. Places that are equally
    /// bad keep their order: repeats are, and which comes first must not hang on the last bit of a
    /// sine.
    pub(super) fn worst_first(
        places: Vec<T>,
        badness: impl Fn(&T) -> f64,
        mut crowded: Vec<Crowded>,
    ) -> Self {
        let rated = places.into_iter().enumerate();
        let mut rated: Vec<(f64, (usize, T))> =
            rated.map(|place| (badness(&place.1), place)).collect();
        rated.sort_by(|a, b| b.0.total_cmp(&a.0));
        let alike = |a: &(f64, _), b: &(f64, _)| a.0 - b.0 <= SAME * a.0.abs();
        for equal in rated.chunk_by_mut(alike) {
            equal.sort_by_key(|(_, (number, _))| *number);
        }
        let left_out = rated.len().saturating_sub(MAX_PLACES);
        rated.truncate(MAX_PLACES);
        let places = rated.into_iter().map(|(_, (_, place))| place).collect();
        crowded.sort_by_key(|spot| std::cmp::Reverse(spot.segments));
        crowded.truncate(MAX_PLACES);
        Self {
            places,
            left_out,
            crowded,
        }
    }
}

/// A part of one of the lines.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct LinePart {
    /// The index of the line.
    pub line: usize,
    /// The distance along the line at which the part starts.
    pub from: f64,
    /// The distance along the line at which it ends.
    pub to: f64,
    /// The indices of points of the line, as given, between which it lies.
    pub points: RangeInclusive<usize>,
    /// Where it starts.
    pub start: Point,
    /// Where it ends.
    pub end: Point,
}

impl LinePart {
    /// The part from one distance along to another, which lie on the first and the last segment.
    pub(super) fn new(lines: &Lines, [first, last]: [u32; 2], [from, to]: [f64; 2]) -> Self {
        Self {
            line: lines.line(first) as usize,
            from,
            to,
            points: lines.origin(first)..=lines.origin(last + 1),
            start: lines.point(first, from),
            end: lines.point(last, to),
        }
    }

    /// The length of the part along its line.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.to - self.from
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_equally_bad_keeps_its_order() {
        let (bit, half) = (1.0 + f64::EPSILON, 0.5);
        let found = Found::worst_first(vec![half, 1.0, bit, 2.0, 1.0], |one| *one, Vec::new());
        assert_eq!(found.places, [2.0, 1.0, bit, 1.0, half]);
        let many = Found::worst_first(vec![1.0; MAX_PLACES + 3], |one| *one, Vec::new());
        assert_eq!((many.places.len(), many.left_out), (MAX_PLACES, 3));
    }
}
