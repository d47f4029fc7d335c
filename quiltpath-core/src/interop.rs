//! Lines and motifs to and from the curves of `kurbo` and `lyon_path`, in any one unit.
//!
//! `kurbo` holds f64 like this library, so its points go and come bit for bit. `lyon_path` holds
//! f32: about seven digits stay, so a point 2 m from the origin may move by 0.1 µm.

use kurbo::{BezPath, PathEl};
use lyon_path::{Event, Path, math};

use crate::error::Error;
use crate::geom::flatten::flatten;
use crate::geom::{Point, Polyline};
use crate::motif::{Gaps, Joined, Motif, Subpath, join};

/// The line as an open `kurbo` path: a move, then lines.
///
/// ```
/// use quiltpath_core::{geom::{Point, Polyline}, interop};
///
/// let line = Polyline::new(vec![Point::new(0.0, 0.0), Point::new(3.0, 4.0)])?;
/// let path = interop::to_kurbo(&line);
/// assert_eq!(path.segments().count(), 1);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Complexity
///
/// O(n).
#[must_use]
pub fn to_kurbo(line: &Polyline) -> BezPath {
    let mut path = BezPath::with_capacity(line.points().len());
    path.move_to((line.start().x, line.start().y));
    for point in &line.points()[1..] {
        path.line_to((point.x, point.y));
    }
    path
}

/// A motif of a `kurbo` path, its curves flattened and its subpaths joined.
///
/// `tolerance` is that of [`flatten`], `join_tolerance` and `gaps` are those of [`join`], all in
/// the unit of the path. In messages a subpath is named after the motif and its number.
///
/// ```
/// use quiltpath_core::{interop, motif::Gaps};
///
/// let path = kurbo::BezPath::from_svg("M0 0 C 0 5 10 5 10 0 M 10 0 H 12").unwrap();
/// let motif = interop::from_kurbo("hill", &path, 0.01, 0.1, Gaps::Refuse)?.motif;
/// assert_eq!(motif.end().point.x, 12.0);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// As [`flatten`] and [`join`].
///
/// # Complexity
///
/// O(points written + subpaths log subpaths) expected.
pub fn from_kurbo(
    name: &str,
    path: &BezPath,
    tolerance: f64,
    join_tolerance: f64,
    gaps: Gaps,
) -> Result<Joined, Error> {
    from_elements(name, path.iter(), tolerance, join_tolerance, gaps)
}

/// The line as an open `lyon_path` path, rounded to f32.
///
/// # Complexity
///
/// O(n).
#[must_use]
pub fn to_lyon(line: &Polyline) -> Path {
    let points = line.points();
    let mut builder = Path::builder();
    builder.reserve(points.len(), 0);
    builder.begin(lyon_point(points[0]));
    for &point in &points[1..] {
        builder.line_to(lyon_point(point));
    }
    builder.end(false);
    builder.build()
}

/// A motif of a `lyon_path` path, its curves flattened and its subpaths joined.
///
/// ```
/// use lyon_path::{Path, math::point};
/// use quiltpath_core::{interop, motif::Gaps};
///
/// let mut builder = Path::builder();
/// builder.begin(point(0.0, 0.0));
/// builder.quadratic_bezier_to(point(5.0, 5.0), point(10.0, 0.0));
/// builder.end(false);
/// let motif = interop::from_lyon("hill", &builder.build(), 0.01, 0.1, Gaps::Refuse)?.motif;
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
pub fn from_lyon(
    name: &str,
    path: &Path,
    tolerance: f64,
    join_tolerance: f64,
    gaps: Gaps,
) -> Result<Joined, Error> {
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
    from_elements(name, elements, tolerance, join_tolerance, gaps)
}

fn from_elements(
    name: &str,
    elements: impl Iterator<Item = PathEl>,
    tolerance: f64,
    join_tolerance: f64,
    gaps: Gaps,
) -> Result<Joined, Error> {
    let flat = flatten(elements, tolerance)?;
    let subpaths = flat.into_iter().enumerate().map(|(index, flat)| Subpath {
        id: format!("{name} {}", index + 1),
        flat,
    });
    join(name, subpaths.collect(), join_tolerance, gaps)
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
        to_kurbo(motif.line())
    }
}

impl From<&Polyline> for Path {
    fn from(line: &Polyline) -> Self {
        to_lyon(line)
    }
}

impl From<&Motif> for Path {
    fn from(motif: &Motif) -> Self {
        to_lyon(motif.line())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
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
        let joined = from_lyon("m", &builder.build(), 0.01, 0.1, Gaps::Refuse).expect("joined");
        assert_eq!(joined.motif.start().point, Point::new(0.0, 0.0));
        assert_eq!(joined.motif.end().point, Point::new(-2.0, 0.0));
        let apart = BezPath::from_svg("M0 0H1M5 5H6").expect("path data");
        let error = from_kurbo("m", &apart, 0.01, 0.1, Gaps::Refuse).expect_err("apart");
        assert!(error.to_string().contains("\"m 1\" ends at"), "{error}");
    }

    proptest! {
        #[test]
        fn there_and_back(points in prop::collection::vec((-2e3..2e3f64, -2e3..2e3f64), 2..50)) {
            let points = points.into_iter().map(|(x, y)| Point::new(x, y)).collect();
            let motif = Motif::from_points("m", points).expect("random points differ");
            let back = from_kurbo("m", &BezPath::from(&motif), 0.01, 0.1, Gaps::Refuse).expect("back");
            prop_assert_eq!(back.motif.points(), motif.points());
            let back = from_lyon("m", &Path::from(&motif), 0.01, 0.1, Gaps::Refuse).expect("back");
            for (a, b) in back.motif.points().iter().zip(motif.points()) {
                prop_assert!((a - b).amax() <= 2e3 * f64::from(f32::EPSILON));
            }
        }
    }
}
