//! A motif: a drawn design as one open polyline that knows where and how it starts and ends.

use crate::error::Error;
use crate::geom::flatten::FlatPath;
use crate::geom::{Bounds, Point, Polyline, Vector};
use crate::transform::Transform;

/// A drawn design as one open polyline, with the directions that the drawing has at its ends.
///
/// Points in any one unit, x to the right, y down. The directions are those of the drawn curve;
/// for a point list they are those of the first and the last segment.
///
/// ```
/// use quiltpath_core::{geom::{Point, Polyline}, motif::Motif, transform::Transform};
///
/// let wave = Motif::from_points("wave", vec![
///     Point::new(0.0, 1.0), Point::new(1.0, 0.0), Point::new(2.0, 2.0), Point::new(3.0, 1.0),
/// ])?;
/// let turned = wave.transformed(&Transform::rotate_degrees(90.0))?;
/// assert_eq!(turned.end().point, Point::new(-1.0, 3.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Motif {
    name: String,
    line: Polyline,
    start_direction: Vector,
    end_direction: Vector,
    /// See [`Motif::links`].
    links: Vec<usize>,
}

/// One end of a motif.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End {
    /// Where the line starts or ends.
    pub point: Point,
    /// The unit vector of travel there: into the motif at its start, out of it at its end.
    pub direction: Vector,
}

impl Motif {
    /// A motif of a validated line.
    #[must_use]
    pub fn new(name: impl Into<String>, line: Polyline) -> Self {
        Self {
            name: name.into(),
            start_direction: line.start_direction(),
            end_direction: line.end_direction(),
            line,
            links: Vec::new(),
        }
    }

    /// A motif of these points in the order of travel.
    ///
    /// # Errors
    ///
    /// As [`Polyline::new`].
    pub fn from_points(name: impl Into<String>, points: Vec<Point>) -> Result<Self, Error> {
        Ok(Self::new(name, Polyline::new(points)?))
    }

    /// A motif of one flattened subpath, with the directions of its curve.
    ///
    /// # Errors
    ///
    /// As [`Polyline::new`].
    pub(crate) fn from_flat(name: impl Into<String>, flat: FlatPath) -> Result<Self, Error> {
        let directions = [flat.start_direction, flat.end_direction];
        Ok(Self::from_points(name, flat.points)?.with_directions(directions))
    }

    /// The same motif with these directions at start and end; one without length, up to 1e-12, or
    /// with a length that is not finite is skipped.
    #[must_use]
    pub fn with_directions(mut self, [start, end]: [Vector; 2]) -> Self {
        let unit = |vector: Vector| {
            let length = vector.norm();
            (length > 1e-12 && length.is_finite()).then(|| vector / length)
        };
        self.start_direction = unit(start).unwrap_or(self.start_direction);
        self.end_direction = unit(end).unwrap_or(self.end_direction);
        self
    }

    /// The same motif with these directions, to the bit; they are known to be unit vectors.
    #[cfg(feature = "json")]
    pub(crate) fn with_unit_directions(mut self, [start, end]: [Vector; 2]) -> Self {
        (self.start_direction, self.end_direction) = (start, end);
        self
    }

    /// The same motif, these of its segments being links.
    pub(crate) fn with_links(mut self, links: Vec<usize>) -> Self {
        self.links = links;
        self.links.retain(|&at| at + 1 < self.line.points().len());
        self
    }

    /// The segments that link what was drawn apart, where that is known: each by the index of its
    /// first point, in the order of travel.
    #[must_use]
    pub fn links(&self) -> &[usize] {
        &self.links
    }

    /// The name: the drawing's id or the file's name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The line itself.
    #[must_use]
    pub fn line(&self) -> &Polyline {
        &self.line
    }

    /// The points in the order of travel.
    #[must_use]
    pub fn points(&self) -> &[Point] {
        self.line.points()
    }

    /// Where and how the line starts.
    #[must_use]
    pub fn start(&self) -> End {
        End {
            point: self.line.start(),
            direction: self.start_direction,
        }
    }

    /// Where and how the line ends.
    #[must_use]
    pub fn end(&self) -> End {
        End {
            point: self.line.end(),
            direction: self.end_direction,
        }
    }

    /// The length of the line, in the unit of the points.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.line.length()
    }

    /// The smallest box, sides along the axes, that holds the line.
    #[must_use]
    pub fn bounds(&self) -> Bounds {
        self.line.bounds()
    }

    /// The same motif under another name.
    #[must_use]
    pub fn renamed(mut self, name: impl Into<String>) -> Self {
        self.name = name.into();
        self
    }

    /// The same line travelled from its end to its start.
    ///
    /// ```
    /// # use quiltpath_core::{geom::Point, motif::Motif};
    /// let line = Motif::from_points("a", vec![Point::new(0.0, 0.0), Point::new(1.0, 0.0)])?;
    /// assert_eq!(line.clone().reversed().start().point, line.end().point);
    /// assert_eq!(line.clone().reversed().start().direction, -line.end().direction);
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    #[must_use]
    pub fn reversed(self) -> Self {
        let last = self.line.points().len() - 2;
        Self {
            links: self.links.iter().rev().map(|at| last - at).collect(),
            name: self.name,
            line: self.line.reversed(),
            start_direction: -self.end_direction,
            end_direction: -self.start_direction,
        }
    }

    /// The part of the motif after this length of its line: all of its points from there on, after
    /// one on the line where it begins.
    ///
    /// Less than 0 is taken for 0.
    ///
    /// # Errors
    ///
    /// A geometry error when nothing is left of the line.
    ///
    /// # Complexity
    ///
    /// O(points).
    pub(crate) fn rest_from(&self, from: f64) -> Result<Self, Error> {
        let points = self.points();
        let mut left = from.max(0.0);
        let mut first = 0;
        while let Some(pair) = points.get(first..first + 2) {
            let step = (pair[1] - pair[0]).norm();
            if left < step {
                break;
            }
            left -= step;
            first += 1;
        }
        let mut rest = points[first..].to_vec();
        if let Some(&[here, next]) = rest.first_chunk() {
            let way = next - here;
            rest[0] = here + way * (left / way.norm());
        }
        let line = Polyline::new(rest)?;
        let links = self.links.iter();
        let links = links.filter_map(|link| link.checked_sub(first)).collect();
        let rest = Self {
            name: self.name.clone(),
            start_direction: match first == 0 && left == 0.0 {
                true => self.start_direction,
                false => line.start_direction(),
            },
            end_direction: self.end_direction,
            line,
            links: Vec::new(),
        };
        Ok(rest.with_links(links))
    }

    /// The image under an affine map; start, end and directions follow.
    ///
    /// # Errors
    ///
    /// A geometry error when an image is beyond the limits or the map brings all points into one.
    ///
    /// # Complexity
    ///
    /// O(n), one allocation.
    pub fn transformed(&self, transform: &Transform) -> Result<Self, Error> {
        let line = self.line.clone().map(|point| transform.apply(point))?;
        let directions = [self.start_direction, self.end_direction]
            .map(|direction| transform.apply_vector(direction));
        let image = Self::new(self.name.clone(), line).with_directions(directions);
        Ok(image.with_links(self.links.clone()))
    }

    /// The motif moved so that its start lies at this point.
    ///
    /// # Errors
    ///
    /// As [`Motif::transformed`].
    pub fn start_at(&self, point: Point) -> Result<Self, Error> {
        self.transformed(&Transform::carry(self.line.start(), point))
    }

    /// The motif moved so that its end lies at this point.
    ///
    /// # Errors
    ///
    /// As [`Motif::transformed`].
    pub fn end_at(&self, point: Point) -> Result<Self, Error> {
        self.transformed(&Transform::carry(self.line.end(), point))
    }
}

impl AsRef<[Point]> for Motif {
    fn as_ref(&self) -> &[Point] {
        self.points()
    }
}

impl From<Motif> for Polyline {
    fn from(motif: Motif) -> Self {
        motif.line
    }
}

impl From<Motif> for Vec<Point> {
    fn from(motif: Motif) -> Self {
        motif.line.into_points()
    }
}

/// A motif by the name of `line`; [`Motif::new`] takes another name.
impl From<Polyline> for Motif {
    fn from(line: Polyline) -> Self {
        Self::new("line", line)
    }
}

impl TryFrom<Vec<Point>> for Motif {
    type Error = Error;

    /// A motif by the name of `line`.
    fn try_from(points: Vec<Point>) -> Result<Self, Error> {
        Polyline::try_from(points).map(Self::from)
    }
}

impl TryFrom<Vec<(f64, f64)>> for Motif {
    type Error = Error;

    /// A motif by the name of `line`.
    fn try_from(points: Vec<(f64, f64)>) -> Result<Self, Error> {
        Polyline::try_from(points).map(Self::from)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn motif() -> impl Strategy<Value = Motif> {
        prop::collection::vec((-50.0..50.0f64, -50.0..50.0f64), 2..40).prop_map(|points| {
            let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
            Motif::from_points("m", points).expect("random points differ")
        })
    }

    #[test]
    fn directions_that_are_none_are_passed_over() {
        let line = vec![Point::new(0.0, 0.0), Point::new(0.0, 2.0)];
        let line = Motif::from_points("m", line).expect("a line");
        let endless = Vector::new(f64::INFINITY, 1.0);
        let same = line.clone().with_directions([endless, Vector::zeros()]);
        assert_eq!(same, line);
        let other = line.with_directions([Vector::new(3.0, 0.0), endless]);
        assert_eq!(other.start().direction, Vector::new(1.0, 0.0));
    }

    #[test]
    fn lines_change_into_one_another() {
        let pairs = vec![(0.0, 0.0), (3.0, 4.0), (3.0, 6.0)];
        let motif = Motif::try_from(pairs.clone()).expect("a line");
        assert_eq!(motif.name(), "line");
        assert_eq!(Bounds::of(&motif), Some(motif.bounds()));
        let points = Vec::<Point>::from(motif.clone());
        assert_eq!(Motif::try_from(points.clone()).expect("a line"), motif);
        let line = Polyline::from(motif.clone());
        assert_eq!(line, Polyline::try_from(pairs).expect("a line"));
        assert_eq!(
            (line.as_ref(), Vec::from(line.clone())),
            (&*points, points.clone())
        );
        assert_eq!(Motif::from(line), motif);
        assert!(Motif::try_from(vec![(0.0, f64::NAN), (1.0, 0.0)]).is_err());
    }

    proptest! {
        #[test]
        fn start_and_end_follow_a_transform(m in motif(), c in prop::array::uniform6(-5.0..5.0f64)) {
            let map = Transform::new(c);
            prop_assume!(map.determinant().abs() > 0.1);
            let image = m.transformed(&map).expect("image");
            prop_assert_eq!(image.start().point, map.apply(m.start().point));
            prop_assert_eq!(image.end().point, map.apply(m.end().point));
            let along = image.points()[1] - image.points()[0];
            prop_assert!((image.start().direction - along.normalize()).norm() < 1e-6);
            let back = image.transformed(&map.inverse().expect("invertible")).expect("back");
            for (a, b) in back.points().iter().zip(m.points()) {
                prop_assert!((a - b).norm() < 1e-7);
            }
        }

        #[test]
        fn length_scales(m in motif(), factor in 0.1..10.0f64, degrees in -360.0..360.0f64) {
            let map = Transform::scale(factor, factor).then(Transform::rotate_degrees(degrees));
            let length = m.transformed(&map).expect("image").length();
            prop_assert!((length - factor * m.length()).abs() <= 1e-9 * length);
        }

        #[test]
        fn moving_an_end_moves_it_there(m in motif(), x in -9.0..9.0f64, y in -9.0..9.0f64) {
            let to = Point::new(x, y);
            prop_assert!((m.start_at(to).expect("moved").start().point - to).norm() < 1e-12);
            prop_assert!((m.end_at(to).expect("moved").end().point - to).norm() < 1e-12);
            prop_assert_eq!(m.clone().reversed().reversed(), m);
        }
    }
}
