//! Repeats chained into one path along a strip, their ends brought together.
//!
//! Problem: copies of a repeat, each stretched along, have to start where the one before ended,
//! the first where a corner ended and the last where a corner starts, though the ends as drawn
//! may lie at different offsets across the band.
//! Method (`Ends::Level`): the offset t in [0, 1] of each copy is mapped by the blend
//! (1 − u)·A(t) + u·B(t), u the fraction along the copy. A and B are the projective maps
//! t / (t + c(1 − t)) that keep both lines of the band in place and bring the drawn offset of the
//! start (of the end) to the wanted one. This is a shear that grows with u and dies out at the
//! lines of the band: smooth, monotone across, and no ink can leave the band by it.
//! Where c would leave [1/[`MAX_LEVEL`], [`MAX_LEVEL`]], or for `Ends::Link`, a short straight
//! link across the band is stitched instead.
//! On a band that is not straight, each straight line in the strip is divided so that the chords on
//! the cloth stay within the flattening tolerance of its image.
//! Guarantee: every copy starts exactly where the one before ended; offsets stay within [0, 1].

mod alternate;
mod repeat;

pub use alternate::Alternate;
pub use repeat::Repeat;

use crate::error::{Error, FitFault};
use crate::geom::flatten::check_tolerance;
use crate::geom::{Point, Vector};
use crate::motif::Motif;
use crate::transform::Mirror;
use crate::warp::{BandMap, subdivide};

/// The strongest levelling: no part of the band is drawn out or pressed together by more than this.
pub const MAX_LEVEL: f64 = 3.0;

/// The most points that one chained path, or all of a plan's sides together, may have: 10 million.
pub const MAX_POINTS: usize = 10_000_000;

/// How ends that lie at different heights across the band are brought together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[cfg_attr(feature = "json", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "json", serde(rename_all = "snake_case"))]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub enum Ends {
    /// The repeat is sheared so that they meet, and linked only where that would distort it too much.
    #[default]
    Level,
    /// A short straight link is stitched across.
    Link,
}

/// One end of the stretch of band that repeats have to fill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Terminal {
    /// The distance along the strip.
    pub along: f64,
    /// The offset across that the path has to meet there; `None` leaves the repeat's own.
    pub across: Option<f64>,
}

/// How a stretch of band is to be filled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChainOptions {
    /// The whole number of repeats, at least 1.
    pub repeats: usize,
    /// Which copies are mirrored.
    pub alternate: Alternate,
    /// What to do about ends at different offsets.
    pub ends: Ends,
    /// Ends closer than this, in the strip's unit of length, are always brought together exactly.
    pub join_tolerance: f64,
    /// How far the path may lie from the image of the repeat's lines on a band that is not straight,
    /// in the strip's unit of length; the usual value is
    /// [`DEFAULT_TOLERANCE_MM`](crate::geom::flatten::DEFAULT_TOLERANCE_MM). Not used on a [`Strip`](crate::warp::Strip).
    pub flattening: f64,
}

/// Repeats chained into one path.
#[derive(Debug, Clone, PartialEq)]
pub struct Chain {
    /// The path, on the cloth.
    pub motif: Motif,
    /// The offset across at which the path starts and ends.
    pub across: [f64; 2],
    /// The largest change of an end's offset by levelling, in lengths across the band.
    pub levelled: f64,
    /// How many links are stitched between copies.
    pub links: usize,
    /// The sharpest turn of the line where a copy meets its mirror image, in degrees from 0 to 180;
    /// none is counted where they are linked.
    pub kink_degrees: f64,
    /// The index in the path of the last point of each copy; a link belongs to the copy after it.
    pub ends: Vec<usize>,
}

/// Fills the stretch of a band between two terminals with copies of the repeat.
///
/// Distances along in the strip's unit; the copies share the room equally.
///
/// ```
/// use quiltpath_core::{chain::*, geom::{Point, Vector}, motif::Motif, warp::Strip};
///
/// let hill = Motif::from_points("hill", vec![
///     Point::new(0.0, 1.0), Point::new(1.0, 0.0), Point::new(2.0, 1.0),
/// ])?;
/// let strip = Strip::new(Point::new(0.0, 1.0), Vector::new(1.0, 0.0), Vector::new(0.0, -1.0));
/// let chain = chain_repeats(
///     &Repeat::new(&hill)?,
///     &strip,
///     [Terminal { along: 0.0, across: None }, Terminal { along: 9.0, across: None }],
///     &ChainOptions {
///         repeats: 4, alternate: Alternate::None, ends: Ends::Level, join_tolerance: 0.1, flattening: 0.01,
///     },
/// )?;
/// assert_eq!(chain.motif.points().len(), 9);
/// assert_eq!(chain.motif.end().point, Point::new(9.0, 1.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A fit error when the room along is not above 0, the number of repeats is 0 or odd where it has to
/// be even, or the path would have more than [`MAX_POINTS`] points; a geometry error when the
/// flattening tolerance is needed and not above 0.
///
/// # Complexity
///
/// O(points written), on a straight strip with one allocation.
pub fn chain_repeats<B: BandMap + ?Sized>(
    repeat: &Repeat,
    band: &B,
    terminals: [Terminal; 2],
    options: &ChainOptions,
) -> Result<Chain, Error> {
    let room = terminals[1].along - terminals[0].along;
    if !(room > 0.0 && room.is_finite()) {
        return Err(FitFault::SpanNotPositive { span: room }.into());
    }
    if options.repeats == 0 {
        return Err(FitFault::NoRepeats.into());
    }
    options.alternate.check(options.repeats)?;
    let count = (repeat.points().len() as f64 + 1.0) * options.repeats as f64;
    if count > MAX_POINTS as f64 {
        let limit = MAX_POINTS;
        return Err(FitFault::TooManyPoints { count, limit }.into());
    }
    if !band.is_affine() {
        check_tolerance(options.flattening)?;
    }
    let mirror = |copy| options.alternate.of_copy(copy, options.repeats);
    let offsets: Vec<[f64; 2]> = (0..options.repeats)
        .map(|copy| repeat.offsets(mirror(copy)))
        .collect();
    let tolerance = options.join_tolerance / band.depth();
    let targets = targets(&offsets, terminals, options.ends, tolerance);

    let mut path = Path {
        band,
        flattening: options.flattening,
        points: Vec::with_capacity(count as usize),
        directions: [Vector::zeros(); 2],
        turn: 0.0,
    };
    let step = room / options.repeats as f64;
    let mut levelled: f64 = 0.0;
    let mut links = 0;
    let mut kink: f64 = 0.0;
    let mut ends = Vec::with_capacity(options.repeats);
    for (copy, (drawn, wanted)) in offsets.iter().zip(&targets).enumerate() {
        for (drawn, wanted) in drawn.iter().zip(wanted) {
            levelled = levelled.max((drawn - wanted).abs());
        }
        let linked = copy > 0 && targets[copy - 1][1] != wanted[0];
        links += usize::from(linked);
        let from = terminals[0].along + step * copy as f64;
        let to = if copy + 1 == options.repeats {
            terminals[1].along
        } else {
            terminals[0].along + step * (copy + 1) as f64
        };
        let maps = [0, 1].map(|end| Level::new(drawn[end], wanted[end]));
        path.add(repeat, mirror(copy), [from, to], maps, *wanted)?;
        ends.push(path.points.len() - 1);
        if copy > 0 && !linked && mirror(copy) != mirror(copy - 1) {
            kink = kink.max(path.turn);
        }
    }
    leave_out_repeated(&path.points, &mut ends);
    let across = [targets[0][0], targets[targets.len() - 1][1]];
    let motif = Motif::from_points(repeat.name(), path.points)?.with_directions(path.directions);
    Ok(Chain {
        motif,
        across,
        levelled: levelled * band.depth(),
        links,
        kink_degrees: kink.to_degrees(),
        ends,
    })
}

/// Counts rising indices anew as if points equal to the one before them were not there.
fn leave_out_repeated(points: &[Point], indices: &mut [usize]) {
    let (mut at, mut repeated) = (0, 0);
    for index in indices {
        let pairs = points[at..=*index].windows(2);
        repeated += pairs.filter(|pair| pair[0] == pair[1]).count();
        at = *index;
        *index -= repeated;
    }
}

/// The offsets at which each copy shall start and end.
fn targets(
    offsets: &[[f64; 2]],
    terminals: [Terminal; 2],
    ends: Ends,
    tolerance: f64,
) -> Vec<[f64; 2]> {
    let mut targets = offsets.to_vec();
    let agree = |first: f64, second: f64, wanted: f64| {
        let near = (first - second).abs() <= tolerance;
        let can = |drawn| Level::new(drawn, wanted).is_mild();
        (near || ends == Ends::Level) && can(first) && can(second)
    };
    let last = offsets.len() - 1;
    if let Some(wanted) = terminals[0].across
        && agree(offsets[0][0], wanted, wanted)
    {
        targets[0][0] = wanted;
    }
    if let Some(wanted) = terminals[1].across
        && agree(offsets[last][1], wanted, wanted)
    {
        targets[last][1] = wanted;
    }
    for copy in 1..offsets.len() {
        let (before, after) = (offsets[copy - 1][1], offsets[copy][0]);
        let middle = f64::midpoint(before, after);
        if before != after && agree(before, after, middle) {
            targets[copy - 1][1] = middle;
            targets[copy][0] = middle;
        }
    }
    targets
}

/// The projective map of offsets that keeps 0 and 1 and brings one offset to another.
#[derive(Debug, Clone, Copy)]
struct Level {
    c: f64,
}

impl Level {
    fn new(drawn: f64, wanted: f64) -> Self {
        if drawn == wanted {
            return Self { c: 1.0 };
        }
        Self {
            c: drawn * (1.0 - wanted) / (wanted * (1.0 - drawn)),
        }
    }

    fn is_mild(self) -> bool {
        (1.0 / MAX_LEVEL..=MAX_LEVEL).contains(&self.c)
    }

    fn apply(self, t: f64) -> f64 {
        if self.c == 1.0 {
            t
        } else {
            (t / (t + self.c * (1.0 - t))).clamp(0.0, 1.0)
        }
    }

    fn slope(self, t: f64) -> f64 {
        self.c / (t + self.c * (1.0 - t)).powi(2)
    }
}

struct Path<'a, B: ?Sized> {
    band: &'a B,
    flattening: f64,
    points: Vec<Point>,
    directions: [Vector; 2],
    /// The turn from the copy before to the last one, in radians.
    turn: f64,
}

impl<B: BandMap + ?Sized> Path<'_, B> {
    fn add(
        &mut self,
        repeat: &Repeat,
        mirror: Option<Mirror>,
        along: [f64; 2],
        maps: [Level; 2],
        wanted: [f64; 2],
    ) -> Result<(), Error> {
        let room = along[1] - along[0];
        let first = self.points.len();
        let level = |u: f64, t: f64| {
            let share = u.clamp(0.0, 1.0);
            (1.0 - share) * maps[0].apply(t) + share * maps[1].apply(t)
        };
        let plain = maps[0].c == 1.0 && maps[1].c == 1.0;
        let across = |u: f64, t: f64| if plain { t } else { level(u, t) };
        let mut ends = [None; 2];
        if self.band.is_affine() {
            repeat.visit(mirror, |u, t| {
                let point = self.band.place(along[0] + room * u, across(u, t));
                self.points.push(point);
            });
        } else {
            let place = |u: f64, t: f64| (along[0] + room * u, across(u, t));
            ends = self.add_curved(repeat, mirror, place)?;
        }
        // The ends come out of the formula up to rounding; joins are to be exact.
        self.points[first] = self.band.place(along[0], wanted[0]);
        if let Some(last) = self.points.last_mut() {
            *last = self.band.place(along[1], wanted[1]);
        }
        let drawn = repeat.offsets(mirror);
        let steps = repeat.directions(mirror);
        let straight = repeat.straight_ends(mirror);
        let last = self.points.len() - 1;
        for end in [0, 1] {
            let (du, dt) = steps[end];
            let t = drawn[end];
            let lean = maps[1].apply(t) - maps[0].apply(t);
            let across = maps[end].slope(t) * dt + if plain { 0.0 } else { lean * du };
            let image = |ds, dt| self.band.place_vector_at(along[end], wanted[end], ds, dt);
            let direction = match (straight[end], ends[end], end) {
                (false, ..) => image(room * du, across),
                (true, Some((ds, dt)), _) => image(ds, dt),
                (true, None, 0) => self.points[first + 1] - self.points[first],
                (true, None, _) => self.points[last] - self.points[last - 1],
            };
            if end == 0 && first > 0 {
                let before = self.directions[1];
                self.turn = before.perp(&direction).abs().atan2(before.dot(&direction));
                continue;
            }
            self.directions[end] = direction;
        }
        Ok(())
    }

    /// Adds a copy with its lines divided; returns its first and its last step in the strip.
    fn add_curved(
        &mut self,
        repeat: &Repeat,
        mirror: Option<Mirror>,
        place: impl Fn(f64, f64) -> (f64, f64),
    ) -> Result<[Option<(f64, f64)>; 2], Error> {
        let (band, points) = (self.band, &mut self.points);
        let mut before: Option<(f64, f64)> = None;
        let mut ends = [None; 2];
        let mut divided = Ok(());
        repeat.visit(mirror, |u, t| {
            let here = place(u, t);
            if let Some(from) = before
                && divided.is_ok()
            {
                let step = (here.0 - from.0, here.1 - from.1);
                ends = [ends[0].or(Some(step)), Some(step)];
                let limit = MAX_POINTS.saturating_sub(points.len());
                let see = |s, t| points.push(band.place(s, t));
                divided = subdivide(band, from, here, self.flattening, limit, see);
            }
            before = Some(here);
            points.push(band.place(here.0, here.1));
        });
        let limit = MAX_POINTS;
        divided.map_err(|count| FitFault::TooManyPoints { count, limit })?;
        Ok(ends)
    }
}

#[cfg(test)]
mod tests;
