//! What a check reports: places on lines, the worst first, and spots that it did not go through.

use std::cmp::Ordering;
use std::ops::RangeInclusive;

use crate::geom::Point;
use crate::geom::lines::Lines;
use crate::geom::near::Crowded;

/// The most places that one check reports; what is beyond is counted.
pub(crate) const MAX_PLACES: usize = 1000;

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
    /// The places in this order, with what is over the most counted.
    pub(super) fn worst_first(
        mut places: Vec<T>,
        order: impl FnMut(&T, &T) -> Ordering,
        mut crowded: Vec<Crowded>,
    ) -> Self {
        places.sort_by(order);
        let left_out = places.len().saturating_sub(MAX_PLACES);
        places.truncate(MAX_PLACES);
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
