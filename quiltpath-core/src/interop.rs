//! Lines and motifs to and from the curves of `kurbo` and `lyon_path`, in any one unit.
//!
//! `kurbo` holds f64 like this library, so its points go and come bit for bit. `lyon_path` holds
//! f32: about seven digits stay, so a point 2 m from the origin may move by 0.1 µm.

use kurbo::{BezPath, PathEl};
use lyon_path::{Event, Path, math};

use crate::error::Error;
use crate::geom::{Point, Polyline};
use crate::motif::Motif;
use crate::strokes::{Drawing, Joined, OneLineOptions, Stroke};

/// The line as an open `kurbo` path: a move, then lines; empty for a line without points.
///
/// ```
/// use quiltpath_core::{geom::Polyline, interop};
///
/// let line = Polyline::try_from(vec![(0.0, 0.0), (3.0, 4.0)])?;
/// let path = interop::to_kurbo(&line);
/// assert_eq!(path.segments().count(), 1);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Complexity
///
/// O(n).
#[must_use]
pub fn to_kurbo(line: impl AsRef<[Point]>) -> BezPath {
    let points = line.as_ref();
    let mut path = BezPath::with_capacity(points.len());
    for (index, point) in points.iter().enumerate() {
        let at = (point.x, point.y);
        if index == 0 {
            path.move_to(at);
        } else {
            path.line_to(at);
        }
    }
    path
}

/// A motif of a `kurbo` path, its curves flattened and its subpaths joined.
///
/// The tolerances are in the unit of the path. In messages a subpath is named after the motif and
/// its number.
///
/// ```
/// use quiltpath_core::{interop, strokes::OneLineOptions};
///
/// let path = kurbo::BezPath::from_svg("M0 0 C 0 5 10 5 10 0 M 10 0 H 12").unwrap();
/// let motif = interop::from_kurbo("hill", &path, &OneLineOptions::default())?.motif;
/// assert_eq!(motif.end().point.x, 12.0);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`Drawing::one_line`](crate::strokes::Drawing::one_line).
///
/// # Complexity
///
/// O(points written + subpaths log subpaths) expected.
pub fn from_kurbo(name: &str, path: &BezPath, options: &OneLineOptions) -> Result<Joined, Error> {
    from_elements(name, path.iter(), options)
}

/// The line as an open `lyon_path` path, rounded to f32; empty for a line without points.
///
/// # Complexity
///
/// O(n).
#[must_use]
pub fn to_lyon(line: impl AsRef<[Point]>) -> Path {
    let mut builder = Path::builder();
    if let [first, rest @ ..] = line.as_ref() {
        builder.reserve(rest.len() + 1, 0);
        builder.begin(lyon_point(*first));
        for point in rest {
            builder.line_to(lyon_point(*point));
        }
        builder.end(false);
    }
    builder.build()
}

/// A motif of a `lyon_path` path, its curves flattened and its subpaths joined.
///
/// ```
/// use lyon_path::{Path, math::point};
/// use quiltpath_core::{interop, strokes::OneLineOptions};
///
/// let mut builder = Path::builder();
/// builder.begin(point(0.0, 0.0));
/// builder.quadratic_bezier_to(point(5.0, 5.0), point(10.0, 0.0));
/// builder.end(false);
/// let motif = interop::from_lyon("hill", &builder.build(), &OneLineOptions::default())?.motif;
/// assert_eq!(motif.end().point.x, 10.0);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`from_kurbo`].
///
/// # Complexity
///
/// As [`from_kurbo`].
pub fn from_lyon(name: &str, path: &Path, options: &OneLineOptions) -> Result<Joined, Error> {
    let kurbo = |point: math::Point| kurbo::Point::new(point.x.into(), point.y.into());
    let elements = path.iter().filter_map(|event| match event {
        Event::Begin { at } => Some(PathEl::MoveTo(kurbo(at))),
        Event::Line { to, .. } => Some(PathEl::LineTo(kurbo(to))),
        Event::Quadratic { ctrl, to, .. } => Some(PathEl::QuadTo(kurbo(ctrl), kurbo(to))),
        Event::Cubic {
            ctrl1, ctrl2, to, ..
        } => Some(PathEl::CurveTo(kurbo(ctrl1), kurbo(ctrl2), kurbo(to))),
        Event::End { close, .. } => close.then_some(PathEl::ClosePath),
    });
    from_elements(name, elements, options)
}

fn from_elements(
    name: &str,
    elements: impl Iterator<Item = PathEl>,
    options: &OneLineOptions,
) -> Result<Joined, Error> {
    let mut paths: Vec<BezPath> = Vec::new();
    for element in elements {
        match (paths.last_mut(), element) {
            (Some(path), element) if !matches!(element, PathEl::MoveTo(_)) => path.push(element),
            _ => paths.push(std::iter::once(element).collect()),
        }
    }
    let strokes = paths.into_iter().enumerate().map(|(index, path)| {
        let id = format!("{name} {}", index + 1);
        Stroke::new(id, path)
    });
    Drawing::new(name, strokes.collect()).one_line(options)
}

fn lyon_point(point: Point) -> math::Point {
    math::point(point.x as f32, point.y as f32)
}

impl From<&Polyline> for BezPath {
    fn from(line: &Polyline) -> Self {
        to_kurbo(line)
    }
}

impl From<&Motif> for BezPath {
    fn from(motif: &Motif) -> Self {
        to_kurbo(motif)
    }
}

impl From<&Polyline> for Path {
    fn from(line: &Polyline) -> Self {
        to_lyon(line)
    }
}

impl From<&Motif> for Path {
    fn from(motif: &Motif) -> Self {
        to_lyon(motif)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::strokes::Gaps;
    use lyon_path::math::point;
    use proptest::prelude::*;

    #[test]
    fn closed_and_separate_subpaths_are_joined() {
        let mut builder = Path::builder();
        builder.begin(point(0.0, 0.0));
        builder.cubic_bezier_to(point(0.0, 4.0), point(4.0, 4.0), point(4.0, 0.0));
        builder.end(true);
        builder.begin(point(0.0, 0.0));
        builder.line_to(point(-2.0, 0.0));
        builder.end(false);
        let joined = from_lyon("m", &builder.build(), &OneLineOptions::default()).expect("joined");
        assert_eq!(joined.motif.start().point, Point::new(0.0, 0.0));
        assert_eq!(joined.motif.end().point, Point::new(-2.0, 0.0));
        let apart = BezPath::from_svg("M0 0H1M5 5H6").expect("path data");
        let refuse = OneLineOptions::default().with_gaps(Gaps::Refuse);
        let error = from_kurbo("m", &apart, &refuse).expect_err("apart");
        assert!(error.to_string().contains("\"m 1\" ends at"), "{error}");
        assert!(to_kurbo([]).is_empty() && to_lyon([]).iter().next().is_none());
    }

    proptest! {
        #[test]
        fn there_and_back(points in prop::collection::vec((-2e3..2e3f64, -2e3..2e3f64), 2..50)) {
            let points = points.into_iter().map(|(x, y)| Point::new(x, y)).collect();
            let motif = Motif::from_points("m", points).expect("random points differ");
            let back = from_kurbo("m", &BezPath::from(&motif), &OneLineOptions::default()).expect("back");
            prop_assert_eq!(back.motif.points(), motif.points());
            let back = from_lyon("m", &Path::from(&motif), &OneLineOptions::default()).expect("back");
            for (a, b) in back.motif.points().iter().zip(motif.points()) {
                prop_assert!((a - b).amax() <= 2e3 * f64::from(f32::EPSILON));
            }
        }
    }
}
