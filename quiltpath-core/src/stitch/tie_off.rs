//! Tie-offs: the tiny stitches that secure the thread where a line starts and ends.
//!
//! Common practice (from memory): a few stitches of about 1 mm in place, so that the thread does
//! not pull out and no knot shows. Here they go back and forth between the end of the line and the
//! point of the line that is first so far from it.
//! Guarantee: every needle point lies on the line; the last tie-off stitch before the line ends on
//! its start, and the first one after it starts on its end. A line that never gets so far from its
//! end is tied off with its farthest point.

use crate::error::{Error, positive};
use crate::geom::{Point, Polyline};

/// The most stitches that one tie-off may have.
const MAX_TIE_OFF_STITCHES: usize = 100;

/// How the ends of a line are secured.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct TieOffOptions {
    /// The number of stitches at either end, up to 100; 0 for no tie-off.
    pub stitches: usize,
    /// The length of each, in the unit of the line; above 0.
    pub length: f64,
}

impl TieOffOptions {
    /// So many stitches of this length, in the unit of the line.
    ///
    /// The numbers are checked where they are used.
    #[must_use]
    pub fn new(stitches: usize, length: f64) -> Self {
        Self { stitches, length }
    }

    pub(super) fn check(&self) -> Result<(), Error> {
        let length = self.length;
        positive("the length of a tie-off stitch", length, "a length above 0")?;
        if self.stitches > MAX_TIE_OFF_STITCHES {
            let what = "the number of stitches of a tie-off";
            return Err(Error::bad_number(what, self.stitches as f64, "0 to 100"));
        }
        Ok(())
    }
}

impl Default for TieOffOptions {
    /// Common practice (from memory): 4 stitches of 1 mm, for a line in millimetres.
    fn default() -> Self {
        Self::new(4, 1.0)
    }
}

/// The needle points that secure a line, in the order of stitching.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct TieOffs {
    /// Those before the line's own needle points; the line's start, which comes next, is left out.
    pub before: Vec<Point>,
    /// Those after the line's own needle points; the line's end, which came last, is left out.
    pub after: Vec<Point>,
    /// The lengths of one stitch at the start and at the end: shorter than asked on a short line.
    pub lengths: [f64; 2],
}

impl TieOffs {
    /// The line's needle points with the tie-offs before and after them.
    #[must_use]
    pub fn around(&self, needles: &[Point]) -> Vec<Point> {
        [&self.before[..], needles, &self.after[..]].concat()
    }
}

/// The tie-offs at the start and at the end of a line.
///
/// ```
/// use quiltpath_core::geom::{Point, Polyline};
/// use quiltpath_core::stitch::tie_off::{TieOffOptions, tie_off};
///
/// let line = Polyline::new(vec![Point::new(0.0, 0.0), Point::new(50.0, 0.0)])?;
/// let ties = tie_off(&line, &TieOffOptions::new(3, 1.0))?;
/// let x = |points: &[Point]| points.iter().map(|p| p.x).collect::<Vec<_>>();
/// assert_eq!(x(&ties.before), [1.0, 0.0, 1.0]);
/// assert_eq!(x(&ties.after), [49.0, 50.0, 49.0]);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when the length is not above 0 or not finite, or when there are more than
/// 100 stitches.
///
/// # Complexity
///
/// O(points) at worst; it stops as soon as the line is far enough from its end.
pub fn tie_off(line: &Polyline, options: &TieOffOptions) -> Result<TieOffs, Error> {
    options.check()?;
    let (stitches, length) = (options.stitches, options.length);
    let points = line.points();
    let start = Turn::of(line.start(), points.iter(), length);
    let end = Turn::of(line.end(), points.iter().rev(), length);
    let mut before = start.back_and_forth(stitches);
    before.reverse();
    Ok(TieOffs {
        before,
        after: end.back_and_forth(stitches),
        lengths: [start.length(), end.length()],
    })
}

/// The two points between which a tie-off goes back and forth.
struct Turn {
    end: Point,
    away: Point,
}

impl Turn {
    fn of<'a>(end: Point, points: impl Iterator<Item = &'a Point>, length: f64) -> Self {
        let (mut previous, mut farthest) = (end, end);
        for &point in points {
            if (point - end).norm() >= length {
                let away = reach(end, previous, point, length);
                return Self { end, away };
            }
            if (point - end).norm() > (farthest - end).norm() {
                farthest = point;
            }
            previous = point;
        }
        let away = farthest;
        Self { end, away }
    }

    fn back_and_forth(&self, stitches: usize) -> Vec<Point> {
        let both = [self.away, self.end];
        both.into_iter().cycle().take(stitches).collect()
    }

    fn length(&self) -> f64 {
        (self.away - self.end).norm()
    }
}

/// The point at this distance from `end` on the segment from `inside` to `outside` of it.
fn reach(end: Point, inside: Point, outside: Point, length: f64) -> Point {
    let step = outside - inside;
    let off = inside - end;
    let (a, half_b, c) = (
        step.norm_squared(),
        step.dot(&off),
        off.norm_squared() - length * length,
    );
    // The positive root of a t² + 2 b t + c = 0 in the form that does not cancel: c <= 0 < a.
    let root = (half_b * half_b - a * c).max(0.0).sqrt();
    let along = if half_b > 0.0 {
        -c / (half_b + root)
    } else {
        (root - half_b) / a
    };
    inside + step * along.clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::measure::distance_to_segment;
    use proptest::prelude::*;

    fn line(points: &[(f64, f64)]) -> Polyline {
        let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
        Polyline::new(points).expect("a line")
    }

    #[test]
    fn an_even_number_starts_and_ends_at_the_ends() {
        let ties = tie_off(&line(&[(0.0, 0.0), (0.0, 9.0)]), &TieOffOptions::default());
        let ties = ties.expect("tie-offs");
        let y = |points: &[Point]| points.iter().map(|p| p.y).collect::<Vec<_>>();
        assert_eq!(y(&ties.before), [0.0, 1.0, 0.0, 1.0]);
        assert_eq!(y(&ties.after), [8.0, 9.0, 8.0, 9.0]);
        let whole = ties.around(&[Point::new(0.0, 0.0), Point::new(0.0, 9.0)]);
        assert_eq!(whole.len(), 10);
        assert!(whole.windows(2).all(|pair| pair[0] != pair[1]));
    }

    #[test]
    fn a_short_line_is_tied_off_as_far_as_it_goes() {
        let options = TieOffOptions::default();
        let ties = tie_off(&line(&[(0.0, 0.0), (0.3, 0.4)]), &options).expect("tie-offs");
        assert_eq!(ties.lengths, [0.5, 0.5]);
        assert_eq!(ties.before[1], Point::new(0.3, 0.4));
        // Out and back: the farthest point is no end.
        let hook = line(&[(0.0, 0.0), (0.6, 0.0), (0.1, 0.0)]);
        let ties = tie_off(&hook, &options).expect("tie-offs");
        assert_eq!((ties.before[1].x, ties.lengths), (0.6, [0.6, 0.5]));
        assert_eq!(ties.after[0].x, 0.6);
    }

    /// A segment that starts on the circle and leaves it at a right angle.
    #[test]
    fn a_segment_that_only_touches_the_circle_is_reached_there() {
        let [end, inside, outside] =
            [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0)].map(|(x, y)| Point::new(x, y));
        assert_eq!(reach(end, inside, outside, 1.0), inside);
        let (away, length) = (reach(end, end, outside, 1.0), 0.5_f64.sqrt());
        assert!((away - Point::new(length, length)).norm() < 1e-15);
    }

    #[test]
    fn none_is_none_and_wrong_numbers_are_refused() {
        let path = line(&[(0.0, 0.0), (9.0, 0.0)]);
        let tied = |stitches, length| tie_off(&path, &TieOffOptions { stitches, length });
        let none = tied(0, 1.0).expect("none");
        assert!(none.before.is_empty() && none.after.is_empty());
        for length in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(tied(3, length).expect_err("no length").is_geometry());
        }
        let error = tied(101, 1.0).expect_err("many").to_string();
        assert_eq!(
            error,
            "the number of stitches of a tie-off is 101; give 0 to 100"
        );
    }

    proptest! {
        #[test]
        fn tie_offs_lie_on_the_line(
            points in prop::collection::vec((-3.0..3.0f64, -3.0..3.0f64), 2..30),
            length in 0.01..5.0f64,
            stitches in 0usize..8,
        ) {
            let path = line(&points);
            let ties = tie_off(&path, &TieOffOptions { stitches, length }).expect("tie-offs");
            prop_assert_eq!((ties.before.len(), ties.after.len()), (stitches, stitches));
            for point in ties.before.iter().chain(&ties.after) {
                let near = path.points().windows(2).map(|pair| distance_to_segment(*point, pair[0], pair[1]));
                prop_assert!(near.fold(f64::INFINITY, f64::min) < 1e-9);
            }
            let whole = ties.around(&[path.start(), path.end()]);
            let gap = |at: usize| (whole[at + 1] - whole[at]).norm();
            let far = |end: Point| path.points().iter().map(|p| (p - end).norm()).fold(0.0, f64::max);
            let ends = [path.start(), path.end()].map(|end| length.min(far(end)));
            for at in 0..stitches {
                prop_assert!((gap(at) - ends[0]).abs() < 1e-9);
                prop_assert!((gap(whole.len() - 2 - at) - ends[1]).abs() < 1e-9);
            }
        }
    }
}
