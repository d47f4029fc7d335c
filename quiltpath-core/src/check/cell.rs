//! Where two segments are within a distance of each other, as a set of pairs of places on them.
//!
//! Problem: point P runs along one segment, Q along another; which pairs (x, y) of their distances
//! travelled have |P(x) − Q(y)| ≤ d, with x in a given range and the gap y − x in another?
//! Method: P − Q is linear in (x, y), so |P − Q| ≤ d is a filled ellipse (a strip for parallel
//! segments) and the ranges cut a convex polygon of at most six corners; the set is where the two
//! overlap. Its extremes are among the ends of the polygon's sides within the ellipse, each from
//! one quadratic, and the extremes of the ellipse that lie in the polygon.
//! Guarantee: exact up to rounding. A set that a side of the ranges cuts shows on that side, so
//! that the sets of neighbouring segments are known to be connected. This is the free-space
//! diagram of Alt and Godau (1995, Computing the Fréchet distance between two polygonal curves).
//! Failure: none; sets that rounding makes empty or not are a matter of d being met or not.

use crate::geom::Vector;
use crate::geom::lines::Lines;

/// Two segments with the ranges of the pairs of places on them that are looked at.
pub(crate) struct Cell {
    /// From Q to P at the starts of their segments.
    pub(crate) start: Vector,
    /// The step of P and of Q for each unit travelled.
    pub(crate) steps: [Vector; 2],
    /// How far P and Q travel to the ends of their segments.
    pub(crate) spans: [f64; 2],
    /// The range of x, within the span of P.
    pub(crate) x: [f64; 2],
    /// The range of y − x.
    pub(crate) gap: [f64; 2],
}

/// The pairs of places within the distance: a convex set, by its extremes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Shape {
    /// The range of x, from the start of P's segment.
    pub(crate) x: [f64; 2],
    /// The range of y, from the start of Q's segment.
    pub(crate) y: [f64; 2],
    /// The range of x where Q is at the start of its segment and where it is at its end.
    pub(crate) at_ends_of_q: [Option<[f64; 2]>; 2],
    /// True when P can be at the start of its segment, and at its end.
    pub(crate) at_ends_of_p: [bool; 2],
    /// The least distance, and the place x of it.
    pub(crate) nearest: (f64, f64),
    /// The least y − x, and the place x of it.
    pub(crate) gap: (f64, f64),
}

type Pair = [f64; 2];

impl Cell {
    /// The pairs of places on two segments, with x in a range and, for segments of one line, with
    /// this distance along it between them.
    pub(crate) fn new(lines: &Lines, [first, second]: [u32; 2], x: Pair, gap: Pair) -> Self {
        let ([a, b], [c, d]) = (lines.ends(first), lines.ends(second));
        let spans = [lines.span(first), lines.span(second)];
        let between = lines.reach(second)[0] - lines.reach(first)[0];
        Self {
            start: a - c,
            steps: [(b - a) / spans[0], (d - c) / spans[1]],
            spans,
            x,
            gap: if lines.same_line(first, second) {
                gap.map(|limit| limit - between)
            } else {
                [f64::NEG_INFINITY, f64::INFINITY]
            },
        }
    }

    /// The set of pairs within this distance; none when it is empty.
    pub(crate) fn shape(&self, distance: f64) -> Option<Shape> {
        let polygon = self.polygon();
        let mut found = Gathered::new();
        for index in 0..polygon.len() {
            let (from, to) = (polygon.at(index), polygon.at((index + 1) % polygon.len()));
            let Some([enter, leave, least]) = self.within(from, to, distance) else {
                continue;
            };
            let place = |part: f64| [0, 1].map(|axis| between(from[axis], to[axis], part));
            found.add(place(enter));
            found.add(place(leave));
            found.near(self.apart(place(least)), place(least)[0]);
            for (end, level) in [0.0, self.spans[1]].into_iter().enumerate() {
                if from[1] == level && to[1] == level {
                    let (one, other) = (place(enter)[0], place(leave)[0]);
                    found.shape.at_ends_of_q[end] = Some([one.min(other), one.max(other)]);
                }
            }
            for (end, level) in [0.0, self.spans[0]].into_iter().enumerate() {
                found.shape.at_ends_of_p[end] |= from[0] == level && to[0] == level;
            }
        }
        if polygon.len() > 2 {
            self.inside(distance, &mut found);
        }
        found.any.then_some(found.shape)
    }

    /// From Q to P.
    fn off(&self, [x, y]: Pair) -> Vector {
        self.start + self.steps[0] * x - self.steps[1] * y
    }

    fn apart(&self, pair: Pair) -> f64 {
        self.off(pair).norm()
    }

    /// The ranges' polygon, in order; no corner when nothing is left.
    fn polygon(&self) -> Polygon {
        let ([low, high], end) = (self.x, self.spans[1]);
        let mut polygon = Polygon::new();
        for corner in [[low, 0.0], [high, 0.0], [high, end], [low, end]] {
            polygon.push(corner);
        }
        polygon.cut(self.gap[0], 1.0).cut(self.gap[1], -1.0)
    }

    /// The part of a side of the polygon within the distance, and where on it it is least, as
    /// fractions of the side; none when no part is.
    fn within(&self, from: Pair, to: Pair, distance: f64) -> Option<[f64; 3]> {
        let off = self.off(from);
        let step = self.steps[0] * (to[0] - from[0]) - self.steps[1] * (to[1] - from[1]);
        let (square, half) = (step.norm_squared(), step.dot(&off));
        if square == 0.0 {
            return (off.norm() <= distance).then_some([0.0, 1.0, 0.0]);
        }
        // Where the line of the side is nearest, and how far to either side of it: this form
        // loses nothing when the side is long.
        let (least, away) = (-half / square, step.perp(&off) / square.sqrt());
        let reach = distance * distance - away * away;
        if reach < 0.0 {
            return None;
        }
        let reach = (reach / square).sqrt();
        let (enter, leave) = ((least - reach).max(0.0), (least + reach).min(1.0));
        (enter <= leave).then(|| [enter, leave, least.clamp(enter, leave)])
    }

    /// Adds the extremes of the ellipse that lie inside the polygon, and its centre.
    fn inside(&self, distance: f64, found: &mut Gathered) {
        let [u, v] = self.steps;
        let det = -u.perp(&v);
        if det.abs() <= 1e-12 * (u.norm() * v.norm()) {
            return;
        }
        // (x, y) is the solution of u x − v y = z − start, where z = P − Q.
        let solve = |z: Vector| {
            let right = z - self.start;
            [-right.perp(&v) / det, u.perp(&right) / det]
        };
        let mut add = |z: Vector| {
            let pair = solve(z);
            if self.holds(pair) {
                found.add(pair);
                found.near(z.norm(), pair[0]);
            }
        };
        add(Vector::zeros());
        // x is extreme where z is across v, y where it is across u, the gap across their
        // difference.
        for along in [v, u, v - u] {
            if let Some(way) = Vector::new(-along.y, along.x).try_normalize(0.0) {
                add(way * distance);
                add(way * -distance);
            }
        }
    }

    fn holds(&self, [x, y]: Pair) -> bool {
        let within = |value: f64, [low, high]: Pair| low <= value && value <= high;
        within(x, self.x) && within(y, [0.0, self.spans[1]]) && within(y - x, self.gap)
    }
}

fn between(from: f64, to: f64, part: f64) -> f64 {
    // Both ends exactly, and no change on a side along an axis.
    if part == 1.0 || from == to {
        return to;
    }
    from + (to - from) * part
}

/// A convex polygon of at most six corners, kept in place.
struct Polygon {
    corners: [Pair; 8],
    count: usize,
}

impl Polygon {
    fn new() -> Self {
        Self {
            corners: [[0.0; 2]; 8],
            count: 0,
        }
    }

    fn len(&self) -> usize {
        self.count
    }

    fn at(&self, index: usize) -> Pair {
        self.corners[index]
    }

    fn push(&mut self, corner: Pair) {
        self.corners[self.count] = corner;
        self.count += 1;
    }

    /// What lies where `sign` (y − x) is not below `sign` limit.
    fn cut(self, limit: f64, sign: f64) -> Self {
        let above = |[x, y]: Pair| sign * (y - x - limit) >= 0.0;
        if !limit.is_finite() || (0..self.count).all(|index| above(self.at(index))) {
            return self;
        }
        let mut left = Self::new();
        for index in 0..self.count {
            let (from, to) = (self.at(index), self.at((index + 1) % self.count));
            if above(from) {
                left.push(from);
            }
            if above(from) != above(to) {
                // Sides run along an axis, or along the cut itself and are not met.
                let vertical = from[0] == to[0];
                left.push(if vertical {
                    [from[0], from[0] + limit]
                } else {
                    [from[1] - limit, from[1]]
                });
            }
        }
        left
    }
}

/// Extremes of the pairs added so far.
struct Gathered {
    shape: Shape,
    any: bool,
}

impl Gathered {
    fn new() -> Self {
        let none = [f64::INFINITY, f64::NEG_INFINITY];
        Self {
            shape: Shape {
                x: none,
                y: none,
                at_ends_of_q: [None; 2],
                at_ends_of_p: [false; 2],
                nearest: (f64::INFINITY, 0.0),
                gap: (f64::INFINITY, 0.0),
            },
            any: false,
        }
    }

    fn add(&mut self, [x, y]: Pair) {
        let widen =
            |range: &mut Pair, value: f64| *range = [range[0].min(value), range[1].max(value)];
        widen(&mut self.shape.x, x);
        widen(&mut self.shape.y, y);
        if y - x < self.shape.gap.0 {
            self.shape.gap = (y - x, x);
        }
        self.any = true;
    }

    /// Of places that are equally near but for rounding, the first along P stands for all.
    fn near(&mut self, distance: f64, x: f64) {
        const SAME: f64 = 1e-9;
        let (least, first) = self.shape.nearest;
        let place = match distance < least - SAME || (distance < least + SAME && x < first) {
            true => x,
            false => first,
        };
        self.shape.nearest = (least.min(distance), place);
    }
}

#[cfg(test)]
mod tests;
