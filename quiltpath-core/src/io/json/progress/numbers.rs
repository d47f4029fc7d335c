//! Numbers and points of the file of a quilt's progress, checked.

use crate::error::{Error, StitchedFault, not_negative};
use crate::geom::Point;
use crate::io::json::points::RawPoint;

/// A number that counts from 1, counted from 0.
pub(super) fn from_1(number: usize) -> Result<usize, Error> {
    number
        .checked_sub(1)
        .ok_or_else(|| malformed("the number is 0; numbers here count from 1"))
}

/// A length that may not be below 0.
pub(super) fn length(length: f64) -> Result<f64, Error> {
    not_negative("the length", length, "0 or more, in millimetres")?;
    Ok(length)
}

pub(super) fn malformed(reason: &'static str) -> Error {
    StitchedFault::Malformed { reason }.into()
}

pub(super) fn points(raw: Vec<RawPoint>) -> Vec<Point> {
    raw.into_iter().map(|point| point.0).collect()
}

pub(super) fn raw(points: &[Point]) -> Vec<RawPoint> {
    points.iter().copied().map(RawPoint).collect()
}
