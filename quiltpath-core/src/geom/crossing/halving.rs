//! The pairs of segments of a line that may meet.
//!
//! Method: halve the plane at the median of x or y, whichever tells more segments apart, cutting
//! those that reach over, until few are left or halving no longer pays; then go through the pairs
//! whose boxes overlap. Being adaptive, it bears long segments among tiny ones, dense spots and
//! any proportions.
//!
//! Guarantee: no pair that shares a point is left out; pairs may be named more than once. Failure
//! cases: none; many long slanted segments side by side cost the square of their number.

use std::ops::ControlFlow;

use crate::geom::{Bounds, Point, Vector};

/// What lies of a segment in the part of the plane that is being searched, by its box.
struct Piece {
    segment: u32,
    low: Point,
    high: Point,
}

/// Up to this many pieces are tested pair by pair.
const FEW: usize = 16;

/// Halving pays when it leaves at most this part of the pairs.
const PAYS: f64 = 0.8;

/// Names the pairs of segments (smaller index first) that come near each other, some repeatedly,
/// until all are named or a break is asked for.
///
/// # Complexity
///
/// O(n log n + pairs) for segments that are short against the whole.
pub(super) fn near_pairs(
    points: &[Point],
    name: &mut impl FnMut(u32, u32) -> ControlFlow<()>,
) -> ControlFlow<()> {
    let Some(bounds) = Bounds::of(points) else {
        return ControlFlow::Continue(());
    };
    let largest = bounds.min.coords.amax().max(bounds.max.coords.amax());
    let plane = Plane {
        points,
        slack: 16.0 * f64::EPSILON * largest,
    };
    plane.search(plane.pieces(), name)
}

struct Plane<'a> {
    points: &'a [Point],
    /// More than the rounding of a cut, for coordinates as large as these.
    slack: f64,
}

impl Plane<'_> {
    fn pieces(&self) -> Vec<Piece> {
        let slack = Vector::repeat(self.slack);
        let boxed = |(index, pair): (usize, &[Point])| Piece {
            segment: index as u32,
            low: pair[0].inf(&pair[1]) - slack,
            high: pair[0].sup(&pair[1]) + slack,
        };
        self.points.windows(2).enumerate().map(boxed).collect()
    }

    fn search(
        &self,
        pieces: Vec<Piece>,
        name: &mut impl FnMut(u32, u32) -> ControlFlow<()>,
    ) -> ControlFlow<()> {
        let halving = (pieces.len() > FEW)
            .then(|| better_halving(&pieces))
            .flatten();
        if let Some((axis, level)) = halving {
            let (mut left, mut right) = (Vec::new(), Vec::new());
            for piece in pieces {
                match (piece.low[axis] <= level, piece.high[axis] >= level) {
                    (true, true) => {
                        let [before, after] = self.cut(&piece, axis, level);
                        left.push(before);
                        right.push(after);
                    }
                    (true, false) => left.push(piece),
                    (false, _) => right.push(piece),
                }
            }
            self.search(left, name)?;
            return self.search(right, name);
        }
        for (index, piece) in pieces.iter().enumerate() {
            for other in &pieces[index + 1..] {
                if !piece.is_apart(other) {
                    let (first, second) = (piece.segment, other.segment);
                    name(first.min(second), first.max(second))?;
                }
            }
        }
        ControlFlow::Continue(())
    }

    /// The two parts of a piece below and above this level of x (axis 0) or y (axis 1).
    fn cut(&self, piece: &Piece, axis: usize, level: f64) -> [Piece; 2] {
        let (from, to) = (
            self.points[piece.segment as usize],
            self.points[piece.segment as usize + 1],
        );
        let across = 1 - axis;
        let run = to[axis] - from[axis];
        let along = if run == 0.0 {
            0.0
        } else {
            ((level - from[axis]) / run).clamp(0.0, 1.0)
        };
        let at = from[across] + (to[across] - from[across]) * along;
        let rises = (to[across] > from[across]) == (run > 0.0);
        let part = |below: bool| {
            let (mut low, mut high) = (piece.low, piece.high);
            if below {
                high[axis] = level;
            } else {
                low[axis] = level;
            }
            // Without a run, the whole of it lies on the level, and so in both parts.
            if run != 0.0 {
                if below == rises {
                    high[across] = high[across].min(at + self.slack);
                } else {
                    low[across] = low[across].max(at - self.slack);
                }
            }
            Piece {
                segment: piece.segment,
                low,
                high,
            }
        };
        [part(true), part(false)]
    }
}

impl Piece {
    fn is_apart(&self, other: &Self) -> bool {
        self.low.x > other.high.x
            || other.low.x > self.high.x
            || self.low.y > other.high.y
            || other.low.y > self.high.y
    }
}

/// The axis and the level that tell most pieces apart; none when halving doesn't pay.
fn better_halving(pieces: &[Piece]) -> Option<(usize, f64)> {
    let mut middles = vec![0.0; pieces.len()];
    let pairs = |count: usize| count as f64 * count as f64;
    let mut best = (PAYS * pairs(pieces.len()), None);
    for axis in [0, 1] {
        for (middle, piece) in middles.iter_mut().zip(pieces) {
            *middle = (piece.low[axis] + piece.high[axis]) / 2.0;
        }
        let half = middles.len() / 2;
        let level = *middles.select_nth_unstable_by(half, f64::total_cmp).1;
        let left = pieces.iter().filter(|piece| piece.low[axis] <= level);
        let right = pieces.iter().filter(|piece| piece.high[axis] >= level);
        let left_over = pairs(left.count()) + pairs(right.count());
        if left_over < best.0 {
            best = (left_over, Some((axis, level)));
        }
    }
    best.1
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::collections::BTreeSet;

    fn named(points: &[Point]) -> (BTreeSet<(u32, u32)>, usize) {
        let (mut pairs, mut total) = (BTreeSet::new(), 0);
        let _ = near_pairs(points, &mut |first, second| {
            pairs.insert((first, second));
            total += 1;
            ControlFlow::Continue(())
        });
        (pairs, total)
    }

    #[test]
    fn work_stays_near_linear_on_drawn_lines() {
        let wave = |n: u32| -> Vec<Point> {
            (0..n)
                .map(|step| f64::from(step) / f64::from(n) * 60.0)
                .map(|t| Point::new(t.cos() * t, t.sin() * 1e-6))
                .collect()
        };
        for points in [
            wave(20_000),
            (0..20_000)
                .map(|k| Point::new(f64::from(k), f64::from(k) * 3.0))
                .collect(),
            (0..20_000)
                .map(|k| Point::new(f64::from(k % 2) * 1e6, f64::from(k)))
                .collect(),
            (0..20_000)
                .map(|k| Point::new(0.999f64.powi(k), f64::from(k % 2)))
                .collect(),
        ] {
            let (_, total) = named(&points);
            assert!(total < 40 * points.len(), "{total}");
        }
    }

    proptest! {
        #[test]
        fn pairs_that_meet_are_named(points in prop::collection::vec((-9..10i32, -9..10i32), 2..80)) {
            let points: Vec<Point> = points.iter().map(|&(x, y)| Point::new(f64::from(x), f64::from(y))).collect();
            let (pairs, _) = named(&points);
            let side = |a: Point, b: Point, p: Point| (a - p).perp(&(b - p));
            for first in 0..points.len() - 1 {
                for second in first + 1..points.len() - 1 {
                    let (a, b, c, d) = (points[first], points[first + 1], points[second], points[second + 1]);
                    let meet = side(a, b, c) * side(a, b, d) <= 0.0
                        && side(c, d, a) * side(c, d, b) <= 0.0
                        && a.x.min(b.x) <= c.x.max(d.x) && c.x.min(d.x) <= a.x.max(b.x)
                        && a.y.min(b.y) <= c.y.max(d.y) && c.y.min(d.y) <= a.y.max(b.y);
                    if meet {
                        prop_assert!(pairs.contains(&(first as u32, second as u32)));
                    }
                }
            }
        }
    }
}
