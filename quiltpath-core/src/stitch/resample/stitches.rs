//! The needle points of a path, and how well they keep to what was asked.

use super::chord::Chord;
use super::needles::Place;
use crate::geom::Point;

/// The needle points of a path.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Stitches {
    /// The needle points in the order of stitching, from the start of the path to its end.
    pub points: Vec<Point>,
    /// The length of path up to each of the `points`, in its unit.
    pub along: Vec<f64>,
    /// The indices of those `points` that are cusps of the path, in order.
    pub anchors: Vec<usize>,
    /// How well the stitches keep to what was asked.
    pub report: StitchReport,
}

/// How well stitches keep to what was asked; lengths in the unit of the path.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct StitchReport {
    /// The shortest stitch.
    pub shortest: f64,
    /// The longest stitch.
    pub longest: f64,
    /// The greatest distance from the path to the stitch that stands for it.
    pub worst_chord_error: f64,
    /// Cusps that are no needle points, since a stitch would be below the minimum; every one,
    /// however near to its stitch it lies.
    pub dropped: Vec<Miss>,
    /// How many points turn as sharply as a cusp, but not between arms of the minimum's length:
    /// jitter and tiny links. Stitches keep to them by the chord error alone.
    ///
    /// Every sharp turn is one of these, a needle point, or one of `dropped`.
    pub tiny: usize,
    /// Places where the chord error is above what was asked, since a stitch would be below the
    /// minimum; at most one for each stitch.
    pub strayed: Vec<Miss>,
}

/// A point of the path that the stitches pass by.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Miss {
    /// The point of the path.
    pub at: Point,
    /// Its distance from the stitch that stands for that part of the path.
    pub distance: f64,
}

impl Stitches {
    /// How many stitches there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.points.len().saturating_sub(1)
    }

    /// Measures how far along the path each needle point lies.
    pub(super) fn measure(&mut self, path: &[Point], places: &[Place]) {
        self.along.reserve_exact(self.points.len());
        let (mut vertex, mut reached) = (0, 0.0);
        for (needle, place) in self.points.iter().zip(places) {
            // The last vertex that is not after the needle point.
            while vertex + 1 < place.after() {
                reached += (path[vertex + 1] - path[vertex]).norm();
                vertex += 1;
            }
            self.along.push(reached + (needle - path[vertex]).norm());
        }
    }

    /// Lists the cusps that are needle points, and reports those that are not.
    pub(super) fn sort_cusps(&mut self, path: &[Point], places: &[Place], cusps: &[usize]) {
        let mut next = 0;
        for &cusp in cusps {
            while places[next].after() <= cusp {
                next += 1;
            }
            if places[next].is_vertex(cusp) {
                self.anchors.push(next);
            } else {
                let chord = Chord::new(self.points[next - 1], self.points[next]);
                self.report.dropped.push(Miss {
                    at: path[cusp],
                    distance: chord.square(path[cusp]).sqrt(),
                });
            }
        }
    }
}
