//! How strokes become one line: tolerances, and what becomes of gaps.

use super::ends::LineEnds;
use crate::error::{Error, positive};
use crate::geom::Bounds;
use crate::geom::flatten::{DEFAULT_TOLERANCE_MM, check_tolerance};

/// The default join tolerance: 0.1 mm, in millimetres.
pub const DEFAULT_JOIN_MM: f64 = 0.1;

/// What to do about strokes that don't meet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Gaps {
    /// Go over them in any order and direction, along what is drawn, with as little as possible
    /// stitched twice or linked: see [`OneLineReport`](super::OneLineReport). Strokes that follow
    /// one another end to end stay as they are drawn.
    #[default]
    OneLine,
    /// Link them by straight lines, in the order of drawing, and report each link.
    Link,
    /// Refuse the drawing and list each gap.
    Refuse,
    /// Leave them apart where several lines are asked for: what meets end to end is one line, what
    /// doesn't is another. Where one line is asked for, this refuses as `Refuse` does.
    Apart,
}

/// Of a small drawing, the flattening tolerance is this share of its diagonal: on a border a hand
/// deep it comes to two hundredths of a millimetre. Our own choice.
const FLATTENING_SHARE: f64 = 1e-4;

/// Of a small drawing, the join tolerance is this share of its diagonal.
const JOIN_SHARE: f64 = 1e-3;

/// How strokes become one line; lengths in the unit of the drawing, which is millimetres.
///
/// A drawing may be of any size, since it is sized to the cloth later; so a tolerance that is not
/// given goes by the drawing, where that is small: its diagonal is the measure.
///
/// ```
/// use quiltpath_core::strokes::{Drawing, Gaps, OneLineOptions, Stroke};
///
/// let options = OneLineOptions::default().with_gaps(Gaps::Link).with_join(0.2);
/// let path = kurbo::BezPath::from_svg("M0 0 C 0 5 10 5 10 0 M 10.1 0 H 12").unwrap();
/// let line = Drawing::new("hill", vec![Stroke::new("a", path)]).one_line(&options)?;
/// assert!(line.links.is_empty());
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct OneLineOptions {
    /// How far from a curve its points may stray, above 0; where it is `None`, 0.01 mm, or a
    /// ten-thousandth of the drawing's diagonal if that is less.
    pub flattening: Option<f64>,
    /// How near two ends have to be to meet, above 0; where it is `None`, 0.1 mm, or a thousandth
    /// of the drawing's diagonal if that is less.
    pub join: Option<f64>,
    /// What to do about strokes that don't meet; one line with the least stitched twice by default.
    pub gaps: Gaps,
    /// Where the line starts and ends, with [`Gaps::OneLine`]; wherever is best by default. A
    /// drawing that is one open line already keeps its own ends, but for those that are
    /// [given](LineEnds::Given) elsewhere.
    pub ends: LineEnds,
    /// How much line a thread cut counts for, above 0, where several lines are asked for and
    /// [`Gaps::OneLine`] makes them: the thread is cut where that saves more. Never where it is
    /// `None`.
    pub cut: Option<f64>,
}

impl OneLineOptions {
    /// The same options with this flattening tolerance.
    #[must_use]
    pub fn with_flattening(self, flattening: f64) -> Self {
        Self {
            flattening: Some(flattening),
            ..self
        }
    }

    /// The same options with this join tolerance.
    #[must_use]
    pub fn with_join(self, join: f64) -> Self {
        Self {
            join: Some(join),
            ..self
        }
    }

    /// The same options with strokes that don't meet treated so.
    #[must_use]
    pub fn with_gaps(self, gaps: Gaps) -> Self {
        Self { gaps, ..self }
    }

    /// The same options with these ends of the line.
    #[must_use]
    pub fn with_ends(self, ends: LineEnds) -> Self {
        Self { ends, ..self }
    }

    /// The same options, a thread cut counting for this much line.
    #[must_use]
    pub fn with_cut(self, cut: impl Into<Option<f64>>) -> Self {
        Self {
            cut: cut.into(),
            ..self
        }
    }

    /// The price of a thread cut; what is no length above 0 is refused.
    pub(super) fn checked_cut(&self) -> Result<Option<f64>, Error> {
        let accepted = "a length above 0, for example 50 mm";
        let check = |cut: f64| positive("the price of a thread cut", cut, accepted).map(|()| cut);
        self.cut.map(check).transpose()
    }

    /// The flattening and the join tolerance for a drawing with this box; what is no length above 0
    /// is refused.
    pub(super) fn tolerances(&self, bounds: Option<Bounds>) -> Result<[f64; 2], Error> {
        let usual = usual_tolerances(bounds.map(|bounds| bounds.size().norm()));
        let flattening = self.flattening.unwrap_or(usual[0]);
        let join = self.join.unwrap_or(usual[1]);
        check_tolerance(flattening)?;
        positive(
            "the join tolerance",
            join,
            "a length above 0, for example 0.1 mm",
        )?;
        Ok([flattening, join])
    }
}

/// The flattening and the join tolerance for a drawing with this diagonal, where none are given; in
/// millimetres.
pub(crate) fn usual_tolerances(diagonal: Option<f64>) -> [f64; 2] {
    let usual = [DEFAULT_TOLERANCE_MM, DEFAULT_JOIN_MM];
    match diagonal {
        Some(diagonal) if diagonal > 0.0 => [
            usual[0].min(FLATTENING_SHARE * diagonal),
            usual[1].min(JOIN_SHARE * diagonal),
        ],
        _ => usual,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::{BoxCorner, Point};
    use crate::strokes::{Drawing, EndPlace, LegEnds, Stroke};

    #[test]
    fn ends_that_are_nowhere_are_refused() {
        let path = kurbo::BezPath::from_svg("M0 0 H 50 M 60 0 H 90 M 20 0 V 9").expect("a path");
        let drawing = Drawing::new("branches", vec![Stroke::new("a", path)]);
        let refused = |ends: LineEnds| {
            let options = OneLineOptions::default().with_ends(ends);
            let error = drawing.one_line(&options).expect_err("no ends");
            let other = drawing.lines(&options).expect_err("no ends either");
            assert_eq!(other.to_string(), error.to_string());
            assert!(error.is_geometry(), "{error}");
            error.to_string()
        };
        let at = |x: f64, y: f64| LineEnds::given(None, Some(EndPlace::At(Point::new(x, y))));
        for ends in [at(f64::NAN, 0.0), at(0.0, f64::INFINITY), at(-1e10, 0.0)] {
            assert!(refused(ends).contains("end of the line"));
        }
        let legs = |depth: f64, turn_degrees: f64| {
            LineEnds::Legs(LegEnds {
                elbow: BoxCorner::TopLeft,
                depth_horizontal: depth,
                depth_vertical: 9.0,
                turn_degrees,
            })
        };
        assert!(refused(legs(f64::NAN, 0.0)).contains("depth"));
        assert!(refused(legs(0.0, 0.0)).contains("depth"));
        assert!(refused(legs(9.0, f64::INFINITY)).contains("turn"));
    }
}
