//! Self-crossings of a line: where one stretch of it passes from one side of another to the other.
//!
//! Problem: list every such place once, whether it lies inside segments or on vertices. Method:
//! test each pair of segments that come near each other (`halving`) by the sides on which their
//! ends lie. A vertex belongs to the segment that starts there, so a passage through it is found
//! by that segment alone; it counts when the points before and after the vertex lie on different
//! sides.
//!
//! Guarantee: the same crossings as testing all pairs (held against it below); sides are decided
//! in f64, so contacts within rounding of a vertex may be read either way. Near-linear for drawn
//! lines plus the crossings found. Failure cases: none; a line that has coordinates that are not
//! finite has no crossings.

mod halving;

use std::ops::ControlFlow;

use super::point::Point;
use halving::near_pairs;

/// One place where a line crosses itself.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Crossing {
    /// The segment that is travelled first; segment k goes from point k to point k + 1.
    pub first: usize,
    /// The segment that is travelled second, `first` < `second`.
    pub second: usize,
    /// Where they cross.
    pub point: Point,
}

/// All the crossings of a line with itself, in the order of travel along the first strands.
///
/// A crossing is a passage from one side to the other. No crossings are: the vertices between
/// neighbouring segments and the closing point of a closed line; a touch, and an end of the line
/// that lies on it; a stretch that is travelled twice, with the points where it begins and ends.
/// Where three strands meet in a point, each pair of them is a crossing of its own.
///
/// ```
/// use quiltpath_core::geom::{Point, crossing::self_crossings};
///
/// let bow = [(0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)].map(|(x, y)| Point::new(x, y));
/// let crossings = self_crossings(bow);
/// assert_eq!(crossings.len(), 1);
/// assert_eq!((crossings[0].first, crossings[0].second), (0, 2));
/// assert_eq!(crossings[0].point, Point::new(1.0, 1.0));
/// ```
///
/// # Complexity
///
/// O(n log n + crossings) for lines whose segments are short against the whole; O(m²) for m long
/// slanted segments that lie within each other's boxes.
#[must_use]
pub fn self_crossings(line: impl AsRef<[Point]>) -> Vec<Crossing> {
    self_crossings_within(line, u64::MAX).unwrap_or_default()
}

/// As [`self_crossings`], or `None` when that takes more than this `effort`.
///
/// The effort is the number of pairs of segments compared, a crossing counting as 16 of them. Drawn
/// lines take less than a hundred times their points. A line that goes to and fro in one place, or
/// crosses itself all over, takes the square of them, and as much memory: give a limit where lines
/// come from anywhere.
///
/// ```
/// use quiltpath_core::geom::{Point, crossing::self_crossings_within};
///
/// let points: Vec<Point> = (0..1000).map(|k| Point::new(f64::from(k % 2), 0.0)).collect();
/// assert_eq!(self_crossings_within(&points, 100_000), None);
/// assert_eq!(self_crossings_within(&points[..100], 100_000), Some(vec![]));
/// ```
///
/// # Complexity
///
/// As [`self_crossings`]; O(n log n + effort) at the most.
#[must_use]
pub fn self_crossings_within(line: impl AsRef<[Point]>, effort: u64) -> Option<Vec<Crossing>> {
    within(line.as_ref(), effort)
}

fn within(points: &[Point], effort: u64) -> Option<Vec<Crossing>> {
    const FOR_A_CROSSING: u64 = 16;
    let Some(strand) = Strand::of(points) else {
        return Some(Vec::new());
    };
    let mut found = Vec::new();
    let mut left = effort;
    let all = near_pairs(&strand.points, &mut |first, second| {
        let crossing = strand.crossing(first, second);
        let cost = match crossing {
            Some(_) => FOR_A_CROSSING,
            None => 1,
        };
        found.extend(crossing);
        match left.checked_sub(cost) {
            Some(rest) => left = rest,
            None => return ControlFlow::Break(()),
        }
        ControlFlow::Continue(())
    });
    all.is_continue().then(|| strand.in_order(found))
}

/// A crossing on segments of the strand, with its place along the first: 0 at its start, 1 at its
/// end.
struct Found {
    first: u32,
    second: u32,
    along: f64,
    point: Point,
}

/// The line without repeated points.
struct Strand {
    points: Vec<Point>,
    /// The index in the caller's points of the segment that starts at each point.
    origin: Vec<u32>,
    closed: bool,
}

impl Strand {
    fn of(points: &[Point]) -> Option<Self> {
        let finite = |point: &Point| point.x.is_finite() && point.y.is_finite();
        if points.len() < 4 || !points.iter().all(finite) || u32::try_from(points.len()).is_err() {
            return None;
        }
        let (mut kept, mut origin) = (Vec::with_capacity(points.len()), Vec::new());
        origin.reserve(points.len());
        for (index, point) in points.iter().enumerate() {
            if kept.last() == Some(point) {
                origin.pop();
            } else {
                kept.push(*point);
            }
            origin.push(index as u32);
        }
        Some(Self {
            closed: kept.first() == kept.last(),
            points: kept,
            origin,
        })
    }

    fn segment(&self, index: u32) -> [Point; 2] {
        let index = index as usize;
        [self.points[index], self.points[index + 1]]
    }

    /// The point before the start of this segment; none at the start of an open line.
    fn before(&self, segment: u32) -> Option<Point> {
        match segment {
            0 if self.closed => Some(self.points[self.points.len() - 2]),
            0 => None,
            _ => Some(self.points[segment as usize - 1]),
        }
    }

    /// The crossing of two segments, if they cross inside or on the start of one or both.
    fn crossing(&self, first: u32, second: u32) -> Option<Found> {
        let last = self.points.len() as u32 - 2;
        if second - first <= 1 || (self.closed && first == 0 && second == last) {
            return None;
        }
        let ([a, b], [c, d]) = (self.segment(first), self.segment(second));
        let (of_a, of_b) = (side(c, d, a), side(c, d, b));
        let (of_c, of_d) = (side(a, b, c), side(a, b, d));
        let parts_cd = opposite(of_c, of_d);
        let parts_ab = opposite(of_a, of_b);
        let (along, point) = if parts_ab && parts_cd {
            let along = of_a / (of_a - of_b);
            (along, a + (b - a) * along)
        } else if of_a == 0.0 && parts_cd {
            let before = self.before(first)?;
            (0.0, opposite(side(c, d, before), of_b).then_some(a)?)
        } else if of_c == 0.0 && parts_ab {
            let before = self.before(second)?;
            let along = of_a / (of_a - of_b);
            (along, opposite(side(a, b, before), of_d).then_some(c)?)
        } else if a == c {
            let strands = [self.before(first)?, b, self.before(second)?, d];
            (0.0, alternate(a, strands).then_some(a)?)
        } else {
            return None;
        };
        Some(Found {
            first,
            second,
            along,
            point,
        })
    }

    /// Each crossing once, in order, with the caller's segment numbers.
    fn in_order(&self, mut found: Vec<Found>) -> Vec<Crossing> {
        found.sort_unstable_by(|a, b| {
            let along = a.along.total_cmp(&b.along);
            (a.first.cmp(&b.first).then(along)).then(a.second.cmp(&b.second))
        });
        // Two segments that reach over a cut together are near on both sides of it.
        found.dedup_by_key(|crossing| (crossing.first, crossing.second));
        found
            .iter()
            .map(|crossing| Crossing {
                first: self.origin[crossing.first as usize] as usize,
                second: self.origin[crossing.second as usize] as usize,
                point: crossing.point,
            })
            .collect()
    }
}

/// Above 0 when the point lies to the right of the travel from `from` to `to`, as seen; swapping
/// the two gives the opposite number, bit for bit.
fn side(from: Point, to: Point, point: Point) -> f64 {
    (from - point).perp(&(to - point))
}

/// True when one number is below 0 and the other above, also where their product would be 0.
pub(super) fn opposite(one: f64, other: f64) -> bool {
    (one < 0.0 && other > 0.0) || (one > 0.0 && other < 0.0)
}

/// True when two strands through `centre`, each given by a point before and one after, pass to
/// each other's other side; false when they share a direction.
fn alternate(centre: Point, [before, after, other_before, other_after]: [Point; 4]) -> bool {
    let turn = side(before, after, centre);
    // Within the angle that is swept clockwise from `before` to `after`: some true, some false,
    // none on its legs.
    let swept = |point: Point| {
        let (from, to) = (side(before, point, centre), side(point, after, centre));
        let on = |leg: Point, side: f64| side == 0.0 && (leg - centre).dot(&(point - centre)) > 0.0;
        if on(before, from) || on(after, to) {
            return None;
        }
        Some(if turn > 0.0 {
            from > 0.0 && to > 0.0
        } else if turn < 0.0 {
            from > 0.0 || to > 0.0
        } else {
            // A straight strand; one that turns back on itself has no sides.
            from > 0.0
        })
    };
    let turns_back = turn == 0.0 && (before - centre).dot(&(after - centre)) > 0.0;
    let sides = (swept(other_before), swept(other_after));
    !turns_back && matches!(sides, (Some(one), Some(other)) if one != other)
}

#[cfg(test)]
mod tests;
