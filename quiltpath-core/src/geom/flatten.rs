//! Curves to points: kurbo path elements to polylines within a tolerance.
//!
//! Problem: replace each Bézier segment by chords so that no point of the curve is farther from
//! its chord than the tolerance. Method: `lyon_path::geom` in f64, which flattens cubics by way of
//! quadratics and stays within the tolerance. On-curve points are kept bit for bit, so subpaths
//! that meet in the drawing still meet in the points.

use kurbo::PathEl;
use lyon_path::geom::{CubicBezierSegment, QuadraticBezierSegment, point};

use super::polyline::{Point, Vector, check_coordinate};
use crate::error::{Error, GeometryFault};

/// The default flattening tolerance: 0.01 mm, in millimetres.
pub const DEFAULT_TOLERANCE_MM: f64 = 0.01;

/// One subpath as points, with the directions that the curve itself has at its ends.
#[derive(Debug, Clone, PartialEq)]
pub struct FlatPath {
    /// The points in the order of drawing; consecutive equal points are left out.
    pub points: Vec<Point>,
    /// The unit vector of travel at the start; zero for a subpath without length.
    pub start_direction: Vector,
    /// The unit vector of travel at the end; zero for a subpath without length.
    pub end_direction: Vector,
    /// True when the drawing closes the subpath explicitly.
    pub closed: bool,
}

/// Flattens a path into its subpaths, one for each move, in the order of drawing.
///
/// `tolerance` is the greatest distance from the curve to the chords, in the unit of the path.
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
/// A geometry error when the tolerance is not above 0, or a coordinate is not finite.
///
/// # Complexity
///
/// O(points written).
pub fn flatten(
    path: impl IntoIterator<Item = PathEl>,
    tolerance: f64,
) -> Result<Vec<FlatPath>, Error> {
    if !(tolerance > 0.0 && tolerance.is_finite()) {
        return Err(GeometryFault::BadNumber {
            what: "the flattening tolerance",
            value: tolerance,
            accepted: "a length above 0, for example 0.01 mm",
        }
        .into());
    }
    let mut pen = Pen::new(tolerance);
    for (index, element) in path.into_iter().enumerate() {
        pen.draw(index, element)?;
    }
    pen.lift();
    Ok(pen.done)
}

struct Pen {
    tolerance: f64,
    done: Vec<FlatPath>,
    points: Vec<Point>,
    start_direction: Vector,
    end_direction: Vector,
    closed: bool,
}

impl Pen {
    fn new(tolerance: f64) -> Self {
        Self {
            tolerance,
            done: Vec::new(),
            points: Vec::new(),
            start_direction: Vector::zeros(),
            end_direction: Vector::zeros(),
            closed: false,
        }
    }

    fn draw(&mut self, index: usize, element: PathEl) -> Result<(), Error> {
        match element {
            PathEl::MoveTo(to) => {
                let to = checked(index, to)?;
                self.lift();
                self.points.push(to);
            }
            PathEl::LineTo(to) => {
                let to = checked(index, to)?;
                self.turn([to, to, to]);
                self.push(to);
            }
            PathEl::QuadTo(control, to) => {
                let (control, to) = (checked(index, control)?, checked(index, to)?);
                let from = self.turn([control, control, to]);
                let curve = QuadraticBezierSegment {
                    from: point(from.x, from.y),
                    ctrl: point(control.x, control.y),
                    to: point(to.x, to.y),
                };
                curve.for_each_flattened(self.tolerance, &mut |line| {
                    self.push(Point::new(line.to.x, line.to.y));
                });
                self.land(to);
            }
            PathEl::CurveTo(first, second, to) => {
                let (first, second) = (checked(index, first)?, checked(index, second)?);
                let to = checked(index, to)?;
                let from = self.turn([first, second, to]);
                let curve = CubicBezierSegment {
                    from: point(from.x, from.y),
                    ctrl1: point(first.x, first.y),
                    ctrl2: point(second.x, second.y),
                    to: point(to.x, to.y),
                };
                curve.for_each_flattened(self.tolerance, &mut |line| {
                    self.push(Point::new(line.to.x, line.to.y));
                });
                self.land(to);
            }
            PathEl::ClosePath => {
                if let Some(&start) = self.points.first() {
                    self.turn([start, start, start]);
                    self.push(start);
                    self.closed = true;
                    self.lift();
                    self.points.push(start);
                }
            }
        }
        Ok(())
    }

    /// Takes the directions of a segment with these controls, and returns where it starts.
    fn turn(&mut self, controls: [Point; 3]) -> Point {
        let from = *self.points.last().unwrap_or(&controls[2]);
        if self.points.is_empty() {
            self.points.push(from);
        }
        let leave = controls.iter().map(|c| c - from);
        let arrive = [controls[1], controls[0], from];
        let arrive = arrive.iter().map(|c| controls[2] - c);
        if let Some(direction) = first_direction(leave) {
            if self.start_direction == Vector::zeros() {
                self.start_direction = direction;
            }
            if let Some(direction) = first_direction(arrive) {
                self.end_direction = direction;
            }
        }
        from
    }

    fn push(&mut self, to: Point) {
        if self.points.last() != Some(&to) {
            self.points.push(to);
        }
    }

    /// Makes the drawn end of a curve its last point, free of the flattener's rounding.
    fn land(&mut self, to: Point) {
        match self.points.last_mut() {
            Some(last) if (*last - to).norm() <= 1e-9 * (1.0 + to.coords.amax()) => *last = to,
            _ => self.points.push(to),
        }
        let count = self.points.len();
        if count >= 2 && self.points[count - 1] == self.points[count - 2] {
            self.points.pop();
        }
    }

    /// Ends the subpath under the pen, if it has drawn anything.
    fn lift(&mut self) {
        let points = std::mem::take(&mut self.points);
        if points.len() >= 2 {
            self.done.push(FlatPath {
                points,
                start_direction: self.start_direction,
                end_direction: self.end_direction,
                closed: self.closed,
            });
        }
        self.start_direction = Vector::zeros();
        self.end_direction = Vector::zeros();
        self.closed = false;
    }
}

fn first_direction(mut steps: impl Iterator<Item = Vector>) -> Option<Vector> {
    steps.find_map(|step| step.try_normalize(1e-12))
}

fn checked(index: usize, at: kurbo::Point) -> Result<Point, Error> {
    check_coordinate(index, at.x)?;
    check_coordinate(index, at.y)?;
    Ok(Point::new(at.x, at.y))
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{BezPath, ParamCurve, ParamCurveNearest, PathSeg};
    use proptest::prelude::*;

    fn svg(data: &str) -> BezPath {
        BezPath::from_svg(data).expect("path data")
    }

    #[test]
    fn directions_are_those_of_the_curve_not_of_the_chord() {
        let flat = flatten(svg("M0 0 C 0 0 0 9 9 9"), 0.1).expect("flat");
        assert_eq!(flat[0].start_direction, Vector::new(0.0, 1.0));
        assert_eq!(flat[0].end_direction, Vector::new(1.0, 0.0));
        let flat = flatten(svg("M0 0 L 0 0 L 5 0 L 5 0"), 0.1).expect("flat");
        assert_eq!(flat[0].end_direction, Vector::new(1.0, 0.0));
        assert_eq!(flat[0].points.len(), 2);
    }

    #[test]
    fn a_closed_subpath_ends_on_its_start_and_drawing_goes_on_from_there() {
        let flat = flatten(svg("M1 1 H 4 V 5 Z L 0 0"), 0.1).expect("flat");
        assert_eq!(flat.len(), 2);
        assert!(flat[0].closed && !flat[1].closed);
        assert_eq!(flat[0].points.first(), flat[0].points.last());
        assert_eq!(flat[1].points, [Point::new(1.0, 1.0), Point::new(0.0, 0.0)]);
    }

    #[test]
    fn a_bad_tolerance_or_coordinate_is_refused() {
        assert!(flatten(svg("M0 0 H 1"), 0.0).is_err());
        assert!(flatten(svg("M0 0 H 1"), f64::NAN).is_err());
        let error = flatten(svg("M0 0 H 1e308"), 0.1).expect_err("too large");
        assert!(error.to_string().contains("1e308"), "{error}");
    }

    proptest! {
        #[test]
        fn chords_stay_within_the_tolerance(c in prop::array::uniform8(-100.0..100.0f64), tolerance in 0.01..1.0f64) {
            let curve = kurbo::CubicBez::new((c[0], c[1]), (c[2], c[3]), (c[4], c[5]), (c[6], c[7]));
            let mut path = BezPath::new();
            path.move_to(curve.p0);
            path.curve_to(curve.p1, curve.p2, curve.p3);
            let flat = flatten(&path, tolerance).expect("flat");
            let points = &flat[0].points;
            prop_assert_eq!(points[0], Point::new(c[0], c[1]));
            prop_assert_eq!(points[points.len() - 1], Point::new(c[6], c[7]));
            for sample in 0..=200 {
                let at = curve.eval(f64::from(sample) / 200.0);
                let off = points
                    .windows(2)
                    .map(|pair| {
                        let segment = PathSeg::Line(kurbo::Line::new((pair[0].x, pair[0].y), (pair[1].x, pair[1].y)));
                        segment.nearest(at, 1e-9).distance_sq.sqrt()
                    })
                    .fold(f64::INFINITY, f64::min);
                prop_assert!(off <= tolerance * 1.0001, "{off} over {tolerance}");
            }
        }
    }
}
