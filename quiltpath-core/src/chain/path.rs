//! The path of chained copies, grown copy by copy along a band.
//!
//! On a band that is not straight, each straight line in the strip is divided so that the chords on
//! the cloth stay within the flattening tolerance of its image.

use super::level::Level;
use super::repeat::Repeat;
use crate::error::{Error, FitFault};
use crate::geom::{Point, Vector, turn_between};
use crate::transform::Mirror;
use crate::warp::{BandMap, subdivide};

/// The most points that one chained path, or all of a plan's sides together, may have: 10 million.
pub(crate) const MAX_POINTS: usize = 10_000_000;

/// A path along a band, as far as it has come.
pub(super) struct Path<'a, B: ?Sized> {
    band: &'a B,
    flattening: f64,
    pub(super) points: Vec<Point>,
    /// The segments that are links, by the index of their first point.
    pub(super) links: Vec<usize>,
    /// The directions of travel at its start and at its end.
    pub(super) directions: [Vector; 2],
    /// The turn from what was before the last copy to that, in radians.
    pub(super) turn: f64,
}

impl<'a, B: BandMap + ?Sized> Path<'a, B> {
    /// A path with room for this many points.
    pub(super) fn new(band: &'a B, flattening: f64, room: usize) -> Self {
        Self {
            band,
            flattening,
            points: Vec::with_capacity(room),
            links: Vec::new(),
            directions: [Vector::zeros(); 2],
            turn: 0.0,
        }
    }

    /// Links two offsets by a straight line across the band; true when there is anything to stitch.
    ///
    /// The path starts at the first of them, or has ended there.
    pub(super) fn link(&mut self, along: f64, [from, to]: [f64; 2]) -> bool {
        let [from, to] = [from, to].map(|across| self.band.place(along, across));
        if from == to {
            return false;
        }
        if self.points.is_empty() {
            self.points.push(from);
            self.directions[0] = to - from;
        } else {
            self.points.push(to);
        }
        // A link before the first copy has only its start so far.
        self.links.push(self.points.len().saturating_sub(2));
        self.directions[1] = to - from;
        true
    }

    /// Adds a copy of the repeat between two distances along, its offsets mapped at both ends.
    pub(super) fn add(
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
        let plain = maps.iter().all(|map| map.is_identity());
        let across = |u: f64, t: f64| if plain { t } else { level(u, t) };
        let mut ends = [None; 2];
        if self.band.is_affine() {
            repeat.visit(mirror, |u, t| {
                let point = self.band.place(along[0] + room * u, across(u, t));
                self.points.push(point);
            });
            let links = repeat.links(mirror);
            self.links.extend(links.into_iter().map(|at| first + at));
        } else {
            let place = |u: f64, t: f64| (along[0] + room * u, across(u, t));
            ends = self.add_curved(repeat, mirror, place)?;
        }
        // The ends come out of the formula up to rounding; joins are to be exact.
        self.points[first] = self.band.place(along[0], wanted[0]);
        if let Some(last) = self.points.last_mut() {
            *last = self.band.place(along[1], wanted[1]);
        }
        if first > 0 && self.points[first] != self.points[first - 1] {
            let at = self.links.partition_point(|link| *link < first - 1);
            if self.links.get(at) != Some(&(first - 1)) {
                self.links.insert(at, first - 1);
            }
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
                self.turn = turn_between(self.directions[1], direction);
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
        let own = repeat.links(mirror);
        let (mut next, mut index) = (own.iter().peekable(), 0);
        let (band, points, links) = (self.band, &mut self.points, &mut self.links);
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
                let first = points.len() - 1;
                let see = |s, t| points.push(band.place(s, t));
                divided = subdivide(band, from, here, self.flattening, limit, see);
                if next.next_if(|at| **at == index).is_some() {
                    links.extend(first..points.len());
                }
                index += 1;
            }
            before = Some(here);
            points.push(band.place(here.0, here.1));
        });
        let limit = MAX_POINTS;
        divided.map_err(|count| FitFault::TooManyPoints { count, limit })?;
        Ok(ends)
    }
}
