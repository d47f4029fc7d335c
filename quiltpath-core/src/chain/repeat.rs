//! A border repeat made ready for chaining: fractions along and offsets across.

use super::alternate::Alternate;
use crate::error::{Error, FitFault};
use crate::fit::Ease;
use crate::geom::Vector;
use crate::motif::Motif;
use crate::transform::Mirror;

/// A border repeat in strip form: u is 0 at its start and 1 at its end, t is 0 at its lowest ink
/// and 1 at its highest, so that the ink fills the band from line to line.
///
/// The drawing runs from left to right with the outside of the quilt up; one that ends to the
/// left of its start is travelled backwards.
#[derive(Debug, Clone, PartialEq)]
pub struct Repeat {
    name: String,
    points: Vec<(f64, f64)>,
    directions: [(f64, f64); 2],
    straight: [bool; 2],
    links: Vec<usize>,
    aspect: f64,
    drawn_depth: f64,
    backwards: bool,
}

impl Repeat {
    /// Makes a drawing ready for chaining.
    ///
    /// # Errors
    ///
    /// A fit error when the drawing has no height or leads nowhere along.
    ///
    /// # Complexity
    ///
    /// O(n).
    pub fn new(motif: &Motif) -> Result<Self, Error> {
        let bounds = motif.bounds();
        let backwards = motif.end().point.x < motif.start().point.x;
        let turned;
        let motif = if backwards {
            turned = motif.clone().reversed();
            &turned
        } else {
            motif
        };
        let (start, end) = (motif.start(), motif.end());
        let (pitch, height) = (end.point.x - start.point.x, bounds.height());
        // Below a millionth of its size, a pitch is the rounding of a drawing program.
        if pitch <= 1e-6 * bounds.width().max(height) {
            return Err(FitFault::RepeatHasNoPitch.into());
        }
        if height <= 1e-6 * bounds.width() {
            return Err(FitFault::RepeatHasNoHeight.into());
        }
        let strip = |x: f64, y: f64| {
            let across = ((bounds.max.y - y) / height).clamp(0.0, 1.0);
            ((x - start.point.x) / pitch, across)
        };
        let step = |direction: Vector| (direction.x / pitch, -direction.y / height);
        let line = motif.line();
        let straight = [
            (start.direction - line.start_direction()).norm() < 1e-9,
            (end.direction - line.end_direction()).norm() < 1e-9,
        ];
        Ok(Self {
            name: motif.name().to_owned(),
            points: motif.points().iter().map(|p| strip(p.x, p.y)).collect(),
            directions: [step(start.direction), step(end.direction)],
            straight,
            links: motif.links().to_vec(),
            aspect: pitch / height,
            drawn_depth: height,
            backwards,
        })
    }

    /// The same repeat with its stretch put where it shows least; start, end and offsets stay.
    ///
    /// Segments along which the local stretch changes become curves; they are split until their
    /// chords are within `tolerance` of them, in depths of the band; at least 1e-6 is taken.
    ///
    /// ```
    /// use quiltpath_core::{chain::Repeat, fit::{Ease, EaseLimits, Stiffness}, geom::Point, motif::Motif};
    ///
    /// // A stem, a square on its tip, a stem.
    /// let points = [(0, 5), (5, 5), (8, 8), (11, 5), (8, 2), (5, 5), (16, 5)]
    ///     .map(|(x, y)| Point::new(f64::from(x), f64::from(y)));
    /// let repeat = Repeat::new(&Motif::from_points("square", points.to_vec())?)?;
    /// let stiffness = Stiffness::of(repeat.points(), repeat.pitch(1.0))?;
    /// let eased = repeat.eased(&Ease::new(&stiffness, 1.12, &EaseLimits::default())?, 1e-4);
    /// assert_eq!(eased.points()[0], repeat.points()[0]);
    /// // Chained with a stretch of 1.12, the square, 6 wide and 6 high, keeps its proportions.
    /// let middle: Vec<f64> = eased.points().iter().filter(|p| p.1 == 0.5).map(|p| p.0).collect();
    /// let width = (middle[2] - middle[1]) * 1.12 * eased.pitch(6.0);
    /// assert!((width - 6.0).abs() < 0.01);
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Complexity
    ///
    /// O(points + points added).
    #[must_use]
    pub fn eased(&self, ease: &Ease, tolerance: f64) -> Self {
        let mut points = Vec::with_capacity(self.points.len());
        let tolerance = tolerance.max(FINEST);
        let length = self.aspect * ease.stretch();
        let mut straight = self.straight;
        points.push((ease.apply(self.points[0].0), self.points[0].1));
        let last = self.points.len() - 2;
        let (mut links, mut next) = (Vec::new(), self.links.iter().peekable());
        for (index, pair) in self.points.windows(2).enumerate() {
            let before = points.len();
            bend(
                ease,
                [pair[0], pair[1]],
                length,
                tolerance,
                MAX_HALVINGS,
                &mut points,
            );
            // The chord of a bent line has not the direction in which it starts.
            let split = points.len() > before + 1;
            if next.next_if(|at| **at == index).is_some() {
                links.extend(before - 1..points.len() - 1);
            }
            straight[0] &= !(index == 0 && split);
            straight[1] &= !(index == last && split);
        }
        let ends = [self.points[0].0, self.points[last + 1].0];
        let direction = |end: usize| {
            let (du, dt) = self.directions[end];
            (du * ease.slope(ends[end]), dt)
        };
        Self {
            name: self.name.clone(),
            points,
            directions: [direction(0), direction(1)],
            straight,
            links,
            ..*self
        }
    }

    /// The name of the motif.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// How far one copy leads along a band of this depth at its proportions.
    #[must_use]
    pub fn pitch(&self, depth: f64) -> f64 {
        self.aspect * depth
    }

    /// How high the drawing is, in its own unit.
    #[must_use]
    pub fn drawn_depth(&self) -> f64 {
        self.drawn_depth
    }

    /// True when the drawing ran from right to left and is travelled backwards.
    #[must_use]
    pub fn is_backwards(&self) -> bool {
        self.backwards
    }

    /// The points as (u, t).
    #[must_use]
    pub fn points(&self) -> &[(f64, f64)] {
        &self.points
    }

    /// The offsets across at which a copy starts and ends.
    #[must_use]
    pub fn offsets(&self, mirror: Option<Mirror>) -> [f64; 2] {
        let [start, end] = [self.points[0].1, self.points[self.points.len() - 1].1];
        match mirror {
            None => [start, end],
            Some(Mirror::LeftRight) => [end, start],
            Some(Mirror::TopBottom) => [1.0 - start, 1.0 - end],
        }
    }

    /// The offsets across at which a chain of so many copies starts and ends, as they are drawn.
    #[must_use]
    pub fn chain_offsets(&self, alternate: Alternate, repeats: usize) -> [f64; 2] {
        let last = repeats.saturating_sub(1);
        let offsets = |copy| self.offsets(alternate.of_copy(copy, repeats));
        [offsets(0)[0], offsets(last)[1]]
    }

    /// The segments of a copy that are links, by the index of their first point, in the order of
    /// travel.
    pub(crate) fn links(&self, mirror: Option<Mirror>) -> Vec<usize> {
        let last = self.points.len() - 2;
        match mirror {
            Some(Mirror::LeftRight) => self.links.iter().rev().map(|at| last - at).collect(),
            None | Some(Mirror::TopBottom) => self.links.clone(),
        }
    }

    /// The steps (du, dt) of travel at the start and at the end of a copy.
    #[must_use]
    pub(crate) fn directions(&self, mirror: Option<Mirror>) -> [(f64, f64); 2] {
        let [start, end] = self.directions;
        match mirror {
            None => [start, end],
            Some(Mirror::LeftRight) => [(end.0, -end.1), (start.0, -start.1)],
            Some(Mirror::TopBottom) => [(start.0, -start.1), (end.0, -end.1)],
        }
    }

    /// Whether a copy starts and ends with a straight line, whose image is straight as well.
    #[must_use]
    pub(crate) fn straight_ends(&self, mirror: Option<Mirror>) -> [bool; 2] {
        let [start, end] = self.straight;
        match mirror {
            Some(Mirror::LeftRight) => [end, start],
            None | Some(Mirror::TopBottom) => [start, end],
        }
    }

    /// Calls `see` with (u, t) of each point of a copy, in the order of travel.
    pub(crate) fn visit(&self, mirror: Option<Mirror>, mut see: impl FnMut(f64, f64)) {
        match mirror {
            None => self.points.iter().for_each(|&(u, t)| see(u, t)),
            Some(Mirror::LeftRight) => self.points.iter().rev().for_each(|&(u, t)| see(1.0 - u, t)),
            Some(Mirror::TopBottom) => self.points.iter().for_each(|&(u, t)| see(u, 1.0 - t)),
        }
    }
}

/// The least tolerance, in depths: a ten-thousandth of a millimetre on a band of 100 mm. Without
/// it, a tolerance of 0 would split every segment to the end.
const FINEST: f64 = 1e-6;

/// How many times a segment may be halved: to 65 536 parts.
const MAX_HALVINGS: u32 = 16;

/// Adds the images of a segment's points after its start, enough of them for the tolerance.
fn bend(
    ease: &Ease,
    [from, to]: [(f64, f64); 2],
    length: f64,
    tolerance: f64,
    halvings: u32,
    points: &mut Vec<(f64, f64)>,
) {
    let image = (ease.apply(to.0), to.1);
    let along = (image.0 - ease.apply(from.0)) * length;
    let across = to.1 - from.1;
    let size = along.hypot(across);
    // The image bows along the band only, so a segment along it stays straight.
    let bow = ease.bow(from.0, to.0) * length * if size > 0.0 { across.abs() / size } else { 0.0 };
    if halvings == 0 || bow <= tolerance {
        points.push(image);
        return;
    }
    let middle = (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1));
    bend(
        ease,
        [from, middle],
        length,
        tolerance,
        halvings - 1,
        points,
    );
    bend(ease, [middle, to], length, tolerance, halvings - 1, points);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;

    fn motif(points: &[(f64, f64)]) -> Motif {
        let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
        Motif::from_points("m", points).expect("a motif")
    }

    #[test]
    fn the_drawing_fills_the_band_with_its_top_outside() {
        let repeat = Repeat::new(&motif(&[(1.0, 3.0), (2.0, 5.0), (4.0, 1.0), (5.0, 4.0)]))
            .expect("a repeat");
        assert_eq!(repeat.pitch(2.0), 2.0);
        assert_eq!(repeat.offsets(None), [0.5, 0.25]);
        assert_eq!(repeat.offsets(Some(Mirror::LeftRight)), [0.25, 0.5]);
        assert_eq!(repeat.offsets(Some(Mirror::TopBottom)), [0.5, 0.75]);
        let mut seen = Vec::new();
        repeat.visit(Some(Mirror::LeftRight), |u, t| seen.push((u, t)));
        assert_eq!(seen, [(0.0, 0.25), (0.25, 1.0), (0.75, 0.0), (1.0, 0.5)]);
    }

    #[test]
    fn no_tolerance_splits_without_end() {
        use crate::fit::{EaseLimits, Stiffness};
        let drawing = motif(&[(0.0, 5.0), (5.0, 5.0), (8.0, 8.0), (5.0, 5.0), (16.0, 4.0)]);
        let repeat = Repeat::new(&drawing).expect("a repeat");
        let stiffness = Stiffness::of(repeat.points(), repeat.pitch(1.0)).expect("stiffness");
        let ease = Ease::new(&stiffness, 1.2, &EaseLimits::default()).expect("eased");
        let finest = repeat.eased(&ease, 1e-6);
        assert!(finest.points().len() < 10_000);
        for tolerance in [0.0, -1.0, f64::NAN] {
            assert_eq!(repeat.eased(&ease, tolerance), finest);
        }
    }

    #[test]
    fn a_drawing_from_right_to_left_is_travelled_backwards() {
        let repeat = Repeat::new(&motif(&[(5.0, 0.0), (1.0, 1.0)])).expect("a repeat");
        assert!(repeat.is_backwards());
        assert_eq!(repeat.offsets(None), [0.0, 1.0]);
    }

    #[test]
    fn a_drawing_without_advance_or_height_is_refused() {
        let upright = Repeat::new(&motif(&[(0.0, 0.0), (1.0, 2.0), (0.0, 4.0)]));
        assert!(
            upright
                .expect_err("leads nowhere")
                .to_string()
                .contains("can't be chained")
        );
        let flat = Repeat::new(&motif(&[(0.0, 0.0), (4.0, 0.0)]));
        assert!(flat.expect_err("flat").to_string().contains("no height"));
    }
}
