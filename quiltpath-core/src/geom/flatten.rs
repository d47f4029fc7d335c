//! Curves to points: kurbo path elements to polylines within a tolerance.
//!
//! Problem: replace each Bézier segment by chords so that no point of the curve is farther from
//! its chord than the tolerance. Method: `lyon_path::geom` in f64, chords at even parameters whose
//! number comes from the second differences of the controls: √(d (d − 1) m / 8ε) for degree d, the
//! greatest second difference m and the tolerance ε (Wang's formula, from memory).
//! Guarantee: within the tolerance; on-curve points are kept bit for bit, so subpaths that meet in
//! the drawing still meet in the points. Failure: a tolerance or coordinates out of range, and more
//! than `MAX_POINTS`, which only wrong units bring about.

use kurbo::PathEl;
use lyon_path::geom::{CubicBezierSegment, QuadraticBezierSegment, point};

use super::point::{MAX_COORDINATE, Point, Vector};
use super::polyline::check_coordinate;
use crate::error::{Error, GeometryFault};

/// The default flattening tolerance: 0.01 mm, in millimetres.
pub(crate) const DEFAULT_TOLERANCE_MM: f64 = 0.01;

/// The most points that one drawing may become: 50 million.
pub(crate) const MAX_POINTS: usize = 50_000_000;

/// One subpath as points, with the directions that the curve itself has at its ends.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct FlatPath {
    /// The points in the order of drawing; consecutive equal points are left out.
    pub points: Vec<Point>,
    /// The unit vector of travel at the start; zero for a subpath without length, up to 1e-12.
    pub start_direction: Vector,
    /// The unit vector of travel at the end; zero for a subpath without length, up to 1e-12.
    pub end_direction: Vector,
    /// True when the drawing closes the subpath explicitly.
    pub closed: bool,
}

/// Flattens a path into its subpaths, one for each move, in the order of drawing.
///
/// `tolerance` is the greatest distance from the curve to the chords, in the unit of the path; one
/// below 1e-15 counts as that.
/// A subpath that is a move alone is left out.
///
/// ```
/// use quiltpath_core::geom::flatten::flatten;
///
/// let path = kurbo::BezPath::from_svg("M0 0 C 0 5 10 5 10 0").unwrap();
/// let subpaths = flatten(&path, 0.01)?;
/// assert_eq!(subpaths.len(), 1);
/// assert_eq!(subpaths[0].start_direction, nalgebra::Vector2::new(0.0, 1.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when the tolerance is not above 0 or not finite, when a coordinate is not
/// finite or beyond [`MAX_COORDINATE`], or for more than 50 million points.
///
/// # Complexity
///
/// O(points written).
pub fn flatten(
    path: impl IntoIterator<Item = PathEl>,
    tolerance: f64,
) -> Result<Vec<FlatPath>, Error> {
    let mut flat = Vec::new();
    flatten_into(path, tolerance, &mut flat)?;
    Ok(flat)
}

/// As [`flatten`], the result in place of what `flat` held, whose memory is used again.
///
/// For many drawings one after the other.
///
/// ```
/// use quiltpath_core::geom::flatten::flatten_into;
///
/// let mut flat = Vec::new();
/// for data in ["M0 0 L3 4", "M0 0 C 0 5 10 5 10 0"] {
///     flatten_into(kurbo::BezPath::from_svg(data).unwrap(), 0.01, &mut flat)?;
///     assert_eq!(flat.len(), 1);
/// }
/// assert!(flat[0].points.len() > 10);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`flatten`]; then `flat` is empty.
///
/// # Complexity
///
/// O(points written); no allocation when no subpath has more points than the one before in its
/// place.
pub fn flatten_into(
    path: impl IntoIterator<Item = PathEl>,
    tolerance: f64,
    flat: &mut Vec<FlatPath>,
) -> Result<(), Error> {
    let mut spare: Vec<Vec<Point>> = flat.drain(..).rev().map(|flat| flat.points).collect();
    spare.iter_mut().for_each(Vec::clear);
    check_tolerance(tolerance)?;
    let mut pen = Pen {
        done: std::mem::take(flat),
        points: spare.pop().unwrap_or_default(),
        spare,
        ..Pen::new(tolerance)
    };
    for (index, element) in path.into_iter().enumerate() {
        pen.draw(index, element)?;
    }
    pen.lift();
    *flat = pen.done;
    Ok(())
}

/// Refuses a flattening tolerance that is not above 0 or not finite.
pub(crate) fn check_tolerance(tolerance: f64) -> Result<(), Error> {
    if tolerance > 0.0 && tolerance.is_finite() {
        return Ok(());
    }
    Err(Error::bad_number(
        "the flattening tolerance",
        tolerance,
        "a length above 0, for example 0.01 mm",
    ))
}

/// Refuses more points than [`MAX_POINTS`].
pub(crate) fn check_count(count: f64) -> Result<(), Error> {
    if count <= MAX_POINTS as f64 {
        return Ok(());
    }
    let limit = MAX_POINTS;
    Err(GeometryFault::TooFine { limit }.into())
}

/// Points this close give no direction.
const NEAR: f64 = 1e-12;

/// The least tolerance that the flattener takes, a little above 1e-16.
const FINEST: f64 = 1e-15;

/// With coordinates up to this many tolerances a curve becomes fewer than 1,000 chords.
const FEW_CHORDS: f64 = 2e5;

struct Pen {
    tolerance: f64,
    /// Coordinates up to this are in range and leave curves of few chords.
    near: f64,
    /// True once a coordinate was beyond that.
    far: bool,
    done: Vec<FlatPath>,
    /// The number of points in `done`.
    written: usize,
    points: Vec<Point>,
    /// Empty, with room.
    spare: Vec<Vec<Point>>,
    start_direction: Vector,
    /// The last segment with a direction, from its end back to its start. The direction itself
    /// waits for the end of the subpath: taken for every segment it is half the time.
    arrival: [Point; 4],
    closed: bool,
}

impl Pen {
    fn new(tolerance: f64) -> Self {
        let tolerance = tolerance.max(FINEST);
        Self {
            tolerance,
            near: MAX_COORDINATE.min(FEW_CHORDS * tolerance),
            far: false,
            done: Vec::new(),
            written: 0,
            points: Vec::new(),
            spare: Vec::new(),
            start_direction: Vector::zeros(),
            arrival: [Point::origin(); 4],
            closed: false,
        }
    }

    // Inlined for speed: the point written last is read at once, from a register if it can be.
    #[inline(always)]
    fn draw(&mut self, index: usize, element: PathEl) -> Result<(), Error> {
        match element {
            PathEl::MoveTo(to) => {
                let to = self.checked(index, to)?;
                self.lift();
                self.points.push(to);
            }
            PathEl::LineTo(to) => {
                let to = self.checked(index, to)?;
                self.turn([to, to, to]);
                self.points.push(to);
            }
            PathEl::QuadTo(control, to) => {
                let (control, to) = (self.checked(index, control)?, self.checked(index, to)?);
                let from = self.turn([control, control, to]);
                self.room(|| 2.0 * second_difference([from, control, to]))?;
                let curve = QuadraticBezierSegment {
                    from: point(from.x, from.y),
                    ctrl: point(control.x, control.y),
                    to: point(to.x, to.y),
                };
                let mut points = std::mem::take(&mut self.points);
                let known = points.len();
                curve.for_each_flattened(self.tolerance, &mut |line| {
                    points.push(Point::new(line.to.x, line.to.y));
                });
                self.points = points;
                self.land(known, to);
            }
            PathEl::CurveTo(first, second, to) => {
                let (first, second) = (self.checked(index, first)?, self.checked(index, second)?);
                let to = self.checked(index, to)?;
                let from = self.turn([first, second, to]);
                let bend = || {
                    let start = second_difference([from, first, second]);
                    6.0 * start.max(second_difference([first, second, to]))
                };
                self.room(bend)?;
                let curve = CubicBezierSegment {
                    from: point(from.x, from.y),
                    ctrl1: point(first.x, first.y),
                    ctrl2: point(second.x, second.y),
                    to: point(to.x, to.y),
                };
                let mut points = std::mem::take(&mut self.points);
                let known = points.len();
                curve.for_each_flattened(self.tolerance, &mut |line| {
                    points.push(Point::new(line.to.x, line.to.y));
                });
                self.points = points;
                self.land(known, to);
            }
            PathEl::ClosePath => {
                if let Some(&start) = self.points.first() {
                    self.turn([start, start, start]);
                    self.points.push(start);
                    self.closed = true;
                    self.lift();
                    self.points.push(start);
                }
            }
        }
        Ok(())
    }

    #[inline]
    fn checked(&mut self, index: usize, at: kurbo::Point) -> Result<Point, Error> {
        // One comparison tells that both are fine; NaN fails it.
        let within = at.x.abs() <= self.near && at.y.abs() <= self.near;
        if !within {
            check_coordinate(index, at.x)?;
            check_coordinate(index, at.y)?;
            self.far = true;
        }
        Ok(Point::new(at.x, at.y))
    }

    /// Refuses a curve that would become too many points; `bend` is its greatest second derivative.
    #[inline]
    fn room(&self, bend: impl FnOnce() -> f64) -> Result<(), Error> {
        let count = self.written + self.points.len();
        if !self.far && count <= MAX_POINTS {
            return Ok(());
        }
        check_count(count as f64 + (bend() / (8.0 * self.tolerance)).sqrt())
    }

    /// Takes the directions of a segment with these controls, and returns where it starts.
    #[inline(always)]
    fn turn(&mut self, controls: [Point; 3]) -> Point {
        let from = *self.points.last().unwrap_or(&controls[2]);
        if self.points.is_empty() {
            self.points.push(from);
        }
        let [first, second, to] = controls;
        if far(from, first) || far(from, second) || far(from, to) {
            if self.start_direction == Vector::zeros() {
                let leave = controls.iter().map(|control| control - from);
                self.start_direction = first_direction(leave).unwrap_or_default();
            }
            self.arrival = [to, second, first, from];
        }
        from
    }

    /// Makes the drawn end of a curve its last point, free of the flattener's rounding; `known`
    /// points were there before the curve.
    fn land(&mut self, known: usize, to: Point) {
        match self.points[known..].last_mut() {
            Some(last) => *last = to,
            None => self.points.push(to),
        }
    }

    /// Ends the subpath under the pen, if it has drawn anything.
    fn lift(&mut self) {
        self.points.dedup();
        if self.points.len() >= 2 {
            let next = self.spare.pop().unwrap_or_default();
            let points = std::mem::replace(&mut self.points, next);
            let [to, before @ ..] = self.arrival;
            let arrive = before.iter().map(|control| to - control);
            self.written += points.len();
            self.done.push(FlatPath {
                points,
                start_direction: self.start_direction,
                end_direction: first_direction(arrive).unwrap_or_default(),
                closed: self.closed,
            });
        }
        self.points.clear();
        self.start_direction = Vector::zeros();
        self.arrival = [Point::origin(); 4];
        self.closed = false;
    }
}

fn first_direction(mut steps: impl Iterator<Item = Vector>) -> Option<Vector> {
    steps.find_map(|step| step.try_normalize(NEAR))
}

/// Whether two points are far enough apart to give a direction.
fn far(from: Point, to: Point) -> bool {
    (to - from).norm_squared() > NEAR * NEAR
}

fn second_difference([a, b, c]: [Point; 3]) -> f64 {
    ((a - b) + (c - b)).norm()
}

#[cfg(test)]
mod tests;
