//! A band of straight pieces: ruled strips between stations, the lines of the band polylines.
//!
//! Problem: a side of an out-of-square quilt lies between two lines and ends on slanted ones, so
//! that it meets its corners; a wavy one is measured at stations. Map the strip onto it.
//! Method: between two stations the map is bilinear: inner and outer points go evenly along their
//! lines, and t divides the line between them evenly. The middle line is then a polyline, travelled
//! evenly within a piece, so s is its length exactly. The inverse is the root of a quadratic.
//! Guarantee: stations are met up to rounding; a straight line in the strip becomes a parabola in
//! each piece, whose greatest distance from n equal chords is at most |Δσ Δt D| / (4 n²), where σ
//! is the share of the piece and D the difference of its two rulings. A piece does not fold exactly
//! when the quadrilateral is strictly convex: its area factor is linear in σ and t, so the four
//! corners decide.
//! Failure: none beyond the checks of the stations; whether pieces fold is asked by `no_fold`. It
//! looks at pieces one by one: a band that comes round and crosses itself is not found.

use super::stations::{Station, stations};
use super::{BandMap, Strip};
use crate::error::{Error, GeometryFault};
use crate::geom::{Point, Vector};

/// A line across a band, on which it starts or ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrossLine {
    /// A point of the line.
    pub through: Point,
    /// The direction of the line; length and sign do not matter.
    pub direction: Vector,
}

impl CrossLine {
    /// The points where the line crosses a strip's inner and outer line.
    ///
    /// # Errors
    ///
    /// A geometry error when the line runs along the strip.
    pub fn ends(&self, strip: &Strip) -> Result<[Point; 2], Error> {
        let (s, t) = strip.locate(self.through);
        let ahead = strip.locate(self.through + self.direction);
        let (ds, dt) = (ahead.0 - s, ahead.1 - t);
        // As far along as 1,000 depths is no line across.
        let crosses = dt.abs() * strip.depth() * 1e3 > ds.abs();
        if !crosses {
            return Err(GeometryFault::CrossLineAlong.into());
        }
        Ok([0.0, 1.0].map(|offset| strip.place(s + (offset - t) * ds / dt, offset)))
    }
}

/// A band of one or more straight pieces between stations.
///
/// ```
/// use quiltpath_core::{geom::Point, warp::{BandMap, RuledBand}};
///
/// // Travelled to the right, the outer line up; 4 deep at the start and 6 at the end.
/// let band = RuledBand::new(&[
///     [Point::new(0.0, 4.0), Point::new(0.0, 0.0)],
///     [Point::new(30.0, 5.0), Point::new(30.0, -1.0)],
/// ])?;
/// assert_eq!(band.length(), 30.0);
/// assert_eq!(band.place(15.0, 0.5), Point::new(15.0, 2.0));
/// assert_eq!((band.depth(), band.depth_at(30.0)), (5.0, 6.0));
/// assert!(band.no_fold());
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct RuledBand {
    stations: Vec<Station>,
    /// The distance along of each station.
    along: Vec<f64>,
}

/// One piece: a quadrilateral from one station to the next.
struct Piece<'a> {
    from: &'a Station,
    /// The steps of the middle line and of the ruling to the next station.
    step: Vector,
    turn: Vector,
    start: f64,
    length: f64,
}

impl Piece<'_> {
    fn ruling(&self, share: f64) -> Vector {
        self.from.ruling + self.turn * share
    }

    /// The area factors at the inner and the outer end of both rulings.
    fn areas(&self) -> [f64; 4] {
        let [inner, outer] = [-0.5, 0.5].map(|t| self.step + self.turn * t);
        let [first, last] = [0.0, 1.0].map(|share| self.ruling(share));
        [
            inner.perp(&first),
            outer.perp(&first),
            inner.perp(&last),
            outer.perp(&last),
        ]
    }

    /// The share and the offset of a point: of the two roots, the one that joins on to the inside.
    fn locate(&self, point: Point) -> Option<(f64, f64)> {
        let to = point - self.from.middle;
        // to × ruling(σ) = σ step × ruling(σ)
        let a = -self.step.perp(&self.turn);
        let b = to.perp(&self.turn) - self.step.perp(&self.from.ruling);
        let c = to.perp(&self.from.ruling);
        let root = (b * b - 4.0 * a * c).max(0.0).sqrt();
        let slope = -root.copysign(self.areas().iter().sum());
        // Of two forms of the root the one without cancellation.
        let share = if b * slope > 0.0 {
            -2.0 * c / (b + slope)
        } else {
            (slope - b) / (2.0 * a)
        };
        let ruling = self.ruling(share);
        let t = 0.5 + (to - self.step * share).dot(&ruling) / ruling.norm_squared();
        (share.is_finite() && t.is_finite()).then_some((share, t))
    }
}

impl RuledBand {
    /// The band through these stations, pairs of (inner, outer) points in the order of travel.
    ///
    /// # Errors
    ///
    /// A geometry error when fewer than 2 stations are given, or one that names a station with
    /// coordinates that are not finite, with both points in one place, or in the place of the one
    /// before it.
    ///
    /// # Complexity
    ///
    /// O(n).
    pub fn new(pairs: &[[Point; 2]]) -> Result<Self, Error> {
        let stations = stations(pairs)?;
        let mut along = Vec::with_capacity(stations.len());
        let mut sum = 0.0;
        along.push(sum);
        for pair in stations.windows(2) {
            sum += (pair[1].middle - pair[0].middle).norm();
            along.push(sum);
        }
        Ok(Self { stations, along })
    }

    /// The part of a straight strip between two lines across it: where a side starts and ends.
    ///
    /// # Errors
    ///
    /// A geometry error when a line runs along the strip, or the lines leave no band between them.
    pub fn between(strip: &Strip, lines: [CrossLine; 2]) -> Result<Self, Error> {
        let pairs = [lines[0].ends(strip)?, lines[1].ends(strip)?];
        let rooms = [0, 1].map(|line| strip.along().dot(&(pairs[1][line] - pairs[0][line])));
        if !rooms.iter().all(|room| *room > 0.0) {
            return Err(GeometryFault::CrossLinesMeet.into());
        }
        Self::new(&pairs)
    }

    /// The length of the middle line.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.along[self.along.len() - 1]
    }

    /// The distance along of each station, from 0 to the length.
    #[must_use]
    pub fn along(&self) -> &[f64] {
        &self.along
    }

    /// True when no piece folds: every quadrilateral between two stations is strictly convex, and
    /// all have the outer line on the same side.
    ///
    /// # Complexity
    ///
    /// O(n).
    #[must_use]
    pub fn no_fold(&self) -> bool {
        let side = self.piece(0).areas()[0].signum();
        (0..self.stations.len() - 1).all(|index| {
            self.piece(index)
                .areas()
                .iter()
                .all(|area| area * side > 0.0)
        })
    }

    fn piece(&self, index: usize) -> Piece<'_> {
        let (from, to) = (&self.stations[index], &self.stations[index + 1]);
        Piece {
            from,
            step: to.middle - from.middle,
            turn: to.ruling - from.ruling,
            start: self.along[index],
            length: self.along[index + 1] - self.along[index],
        }
    }

    fn piece_at(&self, s: f64) -> Piece<'_> {
        let after = self.along.partition_point(|start| *start <= s);
        self.piece(after.saturating_sub(1).min(self.stations.len() - 2))
    }
}

impl BandMap for RuledBand {
    fn depth(&self) -> f64 {
        let area: f64 = (0..self.stations.len() - 1)
            .map(|index| {
                let piece = self.piece(index);
                piece.step.perp(&piece.ruling(0.5))
            })
            .sum();
        area.abs() / self.length()
    }

    fn depth_at(&self, s: f64) -> f64 {
        let piece = self.piece_at(s);
        let share = (s - piece.start) / piece.length;
        piece.step.perp(&piece.ruling(share)).abs() / piece.length
    }

    fn place(&self, s: f64, t: f64) -> Point {
        let piece = self.piece_at(s);
        let share = (s - piece.start) / piece.length;
        piece.from.middle + piece.step * share + piece.ruling(share) * (t - 0.5)
    }

    fn place_vector_at(&self, s: f64, t: f64, ds: f64, dt: f64) -> Vector {
        let piece = self.piece_at(s);
        let share = (s - piece.start) / piece.length;
        (piece.step + piece.turn * (t - 0.5)) * (ds / piece.length) + piece.ruling(share) * dt
    }

    fn locate(&self, point: Point) -> Option<(f64, f64)> {
        let last = self.stations.len() - 2;
        let mut found: Option<(f64, f64)> = None;
        for index in 0..=last {
            let piece = self.piece(index);
            let Some((share, t)) = piece.locate(point) else {
                continue;
            };
            // A point on a station may fall to either side of it by rounding.
            let inside = (index == 0 || share >= -1e-9) && (index == last || share <= 1.0 + 1e-9);
            let nearer = |(_, other): (f64, f64)| (t - 0.5).abs() < (other - 0.5).abs();
            let s = piece.start + share * piece.length;
            let off = (self.place(s, t) - point).norm();
            if inside && off <= 1e-6 * self.depth_at(s) && found.is_none_or(nearer) {
                found = Some((s, t));
            }
        }
        found
    }

    fn breaks(&self) -> &[f64] {
        &self.along[1..self.along.len() - 1]
    }

    fn steps(&self, from: (f64, f64), to: (f64, f64), tolerance: f64) -> f64 {
        let piece = self.piece_at(f64::midpoint(from.0, to.0));
        let share = (to.0 - from.0) / piece.length;
        let off = (share * (to.1 - from.1)).abs() * piece.turn.norm() / 4.0;
        (off / tolerance).sqrt().ceil().max(1.0)
    }
}
