//! A line in stretches with boxes, to find quickly what of it is near.
//!
//! Method: about as many stretches as each has segments; a stretch whose box is too far away is
//! passed over. Guarantee: the same as looking at every segment. Time: O(√n) for a place near a
//! line that goes its way, O(n) for one that is as far from all of it.

use super::measure::distance_to_segment;
use super::{Bounds, Point, Vector};

/// A line of two points or more in stretches.
pub(crate) struct Stretches {
    points: Vec<Point>,
    size: usize,
    boxes: Vec<Bounds>,
    /// The stretch that was nearest last; the next place's nearest is seldom another.
    nearest: usize,
}

impl Stretches {
    pub(crate) fn of(points: Vec<Point>) -> Self {
        let size = (points.len() as f64).sqrt().ceil().max(1.0) as usize;
        let last = points.len().saturating_sub(1);
        let boxes = (0..last)
            .step_by(size)
            .map(|first| Bounds::of_nonempty(&points[first..=(first + size).min(last)]));
        Self {
            size,
            boxes: boxes.collect(),
            points,
            nearest: 0,
        }
    }

    fn segments(&self, stretch: usize) -> impl Iterator<Item = [Point; 2]> + '_ {
        let first = stretch * self.size;
        let last = (first + self.size).min(self.points.len() - 1);
        let pairs = self.points[first..=last].windows(2);
        pairs.map(|pair| [pair[0], pair[1]])
    }

    /// The distance of a point from the line.
    pub(crate) fn distance(&mut self, point: Point) -> f64 {
        let own = Bounds {
            min: point,
            max: point,
        };
        let mut least = f64::INFINITY;
        let start = self.nearest;
        let mut nearest = start;
        for stretch in std::iter::once(start).chain(0..self.boxes.len()) {
            if apart(&self.boxes[stretch], &own) >= least {
                continue;
            }
            for [from, to] in self.segments(stretch) {
                let by = distance_to_segment(point, from, to);
                if by < least {
                    least = by;
                    nearest = stretch;
                }
            }
        }
        self.nearest = nearest;
        least
    }

    /// The segments, in order, of all stretches that come within this distance of a box.
    pub(crate) fn near(&self, own: Bounds, within: f64) -> impl Iterator<Item = [Point; 2]> + '_ {
        let stretches = 0..self.boxes.len();
        stretches
            .filter(move |stretch| apart(&self.boxes[*stretch], &own) <= within)
            .flat_map(|stretch| self.segments(stretch))
    }
}

/// How far two boxes are apart.
fn apart(one: &Bounds, other: &Bounds) -> f64 {
    let beside = (one.min - other.max).sup(&(other.min - one.max));
    beside.sup(&Vector::zeros()).norm()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn stretches_find_what_all_segments_have(points in prop::collection::vec((-9.0..9.0f64, -9.0..9.0f64), 2..90), places in prop::collection::vec((-20.0..20.0f64, -20.0..20.0f64), 1..9), within in 0.0..5.0f64) {
            let points: Vec<Point> = points.into_iter().map(|(x, y)| Point::new(x, y)).collect();
            let mut line = Stretches::of(points.clone());
            for (x, y) in places {
                let place = Point::new(x, y);
                let all = points.windows(2).map(|pair| distance_to_segment(place, pair[0], pair[1]));
                let all = all.fold(f64::INFINITY, f64::min);
                prop_assert!((line.distance(place) - all).abs() < 1e-12);
                let own = Bounds { min: place, max: place };
                let found: Vec<[Point; 2]> = line.near(own, within).collect();
                let near = points.windows(2).filter(|pair| distance_to_segment(place, pair[0], pair[1]) <= within);
                for pair in near {
                    prop_assert!(found.contains(&[pair[0], pair[1]]));
                }
            }
        }
    }
}
