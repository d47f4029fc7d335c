//! A stroke: a line as it was drawn, with the name and the place that messages give it.

use std::borrow::Cow;
use std::sync::Arc;

use kurbo::BezPath;
#[cfg(all(feature = "svg", feature = "json"))]
use kurbo::PathEl;

use super::subpath::Subpath;
use crate::error::{Error, Position};
use crate::geom::curve_bounds::curve_bounds;
use crate::geom::flatten::{FlatPath, flatten};
use crate::geom::{Bounds, Polyline, Vector};
use crate::motif::Motif;
#[cfg(all(feature = "svg", feature = "json"))]
use crate::units::Unit;

/// A stroke of a drawing: a line from pen down to pen up, as curves or as points.
///
/// Curves of several subpaths are as many lines with one name. In millimetres, x to the right, y
/// down.
///
/// ```
/// use quiltpath_core::strokes::Stroke;
///
/// let stem = Stroke::new("stem", kurbo::BezPath::from_svg("M0 0 C 0 5 10 5 10 0").unwrap());
/// assert_eq!((stem.id(), stem.path().elements().len()), ("stem", 2));
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Stroke {
    id: String,
    shape: Shape,
    position: Option<Position>,
}

#[derive(Debug, Clone, PartialEq)]
enum Shape {
    Curves(BezPath),
    /// Points, with the directions at the ends; zero where those are of the first and last segment.
    Points(Polyline, [Vector; 2]),
}

impl Stroke {
    /// A stroke along this path; the id is what messages call it by, up to 255 characters of it.
    #[must_use]
    pub fn new(id: impl Into<String>, path: BezPath) -> Self {
        Self {
            id: short(id.into()),
            shape: Shape::Curves(path),
            position: None,
        }
    }

    /// A stroke along a line of points; the id as in [`Stroke::new`].
    #[must_use]
    pub fn from_line(id: impl Into<String>, line: Polyline) -> Self {
        Self {
            id: short(id.into()),
            shape: Shape::Points(line, [Vector::zeros(); 2]),
            position: None,
        }
    }

    /// The same stroke, drawn by what stands at this place of its file.
    #[must_use]
    pub fn with_position(self, position: Position) -> Self {
        Self {
            position: Some(position),
            ..self
        }
    }

    /// What messages call it by: the id of its element, or a description such as `path 3`.
    #[must_use]
    pub fn id(&self) -> &str {
        &self.id
    }

    /// The curves; for a stroke along points their straight segments.
    ///
    /// # Complexity
    ///
    /// O(1) for curves, O(points) for points.
    #[must_use]
    pub fn path(&self) -> Cow<'_, BezPath> {
        match &self.shape {
            Shape::Curves(path) => Cow::Borrowed(path),
            Shape::Points(line, _) => {
                let mut path = BezPath::with_capacity(line.points().len());
                path.move_to((line.start().x, line.start().y));
                for point in &line.points()[1..] {
                    path.line_to((point.x, point.y));
                }
                Cow::Owned(path)
            }
        }
    }

    /// The smallest box that holds what is drawn; `None` where that has no segment.
    ///
    /// # Complexity
    ///
    /// O(segments).
    #[must_use]
    pub fn bounds(&self) -> Option<Bounds> {
        match &self.shape {
            Shape::Curves(path) => curve_bounds(path),
            Shape::Points(line, _) => Some(line.bounds()),
        }
    }

    /// Where in its file the stroke is drawn, when known.
    #[must_use]
    pub fn position(&self) -> Option<Position> {
        self.position
    }

    /// The same stroke with its coordinates in another unit.
    ///
    /// # Errors
    ///
    /// As [`Polyline::new`] for points, located at the stroke.
    #[cfg(all(feature = "svg", feature = "json"))]
    pub(crate) fn in_unit(mut self, from: Unit, to: Unit) -> Result<Self, Error> {
        if from == to {
            return Ok(self);
        }
        let change =
            |p: kurbo::Point| kurbo::Point::new(from.change(p.x, to), from.change(p.y, to));
        self.shape = match self.shape {
            Shape::Curves(path) => {
                Shape::Curves(path.into_iter().map(|el| mapped(el, change)).collect())
            }
            Shape::Points(line, directions) => {
                let line = Polyline::new(from.change_points(line.into_points(), to));
                Shape::Points(line.map_err(|e| e.in_element(&self.id))?, directions)
            }
        };
        Ok(self)
    }

    /// Its subpaths as points, curves flattened within the tolerance.
    ///
    /// # Errors
    ///
    /// As [`flatten`], located at the stroke.
    pub(crate) fn flat(&self, tolerance: f64) -> Result<Vec<FlatPath>, Error> {
        match &self.shape {
            Shape::Curves(path) => flatten(path.iter(), tolerance).map_err(|e| self.located(e)),
            Shape::Points(line, [start, end]) => Ok(vec![FlatPath {
                points: line.points().to_vec(),
                start_direction: *start,
                end_direction: *end,
                closed: false,
            }]),
        }
    }

    /// As [`Stroke::flat`], each subpath with the id of the stroke.
    pub(super) fn subpaths(&self, tolerance: f64) -> Result<impl Iterator<Item = Subpath>, Error> {
        let flat = self.flat(tolerance)?.into_iter();
        let id: Arc<str> = self.id.as_str().into();
        Ok(flat.map(move |flat| Subpath {
            id: id.clone(),
            flat,
        }))
    }

    pub(crate) fn located(&self, error: Error) -> Error {
        let error = error.in_element(self.id.as_str());
        match self.position {
            Some(Position { row, column }) => error.at(row, column),
            None => error,
        }
    }
}

/// An id that each gap of a drawing may have.
fn short(mut id: String) -> String {
    const LONGEST: usize = 255;
    if let Some((end, _)) = id.char_indices().nth(LONGEST) {
        id.truncate(end);
        id.shrink_to_fit();
    }
    id
}

#[cfg(all(feature = "svg", feature = "json"))]
fn mapped(element: PathEl, change: impl Fn(kurbo::Point) -> kurbo::Point) -> PathEl {
    match element {
        PathEl::MoveTo(p) => PathEl::MoveTo(change(p)),
        PathEl::LineTo(p) => PathEl::LineTo(change(p)),
        PathEl::QuadTo(a, p) => PathEl::QuadTo(change(a), change(p)),
        PathEl::CurveTo(a, b, p) => PathEl::CurveTo(change(a), change(b), change(p)),
        PathEl::ClosePath => PathEl::ClosePath,
    }
}

impl From<&Motif> for Stroke {
    /// A stroke that becomes the same motif again.
    fn from(motif: &Motif) -> Self {
        let line = motif.line();
        let own = [line.start_direction(), line.end_direction()];
        let directions = [motif.start().direction, motif.end().direction];
        Self {
            shape: Shape::Points(
                line.clone(),
                match directions == own {
                    true => [Vector::zeros(); 2],
                    false => directions,
                },
            ),
            ..Self::new(motif.name(), BezPath::new())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each gap of a drawing has the ids of two strokes, so long ones would fill the memory.
    #[test]
    fn ids_are_short() {
        let of = |id: String| Stroke::new(id, BezPath::new()).id().to_owned();
        assert_eq!(of("leaf".to_owned()), "leaf");
        assert_eq!(of("\u{e9}".repeat(1_000_000)), "\u{e9}".repeat(255));
        assert_eq!(of("a".repeat(255)), "a".repeat(255));
    }
}
