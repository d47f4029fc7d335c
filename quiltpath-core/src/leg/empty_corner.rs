//! The largest empty rectangle in one corner of the drawing's box.
//!
//! Problem: seen from a corner of the box, with x and y the distances from it, find the greatest
//! x · y such that no ink lies in [0, x) × [0, y). Method: the **front** is the ink that has no
//! other ink both nearer in x and nearer in y; it is found by halving the segments and letting
//! each half's front strike out what it dominates of the other's. Along the front the best corner
//! lies at an end of a part, at a step between parts, or in the middle of a sloped part.
//!
//! Guarantee: exact up to rounding (held against brute force below), O(n log n) up to the inverse
//! Ackermann factor of envelopes of segments. Failure cases: none; a flat box gives an empty
//! rectangle without area.

use crate::geom::Point;

/// An empty rectangle in a corner of the box, and how much farther the ink stays away from the
/// outer half of each side.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct EmptyCorner {
    /// The extent along x.
    pub(super) width: f64,
    /// The extent along y.
    pub(super) height: f64,
    /// The least y of ink with x up to half the width.
    pub(super) outer_height: f64,
    /// The least x of ink with y up to half the height.
    pub(super) outer_width: f64,
}

/// The empty rectangle with the greatest area in this corner of the lines' box.
///
/// # Complexity
///
/// O(n log n); linear in practice, since most segments are struck out by `near`.
pub(super) fn empty_corner(lines: &[&[Point]], corner: Point) -> EmptyCorner {
    let front = front(&near(lines, corner));
    let (width, height) = best_corner(&front);
    let half = Point::new(width / 2.0, height / 2.0);
    // The last part that starts within half the width is the lowest there; the first part that
    // comes down to half the height is the nearest there.
    let outer_height = front
        .iter()
        .rfind(|part| part.start <= half.x)
        .map_or(height, |part| part.height(half.x.min(part.end)));
    let outer_width = front
        .iter()
        .find(|part| part.height(part.end) <= half.y)
        .map_or(width, |part| part.reach(half.y));
    EmptyCorner {
        width,
        height,
        outer_height,
        outer_width,
    }
}

/// Ink that can block a rectangle: a segment that nears the x axis with growing x, or a point.
#[derive(Debug, Clone, Copy)]
struct Slope {
    /// The end with the lesser x and the greater y.
    from: Point,
    /// The end with the greater x and the lesser y; equal to `from` for a point.
    to: Point,
}

impl Slope {
    /// What of the segment isn't dominated by the segment itself.
    fn of(a: Point, b: Point) -> Self {
        let (from, to) = if a.x <= b.x { (a, b) } else { (b, a) };
        match (from.x == to.x, from.y <= to.y) {
            (false, false) => Self { from, to },
            (true, false) => Self { from: to, to },
            (_, true) => Self { from, to: from },
        }
    }

    fn height(&self, x: f64) -> f64 {
        if x >= self.to.x {
            self.to.y
        } else {
            let along = (x - self.from.x) / (self.to.x - self.from.x);
            self.from.y + (self.to.y - self.from.y) * along
        }
    }
}

/// How many columns `near` sorts the ink into.
const COLUMNS: usize = 1024;

/// The segments' slopes as seen from the corner, without most of those that ink in a nearer
/// column dominates.
fn near(lines: &[&[Point]], corner: Point) -> Vec<Slope> {
    let seen = |point: &Point| Point::new((point.x - corner.x).abs(), (point.y - corner.y).abs());
    let points = || lines.iter().copied().flatten();
    let width = points().map(|p| seen(p).x).fold(0.0, f64::max);
    // Divided first: the reciprocal of a denormal width is infinite.
    let column = |x: f64| match width > 0.0 {
        true => (x / width * (COLUMNS - 1) as f64) as usize,
        false => 0,
    };
    // lowest[c + 1] is the least y in the columns up to c.
    let mut lowest = [f64::INFINITY; COLUMNS + 1];
    for point in points() {
        let point = seen(point);
        let slot = &mut lowest[column(point.x) + 1];
        *slot = slot.min(point.y);
    }
    for index in 1..=COLUMNS {
        lowest[index] = lowest[index].min(lowest[index - 1]);
    }
    let pairs = lines.iter().flat_map(|points| points.windows(2));
    pairs
        .map(|pair| Slope::of(seen(&pair[0]), seen(&pair[1])))
        .filter(|slope| slope.to.y < lowest[column(slope.from.x)])
        .collect()
}

/// The stretch from x = `start` to x = `end` of a slope; both the same for a point.
#[derive(Debug, Clone, Copy)]
struct FrontPart {
    slope: Slope,
    start: f64,
    end: f64,
}

impl FrontPart {
    fn height(&self, x: f64) -> f64 {
        self.slope.height(x)
    }

    /// The least x on this part with a height of at most `y`, given that its end has one.
    fn reach(&self, y: f64) -> f64 {
        let (first, last) = (self.height(self.start), self.height(self.end));
        if first <= y {
            return self.start;
        }
        self.start + (self.end - self.start) * ((first - y) / (first - last))
    }
}

/// The undominated ink, in the order of growing x and so of falling y.
fn front(slopes: &[Slope]) -> Vec<FrontPart> {
    match slopes {
        [] => Vec::new(),
        [slope] => vec![FrontPart {
            slope: *slope,
            start: slope.from.x,
            end: slope.to.x,
        }],
        _ => {
            let (left, right) = slopes.split_at(slopes.len() / 2);
            let (left, right) = (front(left), front(right));
            let mut both = Vec::with_capacity(left.len() + right.len());
            keep_undominated(&left, &right, true, &mut both);
            keep_undominated(&right, &left, false, &mut both);
            // A point goes before the stretch of a slope that starts on it.
            both.sort_by(|a, b| a.start.total_cmp(&b.start).then(a.end.total_cmp(&b.end)));
            both
        }
    }
}

/// Adds to `kept` the stretches of `parts` that the front `other` doesn't dominate.
///
/// Where both are equally low, they are kept with `ties`.
fn keep_undominated(
    parts: &[FrontPart],
    other: &[FrontPart],
    ties: bool,
    kept: &mut Vec<FrontPart>,
) {
    let mut passed = 0;
    for part in parts {
        let fresh = kept.len();
        let mut x = part.start;
        loop {
            while other.get(passed).is_some_and(|next| next.start <= x) {
                passed += 1;
            }
            // From x to `until`, `other` is one sloped part or one level.
            let current = passed.checked_sub(1).map(|index| &other[index]);
            let until = match current {
                Some(current) if x < current.end => current.end,
                _ => other.get(passed).map_or(f64::INFINITY, |next| next.start),
            };
            let until = until.min(part.end);
            let gap = |x: f64| {
                current.map_or(f64::NEG_INFINITY, |current| {
                    part.height(x) - current.height(x.min(current.end))
                })
            };
            let (first, last) = (gap(x), gap(until));
            let below = |gap: f64| gap < 0.0 || (ties && gap == 0.0);
            let meet = || (x + (until - x) * (first / (first - last))).clamp(x, until);
            let stretch = match (below(first), below(last)) {
                (true, true) => Some((x, until)),
                (true, false) => Some((x, meet())),
                (false, true) => Some((meet(), until)),
                (false, false) => None,
            };
            if let Some((start, end)) = stretch {
                match kept[fresh..].last_mut() {
                    Some(before) if before.end == x && below(first) => before.end = end,
                    _ if start < end || part.start == part.end => {
                        kept.push(FrontPart {
                            slope: part.slope,
                            start,
                            end,
                        });
                    }
                    _ => {}
                }
            }
            if until >= part.end {
                break;
            }
            x = until;
        }
    }
}

/// The width and the height of the greatest rectangle under the front.
fn best_corner(front: &[FrontPart]) -> (f64, f64) {
    let mut best = (0.0, 0.0);
    let mut consider = |x: f64, y: f64| {
        if x * y > best.0 * best.1 {
            best = (x, y);
        }
    };
    for (index, part) in front.iter().enumerate() {
        if let Some(before) = index.checked_sub(1).map(|index| &front[index]) {
            consider(part.start, before.height(before.end));
        }
        consider(part.start, part.height(part.start));
        consider(part.end, part.height(part.end));
        let Slope { from, to } = part.slope;
        if part.start < part.end {
            // x (a - b x) is greatest at x = a / 2b.
            let fall = (from.y - to.y) / (to.x - from.x);
            let middle = (from.y / fall + from.x) / 2.0;
            if part.start < middle && middle < part.end {
                consider(middle, part.height(middle));
            }
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::{Bounds, Vector};
    use proptest::prelude::*;

    /// The least y of the segments' points up to this x, straight from the definition.
    fn least_height(points: &[Point], x: f64, closed: bool) -> f64 {
        points
            .windows(2)
            .flat_map(|pair| {
                let (a, b) = if pair[0].x <= pair[1].x {
                    (pair[0], pair[1])
                } else {
                    (pair[1], pair[0])
                };
                let within = |p: Point| p.x < x || (closed && p.x == x);
                let cut = (within(a) && !within(b) && a.x < b.x)
                    .then(|| a.y + (b.y - a.y) * ((x - a.x) / (b.x - a.x)));
                [a, b]
                    .into_iter()
                    .filter(move |p| within(*p))
                    .map(|p| p.y)
                    .chain(cut)
            })
            .fold(f64::INFINITY, f64::min)
    }

    #[test]
    fn next_to_no_width_is_no_panic() {
        for width in [0.0, 5e-324, 1e-310, 1e-300] {
            let points = [
                Point::new(0.0, 1.0),
                Point::new(width, 0.0),
                Point::new(0.0, 0.0),
            ];
            let empty = empty_corner(&[&points], Point::new(width, 1.0));
            assert!(empty.width <= width && empty.height <= 1.0, "{empty:?}");
        }
    }

    /// Every x where the least height can bend: vertices, levels of vertices, meetings of pairs,
    /// and the middles of slopes.
    fn bends(points: &[Point]) -> Vec<f64> {
        let mut bends: Vec<f64> = points.iter().map(|p| p.x).collect();
        for pair in points.windows(2) {
            let (a, step) = (pair[0], pair[1] - pair[0]);
            for point in points {
                bends.push(a.x + step.x * ((point.y - a.y) / step.y));
            }
            bends.push((a.x - a.y / step.y * step.x) / 2.0);
            for other in points.windows(2) {
                let (c, along) = (other[0], other[1] - other[0]);
                bends.push(a.x + step.x * ((c - a).perp(&along) / step.perp(&along)));
            }
        }
        bends.retain(|x| x.is_finite() && *x > 0.0);
        bends
    }

    /// Points whose box has a corner in the origin.
    fn at_origin(points: Vec<(f64, f64)>) -> Vec<Point> {
        let points: Vec<Point> = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
        let min = Bounds::of_nonempty(&points).min;
        points.iter().map(|p| Point::from(p - min)).collect()
    }

    fn compare(points: &[Point]) -> Result<(), TestCaseError> {
        let found = empty_corner(&[points], Point::origin());
        let best = bends(points)
            .into_iter()
            .map(|x| x * least_height(points, x, false))
            .filter(|area| area.is_finite())
            .fold(0.0, f64::max);
        let tolerance = 1e-9 * (1.0 + best);
        prop_assert!(
            (found.width * found.height - best).abs() <= tolerance,
            "{found:?} against {best}"
        );
        // The rectangle is empty: just inside its width no ink is lower than its height.
        prop_assert!(least_height(points, found.width, false) >= found.height - 1e-9);
        let outer = least_height(points, found.width / 2.0, true);
        prop_assert!(found.width == 0.0 || (found.outer_height - outer).abs() <= 1e-9);
        let swapped: Vec<Point> = points.iter().map(|p| Point::new(p.y, p.x)).collect();
        let outer = least_height(&swapped, found.height / 2.0, true);
        prop_assert!(found.height == 0.0 || (found.outer_width - outer).abs() <= 1e-9);
        Ok(())
    }

    proptest! {
        #[test]
        fn the_rectangle_is_the_greatest(points in prop::collection::vec((0.0..9.0f64, 0.0..9.0f64), 2..14)) {
            compare(&at_origin(points))?;
        }

        #[test]
        fn and_so_it_is_when_much_lies_in_line(points in prop::collection::vec((0..5i32, 0..5i32), 2..14)) {
            let points = points.iter().map(|&(x, y)| (f64::from(x), f64::from(y))).collect();
            compare(&at_origin(points))?;
        }

        #[test]
        fn and_when_it_rests_on_slopes(steps in prop::collection::vec((0.1..2.0f64, -0.5..1.5f64), 2..40)) {
            let mut pen = Point::new(0.0, 0.0);
            let mut points = vec![(pen.x, pen.y)];
            for (right, up) in steps {
                pen += Vector::new(right, -up);
                points.push((pen.x, pen.y));
            }
            compare(&at_origin(points))?;
        }
    }

    #[test]
    fn denormal_sizes_are_sizes() {
        let tiny = |x: f64, y: f64| Point::new(x * 1e-320, y * 1e-320);
        let points = [tiny(0.0, 5.0), tiny(3.0, 2.0), tiny(5.0, 1.0)];
        let found = empty_corner(&[&points], Point::origin());
        assert!(found.width <= 5e-320 && found.height <= 5e-320);
    }

    #[test]
    fn a_slope_holds_the_rectangle_at_its_middle() {
        let line = [Point::new(0.0, 4.0), Point::new(6.0, 0.0)];
        let found = empty_corner(&[&line], Point::origin());
        assert_eq!((found.width, found.height), (3.0, 2.0));
        assert_eq!((found.outer_width, found.outer_height), (4.5, 3.0));
        let flat = [Point::new(1.0, 0.0), Point::new(6.0, 0.0)];
        let found = empty_corner(&[&flat], flat[0]);
        assert_eq!(found.width * found.height, 0.0);
    }
    #[test]
    fn a_point_on_a_slope_does_not_hide_the_rest_of_it() {
        let points = at_origin(vec![(1.0, 1.0), (2.0, 1.0), (2.0, 0.0), (0.0, 2.0)]);
        let found = empty_corner(&[&points], Point::origin());
        assert_eq!((found.width, found.height), (1.0, 1.0));
    }
}
