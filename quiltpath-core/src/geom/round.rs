//! Smooth closed curves that a border can run round without a corner: circles, ellipses, and convex
//! polygons with rounded corners, each with all curves parallel to it.
//!
//! Problem: the lines of a border on a round cloth lie at one distance from its edge everywhere,
//! and repeats are measured along the middle of its band.
//! Method: a convex curve is written by the angle of its outward normal, θ. With radius of
//! curvature ρ(θ), the curve that lies d inside has the same normals, the points P(θ) − d n(θ), and
//! the length ∫ (ρ − d) dθ: that of the curve less 2 π d in all (Steiner). Of an ellipse P and ρ
//! are closed forms in θ and ∫ ρ is taken by quadrature; of arcs all is linear; on straight parts θ
//! stands still.
//! Guarantee: parallel curves keep their distance to rounding; lengths along an ellipse are right
//! to 1e-10 of its size.
//! Failure: a curve so far inside that it would fold, which is where d reaches the least ρ.
//!
//! Curves go clockwise as seen (x to the right, y down) from the middle of the top.

use std::f64::consts::{FRAC_PI_2, TAU};

use super::{ConvexPolygon, MAX_COORDINATE, Point, Vector};
use crate::error::{Error, GeometryFault, positive};

/// Into how many intervals the quadrature of an ellipse is divided.
const INTERVALS: usize = 256;

/// Nodes and weights of the Gauss-Legendre rule of five points on -1 to 1; from memory, checked by
/// the lengths of ellipses in the tests.
const GAUSS: [(f64, f64); 5] = [
    (0.0, 128.0 / 225.0),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
    (-0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
    (0.906_179_845_938_664, 0.236_926_885_056_189_08),
    (-0.906_179_845_938_664, 0.236_926_885_056_189_08),
];

/// A part of a round curve, without its inset.
#[derive(Debug, Clone, PartialEq)]
enum Part {
    Line {
        from: Point,
        along: Vector,
        length: f64,
    },
    Arc {
        centre: Point,
        radius: f64,
        /// The angle of the outward normal where it begins, and how far it turns, in radians.
        from: f64,
        sweep: f64,
    },
    Ellipse {
        centre: Point,
        half: Vector,
        /// The length without inset up to each of the intervals' ends.
        reached: Vec<f64>,
    },
}

/// A smooth closed convex curve.
///
/// ```
/// use quiltpath_core::geom::{Point, Round};
///
/// let cloth = Round::ellipse(Point::new(0.0, 0.0), [300.0, 200.0])?;
/// let band = cloth.inset(20.0)?;
/// // Steiner: parallel curves differ by a circle of their distance.
/// assert!((cloth.length() - band.length() - std::f64::consts::TAU * 20.0).abs() < 1e-9);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Round {
    parts: Vec<Part>,
    inset: f64,
}

/// A place on a round curve.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct RoundPlace {
    /// Where it lies.
    pub point: Point,
    /// The outward normal, at length 1; travel is this turned by a quarter clockwise.
    pub outwards: Vector,
    /// One divided by the radius of curvature; 0 on a straight part.
    pub curvature: f64,
}

impl RoundPlace {
    /// The direction of travel, at length 1.
    pub(crate) fn along(&self) -> Vector {
        Vector::new(-self.outwards.y, self.outwards.x)
    }
}

/// By how much an arc may turn at once so that its chord stays within `tolerance` of it.
pub(super) fn chord_turn(radius: f64, tolerance: f64) -> f64 {
    // A chord over a turn of φ has a sagitta of r (1 − cos φ/2), below r φ² / 8.
    (8.0 * tolerance / radius).sqrt().min(0.5)
}

impl Round {
    /// A circle.
    ///
    /// # Errors
    ///
    /// A geometry error when the radius is not above 0 or a number is out of range.
    pub fn circle(centre: Point, radius: f64) -> Result<Self, Error> {
        check(centre, radius)?;
        let part = Part::Arc {
            centre,
            radius,
            from: -FRAC_PI_2,
            sweep: TAU,
        };
        Ok(Self {
            parts: vec![part],
            inset: 0.0,
        })
    }

    /// An ellipse with these halves of its axes, across and down.
    ///
    /// # Errors
    ///
    /// As [`circle`](Self::circle).
    pub fn ellipse(centre: Point, half: [f64; 2]) -> Result<Self, Error> {
        check(centre, half[0])?;
        check(centre, half[1])?;
        if half[0] == half[1] {
            return Self::circle(centre, half[0]);
        }
        let half = Vector::from(half);
        let step = TAU / INTERVALS as f64;
        let mut reached = Vec::with_capacity(INTERVALS + 1);
        reached.push(0.0);
        for interval in 0..INTERVALS {
            let from = -FRAC_PI_2 + step * interval as f64;
            reached.push(reached[interval] + quadrature(half, from, from + step));
        }
        let part = Part::Ellipse {
            centre,
            half,
            reached,
        };
        Ok(Self {
            parts: vec![part],
            inset: 0.0,
        })
    }

    /// A convex polygon with its corners rounded to this radius, from the middle of its first side.
    ///
    /// # Errors
    ///
    /// A geometry error when the radius is not above 0, or so large that a side is too short for
    /// its two corners.
    pub fn rounded(polygon: &ConvexPolygon, radius: f64) -> Result<Self, Error> {
        check(polygon.corner(0), radius)?;
        let sides = polygon.sides();
        // From a corner to where its arc ends.
        let cut = |corner: usize| {
            let half = polygon.angle_degrees(corner).to_radians() / 2.0;
            radius / half.tan()
        };
        let mut parts = Vec::with_capacity(2 * sides + 1);
        for side in 0..sides {
            let next = polygon.after(side);
            let (length, ends) = (polygon.side_length(side), [cut(side), cut(next)]);
            let left = length - ends[0] - ends[1];
            if left < -1e-9 * length {
                let fault = GeometryFault::RoundingTooLarge {
                    radius,
                    most: radius * length / (ends[0] + ends[1]),
                };
                return Err(fault.into());
            }
            let along = polygon.direction(side);
            let from = polygon.corner(side) + along * ends[0];
            let length = left.max(0.0);
            parts.push(Part::Line {
                from,
                along,
                length,
            });
            let outwards = Vector::new(along.y, -along.x);
            let turned = polygon.direction(next);
            parts.push(Part::Arc {
                centre: from + along * length - outwards * radius,
                radius,
                from: outwards.y.atan2(outwards.x),
                sweep: along.perp(&turned).atan2(along.dot(&turned)),
            });
        }
        // Half of the first side comes last.
        if let Part::Line {
            from,
            along,
            length,
        } = parts[0].clone()
        {
            let half = length / 2.0;
            parts[0] = Part::Line {
                from: from + along * half,
                along,
                length: half,
            };
            parts.push(Part::Line {
                from,
                along,
                length: half,
            });
        }
        parts.retain(|part| !matches!(part, Part::Line { length, .. } if *length <= 0.0));
        Ok(Self { parts, inset: 0.0 })
    }

    /// The curve that lies so far inside everywhere.
    ///
    /// # Errors
    ///
    /// A geometry error when it would fold: the distance reaches the least radius of curvature.
    pub fn inset(&self, distance: f64) -> Result<Self, Error> {
        let least = self.least_radius();
        if distance >= least {
            return Err(GeometryFault::RoundTooTight { distance, least }.into());
        }
        Ok(Self {
            parts: self.parts.clone(),
            inset: self.inset + distance,
        })
    }

    /// The least radius of curvature.
    #[must_use]
    pub fn least_radius(&self) -> f64 {
        let radii = self.parts.iter().map(|part| match part {
            Part::Line { .. } => f64::INFINITY,
            Part::Arc { radius, .. } => *radius,
            Part::Ellipse { half, .. } => half.min().powi(2) / half.max(),
        });
        radii.fold(f64::INFINITY, f64::min) - self.inset
    }

    /// Its length.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.parts.iter().map(|part| self.length_of(part)).sum()
    }

    /// The lengths from the start at which straight parts and arcs meet, rising; the start itself
    /// is none.
    #[must_use]
    pub fn breaks(&self) -> Vec<f64> {
        let mut reached = 0.0;
        let parts = &self.parts[..self.parts.len() - 1];
        let ends = parts.iter().map(|part| {
            reached += self.length_of(part);
            reached
        });
        ends.collect()
    }

    /// The place at this length from the start, counted round.
    #[must_use]
    pub fn at(&self, along: f64) -> RoundPlace {
        let mut left = along.rem_euclid(self.length());
        let last = self.parts.len() - 1;
        for (index, part) in self.parts.iter().enumerate() {
            let length = self.length_of(part);
            if left <= length || index == last {
                return self.on(part, left.min(length));
            }
            left -= length;
        }
        self.on(&self.parts[last], 0.0)
    }

    /// The length from the start at which a place of the curve is nearest to a point.
    #[must_use]
    pub fn nearest(&self, point: Point) -> f64 {
        let mut before = 0.0;
        let mut best = (f64::INFINITY, 0.0);
        for part in &self.parts {
            let length = self.length_of(part);
            let along = match part {
                Part::Line { from, along, .. } => (point - from).dot(along).clamp(0.0, length),
                Part::Arc {
                    centre,
                    radius,
                    from,
                    sweep,
                } => {
                    let out = point - centre;
                    let turn = (out.y.atan2(out.x) - from).rem_euclid(TAU);
                    // Beyond the arc's end the nearer of its two ends.
                    let turn = match turn <= *sweep {
                        true => turn,
                        false if turn - sweep < TAU - turn => *sweep,
                        false => 0.0,
                    };
                    turn * (radius - self.inset)
                }
                Part::Ellipse { .. } => self.nearest_on_ellipse(part, point),
            };
            let off = (self.on(part, along).point - point).norm();
            if off < best.0 {
                best = (off, before + along);
            }
            before += length;
        }
        best.1
    }

    /// The curve as a closed line whose chords stay within `tolerance` of it, the first point not
    /// repeated.
    #[must_use]
    pub fn outline(&self, tolerance: f64) -> Vec<Point> {
        let mut points = Vec::new();
        let mut before = 0.0;
        for part in &self.parts {
            let length = self.length_of(part);
            let radius = match part {
                Part::Line { .. } => f64::INFINITY,
                Part::Arc { radius, .. } => radius - self.inset,
                Part::Ellipse { .. } => self.least_radius(),
            };
            let turn = chord_turn(radius, tolerance);
            let steps = (length / (radius * turn)).ceil().max(1.0) as usize;
            let along = (0..steps).map(|step| length * step as f64 / steps as f64);
            points.extend(along.map(|along| self.on(part, along).point));
            before += length;
        }
        debug_assert!((before - self.length()).abs() <= 1e-9 * before);
        points
    }

    /// The greatest curvature, and how fast it changes along the curve at most, of the part at this
    /// length; the latter from samples.
    #[must_use]
    pub fn bends_at(&self, along: f64) -> [f64; 2] {
        let mut left = along.rem_euclid(self.length());
        for part in &self.parts {
            let length = self.length_of(part);
            if left > length {
                left -= length;
                continue;
            }
            return match part {
                Part::Line { .. } => [0.0, 0.0],
                Part::Arc { radius, .. } => [1.0 / (radius - self.inset), 0.0],
                Part::Ellipse { half, .. } => {
                    const SAMPLES: usize = 64;
                    let quarter = (0..=SAMPLES).map(|at| {
                        let angle = FRAC_PI_2 * at as f64 / SAMPLES as f64;
                        let (radius, slope) = (radius_of(*half, angle), slope_of(*half, angle));
                        (slope / (radius - self.inset).powi(3)).abs()
                    });
                    // Between samples it may be a little more.
                    let change = 1.1 * quarter.fold(0.0, f64::max);
                    [1.0 / self.least_radius(), change]
                }
            };
        }
        [0.0, 0.0]
    }

    fn length_of(&self, part: &Part) -> f64 {
        match part {
            Part::Line { length, .. } => *length,
            Part::Arc { radius, sweep, .. } => (radius - self.inset) * sweep,
            Part::Ellipse { reached, .. } => reached[INTERVALS] - self.inset * TAU,
        }
    }

    /// The place at a length from where a part begins.
    fn on(&self, part: &Part, along: f64) -> RoundPlace {
        match part {
            Part::Line {
                from,
                along: direction,
                ..
            } => {
                let outwards = Vector::new(direction.y, -direction.x);
                RoundPlace {
                    point: from + direction * along - outwards * self.inset,
                    outwards,
                    curvature: 0.0,
                }
            }
            Part::Arc {
                centre,
                radius,
                from,
                ..
            } => {
                let radius = radius - self.inset;
                let (sin, cos) = (from + along / radius).sin_cos();
                let outwards = Vector::new(cos, sin);
                RoundPlace {
                    point: centre + outwards * radius,
                    outwards,
                    curvature: 1.0 / radius,
                }
            }
            Part::Ellipse {
                centre,
                half,
                reached,
            } => {
                let angle = self.angle_at(*half, reached, along);
                self.on_ellipse(*centre, *half, angle)
            }
        }
    }

    /// The angle of the normal at a length along an ellipse: an interval by bisection, the place in
    /// it by Newton's method, whose derivative is above 0.
    fn angle_at(&self, half: Vector, reached: &[f64], along: f64) -> f64 {
        let step = TAU / INTERVALS as f64;
        let inset_at = |interval: usize| reached[interval] - self.inset * step * interval as f64;
        let (mut low, mut high) = (0, INTERVALS);
        while high - low > 1 {
            let middle = usize::midpoint(low, high);
            match inset_at(middle) <= along {
                true => low = middle,
                false => high = middle,
            }
        }
        let from = -FRAC_PI_2 + step * low as f64;
        let wanted = along - inset_at(low);
        let mut angle = from + step * (wanted / (inset_at(high) - inset_at(low)));
        for _ in 0..6 {
            let reach = quadrature(half, from, angle) - self.inset * (angle - from);
            let change = (reach - wanted) / (radius_of(half, angle) - self.inset);
            angle = (angle - change).clamp(from, from + step);
            if change.abs() < 1e-15 {
                break;
            }
        }
        angle
    }

    /// The length along an ellipse where it is nearest to a point: the best of some places, then
    /// bisection about it for where the way to the point is square to the curve.
    fn nearest_on_ellipse(&self, part: &Part, point: Point) -> f64 {
        const PLACES: usize = 64;
        let Part::Ellipse {
            centre,
            half,
            reached,
        } = part
        else {
            return 0.0;
        };
        let place = |angle: f64| self.on_ellipse(*centre, *half, angle).point;
        let step = TAU / PLACES as f64;
        let places = (0..PLACES).map(|at| -FRAC_PI_2 + step * at as f64);
        let off = |angle: f64| (place(angle) - point).norm_squared();
        let best = places.min_by(|one, other| off(*one).total_cmp(&off(*other)));
        let best = best.unwrap_or(-FRAC_PI_2);
        let (mut low, mut high) = (best - step, best + step);
        for _ in 0..52 {
            let middle = f64::midpoint(low, high);
            let (sin, cos) = middle.sin_cos();
            let ahead = (point - place(middle)).dot(&Vector::new(-sin, cos)) > 0.0;
            match ahead {
                true => low = middle,
                false => high = middle,
            }
        }
        let turn = (f64::midpoint(low, high) + FRAC_PI_2).rem_euclid(TAU);
        let step = TAU / INTERVALS as f64;
        let interval = ((turn / step) as usize).min(INTERVALS - 1);
        let from = step * interval as f64 - FRAC_PI_2;
        reached[interval] + quadrature(*half, from, turn - FRAC_PI_2) - self.inset * turn
    }

    /// The place of an ellipse where its normal has this angle.
    fn on_ellipse(&self, centre: Point, half: Vector, angle: f64) -> RoundPlace {
        let (sin, cos) = angle.sin_cos();
        let outwards = Vector::new(cos, sin);
        let reach = (half.x * cos).hypot(half.y * sin);
        let on_edge = Vector::new(half.x.powi(2) * cos, half.y.powi(2) * sin) / reach;
        RoundPlace {
            point: centre + on_edge - outwards * self.inset,
            outwards,
            curvature: 1.0 / (radius_of(half, angle) - self.inset),
        }
    }
}

/// The radius of curvature of an ellipse where its normal has this angle.
fn radius_of(half: Vector, angle: f64) -> f64 {
    let (sin, cos) = angle.sin_cos();
    let reach = (half.x * cos).hypot(half.y * sin);
    (half.x * half.y).powi(2) / reach.powi(3)
}

/// How fast that changes with the angle.
fn slope_of(half: Vector, angle: f64) -> f64 {
    let (sin, cos) = angle.sin_cos();
    let reach = (half.x * cos).hypot(half.y * sin);
    let change = (half.y.powi(2) - half.x.powi(2)) * sin * cos;
    -3.0 * (half.x * half.y).powi(2) * change / reach.powi(5)
}

/// The length of an ellipse between two angles of its normal.
fn quadrature(half: Vector, from: f64, to: f64) -> f64 {
    let (middle, reach) = (f64::midpoint(from, to), (to - from) / 2.0);
    let sum: f64 = GAUSS
        .iter()
        .map(|(node, weight)| weight * radius_of(half, middle + reach * node))
        .sum();
    reach * sum
}

fn check(centre: Point, radius: f64) -> Result<(), Error> {
    super::polyline::check_points(&[centre])?;
    positive("a radius", radius, "a length above 0")?;
    match radius <= MAX_COORDINATE {
        true => Ok(()),
        false => Err(Error::bad_number("a radius", radius, "a length up to 1e9")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::{Bounds, BoxCorner};
    use proptest::prelude::*;

    /// The complete elliptic integral of the second kind by the arithmetic-geometric mean: DLMF
    /// 19.8.6, K(k) = π / (2 M(1, k')) with E = K (1 − Σ 2^(n−1) c_n²).
    fn elliptic_e(k: f64) -> f64 {
        let (mut a, mut g, mut c) = (1.0, (1.0 - k * k).sqrt(), k);
        let (mut sum, mut power) = (0.5 * c * c, 0.5);
        // It doubles its digits each time.
        for _ in 0..10 {
            let next = f64::midpoint(a, g);
            c = (a - g) / 2.0;
            g = (a * g).sqrt();
            a = next;
            power *= 2.0;
            sum += power * c * c;
        }
        std::f64::consts::PI / (2.0 * a) * (1.0 - sum)
    }

    fn rounded(radius: f64) -> Result<Round, Error> {
        let bounds = Bounds {
            min: Point::new(0.0, 0.0),
            max: Point::new(400.0, 300.0),
        };
        let corners = BoxCorner::ALL.map(|corner| corner.of(bounds)).to_vec();
        Round::rounded(&ConvexPolygon::new(corners)?, radius)
    }

    proptest! {
        /// DLMF 19.9.9: the perimeter of an ellipse is 4 a E(k), k² = 1 − b²/a².
        #[test]
        fn lengths_of_ellipses_and_of_curves_within_are_the_closed_forms(a in 100.0..900.0f64, ratio in 0.3..0.999f64, share in 0.0..0.9f64) {
            let b = a * ratio;
            let perimeter = 4.0 * a * elliptic_e((1.0 - ratio * ratio).sqrt());
            for half in [[a, b], [b, a]] {
                let round = Round::ellipse(Point::origin(), half).expect("an ellipse");
                prop_assert!((round.length() - perimeter).abs() < 1e-10 * perimeter);
                let inset = share * b * b / a;
                let within = round.inset(inset).expect("a curve");
                prop_assert!((within.length() - (perimeter - TAU * inset)).abs() < 1e-10 * perimeter);
            }
        }

        #[test]
        fn lengths_along_are_those_of_fine_lines_and_places_are_found_again(a in 100.0..900.0f64, ratio in 0.4..0.99f64, share in 0.0..0.7f64, at in 0.0..1.0f64, out in -0.2..0.2f64) {
            let b = a * ratio;
            let round = Round::ellipse(Point::new(5.0, -3.0), [a, b]).expect("an ellipse");
            let least = round.least_radius();
            let round = round.inset(share * least).expect("a curve");
            let along = at * round.length();
            let steps = 4000;
            let places = (0..=steps).map(|step| round.at(along * f64::from(step) / f64::from(steps)).point);
            let places: Vec<Point> = places.collect();
            let walked: f64 = places.windows(2).map(|pair| (pair[1] - pair[0]).norm()).sum();
            prop_assert!((walked - along).abs() < 1e-5 * round.length(), "{walked} {along}");
            let place = round.at(along);
            let point = place.point + place.outwards * (out * round.least_radius());
            let found = round.nearest(point);
            prop_assert!((round.at(found).point - place.point).norm() < 1e-4);
        }

        #[test]
        fn outlines_keep_to_the_curve(a in 100.0..900.0f64, ratio in 0.4..1.0f64) {
            let round = Round::ellipse(Point::origin(), [a, a * ratio]).expect("an ellipse");
            let line = round.outline(0.01);
            let next = line.iter().cycle().skip(1);
            for (one, other) in line.iter().zip(next) {
                let middle = nalgebra::center(one, other);
                prop_assert!((round.at(round.nearest(middle)).point - middle).norm() <= 0.0101);
            }
        }
    }

    #[test]
    fn rounded_corners_lie_on_the_sides_and_turn_once_round() {
        let round = rounded(50.0).expect("a curve");
        let straight = 2.0 * (400.0 + 300.0) - 8.0 * 50.0;
        assert!((round.length() - (straight + TAU * 50.0)).abs() < 1e-9);
        let top = round.at(0.0);
        assert!((top.point - Point::new(200.0, 0.0)).norm() < 1e-9);
        assert_eq!(top.outwards, Vector::new(0.0, -1.0));
        for at in 0..200 {
            let place = round.at(round.length() * f64::from(at) / 200.0);
            let Point { coords } = place.point;
            assert!(coords.min() > -1e-9 && coords.x < 400.0 + 1e-9 && coords.y < 300.0 + 1e-9);
            let found = round.at(round.nearest(place.point + place.outwards * 3.0));
            assert!((found.point - place.point).norm() < 1e-9);
        }
        assert!(rounded(151.0).is_err() && rounded(150.0).is_ok());
        assert!(round.inset(50.0).is_err() && round.inset(49.0).is_ok());
    }
}
