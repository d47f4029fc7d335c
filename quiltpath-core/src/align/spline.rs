//! A smoothing thin-plate spline, with the error of leaving each reading out.
//!
//! Problem: a surface through or near values at scattered points that bends as little as can be.
//! Method: Σ wᵢ r² ln r about the points plus an affine part, (K + λD) w + T a = z and Tᵀ w = 0, in
//! a box scaled to one, or the condition of the system eats the digits. λ = 0 meets all values;
//! from the inverse of the system come the errors of leaving one out without solving anew.

use nalgebra::{DMatrix, Matrix2, SMatrix};

use super::reading::Reading;
use crate::geom::{Bounds, Point, Vector};

/// A map of the plane, a spline for either coordinate.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Spline {
    middle: Point,
    scale: f64,
    /// The points, scaled, each with its weights.
    bumps: Vec<(Vector, Vector)>,
    /// Rows for 1, x and y, scaled.
    flat: SMatrix<f64, 3, 2>,
    /// Value less spline without it, for each point.
    pub(super) left_out: Vec<Vector>,
}

/// r² ln r by r².
fn bump(square: f64) -> f64 {
    if square > 0.0 {
        0.5 * square * square.ln()
    } else {
        0.0
    }
}

impl Spline {
    /// The spline by this smoothness; `None` where the points lie on a line.
    pub(super) fn of(marks: &[Reading], smooth: f64) -> Option<Self> {
        let places: Vec<Point> = marks.iter().map(|mark| mark.planned).collect();
        let bounds = Bounds::of(&places)?;
        let scale = bounds.size().amax();
        if scale == 0.0 {
            return None;
        }
        let middle = bounds.centre();
        let at: Vec<Vector> = places
            .iter()
            .map(|place| (place - middle) / scale)
            .collect();
        let count = at.len();
        let noise = marks.iter().map(|mark| mark.noise).fold(0.0, f64::max);
        let system = DMatrix::from_fn(count + 3, count + 3, |row, column| {
            let flat = |of: usize, which: usize| match which {
                0 => 1.0,
                which => at[of][which - 1],
            };
            match (row < count, column < count) {
                (true, true) if row == column => smooth * (marks[row].noise / noise).powi(2),
                (true, true) => bump((at[row] - at[column]).norm_squared()),
                (true, false) => flat(row, column - count),
                (false, true) => flat(column, row - count),
                (false, false) => 0.0,
            }
        });
        let inverse = system.try_inverse()?;
        let centre = marks[0].read;
        let values = DMatrix::from_fn(count + 3, 2, |row, axis| match marks.get(row) {
            Some(mark) => mark.read[axis] - centre[axis],
            None => 0.0,
        });
        let found = &inverse * values;
        if !found.iter().all(|value| value.is_finite()) {
            return None;
        }
        let row = |row: usize| Vector::new(found[(row, 0)], found[(row, 1)]);
        let left_out = (0..count).map(|at| row(at) / inverse[(at, at)]).collect();
        let mut flat = SMatrix::<f64, 3, 2>::from_fn(|row, axis| found[(count + row, axis)]);
        flat[(0, 0)] += centre.x;
        flat[(0, 1)] += centre.y;
        Some(Self {
            middle,
            scale,
            bumps: at
                .into_iter()
                .enumerate()
                .map(|(at, place)| (place, row(at)))
                .collect(),
            flat,
            left_out,
        })
    }

    pub(super) fn map(&self, point: Point) -> Point {
        let at = (point - self.middle) / self.scale;
        let flat = self.flat.row(0) + self.flat.row(1) * at.x + self.flat.row(2) * at.y;
        let bent = self
            .bumps
            .iter()
            .map(|(place, weight)| weight * bump((at - place).norm_squared()));
        Point::from(flat.transpose() + bent.sum::<Vector>())
    }

    /// The change of the map about a point.
    pub(super) fn change(&self, point: Point) -> Matrix2<f64> {
        let at = (point - self.middle) / self.scale;
        let mut change = Matrix2::from_fn(|axis, along| self.flat[(along + 1, axis)]);
        for (place, weight) in &self.bumps {
            let away = at - place;
            let square = away.norm_squared();
            if square > 0.0 {
                change += weight * (away * (square.ln() + 1.0)).transpose();
            }
        }
        change / self.scale
    }
}
