//! The trend of few readings: a shift, a line, an affine map.

use nalgebra::{Matrix2, Matrix3, Vector3};

use super::reading::Reading;
use crate::geom::{Point, Vector};

/// What is spread across less than this share of the spread along is on a line: a stretch across it
/// would be told by noise.
const ON_A_LINE: f64 = 0.03;

/// A map that keeps lines straight: where `from` goes, and the change from there on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Linear {
    pub(super) from: Point,
    pub(super) to: Point,
    pub(super) change: Matrix2<f64>,
}

impl Linear {
    pub(super) fn map(&self, point: Point) -> Point {
        self.to + self.change * (point - self.from)
    }

    /// The shift that fits best.
    pub(super) fn shift(marks: &[Reading]) -> Self {
        let (from, to, _) = middle(marks);
        Self {
            from,
            to,
            change: Matrix2::identity(),
        }
    }

    /// Shift, turn, and stretch along the line that the marks lie on, the way across it as long as
    /// it was.
    pub(super) fn line(marks: &[Reading]) -> Self {
        let (from, to, _) = middle(marks);
        let along = spread(marks).1;
        let (mut sum, mut square) = (Vector::zeros(), 0.0);
        for mark in marks {
            let share = weight(mark) * (mark.planned - from).dot(&along);
            sum += share * (mark.read - to);
            square += share * (mark.planned - from).dot(&along);
        }
        let stretched = if square > 0.0 { sum / square } else { along };
        let across = |along: Vector| Vector::new(-along.y, along.x);
        let length = stretched.norm();
        let beside = if length > 0.0 {
            across(stretched) / length
        } else {
            across(along)
        };
        let change = stretched * along.transpose() + beside * across(along).transpose();
        Self { from, to, change }
    }

    /// The affine map with the least sum of squares; `None` where the marks are too near to a line.
    pub(super) fn affine(marks: &[Reading]) -> Option<Self> {
        let (from, to, _) = middle(marks);
        let (mut square, mut both) = (Matrix2::zeros(), Matrix2::zeros());
        for mark in marks {
            let (was, is) = (mark.planned - from, mark.read - to);
            square += weight(mark) * was * was.transpose();
            both += weight(mark) * is * was.transpose();
        }
        let change = both * square.try_inverse()?;
        let usual = change.iter().all(|value| value.is_finite());
        usual.then_some(Self { from, to, change })
    }
}

/// How much a reading counts.
pub(super) fn weight(mark: &Reading) -> f64 {
    1.0 / (mark.noise * mark.noise)
}

/// The middle of the planned places, that of the read ones, and the sum of weights.
pub(super) fn middle(marks: &[Reading]) -> (Point, Point, f64) {
    let all: f64 = marks.iter().map(weight).sum();
    let mean = |place: fn(&Reading) -> Point| {
        let sum = marks
            .iter()
            .map(|mark| weight(mark) / all * place(mark).coords);
        Point::from(sum.sum::<Vector>())
    };
    (mean(|mark| mark.planned), mean(|mark| mark.read), all)
}

/// How far the marks are spread, across and along the line that fits them best, and its direction.
fn spread(marks: &[Reading]) -> ([f64; 2], Vector) {
    let (from, _, all) = middle(marks);
    let mut square = Matrix2::zeros();
    for mark in marks {
        let was = mark.planned - from;
        square += weight(mark) / all * was * was.transpose();
    }
    let found = square.symmetric_eigen();
    let (least, most) = match found.eigenvalues[0] < found.eigenvalues[1] {
        true => (0, 1),
        false => (1, 0),
    };
    let far = [least, most].map(|at| found.eigenvalues[at].max(0.0).sqrt());
    (far, found.eigenvectors.column(most).into_owned())
}

/// Whether all marks lie on a line, or nearly.
pub(super) fn on_a_line(marks: &[Reading]) -> bool {
    let ([across, along], _) = spread(marks);
    across <= ON_A_LINE * along
}

/// How much each reading draws an affine map to itself, 0 to 1; all of it where they are on a line.
pub(super) fn leverage(marks: &[Reading]) -> Vec<f64> {
    let (from, _, _) = middle(marks);
    let row = |mark: &Reading| Vector3::new(1.0, mark.planned.x - from.x, mark.planned.y - from.y);
    let square = marks
        .iter()
        .map(|mark| weight(mark) * row(mark) * row(mark).transpose());
    match square.sum::<Matrix3<f64>>().try_inverse() {
        Some(inverse) => {
            let drawn =
                |mark: &Reading| weight(mark) * (row(mark).transpose() * inverse * row(mark))[0];
            marks.iter().map(drawn).collect()
        }
        None => vec![1.0; marks.len()],
    }
}
