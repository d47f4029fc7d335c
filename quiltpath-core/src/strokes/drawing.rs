//! A drawing as its strokes, curves kept as curves, and the one line that it becomes.

use super::join::{Joined, JoinedLines, join, join_lines, join_meeting};
use super::options::OneLineOptions;
use super::stroke::Stroke;
use super::subpath::Subpath;
use crate::error::Error;
use crate::geom::flatten::check_count;
use crate::geom::{Bounds, Point};
use crate::motif::Motif;

/// A drawing as its strokes, in the order of drawing.
///
/// ```
/// use quiltpath_core::strokes::{Drawing, OneLineOptions, Stroke};
///
/// let path = kurbo::BezPath::from_svg("M 0 0 H 5 M 9 0 H 5").unwrap();
/// let drawing = Drawing::new("stem", vec![Stroke::new("a", path)]);
/// let joined = drawing.one_line(&OneLineOptions::default())?;
/// assert_eq!(joined.motif.length(), 9.0);
/// assert_eq!(joined.reversed, 1);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Drawing {
    /// The name of the drawing, and of the line that it becomes.
    pub name: String,
    /// Its strokes, in the order of drawing.
    pub strokes: Vec<Stroke>,
    /// The name of the file that it was read from, for messages, when there is one.
    pub file: Option<String>,
}

impl Drawing {
    /// A drawing of these strokes.
    #[must_use]
    pub fn new(name: impl Into<String>, strokes: Vec<Stroke>) -> Self {
        Self {
            name: name.into(),
            strokes,
            file: None,
        }
    }

    /// The same drawing, read from the file of this name.
    #[must_use]
    pub fn with_file(self, file: impl Into<String>) -> Self {
        Self {
            file: Some(file.into()),
            ..self
        }
    }

    /// The smallest box that holds all strokes; `None` where nothing is drawn.
    ///
    /// # Complexity
    ///
    /// O(segments).
    #[must_use]
    pub fn bounds(&self) -> Option<Bounds> {
        let boxes = self.strokes.iter().filter_map(Stroke::bounds);
        boxes.reduce(|one, other| one.union(&other))
    }

    /// The whole drawing as one open line, its curves flattened, strokes turned where needed.
    ///
    /// Ends within the join tolerance meet; there the later stroke gives way. A closed drawing
    /// opens at its own start point. What becomes of strokes that don't follow one another end to
    /// end is up to [`OneLineOptions::gaps`].
    ///
    /// # Errors
    ///
    /// A motif error when nothing is drawn, or too much in one spot; when strokes don't meet and
    /// the options refuse that: it has each gap. A geometry error, located at its stroke, when a
    /// coordinate is not finite or out of range, or curves become more than 50 million points; a
    /// geometry error for a tolerance that is not above 0, and for ends that are no place.
    ///
    /// # Complexity
    ///
    /// O(points + strokes log strokes) expected, when strokes follow one another and few ends lie
    /// within the tolerance of each other; O(strokes²) at worst. Otherwise O(n log n + o³) besides,
    /// for n places where strokes meet and o ends that have no partner.
    pub fn one_line(&self, options: &OneLineOptions) -> Result<Joined, Error> {
        let join = || {
            let [flattening, tolerance] = options.tolerances(self.bounds())?;
            options.ends.check()?;
            join(
                &self.name,
                self.subpaths(flattening)?,
                tolerance,
                (options.gaps, options.ends),
            )
        };
        join().map_err(|error| self.in_file(error))
    }

    /// The whole drawing as one line, or as several with a thread cut between them: where the
    /// options leave strokes [apart](super::Gaps::Apart), or price a thread
    /// [cut](OneLineOptions::cut).
    ///
    /// ```
    /// use quiltpath_core::strokes::{Drawing, OneLineOptions, Stroke};
    ///
    /// let path = kurbo::BezPath::from_svg("M0 0 H 50 M 60 0 H 90 M 20 0 V 9").unwrap();
    /// let drawing = Drawing::new("branches", vec![Stroke::new("a", path)]);
    /// let lines = |cut: f64| drawing.lines(&OneLineOptions::default().with_cut(cut));
    /// assert_eq!(lines(20.0)?.motifs.len(), 1);
    /// let cut = lines(5.0)?;
    /// assert_eq!((cut.motifs.len(), cut.report.cuts, cut.report.retraced), (3, 2, 0.0));
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// As [`Drawing::one_line`]; a geometry error for a price that is not above 0.
    ///
    /// # Complexity
    ///
    /// As [`Drawing::one_line`].
    pub fn lines(&self, options: &OneLineOptions) -> Result<JoinedLines, Error> {
        let join = || {
            let [flattening, tolerance] = options.tolerances(self.bounds())?;
            options.ends.check()?;
            let how = (options.gaps, options.ends, options.checked_cut()?);
            join_lines(&self.name, self.subpaths(flattening)?, tolerance, how)
        };
        join().map_err(|error| self.in_file(error))
    }

    /// The fewest lines that the drawing is without links, in the order of their earliest strokes.
    ///
    /// As [`Drawing::one_line`], but what is apart stays apart. A single line has the name of the
    /// drawing, each of several the id of the stroke that it starts with.
    ///
    /// ```
    /// use quiltpath_core::strokes::{Drawing, OneLineOptions, Stroke};
    ///
    /// let path = kurbo::BezPath::from_svg("M0 0 H 5 M 7 0 H 9 M 5 3 V 0").unwrap();
    /// let drawing = Drawing::new("leaf", vec![Stroke::new("a", path)]);
    /// let lines = drawing.fewest_lines(&OneLineOptions::default())?;
    /// assert_eq!(lines.iter().map(|line| line.length()).collect::<Vec<_>>(), [8.0, 2.0]);
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// As [`Drawing::one_line`], but for gaps.
    ///
    /// # Complexity
    ///
    /// As [`Drawing::one_line`].
    pub fn fewest_lines(&self, options: &OneLineOptions) -> Result<Vec<Motif>, Error> {
        let join = || {
            let [flattening, tolerance] = options.tolerances(self.bounds())?;
            join_meeting(&self.name, self.subpaths(flattening)?, tolerance)
        };
        join().map_err(|error| self.in_file(error))
    }

    /// The strokes as points, in the order of drawing, curves followed as finely as the drawing's
    /// size asks for.
    pub(crate) fn points(&self) -> Result<Vec<Vec<Point>>, Error> {
        let [flattening, _] = OneLineOptions::default().tolerances(self.bounds())?;
        let subpaths = self.subpaths(flattening)?;
        Ok(subpaths.into_iter().map(|each| each.flat.points).collect())
    }

    /// All subpaths as points, in the order of drawing; the limit of points is that of the drawing.
    fn subpaths(&self, flattening: f64) -> Result<Vec<Subpath>, Error> {
        let mut subpaths = Vec::with_capacity(self.strokes.len());
        let mut points = 0;
        for stroke in &self.strokes {
            let from = subpaths.len();
            subpaths.extend(stroke.subpaths(flattening)?);
            points += subpaths[from..].iter().map(Subpath::count).sum::<usize>();
            check_count(points as f64).map_err(|error| stroke.located(error))?;
        }
        Ok(subpaths)
    }

    fn in_file(&self, error: Error) -> Error {
        match &self.file {
            Some(file) => error.in_file(file),
            None => error,
        }
    }
}

impl From<&Motif> for Drawing {
    /// A drawing of one stroke, which becomes the same motif again.
    fn from(motif: &Motif) -> Self {
        Self::new(motif.name(), vec![Stroke::from(motif)])
    }
}

impl From<Motif> for Drawing {
    /// A drawing of one stroke, which becomes the same motif again.
    fn from(motif: Motif) -> Self {
        Self::from(&motif)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::error::{ErrorKind, GeometryFault, MotifFault, Position};
    use crate::geom::flatten::flatten;
    use crate::geom::{Point, Vector};
    use crate::strokes::Gaps;
    use kurbo::BezPath;
    use proptest::prelude::*;

    fn drawn(data: &[&str]) -> Drawing {
        let strokes = data.iter().enumerate().map(|(at, data)| {
            let path = BezPath::from_svg(data).expect("path data");
            Stroke::new(format!("p{at}"), path)
        });
        Drawing::new("d", strokes.collect())
    }

    /// Flattening and joining by hand, as for one path that holds all strokes.
    fn by_hand(drawing: &Drawing, options: &OneLineOptions) -> Result<Joined, Error> {
        let mut subpaths = Vec::new();
        let [flattening, tolerance] = options.tolerances(drawing.bounds())?;
        for stroke in &drawing.strokes {
            for flat in flatten(stroke.path().iter(), flattening)? {
                let id = stroke.id().into();
                subpaths.push(Subpath { id, flat });
            }
        }
        join(
            &drawing.name,
            subpaths,
            tolerance,
            (options.gaps, options.ends),
        )
    }

    #[test]
    fn strokes_of_curves_become_what_flattening_and_joining_make_of_them() {
        for data in [
            &["M0 0 C 0 5 10 5 10 0", "M 12 3 Q 11 0 10 0"][..],
            &["M0 0 C 0 5 10 5 10 0 Z M 0 0 L -3 2"],
            &["M0 0 H 4", "M 4.05 0 H 9", "M 9 0 C 9 4 0 4 0 0"],
        ] {
            let options = OneLineOptions::default();
            let drawing = drawn(data);
            let joined = drawing.one_line(&options).expect("one line");
            assert_eq!(joined, by_hand(&drawing, &options).expect("by hand"));
        }
        let apart = drawn(&["M0 0 H 4", "M 6 0 H 9"]);
        let refuse = OneLineOptions::default().with_gaps(Gaps::Refuse);
        let error = apart.one_line(&refuse);
        let error = error.expect_err("apart");
        let ErrorKind::Motif(MotifFault::Apart { gaps, .. }) = error.kind() else {
            panic!("{error:?}");
        };
        assert_eq!([&gaps[0].from_id, &gaps[0].to_id], ["p0", "p1"]);
        let linked = OneLineOptions::default().with_gaps(Gaps::Link);
        assert_eq!(apart.one_line(&linked).expect("linked").links, *gaps);
        assert_eq!(apart.fewest_lines(&linked).expect("two").len(), 2);
    }

    /// A drawing is the same line at any size: of an icon of 24 px, as of one as large as a border.
    #[test]
    fn only_proportions_count() {
        let at = |scale: f64| {
            let path = BezPath::from_svg("M0 0 C 0 5 10 5 10 0 C 10 -7 21 -7 24 0 M 24.05 0 H 26");
            let path = kurbo::Affine::scale(scale) * path.expect("path data");
            let drawing = Drawing::new("d", vec![Stroke::new("p", path)]);
            drawing.one_line(&OneLineOptions::default().with_gaps(Gaps::Refuse))
        };
        let (small, large) = (at(0.01).expect_err("apart"), at(3.0).expect_err("apart"));
        for error in [small, large] {
            let kind = error.kind();
            assert!(matches!(kind, ErrorKind::Motif(MotifFault::Apart { .. })));
        }
        // In proportion an even bow of 10 mm turns as little at each point as one of 0.1 mm.
        let turns = |scale: f64| {
            let path = BezPath::from_svg("M0 0 C 0 5 10 5 10 0").expect("path data");
            let path = kurbo::Affine::scale(scale) * path;
            let line = Drawing::new("d", vec![Stroke::new("p", path)]);
            let line = line.one_line(&OneLineOptions::default()).expect("a line");
            let points = line.motif.points();
            let turn = |at: &[crate::geom::Point]| {
                let (a, b) = (at[1] - at[0], at[2] - at[1]);
                a.perp(&b).atan2(a.dot(&b)).abs()
            };
            points.windows(3).map(turn).fold(0.0, f64::max).to_degrees()
        };
        for scale in [1e-3, 0.1, 1.0, 10.0] {
            assert!(turns(scale) < 6.0, "{scale}: {}", turns(scale));
        }
    }

    #[test]
    fn faults_are_located_at_their_stroke() {
        let mut drawing = drawn(&["M0 0 H 4", "M 4 0 H 9e9"]);
        let place = Position { row: 3, column: 7 };
        drawing.strokes[1] = drawing.strokes[1].clone().with_position(place);
        let error = drawing.one_line(&OneLineOptions::default());
        let error = error.expect_err("too large");
        assert_eq!(error.position(), Some(place));
        assert_eq!(error.element(), Some("p1"));
        let nothing = Drawing::new("d", Vec::new()).one_line(&OneLineOptions::default());
        assert!(nothing.expect_err("nothing").is_motif());
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            for options in [
                OneLineOptions::default().with_flattening(bad),
                OneLineOptions::default().with_join(bad),
            ] {
                let error = drawn(&["M0 0 H 4"]).one_line(&options).expect_err("none");
                assert!(matches!(
                    error.kind(),
                    ErrorKind::Geometry(GeometryFault::BadNumber { .. })
                ));
            }
        }
    }

    proptest! {
        /// Near points and sharp turns, which flattening would take for no direction, stay.
        #[test]
        fn a_motif_comes_back_bit_for_bit(
            points in prop::collection::vec((-9.0..9.0f64, -9.0..9.0f64, 0.0..1.0f64), 2..30),
            turned in prop::option::of((-1.0..1.0f64, 0.1..1.0f64)),
        ) {
            let near = |(x, y, small): (f64, f64, f64)| {
                let point = Point::new(x, y);
                [point, point + Vector::new(small * 1e-13, 0.0)]
            };
            let points = points.into_iter().flat_map(near).collect();
            let mut motif = Motif::from_points("m", points).expect("random points differ");
            let options = OneLineOptions::default();
            let same = Drawing::from(&motif).one_line(&options).expect("one line");
            prop_assert_eq!(&same.motif, &motif);
            prop_assert_eq!((same.links.len(), same.reversed), (0, 0));
            if let Some((x, y)) = turned {
                motif = motif.with_directions([Vector::new(x, y), Vector::new(-y, x)]);
                let same = Drawing::from(&motif).one_line(&options).expect("one line").motif;
                prop_assert_eq!(same.points(), motif.points());
                for (one, other) in [(same.start(), motif.start()), (same.end(), motif.end())] {
                    prop_assert!((one.direction - other.direction).norm() < 1e-15);
                }
            }
        }
    }
}
