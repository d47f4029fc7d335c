//! Every stitch held against its part of the path, and split until it keeps to it.

use super::chord::Chord;
use super::needles::{Needles, Place};
use super::options::StitchOptions;
use super::stitches::{Miss, StitchReport};
use crate::geom::Point;

/// Needle points that hold what can be held, and what can't.
pub(super) struct Mended {
    pub(super) needles: Needles,
    pub(super) report: StitchReport,
}

/// A needle point with its place.
type Needle = (Point, Place);

/// Splits the stitches that are too long or leave the path too far.
pub(super) fn mend(path: &[Point], needles: Needles, options: &StitchOptions) -> Mended {
    let longest = options.target * std::f64::consts::SQRT_2 * (1.0 + 1e-12);
    let mut mender = Mender {
        path,
        bounds: Squares {
            shortest: options.minimum.powi(2),
            longest: longest.powi(2),
            error: options.chord_error.powi(2),
        },
        found: Squares {
            shortest: f64::INFINITY,
            longest: 0.0,
            error: 0.0,
        },
        strayed: Vec::new(),
        added: Vec::new(),
    };
    let mut from = (needles.points()[0], needles.places()[0]);
    let ends = needles.points().iter().zip(needles.places());
    for (at, (&point, &place)) in ends.enumerate().skip(1) {
        let to = (point, place);
        if !mender.keeps(from, to) {
            mender.part(at, from, to);
        }
        from = to;
    }
    let Mender {
        found,
        strayed,
        added,
        ..
    } = mender;
    let report = StitchReport {
        shortest: found.shortest.sqrt(),
        longest: found.longest.sqrt(),
        worst_chord_error: found.error.sqrt(),
        dropped: Vec::new(),
        tiny: 0,
        strayed,
    };
    let needles = if added.is_empty() {
        needles
    } else {
        merged(needles, &added)
    };
    Mended { needles, report }
}

/// Squares of lengths: what stitches are held to, or what they were found to be.
#[derive(Clone, Copy)]
struct Squares {
    shortest: f64,
    longest: f64,
    error: f64,
}

impl Squares {
    #[inline]
    fn hold(&self, length: f64, error: f64) -> bool {
        error <= self.error && length <= self.longest && length >= self.shortest
    }

    #[inline]
    fn widen(&mut self, length: f64, error: f64) {
        self.shortest = self.shortest.min(length);
        self.longest = self.longest.max(length);
        self.error = self.error.max(error);
    }
}

struct Mender<'a> {
    path: &'a [Point],
    bounds: Squares,
    found: Squares,
    strayed: Vec<Miss>,
    /// Needle points added, each with the number of the one that it stands before.
    added: Vec<(usize, Needle)>,
}

impl Mender<'_> {
    /// True for a stitch that holds, which is noted.
    #[inline]
    fn keeps(&mut self, from: Needle, to: Needle) -> bool {
        let chord = Chord::new(from.0, to.0);
        let error = chord.worst(self.between(from, to));
        let holds = self.bounds.hold(chord.square_length(), error);
        if holds {
            self.found.widen(chord.square_length(), error);
        }
        holds
    }

    /// Splits the stitch that ends at needle point `at` until every part holds or can't be helped.
    fn part(&mut self, at: usize, mut from: Needle, end: Needle) {
        // Ends of stitches still to be looked at, the nearest last.
        let mut ahead = Vec::new();
        let mut to = end;
        loop {
            if !self.keeps(from, to) {
                if let Some(middle) = self.split(from, to) {
                    ahead.push(to);
                    to = middle;
                    continue;
                }
                self.give_up(from, to);
            }
            let Some(next) = ahead.pop() else { return };
            self.added.push((at, to));
            (from, to) = (to, next);
        }
    }

    fn give_up(&mut self, from: Needle, to: Needle) {
        let chord = Chord::new(from.0, to.0);
        let between = self.between(from, to);
        let farthest = chord.farthest(between, |_| true);
        let error = farthest.map_or(0.0, |(_, square)| square);
        if let Some((at, square)) = farthest.filter(|_| error > self.bounds.error) {
            self.strayed.push(Miss {
                at: between[at],
                distance: square.sqrt(),
            });
        }
        self.found.widen(chord.square_length(), error);
    }

    fn between(&self, from: Needle, to: Needle) -> &[Point] {
        // Both may lie on one segment; then nothing is between.
        &self.path[from.1.after()..to.1.before().max(from.1.after())]
    }

    /// A needle point that makes a stitch hold better and leaves no half below the minimum.
    fn split(&self, from: Needle, to: Needle) -> Option<Needle> {
        let chord = Chord::new(from.0, to.0);
        let between = self.between(from, to);
        let needle = |(at, _): (usize, f64)| (between[at], Place::vertex(from.1.after() + at));
        let allowed = chord.farthest(between, |point| self.is_apart(point, from, to));
        if chord.square_length() < self.bounds.shortest {
            return allowed.map(needle);
        }
        let error = chord.worst(between);
        // What is left after a split at the farthest point is nearer, in the end.
        if let Some(farthest) =
            allowed.filter(|(_, square)| *square >= error && error > self.bounds.error)
        {
            return Some(needle(farthest));
        }
        let half = self.halfway(from, to);
        if chord.square_length() > self.bounds.longest {
            return half;
        }
        // The farthest point is out of reach; another one has to make it better, or none is added.
        let left = |choice: Needle| self.error(from, choice).max(self.error(choice, to));
        [half, allowed.map(needle)]
            .into_iter()
            .flatten()
            .map(|choice| (left(choice), choice))
            .filter(|(left, _)| *left < error)
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, choice)| choice)
    }

    fn error(&self, from: Needle, to: Needle) -> f64 {
        Chord::new(from.0, to.0).worst(self.between(from, to))
    }

    fn is_apart(&self, point: Point, from: Needle, to: Needle) -> bool {
        let least = self.bounds.shortest;
        (point - from.0).norm_squared() >= least && (point - to.0).norm_squared() >= least
    }

    /// Where the path first is as far from one end of the stitch as from the other.
    ///
    /// Such a point is there for every stitch with length, at least half of it from either end.
    fn halfway(&self, from: Needle, to: Needle) -> Option<Needle> {
        let chord = to.0 - from.0;
        let middle = nalgebra::center(&from.0, &to.0);
        let side = |point: Point| (point - middle).dot(&chord);
        let first = from.1.after();
        let mut before = from.0;
        let between = self.between(from, to);
        let after = between.iter().chain([&to.0]);
        for (offset, &point) in after.enumerate() {
            let beyond = side(point);
            if beyond >= 0.0 {
                let fraction = side(before) / (side(before) - beyond);
                let half = before + (point - before) * fraction.clamp(0.0, 1.0);
                let place = Place::segment_to(first + offset);
                return self.is_apart(half, from, to).then_some((half, place));
            }
            before = point;
        }
        None
    }
}

/// The needle points with the added ones in their places.
fn merged(needles: Needles, added: &[(usize, Needle)]) -> Needles {
    let mut all = needles.emptied(added.len());
    let mut added = added.iter().peekable();
    let pairs = needles.points().iter().zip(needles.places());
    for (at, (&point, &place)) in pairs.enumerate() {
        while let Some((_, (point, place))) = added.next_if(|(before, _)| *before == at) {
            all.add(*point, *place);
        }
        all.add(point, place);
    }
    all
}
