//! A band of one depth along a round curve.
//!
//! Method: with the middle of the band as M(s), its outward normal n and curvature κ, the image of
//! (s, t) is M + n w with w = (t − 1/2) depth. Its first derivatives are T (1 + κ w) and n depth;
//! of a straight line in the strip the second is at most |ds|² (|κ' w| + κ (1 + κ w)) + 2 |ds dt| κ
//! depth, which bounds how far a chord strays (an eighth of it).
//! Guarantee: t divides each line across evenly; offsets are distances, to rounding.

use super::band::BandMap;
use crate::error::{Error, positive};
use crate::geom::{Point, Round, Vector};

/// A closed band along a round curve: travelled clockwise as seen, the outer line at t = 1.
///
/// ```
/// use quiltpath_core::geom::{Point, Round};
/// use quiltpath_core::warp::{BandMap, RoundBand};
///
/// // 4 deep about a circle of radius 10.
/// let band = RoundBand::new(Round::circle(Point::new(0.0, 0.0), 10.0)?, 4.0)?;
/// assert!((band.place(0.0, 1.0) - Point::new(0.0, -12.0)).norm() < 1e-12);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct RoundBand {
    middle: Round,
    depth: f64,
    length: f64,
    breaks: Vec<f64>,
}

impl RoundBand {
    /// The band about a curve in its middle.
    ///
    /// # Errors
    ///
    /// A geometry error when the depth is not above 0, or the inner line would fold.
    pub fn new(middle: Round, depth: f64) -> Result<Self, Error> {
        positive("the depth of the band", depth, "a length above 0")?;
        middle.inset(depth / 2.0)?;
        Ok(Self {
            depth,
            length: middle.length(),
            breaks: middle.breaks(),
            middle,
        })
    }

    /// The length of its middle line.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.length
    }
}

impl BandMap for RoundBand {
    fn depth(&self) -> f64 {
        self.depth
    }

    fn depth_at(&self, _: f64) -> f64 {
        self.depth
    }

    fn place(&self, s: f64, t: f64) -> Point {
        let place = self.middle.at(s);
        place.point + place.outwards * ((t - 0.5) * self.depth)
    }

    fn place_vector_at(&self, s: f64, t: f64, ds: f64, dt: f64) -> Vector {
        let place = self.middle.at(s);
        let longer = 1.0 + place.curvature * (t - 0.5) * self.depth;
        place.along() * (longer * ds) + place.outwards * (self.depth * dt)
    }

    fn locate(&self, point: Point) -> Option<(f64, f64)> {
        let s = self.middle.nearest(point);
        let place = self.middle.at(s);
        let off = (point - place.point).dot(&place.outwards);
        Some((s, 0.5 + off / self.depth))
    }

    fn breaks(&self) -> &[f64] {
        &self.breaks
    }

    fn steps(&self, from: (f64, f64), to: (f64, f64), tolerance: f64) -> f64 {
        let (ds, dt) = ((to.0 - from.0).abs(), (to.1 - from.1).abs());
        let [bend, change] = self.middle.bends_at(f64::midpoint(from.0, to.0));
        let aside = [from.1, to.1].map(|t| ((t - 0.5) * self.depth).abs());
        let aside = aside[0].max(aside[1]);
        let along = change * aside + bend * (1.0 + bend * aside);
        let second = ds * ds * along + 2.0 * ds * dt * bend * self.depth;
        (second / (8.0 * tolerance)).sqrt().ceil().max(1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::warp::subdivide;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn chords_keep_to_the_curve_and_places_are_found_again(a in 100.0..600.0f64, ratio in 0.5..1.0f64, share in 0.1..0.9f64, from in 0.0..1.0f64, long in 0.001..0.2f64, t in (0.0..1.0f64, 0.0..1.0f64)) {
            let middle = Round::ellipse(Point::origin(), [a, a * ratio]).expect("an ellipse");
            let depth = 2.0 * share * middle.least_radius();
            let band = RoundBand::new(middle, depth).expect("a band");
            let (from, to) = ((from * band.length(), t.0), ((from + long) * band.length(), t.1));
            let mut places = vec![from];
            subdivide(&band, from, to, 0.05, 1_000_000, |s, t| places.push((s, t))).expect("few");
            places.push(to);
            for pair in places.windows(2) {
                let between = |share: f64| (pair[0].0 + share * (pair[1].0 - pair[0].0), pair[0].1 + share * (pair[1].1 - pair[0].1));
                let ends = pair.iter().map(|&(s, t)| band.place(s, t)).collect::<Vec<_>>();
                for share in [0.25, 0.5, 0.75] {
                    let (s, t) = between(share);
                    let off = crate::geom::measure::distance_to_segment(band.place(s, t), ends[0], ends[1]);
                    prop_assert!(off <= 0.0501, "{off}");
                }
            }
            let (s, t) = from;
            let found = band.locate(band.place(s, t)).expect("a place");
            prop_assert!((band.place(found.0, found.1) - band.place(s, t)).norm() < 1e-4);
            prop_assert!((found.1 - t).abs() < 1e-4);
        }
    }
}
