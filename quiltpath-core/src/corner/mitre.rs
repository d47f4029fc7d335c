//! A mitred corner: the repeat itself, cut on the diagonal and mirrored.
//!
//! Problem: on the leg that is entered, the chained repeat runs up to the diagonal of the corner;
//! its mirror image, travelled back, goes on along the leg that is left. At which phase of the
//! repeat should the diagonal cut, so that the line meets it once and turns least there?
//! Method: with x along, y the height over the inner line and α the interior angle, a point lies
//! before the diagonal through x = φ on the inner line exactly when q = x − y·cot(α/2) < φ. How
//! often the periodic line crosses q = φ changes only at the values that q takes at its vertices,
//! so all phases are swept in order of these values, O(n log n). The mirrored line turns at the
//! diagonal by twice the angle between the line and the diagonal's normal.
//! Guarantee: of all phases that meet the diagonal least often, one with the least turn, up to
//! 2 degrees; phases that are as good up to that are counted, those whose turn can be
//! smoothed first, then by phase, and any of them may be asked for. The halves are mirror images of
//! each other.
//! Failure: where every phase meets the diagonal three times or more, the parts beyond the first
//! crossing are linked along the diagonal or dropped, as asked, and reported.

mod options;
mod sweep;

pub use options::{ExtraLoops, MitreOptions};

use self::sweep::{Crossing, Cut, crossings, cuts};
use super::derived::DerivedCorner;
use super::period::{MAX_LEG_REPEATS, Period, check_legs, half_angle};
use crate::chain::{MAX_POINTS, Repeat};
use crate::error::{Error, FitFault};
use crate::geom::flatten::flatten;
use crate::geom::measure::length;
use crate::geom::{Point, Vector, turn_between};
use crate::motif::Motif;
use crate::transform::Transform;

/// A corner cut from the repeat on the diagonal.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct MitredCorner {
    /// The corner in the standard position.
    pub corner: DerivedCorner,
    /// Where the repeat is cut: the distance along from its start to the inner end of the diagonal.
    pub phase: f64,
    /// How often the line meets the diagonal at this phase.
    pub crossings: usize,
    /// How many places there are to cut at that are as good, this one among them.
    pub cuts: usize,
    /// By how many degrees the line turns at the diagonal, before it is smoothed; 0 or more.
    pub kink_degrees: f64,
    /// Over how much of the line, either side of the diagonal, the turn is smoothed: less than
    /// asked for where more would lead out of the band or the line is shorter, and 0 where nothing
    /// fits.
    pub smoothed_length: f64,
    /// The length of line that was dropped, on both legs together.
    pub lost_length: f64,
    /// The length of the links along the diagonal, on both legs together.
    pub linked_length: f64,
    /// How many links are stitched across the band, on both legs together: one at the end of each
    /// repeat, where that ends at another height than it starts at and isn't levelled.
    pub links: usize,
}

/// Cuts a repeat on the diagonal of a corner and mirrors it there.
///
/// `depth` is that of the band, which the repeat's ink fills from its inner to its outer line;
/// `angle_degrees` is the interior angle, from 45 to 150 degrees, a quarter of a degree more or
/// less being accepted. The corner starts where a repeat starts and ends where a mirrored one would
/// end, so both ends lie at the repeat's own height. All lengths are in the unit of `depth`.
///
/// ```
/// use quiltpath_core::{chain::Repeat, corner::*, geom::Point, motif::Motif};
///
/// let hill = Motif::from_points("hill", vec![
///     Point::new(0.0, 1.0), Point::new(1.0, 0.0), Point::new(2.0, 1.0),
/// ])?;
/// let options = MitreOptions::default().with_legs(1);
/// let mitred = mitred_corner(&Repeat::new(&hill)?, 1.0, 90.0, &options)?;
/// assert_eq!(mitred.crossings, 1);
/// assert!(mitred.kink_degrees < 1e-9, "a slope of 45 degrees meets the diagonal square on");
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when the angle, the depth, the legs or the smoothing is out of range; a fit
/// error as in [`crate::chain::chain_repeats`].
///
/// # Complexity
///
/// O(n log n) in the points of the repeat, and O(points written).
pub fn mitred_corner(
    repeat: &Repeat,
    depth: f64,
    angle_degrees: f64,
    options: &MitreOptions,
) -> Result<MitredCorner, Error> {
    let half = half_angle(angle_degrees)?;
    check_legs(options.legs)?;
    if !(options.smooth >= 0.0 && options.smooth.is_finite()) {
        return Err(Error::bad_number(
            "the length to smooth over",
            options.smooth,
            "0 or more",
        ));
    }
    let period = Period::new(repeat, depth, options.ends, options.join_tolerance)?;
    let cot = 1.0 / half.tan();
    check_work(&period, cot)?;
    let cuts = cuts(&period, cot, options.extra);
    let cut = |cut: &Cut| {
        let crossings = crossings(&period, cot, cut.phase);
        let mut half = Half::cut(&period, cot, (cut.phase, &crossings), options);
        if options.smooth > 0.0 {
            half.smooth(options, depth, cot)?;
        }
        Ok((half, crossings.len()))
    };
    let mut halves = cuts.iter().map(cut).collect::<Result<Vec<_>, Error>>()?;
    // The sort is stable: equals stay in the order of their phases.
    halves.sort_by_key(|(half, _)| half.smoothed <= 0.0);
    let cuts = halves.len();
    let (inside, crossings) = halves.swap_remove(options.cut.min(cuts - 1));

    // Height y over the inner line and distance x before it, seen from the elbow's inner end.
    let elbow = Point::new(depth * cot, depth);
    let phase = inside.phase;
    let leave = |point: &Point| Point::new(elbow.x + phase - point.x, elbow.y - point.y);
    let leaving: Vec<Point> = inside.points.iter().rev().map(leave).collect();
    let diagonal = Transform::mirror_line(Point::origin(), Point::new(half.cos(), half.sin()))?;
    let entering = leaving.iter().rev().map(|&point| diagonal.apply(point));
    let count = leaving.len();
    let mut points: Vec<Point> = entering.take(count - 1).collect();
    points.extend(&leaving);

    let [start, _] = period.directions;
    let end = Vector::new(start.x, start.y);
    let begin = -diagonal.apply_vector(end);
    let (before, at, after) = (points[count - 2], points[count - 1], points[count]);
    let kink = turn_between(at - before, after - at);
    let motif = Motif::from_points(repeat.name(), points)?.with_directions([begin, end]);
    Ok(MitredCorner {
        corner: DerivedCorner::new(motif, angle_degrees, depth),
        phase,
        crossings,
        cuts,
        kink_degrees: kink.to_degrees(),
        smoothed_length: inside.smoothed,
        lost_length: 2.0 * inside.lost,
        linked_length: 2.0 * inside.linked,
        links: 2 * inside.links,
    })
}

/// Refuses a repeat that reaches over so many of its copies that they would take too long.
fn check_work(period: &Period, cot: f64) -> Result<(), Error> {
    let q = period.points.iter().map(|point| point.x - point.y * cot);
    let (low, high) = q.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), q| {
        (low.min(q), high.max(q))
    });
    let copies = (high - low) / period.pitch + 1.0;
    if copies.is_nan() || copies > MAX_LEG_REPEATS as f64 {
        return Err(Error::bad_number(
            "the number of repeats that the diagonal crosses",
            copies.ceil(),
            "at most 1000, by a repeat that is longer for its height",
        ));
    }
    let (count, limit) = (copies * period.points.len() as f64, MAX_POINTS);
    match count <= limit as f64 {
        true => Ok(()),
        false => Err(FitFault::TooManyPoints { count, limit }.into()),
    }
}

/// The line on the leg that is entered, up to the diagonal.
struct Half {
    points: Vec<Point>,
    phase: f64,
    lost: f64,
    linked: f64,
    /// How many links between repeats there are.
    links: usize,
    /// Over how much of its end it is smoothed.
    smoothed: f64,
}

impl Half {
    fn cut(
        period: &Period,
        cot: f64,
        (phase, crossings): (f64, &[Crossing]),
        options: &MitreOptions,
    ) -> Self {
        // There is one at every phase: copies chain on from −∞ to ∞. Only a phase within rounding
        // of a vertex could miss it, and the sweep takes none: with no more than `MAX_POINTS`
        // vertices in a period, gaps that narrow can't fill it.
        let base = crossings[0].copy;
        let phase = phase - base as f64 * period.pitch;
        let place = |crossing: &Crossing| {
            let copy = crossing.copy - base;
            let from = period.point(copy, crossing.segment);
            let to = period.point(copy, crossing.segment + 1);
            let q = |point: Point| point.x - point.y * cot;
            let share = ((phase - q(from)) / (q(to) - q(from))).clamp(0.0, 1.0);
            let point = from + (to - from) * share;
            // On the diagonal to the last digit, so that its mirror image is itself.
            Point::new(phase + point.y * cot, point.y)
        };
        let mut points = vec![period.point(-(options.legs as i64), 0)];
        for copy in -(options.legs as i64)..0 {
            points.extend((1..period.points.len()).map(|index| period.point(copy, index)));
        }
        let first = &crossings[0];
        points.extend((1..=first.segment).map(|index| period.point(0, index)));
        points.push(place(first));
        let segments = period.segments() as i64;
        let position = |c: &Crossing| (c.copy - base) * segments + c.segment as i64;
        let mut half = Self {
            points,
            phase,
            lost: 0.0,
            linked: 0.0,
            links: period.links([-(options.legs as i64) * segments, position(first)]),
            smoothed: 0.0,
        };
        for pair in crossings[1..].chunks_exact(2) {
            let (from, to) = (&pair[0], &pair[1]);
            let mut loop_points = vec![place(from)];
            for at in position(from) + 1..=position(to) {
                let (copy, index) = (at.div_euclid(segments), at.rem_euclid(segments));
                loop_points.push(period.point(copy, index as usize));
            }
            loop_points.push(place(to));
            match options.extra {
                ExtraLoops::Drop => half.lost += length(&loop_points),
                ExtraLoops::Link => {
                    let tail = half.points[half.points.len() - 1];
                    half.linked += (loop_points[0] - tail).norm();
                    half.links += period.links([position(from), position(to)]);
                    half.points.extend(loop_points);
                }
            }
        }
        half.points.dedup();
        half
    }

    /// Bends the last stretch so that it meets the diagonal square on; halved until it stays in the
    /// band, left alone where even the shortest try does not.
    fn smooth(&mut self, options: &MitreOptions, depth: f64, cot: f64) -> Result<(), Error> {
        const TRIES: usize = 12;
        let end = self.points[self.points.len() - 1];
        let normal = Vector::new(1.0, -cot).normalize();
        let mut stretch = options.smooth.min(length(&self.points));
        for _ in 0..TRIES {
            let (keep, from, bent) = self.before_end(stretch);
            let before = self.points[keep - 1];
            let Some(direction) = (from - before).try_normalize(0.0) else {
                return Ok(());
            };
            let reach = (end - from).norm() / 3.0;
            let kurbo = |point: Point| kurbo::Point::new(point.x, point.y);
            let mut path = kurbo::BezPath::new();
            path.move_to(kurbo(from));
            path.curve_to(
                kurbo(from + direction * reach),
                kurbo(end - normal * reach),
                kurbo(end),
            );
            // A stretch without length is no curve: the end is as smooth as it can be.
            let Some(curve) = flatten(path, options.flattening)?.pop() else {
                return Ok(());
            };
            let curve = curve.points;
            let before_diagonal = |p: &Point| p.x - p.y * cot <= self.phase + 1e-9 * depth;
            let fits = |p: &Point| (0.0..=depth).contains(&p.y) && before_diagonal(p);
            if curve.iter().all(fits) {
                self.points.truncate(keep);
                self.points.extend(curve);
                self.points.dedup();
                self.smoothed = bent;
                return Ok(());
            }
            stretch /= 2.0;
        }
        Ok(())
    }

    /// The number of points to keep, the point at this distance before the end, at least one
    /// point being kept, and how far before the end it is.
    fn before_end(&self, distance: f64) -> (usize, Point, f64) {
        let mut left = distance;
        let mut to_second = 0.0;
        for at in (1..self.points.len()).rev() {
            let step = self.points[at - 1] - self.points[at];
            let size = step.norm();
            if left < size {
                return (at, self.points[at] + step * (left / size), distance);
            }
            left -= size;
            to_second += if at > 1 { size } else { 0.0 };
        }
        (1, self.points[1], to_second)
    }
}

#[cfg(test)]
mod tests;
