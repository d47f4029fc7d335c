//! The map from the plan to the machine.

use nalgebra::{DMatrix, Matrix2};

use super::line::Linear;
use super::reading::Reading;
use super::spline::Spline;
use crate::geom::{Bounds, Point, Vector};

/// How rich the trend of a map is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[non_exhaustive]
pub enum Trend {
    /// A shift alone: turn and stretch aren't known.
    Shift,
    /// Shift, turn, and stretch along one line.
    Line,
    /// Shift, turn, and stretch every way.
    Affine,
    /// All of that, and bends.
    Spline,
}

/// Where each point of the plan lies, in the coordinates of the readings.
#[derive(Debug, Clone, PartialEq)]
pub struct ClothMap {
    trend: Course,
    exact: Bumps,
}

#[derive(Debug, Clone, PartialEq)]
enum Course {
    Linear(Trend, Linear),
    Spline(Spline),
}

impl ClothMap {
    pub(super) fn linear(trend: Trend, linear: Linear) -> Self {
        Self {
            trend: Course::Linear(trend, linear),
            exact: Bumps::default(),
        }
    }

    pub(super) fn spline(spline: Spline) -> Self {
        Self {
            trend: Course::Spline(spline),
            exact: Bumps::default(),
        }
    }

    /// The same map, corrected so that it meets the exact ones of these marks.
    pub(super) fn meeting(self, marks: &[Reading]) -> Option<Self> {
        let exact = Bumps::of(marks, |point| self.map(point))?;
        Some(Self { exact, ..self })
    }

    /// How rich its trend is.
    #[must_use]
    pub fn trend(&self) -> Trend {
        match self.trend {
            Course::Linear(trend, _) => trend,
            Course::Spline(_) => Trend::Spline,
        }
    }

    /// Where a point of the plan lies.
    #[must_use]
    pub fn map(&self, point: Point) -> Point {
        let there = match &self.trend {
            Course::Linear(_, linear) => linear.map(point),
            Course::Spline(spline) => spline.map(point),
        };
        there + self.exact.at(point)
    }

    /// How the map changes about a point: the columns are where a step to the right and a step down
    /// go.
    #[must_use]
    pub fn change(&self, point: Point) -> Matrix2<f64> {
        let change = match &self.trend {
            Course::Linear(_, linear) => linear.change,
            Course::Spline(spline) => spline.change(point),
        };
        change + self.exact.change(point)
    }
}

/// Corrections that fade out away from their places.
#[derive(Debug, Clone, PartialEq, Default)]
struct Bumps {
    reach: f64,
    bumps: Vec<(Point, Vector)>,
}

/// Wendland's function of the second order in the plane, 1 at 0 and 0 from 1 on: the system of any
/// places apart is positive definite.
fn fading(share: f64) -> f64 {
    if share < 1.0 {
        (1.0 - share).powi(4) * (4.0 * share + 1.0)
    } else {
        0.0
    }
}

impl Bumps {
    /// What is left at the exact marks by this map.
    fn of(marks: &[Reading], map: impl Fn(Point) -> Point) -> Option<Self> {
        let exact: Vec<&Reading> = marks.iter().filter(|mark| mark.exact).collect();
        if exact.is_empty() {
            return Some(Self::default());
        }
        let places: Vec<Point> = marks.iter().map(|mark| mark.planned).collect();
        // One mark alone has no size: its correction is the same all over, by a reach beyond all.
        let reach = Bounds::of(&places)?.size().norm();
        let reach = if reach > 0.0 { reach } else { f64::MAX };
        let count = exact.len();
        let system = DMatrix::from_fn(count, count, |row, column| {
            fading((exact[row].planned - exact[column].planned).norm() / reach)
        });
        let left = DMatrix::from_fn(count, 2, |row, axis| {
            exact[row].read[axis] - map(exact[row].planned)[axis]
        });
        let found = system.cholesky()?.solve(&left);
        let bumps = exact.iter().enumerate();
        let bumps =
            bumps.map(|(at, mark)| (mark.planned, Vector::new(found[(at, 0)], found[(at, 1)])));
        Some(Self {
            reach,
            bumps: bumps.collect(),
        })
    }

    fn at(&self, point: Point) -> Vector {
        let each = self.bumps.iter();
        each.map(|(place, by)| by * fading((point - place).norm() / self.reach))
            .sum()
    }

    fn change(&self, point: Point) -> Matrix2<f64> {
        let each = self.bumps.iter().map(|(place, by)| {
            let away = (point - place) / self.reach;
            let share = away.norm();
            // The slope of (1 - s)^4 (4 s + 1) is -20 s (1 - s)^3.
            let slope = if share < 1.0 {
                -20.0 * (1.0 - share).powi(3)
            } else {
                0.0
            };
            by * (slope / self.reach * away).transpose()
        });
        each.sum()
    }
}
