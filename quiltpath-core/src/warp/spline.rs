//! A smooth band through stations along a wavy seam and edge.
//!
//! Problem: a wavy border is measured at stations; repeats are to follow it without kinks.
//! Method: middle line and ruling each are a cubic spline through the stations with the slopes of
//! the centripetal Catmull–Rom curve (knots by the square root of the middle line's chords; at the
//! ends the slope of the parabola through three stations). The place of a distance along is found
//! by Newton's method on the length of the middle line, from a table with 16 entries a piece.
//! Guarantee: the map is continuous with its first derivatives; stations are met up to rounding;
//! where they lie on a straight ruled strip, the band is that strip. The length along is that of
//! the spline's middle line by Gauss–Legendre quadrature, within 1e-7 of it in tests. The number of
//! steps for a tolerance comes from upper bounds of the second derivatives, so chords are within
//! it. `no_fold` is decided by the sign of polynomials (up to rounding), not by samples; like that
//! of [`RuledBand`](super::RuledBand), it does not find a band that comes round and crosses itself.
//! Failure: a middle line that nearly stops or turns back between two stations is refused.

use super::BandMap;
use super::cubic::{Cubic, integral, keeps_sign};
use super::stations::{Station, stations};
use crate::error::{Error, GeometryFault};
use crate::geom::measure::distance_to_segment;
use crate::geom::{Point, Vector};

/// The entries of the table of lengths, and the parts that bounds are taken on, for each piece.
const PARTS: usize = 16;

/// A smooth band through stations.
///
/// ```
/// use quiltpath_core::{geom::Point, warp::{BandMap, SplineBand}};
///
/// let pair = |x: f64, wave: f64| [Point::new(x, 5.0 + wave), Point::new(x, wave)];
/// let band = SplineBand::new(&[pair(0.0, 0.0), pair(10.0, 0.5), pair(20.0, 0.0), pair(30.0, 0.4)])?;
/// let (s, t) = band.locate(Point::new(10.0, 3.0)).expect("in the band");
/// assert!((t - 0.5).abs() < 1e-9 && s > 10.0);
/// assert!(band.no_fold());
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct SplineBand {
    pieces: Vec<Piece>,
    /// The distance along of each station.
    along: Vec<f64>,
}

#[derive(Debug, Clone, PartialEq)]
struct Piece {
    middle: Cubic,
    ruling: Cubic,
    /// The length of the middle line from the start of the piece to each part's end.
    lengths: [f64; PARTS + 1],
    bounds: Bounds,
}

/// Upper bounds of derivatives by the length along.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Bounds {
    /// Of the middle line, twice: its curvature.
    middle: f64,
    /// Of the ruling, twice.
    bend: f64,
    /// Of the ruling, once.
    turn: f64,
}

impl Piece {
    /// `None` when the middle line's speed may vanish.
    fn new(middle: Cubic, ruling: Cubic) -> Option<Self> {
        let part = 1.0 / PARTS as f64;
        let mut lengths = [0.0; PARTS + 1];
        let mut bounds = Bounds {
            middle: 0.0,
            bend: 0.0,
            turn: 0.0,
        };
        for index in 0..PARTS {
            let [from, to] = [index, index + 1].map(|k| k as f64 * part);
            lengths[index + 1] = lengths[index] + integral(from, to, |x| middle.slope(x).norm());
            // Second derivatives are linear, so the ends of a part bound them; first derivatives
            // differ from those at the middle of the part by no more than that over half of it.
            let most = |cubic: &Cubic| cubic.bend(from).norm().max(cubic.bend(to).norm());
            let (middle_most, ruling_most) = (most(&middle), most(&ruling));
            let centre = f64::midpoint(from, to);
            let slowest = middle.slope(centre).norm() - middle_most * part / 2.0;
            let runs_on = slowest > 1e-3 * middle.slope(centre).norm();
            if !runs_on {
                return None;
            }
            let turn = ruling.slope(centre).norm() + ruling_most * part / 2.0;
            let square = slowest * slowest;
            // Only what bends off the tangent counts; its derivative is linear again.
            let across = |x: f64| middle.slope(x).perp(&middle.bend(x)).abs();
            let rate = |x: f64| middle.slope(x).perp(&middle.third()).abs();
            let off_tangent = across(centre) + rate(from).max(rate(to)) * part / 2.0;
            bounds.middle = bounds.middle.max(off_tangent / (square * slowest));
            bounds.turn = bounds.turn.max(turn / slowest);
            let bend = ruling_most / square + turn * middle_most / (square * slowest);
            bounds.bend = bounds.bend.max(bend);
        }
        Some(Self {
            middle,
            ruling,
            lengths,
            bounds,
        })
    }

    /// The parameter at this length from the start of the piece.
    fn parameter(&self, length: f64) -> f64 {
        let after = self.lengths.partition_point(|from| *from <= length);
        let part = after.saturating_sub(1).min(PARTS - 1);
        let (from, to) = (self.lengths[part], self.lengths[part + 1]);
        let start = part as f64 / PARTS as f64;
        let mut x = start + (length - from) / (to - from) / PARTS as f64;
        for _ in 0..8 {
            let off = from + integral(start, x, |y| self.middle.slope(y).norm()) - length;
            x -= off / self.middle.slope(x).norm();
            // Newton's step has squared the error by now.
            if off.abs() <= 1e-9 * self.lengths[PARTS] {
                break;
            }
        }
        x.clamp(0.0, 1.0)
    }

    fn offset(&self, t: f64) -> Cubic {
        self.middle.plus(&self.ruling, t - 0.5)
    }
}

impl SplineBand {
    /// The smooth band through these stations, pairs of (inner, outer) points in the order of
    /// travel.
    ///
    /// # Errors
    ///
    /// As [`RuledBand::new`](super::RuledBand::new); and a geometry error that names the station
    /// after which the middle line would turn too sharply for a smooth curve.
    ///
    /// # Complexity
    ///
    /// O(n).
    pub fn new(pairs: &[[Point; 2]]) -> Result<Self, Error> {
        let stations = stations(pairs)?;
        let knots: Vec<f64> = stations
            .windows(2)
            .map(|pair| (pair[1].middle - pair[0].middle).norm().sqrt())
            .collect();
        let middle = spline(&knots, &stations, |station| station.middle.coords);
        let ruling = spline(&knots, &stations, |station| station.ruling);
        let mut pieces = Vec::with_capacity(knots.len());
        let mut along = Vec::with_capacity(stations.len());
        let mut sum = 0.0;
        along.push(sum);
        for (index, (middle, ruling)) in middle.into_iter().zip(ruling).enumerate() {
            let piece = Piece::new(middle, ruling).ok_or_else(|| {
                Error::from(GeometryFault::StationsTurn).in_element(format!("stations[{index}]"))
            })?;
            sum += piece.lengths[PARTS];
            along.push(sum);
            pieces.push(piece);
        }
        Ok(Self { pieces, along })
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

    /// True when the band nowhere folds: its area factor keeps one sign, which holds everywhere
    /// when it holds on the inner and on the outer line, since it is linear across.
    ///
    /// # Complexity
    ///
    /// O(n).
    #[must_use]
    pub fn no_fold(&self) -> bool {
        let first = &self.pieces[0];
        let side = first.middle.slope(0.0).perp(&first.ruling.at(0.0)).signum();
        self.pieces.iter().all(|piece| {
            [0.0, 1.0].into_iter().all(|t| {
                let area = piece.offset(t).slope_perp(&piece.ruling);
                keeps_sign(&area, side)
            })
        })
    }

    fn piece_index(&self, s: f64) -> usize {
        let after = self.along.partition_point(|start| *start <= s);
        after.saturating_sub(1).min(self.pieces.len() - 1)
    }

    /// The piece and the parameter there of a distance along, and how far it is beyond an end.
    fn find(&self, s: f64) -> (&Piece, f64, f64) {
        let piece = &self.pieces[self.piece_index(s)];
        if s <= 0.0 {
            return (piece, 0.0, s);
        }
        if s >= self.length() {
            return (piece, 1.0, s - self.length());
        }
        let start = self.along[self.piece_index(s)];
        (piece, piece.parameter(s - start), 0.0)
    }

    /// The strip coordinates of the table's ruling that is nearest to a point.
    fn nearest(&self, point: Point) -> (f64, f64) {
        let mut best = (f64::INFINITY, 0.0, 0.5);
        for (piece, start) in self.pieces.iter().zip(&self.along) {
            for (part, length) in piece.lengths.iter().enumerate() {
                let x = part as f64 / PARTS as f64;
                let (middle, ruling) = (piece.middle.at(x), piece.ruling.at(x));
                let [inner, outer] = [-0.5, 0.5].map(|t| Point::from(middle + ruling * t));
                let away = distance_to_segment(point, inner, outer);
                if away < best.0 {
                    let t = (point - inner).dot(&ruling) / ruling.norm_squared();
                    best = (away, start + length, t);
                }
            }
        }
        (best.1, best.2)
    }
}

impl BandMap for SplineBand {
    fn depth(&self) -> f64 {
        let area: f64 = self
            .pieces
            .iter()
            .map(|p| integral(0.0, 1.0, |x| p.middle.slope(x).perp(&p.ruling.at(x))))
            .sum();
        area.abs() / self.length()
    }

    fn depth_at(&self, s: f64) -> f64 {
        let (piece, x, _) = self.find(s);
        let slope = piece.middle.slope(x);
        slope.perp(&piece.ruling.at(x)).abs() / slope.norm()
    }

    fn place(&self, s: f64, t: f64) -> Point {
        let (piece, x, beyond) = self.find(s);
        let point = Point::from(piece.middle.at(x) + piece.ruling.at(x) * (t - 0.5));
        if beyond == 0.0 {
            return point;
        }
        point + self.place_vector_at(s, t, beyond, 0.0)
    }

    fn place_vector_at(&self, s: f64, t: f64, ds: f64, dt: f64) -> Vector {
        let (piece, x, beyond) = self.find(s);
        let speed = piece.middle.slope(x).norm();
        let turn = piece.ruling.slope(x) / speed;
        let along = piece.middle.slope(x) / speed + turn * (t - 0.5);
        along * ds + (piece.ruling.at(x) + turn * beyond) * dt
    }

    fn locate(&self, point: Point) -> Option<(f64, f64)> {
        let (mut s, mut t) = self.nearest(point);
        let size = self.depth();
        for _ in 0..50 {
            let off = point - self.place(s, t);
            if off.norm() <= 1e-13 * size {
                break;
            }
            let along = self.place_vector_at(s, t, 1.0, 0.0);
            let across = self.place_vector_at(s, t, 0.0, 1.0);
            let area = along.perp(&across);
            let step = Vector::new(off.perp(&across), along.perp(&off)) / area;
            // A step of more than a depth leaves the part of the map that the derivative tells of.
            let limit = (size / step.x.abs()).min(1.0 / step.y.abs()).min(1.0);
            s += limit * step.x;
            t += limit * step.y;
        }
        ((self.place(s, t) - point).norm() <= 1e-9 * size).then_some((s, t))
    }

    fn steps(&self, from: (f64, f64), to: (f64, f64), tolerance: f64) -> f64 {
        let (ds, dt) = ((to.0 - from.0).abs(), (to.1 - from.1).abs());
        let [first, last] = [from.0.min(to.0), from.0.max(to.0)].map(|s| self.piece_index(s));
        let aside = (from.1 - 0.5).abs().max((to.1 - 0.5).abs());
        let off = self.pieces[first..=last]
            .iter()
            .map(|Piece { bounds, .. }| {
                (bounds.middle + aside * bounds.bend) * ds * ds + 2.0 * bounds.turn * ds * dt
            })
            .fold(0.0, f64::max);
        (off / (8.0 * tolerance)).sqrt().ceil().max(1.0)
    }
}

/// The cubic pieces between the values, with the slopes of the non-uniform Catmull–Rom curve.
fn spline(knots: &[f64], stations: &[Station], value: impl Fn(&Station) -> Vector) -> Vec<Cubic> {
    let values: Vec<Vector> = stations.iter().map(value).collect();
    let rates: Vec<Vector> = knots
        .iter()
        .zip(values.windows(2))
        .map(|(knot, pair)| (pair[1] - pair[0]) / *knot)
        .collect();
    let last = knots.len() - 1;
    let slope = |index: usize| {
        if last == 0 {
            return rates[0];
        }
        // The slope, at one of three stations, of the parabola through them.
        let piece = index.clamp(1, last);
        let (before, after) = (knots[piece - 1], knots[piece]);
        let bend = (rates[piece] - rates[piece - 1]) / (before + after);
        match index {
            0 => rates[0] - bend * before,
            _ if index > last => rates[last] + bend * after,
            _ => rates[piece - 1] + bend * before,
        }
    };
    (0..=last)
        .map(|index| {
            let slopes = [slope(index), slope(index + 1)].map(|slope| slope * knots[index]);
            Cubic::hermite([values[index], values[index + 1]], slopes)
        })
        .collect()
}
