//! The distance from points to one straight stitch.

use crate::geom::{Point, Vector};

/// A straight stitch, ready to measure many points against.
///
/// All in squares: most stitches need no root.
#[derive(Clone, Copy)]
pub(super) struct Chord {
    from: Point,
    step: Vector,
    square_length: f64,
    inverse: f64,
}

impl Chord {
    #[inline]
    pub(super) fn new(from: Point, to: Point) -> Self {
        let step = to - from;
        let square_length = step.norm_squared();
        let has_length = square_length > f64::MIN_POSITIVE;
        Self {
            from,
            // Without length any direction does: every point lies beyond one of the ends.
            step: if has_length { step } else { Vector::x() },
            square_length: if has_length { square_length } else { 0.0 },
            inverse: if has_length { 1.0 / square_length } else { 1.0 },
        }
    }

    #[inline]
    pub(super) fn square_length(&self) -> f64 {
        self.square_length
    }

    /// The square of the distance from a point to the stitch.
    #[inline]
    pub(super) fn square(&self, point: Point) -> f64 {
        let off = point - self.from;
        let across = self.step.perp(&off);
        let along = self.step.dot(&off);
        let beyond = larger(larger(-along, along - self.square_length), 0.0);
        (across * across + beyond * beyond) * self.inverse
    }

    /// The square of the greatest distance of the points from the stitch, 0 without points.
    ///
    /// The distance to a segment is convex along each line, so the points of a path stand for
    /// the lines between them.
    #[inline]
    pub(super) fn worst(&self, points: &[Point]) -> f64 {
        let mut worst = 0.0;
        if points.len() >= 8 {
            return self.worst_of_many(points);
        }
        for &point in points {
            worst = larger(worst, self.square(point));
        }
        worst
    }

    fn worst_of_many(&self, points: &[Point]) -> f64 {
        // Four maxima side by side, since one would wait for itself at each point.
        let mut worst = [0.0; 4];
        let mut fours = points.chunks_exact(4);
        for four in &mut fours {
            for (worst, point) in worst.iter_mut().zip(four) {
                *worst = larger(*worst, self.square(*point));
            }
        }
        for point in fours.remainder() {
            worst[0] = larger(worst[0], self.square(*point));
        }
        larger(larger(worst[0], worst[1]), larger(worst[2], worst[3]))
    }

    /// The farthest point that passes, and the square of its distance, when one does.
    pub(super) fn farthest(
        &self,
        points: &[Point],
        passes: impl Fn(Point) -> bool,
    ) -> Option<(usize, f64)> {
        let mut farthest: Option<(usize, f64)> = None;
        for (at, &point) in points.iter().enumerate() {
            let square = self.square(point);
            if farthest.is_none_or(|(_, most)| square > most) && passes(point) {
                farthest = Some((at, square));
            }
        }
        farthest
    }
}

/// The larger of two numbers that are no NaN; one machine instruction, unlike `f64::max`.
#[inline]
fn larger(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::measure::distance_to_segment;
    use proptest::prelude::*;

    fn point() -> impl Strategy<Value = Point> {
        (-9.0..9.0f64, -9.0..9.0f64).prop_map(|(x, y)| Point::new(x, y))
    }

    proptest! {
        #[test]
        fn distances_are_those_to_the_segment(
            from in point(),
            to in point(),
            same in any::<bool>(),
            points in prop::collection::vec(point(), 0..20),
        ) {
            let to = if same { from } else { to };
            let chord = Chord::new(from, to);
            let distances = points.iter().map(|&p| distance_to_segment(p, from, to));
            let worst = distances.fold(0.0, f64::max);
            prop_assert!((chord.worst(&points).sqrt() - worst).abs() < 1e-12);
            if let Some((at, square)) = chord.farthest(&points, |_| true) {
                prop_assert!((square.sqrt() - worst).abs() < 1e-12);
                prop_assert!((chord.square(points[at]) - square).abs() < 1e-12);
            }
            prop_assert!(chord.farthest(&points, |_| false).is_none());
        }
    }
}
