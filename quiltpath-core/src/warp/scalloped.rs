//! A band between a round inner line and an outer one that follows scallops.
//!
//! Problem: along a scalloped edge a border is deep at each crown and shallow at each cusp, and
//! what is stitched is to fill it, with whole repeats to each scallop.
//! Method: with M(s) as the curve in the middle of the band where it is deepest, n its outward
//! normal and κ its curvature, the outer line lies at M + n w(s), where the normal meets the arc of
//! it that rules there: with o = M − K from the arc's centre K, w = −o·n ± √(ρ² − |o|² + (o·n)²), +
//! on a scallop and − round a cusp. The image of (s, t) is M + n (w₀ + t (w − w₀)), w₀ the inner
//! line. Along the band lengths are shared out so that each scallop has the same: within one, s
//! grows evenly with it. With φ as the angle between the outer line and the middle, |w'| = (1 + κ
//! w) tan φ and |w''| ≤ |κ' w| tan φ + κ (1 + κ w) tan² φ + (1 + κ w) sec² φ ((1 + κ w) sec φ / ρ +
//! κ); on one arc φ is greatest at an end, so both bound how far a chord strays (an eighth of the
//! second derivative).
//! Guarantee: t divides each line across evenly; the outer line keeps its gap from the edge, to
//! rounding; within a scallop the map has no kink.
//! Failure: scallops so deep that the band has no depth at a cusp; an inner line that folds.

use super::band::BandMap;
use crate::error::{Error, GeometryFault};
use crate::geom::{Point, Round, RoundPlace, Scallops, Vector};

/// One arc of the outer line, along the middle.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Ruling {
    /// Where along the middle it ends.
    to: f64,
    centre: Point,
    radius: f64,
    /// 1 on a scallop, −1 round a cusp.
    bulge: f64,
}

impl Ruling {
    /// Where the normal of a place of the middle meets it.
    fn across(&self, place: RoundPlace) -> Across {
        let from = place.point - self.centre;
        let along = from.dot(&place.outwards);
        let aside = from.norm_squared() - along * along;
        let root = (self.radius * self.radius - aside).max(0.0).sqrt();
        let out = self.bulge * root - along;
        let rising = (from + place.outwards * out).dot(&place.outwards);
        Across {
            place,
            out,
            slope: -from.dot(&place.along()) / rising,
        }
    }
}

/// The outer line across one place of the middle.
#[derive(Debug, Clone, Copy)]
struct Across {
    place: RoundPlace,
    /// From the middle outwards to the outer line.
    out: f64,
    /// How steeply the outer line runs off the middle, below 0 where it nears it: tan φ.
    slope: f64,
}

/// A closed band with scallops outside: travelled clockwise as seen, the outer line at t = 1, from
/// a cusp on.
///
/// ```
/// use quiltpath_core::geom::{Point, Round, Scallops};
/// use quiltpath_core::warp::{BandMap, ScallopedBand};
///
/// let cloth = Round::circle(Point::new(0.0, 0.0), 500.0)?;
/// let edge = Scallops::new(&cloth, 24, 30.0)?;
/// // From 12 inside the edge to 112 inside the circle.
/// let band = ScallopedBand::new(&cloth, &edge, 12.0, 112.0)?;
/// assert!((band.place(0.0, 1.0) - Point::new(0.0, -458.0)).norm() < 1e-9);
/// assert!((band.depth_at(0.0) - 70.0).abs() < 1e-9);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct ScallopedBand {
    middle: Round,
    /// From the middle to the inner line, below 0.
    inner: f64,
    rulings: Vec<Ruling>,
    /// Where along the middle each scallop begins, and the end.
    cusps: Vec<f64>,
    /// Distances along the band at which the map has a kink.
    breaks: Vec<f64>,
    length: f64,
    depth: f64,
}

impl ScallopedBand {
    /// The band from `edge_gap` inside the scallops of a curve to `inside` within the curve.
    ///
    /// # Errors
    ///
    /// A geometry error when the gap reaches the radius of a scallop, the inner line would fold, or
    /// nothing is left between the lines at a cusp.
    pub fn new(
        curve: &Round,
        scallops: &Scallops,
        edge_gap: f64,
        inside: f64,
    ) -> Result<Self, Error> {
        let line = scallops.parallel(edge_gap)?;
        curve.inset(inside)?;
        let half = (inside - edge_gap) / 2.0;
        let middle = curve.inset(edge_gap + half)?;
        let length = middle.length();
        // The arc round the first cusp lies about the start: its second half begins the band.
        let along = |point: Point| middle.nearest(point);
        let mut cusps: Vec<f64> = scallops.cusps().iter().map(|cusp| along(*cusp)).collect();
        cusps[0] = 0.0;
        cusps.push(length);
        let mut rulings = Vec::with_capacity(line.arcs().len() + 1);
        let last = line.arcs().last().filter(|arc| arc.sweep < 0.0);
        for arc in last.into_iter().chain(line.arcs()) {
            rulings.push(Ruling {
                to: along(arc.at(1.0)),
                centre: arc.centre,
                radius: arc.radius,
                bulge: arc.sweep.signum(),
            });
        }
        if let Some(end) = rulings.last_mut() {
            end.to = length;
        }
        let mut band = Self {
            middle,
            inner: -half,
            rulings,
            cusps,
            breaks: Vec::new(),
            length,
            depth: 0.0,
        };
        let shallowest = band.cusps.iter().map(|cusp| band.across(*cusp).out + half);
        let shallowest = shallowest.fold(f64::INFINITY, f64::min);
        if shallowest <= 0.0 {
            return Err(GeometryFault::ScallopsLeaveNothing { by: -shallowest }.into());
        }
        band.breaks = band.kinks();
        band.depth = band.mean_depth();
        Ok(band)
    }

    /// The length of its middle line.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.length
    }

    /// How many scallops it has.
    #[must_use]
    pub fn scallops(&self) -> usize {
        self.cusps.len() - 1
    }

    /// How much of the band each scallop has.
    fn step(&self) -> f64 {
        self.length / self.scallops() as f64
    }

    /// Where along the middle a distance along the band lies, and how fast it goes on there.
    fn on_middle(&self, along: f64) -> (f64, f64) {
        let (along, step) = (along.rem_euclid(self.length), self.step());
        let index = ((along / step) as usize).min(self.scallops() - 1);
        let share = (self.cusps[index + 1] - self.cusps[index]) / step;
        let from = index as f64 * step;
        (self.cusps[index] + (along - from) * share, share)
    }

    /// The distance along the band of a place of the middle: the inverse of `on_middle`.
    fn along(&self, middle: f64) -> f64 {
        let last = self.scallops() - 1;
        let index = self.cusps.partition_point(|cusp| *cusp <= middle);
        let index = index.saturating_sub(1).min(last);
        let step = self.step();
        let wide = self.cusps[index + 1] - self.cusps[index];
        index as f64 * step + (middle - self.cusps[index]) * (step / wide)
    }

    fn across(&self, middle: f64) -> Across {
        let middle = middle.rem_euclid(self.length);
        self.ruling(middle).across(self.middle.at(middle))
    }

    /// The arc that rules at a place of the middle.
    fn ruling(&self, middle: f64) -> Ruling {
        let ruling = self.rulings.partition_point(|ruling| ruling.to < middle);
        self.rulings[ruling.min(self.rulings.len() - 1)]
    }

    /// Where the outer line goes over from arc to arc, where scallops meet, and where the middle
    /// has a kink in its bend.
    fn kinks(&self) -> Vec<f64> {
        let ends = self.rulings[..self.rulings.len() - 1].iter();
        let mut breaks: Vec<f64> = ends.map(|ruling| self.along(ruling.to)).collect();
        let step = self.step();
        breaks.extend((1..self.scallops()).map(|scallop| scallop as f64 * step));
        breaks.extend(self.middle.breaks().iter().map(|at| self.along(*at)));
        breaks.sort_by(f64::total_cmp);
        breaks.dedup_by(|one, other| (*one - *other).abs() <= 1e-9 * self.length);
        breaks.retain(|at| *at > 0.0 && *at < self.length);
        breaks
    }

    /// The mean depth over the length of the band, by Simpson's rule between its kinks.
    fn mean_depth(&self) -> f64 {
        const PANELS: i32 = 8;
        let ends = self.breaks.iter().copied().chain([self.length]);
        let mut from = 0.0;
        let mut sum = 0.0;
        for to in ends {
            let step = (to - from) / f64::from(2 * PANELS);
            let parts = (0..=2 * PANELS).map(|at| {
                let weight = match at % 2 {
                    _ if at == 0 || at == 2 * PANELS => 1.0,
                    1 => 4.0,
                    _ => 2.0,
                };
                // At a kink the side that is meant counts, but depths are alike on both.
                weight * self.depth_at(from + step * f64::from(at))
            });
            sum += parts.sum::<f64>() * step / 3.0;
            from = to;
        }
        sum / self.length
    }
}

impl BandMap for ScallopedBand {
    fn depth(&self) -> f64 {
        self.depth
    }

    fn depth_at(&self, s: f64) -> f64 {
        self.across(self.on_middle(s).0).out - self.inner
    }

    fn place(&self, s: f64, t: f64) -> Point {
        let across = self.across(self.on_middle(s).0);
        let out = self.inner + t * (across.out - self.inner);
        across.place.point + across.place.outwards * out
    }

    fn place_vector_at(&self, s: f64, t: f64, ds: f64, dt: f64) -> Vector {
        let (middle, share) = self.on_middle(s);
        let across = self.across(middle);
        let (place, ds) = (across.place, ds * share);
        let depth = across.out - self.inner;
        let longer = 1.0 + place.curvature * (self.inner + t * depth);
        let rising = t * across.slope * (1.0 + place.curvature * across.out);
        place.along() * (longer * ds) + place.outwards * (rising * ds + depth * dt)
    }

    fn locate(&self, point: Point) -> Option<(f64, f64)> {
        let middle = self.middle.nearest(point);
        let across = self.across(middle);
        let off = (point - across.place.point).dot(&across.place.outwards);
        let t = (off - self.inner) / (across.out - self.inner);
        Some((self.along(middle), t))
    }

    fn breaks(&self) -> &[f64] {
        &self.breaks
    }

    fn steps(&self, from: (f64, f64), to: (f64, f64), tolerance: f64) -> f64 {
        let (at, share) = self.on_middle(f64::midpoint(from.0, to.0));
        let (ds, dt) = ((to.0 - from.0).abs() * share, (to.1 - from.1).abs());
        let ruling = self.ruling(at);
        let [bend, change] = self.middle.bends_at(at);
        // The ends by the arc between them, which at a kink is not the only one.
        let ends = [-0.5, 0.5].map(|side| ruling.across(self.middle.at(at + side * ds)));
        let [slope, out] = [|end: &Across| end.slope.abs(), |end: &Across| end.out.abs()]
            .map(|of: fn(&Across) -> f64| ends.iter().map(of).fold(0.0, f64::max));
        let t = from.1.abs().max(to.1.abs());
        let aside = self.inner.abs().max(out) * t.max(1.0);
        let (longer, secant) = (1.0 + bend * aside, (1.0 + slope * slope).sqrt());
        let rising = longer * slope;
        let bent = change * aside * slope
            + bend * longer * slope * slope
            + longer * secant * secant * (longer * secant / ruling.radius + bend);
        let along = change * aside + bend * longer + 2.0 * bend * t * rising + t * bent;
        let depth = out - self.inner;
        let second = ds * ds * along + 2.0 * ds * dt * (rising + bend * depth);
        (second / (8.0 * tolerance)).sqrt().ceil().max(1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::measure::distance_to_segment;
    use crate::warp::subdivide;
    use proptest::prelude::*;

    /// A band on an oval or a circle, half as deep as there is room.
    fn band(ratio: f64, count: usize, depth: f64, gap: f64) -> Option<(Scallops, ScallopedBand)> {
        let cloth = Round::ellipse(Point::origin(), [500.0, 500.0 * ratio]).expect("an ellipse");
        let deep = depth * cloth.length() / count as f64;
        let edge = Scallops::new(&cloth, count, deep).ok()?;
        let band = ScallopedBand::new(&cloth, &edge, gap, gap + 2.0 * deep + 40.0).ok()?;
        Some((edge, band))
    }

    #[test]
    fn scallops_deeper_than_the_band_leave_nothing() {
        let cloth = Round::circle(Point::origin(), 500.0).expect("a circle");
        let edge = Scallops::new(&cloth, 24, 30.0).expect("scallops");
        let refused = ScallopedBand::new(&cloth, &edge, 12.0, 40.0).expect_err("refused");
        assert!(refused.to_string().contains("at the cusps"), "{refused}");
    }

    proptest! {
        #[test]
        fn the_outer_line_is_the_parallel_of_the_edge(ratio in 0.7..1.0f64, count in 16usize..50, depth in 0.02..0.3f64, gap in 0.0..15.0f64) {
            let Some((edge, band)) = band(ratio, count, depth, gap) else {
                return Err(TestCaseError::reject("no such band"));
            };
            let line = edge.parallel(gap).expect("a parallel");
            for place in 0..64 {
                let point = band.place(band.length() * f64::from(place) / 64.0, 1.0);
                let off = line.arcs().iter().map(|arc| arc.distance(point));
                let off = off.fold(f64::INFINITY, f64::min);
                prop_assert!(off < 1e-4, "{off} at {place}");
            }
        }

        #[test]
        fn places_are_found_again_and_the_derivative_is_that_of_the_map(ratio in 0.7..1.0f64, count in 16usize..50, depth in 0.02..0.3f64, s in 0.0..1.0f64, t in 0.0..1.0f64, way in (-1.0..1.0f64, -0.01..0.01f64)) {
            let Some((_, band)) = band(ratio, count, depth, 8.0) else {
                return Err(TestCaseError::reject("no such band"));
            };
            let s = s * band.length();
            let found = band.locate(band.place(s, t)).expect("a place");
            prop_assert!((band.place(found.0, found.1) - band.place(s, t)).norm() < 1e-4);
            let step = 1e-4;
            let moved = band.place(s + step * way.0, t + step * way.1) - band.place(s - step * way.0, t - step * way.1);
            let near = band.breaks().iter().any(|at| (at - s).abs() < 1e-3);
            let derivative = band.place_vector_at(s, t, way.0, way.1);
            prop_assert!(near || (moved / (2.0 * step) - derivative).norm() < 1e-3, "{moved:?} {derivative:?}");
        }

        #[test]
        fn chords_keep_to_the_map(ratio in 0.7..1.0f64, count in 16usize..50, depth in 0.02..0.3f64, from in 0.0..0.8f64, long in 0.001..0.2f64, t in (0.0..1.0f64, 0.0..1.0f64)) {
            let Some((_, band)) = band(ratio, count, depth, 8.0) else {
                return Err(TestCaseError::reject("no such band"));
            };
            let (from, to) = ((from * band.length(), t.0), ((from + long) * band.length(), t.1));
            let mut places = vec![from];
            subdivide(&band, from, to, 0.05, 1_000_000, |s, t| places.push((s, t))).expect("few");
            places.push(to);
            for pair in places.windows(2) {
                let ends = pair.iter().map(|&(s, t)| band.place(s, t)).collect::<Vec<_>>();
                for share in [0.25, 0.5, 0.75] {
                    let (s, t) = (pair[0].0 + share * (pair[1].0 - pair[0].0), pair[0].1 + share * (pair[1].1 - pair[0].1));
                    let off = distance_to_segment(band.place(s, t), ends[0], ends[1]);
                    prop_assert!(off <= 0.0501, "{off}");
                }
            }
        }
    }
}
