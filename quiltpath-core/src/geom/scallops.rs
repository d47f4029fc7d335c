//! An edge cut in scallops: arcs between cusps that lie inside a round curve, and lines parallel to
//! it.
//!
//! Problem: a cloth with a round outline is cut in so many scallops; nothing may be stitched nearer
//! to that edge than a gap.
//! Method: the curve is divided by length into as many parts as there are scallops. Each has its
//! cusps so far inside as scallops are deep, and is the arc of a circle through both cusps and the
//! middle of its part, its crown. The points of the cloth that are no nearer to the edge than a gap
//! end on arcs about the same centres, shorter by the gap in radius, and round each cusp, which the
//! cloth surrounds, on an arc about the cusp itself.
//! Guarantee: cusps and crowns are met to rounding; a parallel line keeps its distance from the
//! edge everywhere, and turns nowhere at a sharp corner.
//! Failure: scallops that are too few to follow the curve or too deep for their length; a gap that
//! reaches the radius of a scallop.

use std::f64::consts::TAU;

use super::round::chord_turn;
use super::{Point, Round, RoundPlace, Vector};
use crate::error::{Error, GeometryFault, positive};

/// At a cusp a scallop runs at no more than so many degrees to the curve: our own choice, so that
/// what is stitched along it is not torn out of shape.
const STEEPEST_DEGREES: f64 = 75.0;

/// Between cusp and crown a scallop may pass the curve by this share of its depth.
const BEYOND: f64 = 0.25;

/// Fewer can't go round.
const FEWEST: usize = 3;

/// More would be lace.
const MOST: usize = 1_000;

/// A part of a circle.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct CircularArc {
    /// Its centre.
    pub centre: Point,
    /// Its radius.
    pub radius: f64,
    /// The angle from the centre where it begins, in radians, from +x to +y.
    pub from: f64,
    /// By how much the angle grows along it; below 0 round a cusp.
    pub sweep: f64,
}

impl CircularArc {
    /// The point at this share of its length.
    #[must_use]
    pub fn at(&self, share: f64) -> Point {
        let (sin, cos) = (self.from + share * self.sweep).sin_cos();
        self.centre + Vector::new(cos, sin) * self.radius
    }

    /// How far a point lies from it.
    #[must_use]
    pub fn distance(&self, point: Point) -> f64 {
        let out = point - self.centre;
        let turned = match self.sweep < 0.0 {
            true => self.from - angle(out),
            false => angle(out) - self.from,
        };
        if turned.rem_euclid(TAU) <= self.sweep.abs() {
            return (out.norm() - self.radius).abs();
        }
        let ends = [0.0, 1.0].map(|end| (point - self.at(end)).norm());
        ends[0].min(ends[1])
    }
}

/// A closed line of arcs, clockwise as seen (x to the right, y down), each from where the one
/// before it ends.
#[derive(Debug, Clone, PartialEq)]
pub struct ArcLine {
    arcs: Vec<CircularArc>,
}

impl ArcLine {
    /// Its arcs, in order.
    #[must_use]
    pub fn arcs(&self) -> &[CircularArc] {
        &self.arcs
    }

    /// The line as a closed polyline whose chords stay within `tolerance` of it, the first point
    /// not repeated.
    #[must_use]
    pub fn outline(&self, tolerance: f64) -> Vec<Point> {
        let mut points = Vec::new();
        for arc in &self.arcs {
            let turn = chord_turn(arc.radius, tolerance);
            let steps = (arc.sweep.abs() / turn).ceil().max(1.0) as usize;
            points.extend((0..steps).map(|step| arc.at(step as f64 / steps as f64)));
        }
        points
    }
}

/// An edge of scallops along a round curve.
///
/// ```
/// use quiltpath_core::geom::{Point, Round, Scallops};
///
/// let cloth = Round::circle(Point::new(0.0, 0.0), 500.0)?;
/// let edge = Scallops::new(&cloth, 24, 30.0)?;
/// // A cusp on the middle of the top, 30 inside the curve.
/// assert!((edge.cusps()[0] - Point::new(0.0, -470.0)).norm() < 1e-9);
/// // Next to a cusp a line 10 inside the edge goes round it.
/// assert_eq!(edge.parallel(10.0)?.arcs().len(), 48);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Scallops {
    cusps: Vec<Point>,
    arcs: Vec<CircularArc>,
}

impl Scallops {
    /// So many scallops along a curve, each so deep; the first begins where the curve does.
    ///
    /// # Errors
    ///
    /// A geometry error when there are fewer than 3 or more than 1,000, or too few to follow the
    /// curve; when the depth is not above 0, or more than the length of a scallop bears.
    pub fn new(curve: &Round, count: usize, depth: f64) -> Result<Self, Error> {
        positive("the depth of the scallops", depth, "a length above 0")
            .map_err(|e| e.in_element("depth"))?;
        let in_count = |fault: GeometryFault| Error::from(fault).in_element("count");
        if !(FEWEST..=MOST).contains(&count) {
            let between = [FEWEST, MOST];
            return Err(in_count(GeometryFault::ScallopCount { count, between }));
        }
        let length = curve.length();
        match Self::shaped(curve, count, depth) {
            Shaped::Good(scallops) => Ok(scallops),
            Shaped::Beyond => Err(in_count(GeometryFault::ScallopsFew { count, length })),
            Shaped::Steep => {
                // As deep as long is always too steep.
                let (mut fits, mut fails) = (0.0, depth.min(length / count as f64));
                for _ in 0..40 {
                    let middle = f64::midpoint(fits, fails);
                    match Self::shaped(curve, count, middle) {
                        Shaped::Good(_) => fits = middle,
                        Shaped::Beyond | Shaped::Steep => fails = middle,
                    }
                }
                Err(match fits > 0.0 {
                    true => Error::from(GeometryFault::ScallopsDeep { depth, most: fits })
                        .in_element("depth"),
                    false => in_count(GeometryFault::ScallopsFew { count, length }),
                })
            }
        }
    }

    fn shaped(curve: &Round, count: usize, depth: f64) -> Shaped {
        let step = curve.length() / count as f64;
        let feet: Vec<_> = (0..count)
            .map(|cusp| curve.at(cusp as f64 * step))
            .collect();
        let cusps: Vec<Point> = feet
            .iter()
            .map(|foot| foot.point - foot.outwards * depth)
            .collect();
        let mut arcs = Vec::with_capacity(count);
        let least = STEEPEST_DEGREES.to_radians().cos();
        for (cusp, foot) in feet.iter().enumerate() {
            let next = (cusp + 1) % count;
            let ends = [cusps[cusp], cusps[next]];
            let crown = curve.at((cusp as f64 + 0.5) * step).point;
            let Some(centre) = centre_of([ends[0], crown, ends[1]]) else {
                return Shaped::Beyond;
            };
            let radius = (crown - centre).norm();
            let steep = ends
                .iter()
                .zip([foot, &feet[next]])
                .any(|(end, foot)| (end - centre).dot(&foot.outwards) < least * radius);
            if steep {
                return Shaped::Steep;
            }
            // Past a cusp the edge goes outwards, or it would be none.
            let out = |end: Point, foot: &RoundPlace| (end - centre).dot(&foot.along());
            if out(ends[0], foot) > 0.0 || out(ends[1], &feet[next]) < 0.0 {
                return Shaped::Beyond;
            }
            let [from, to] = ends.map(|end| angle(end - centre));
            let arc = CircularArc {
                centre,
                radius,
                from,
                sweep: (to - from).rem_euclid(TAU),
            };
            if passes(curve, &arc) > BEYOND * depth {
                return Shaped::Beyond;
            }
            arcs.push(arc);
        }
        Shaped::Good(Self { cusps, arcs })
    }

    /// The points between two scallops, the first where the curve begins.
    #[must_use]
    pub fn cusps(&self) -> &[Point] {
        &self.cusps
    }

    /// The scallops themselves, in order.
    #[must_use]
    pub fn arcs(&self) -> &[CircularArc] {
        &self.arcs
    }

    /// The line that lies so far inside the edge; at 0 the edge itself.
    ///
    /// # Errors
    ///
    /// A geometry error when the gap is below 0 or reaches the radius of a scallop.
    pub fn parallel(&self, gap: f64) -> Result<ArcLine, Error> {
        let least = self.arcs.iter().map(|arc| arc.radius);
        let least = least.fold(f64::INFINITY, f64::min);
        if !(0.0..least).contains(&gap) {
            return Err(GeometryFault::RoundTooTight {
                distance: gap,
                least,
            }
            .into());
        }
        let count = self.arcs.len();
        let mut arcs = Vec::with_capacity(2 * count);
        for (index, own) in self.arcs.iter().enumerate() {
            let next = (index + 1) % count;
            arcs.push(CircularArc {
                radius: own.radius - gap,
                ..*own
            });
            if gap > 0.0 {
                let cusp = self.cusps[next];
                let [to, from] = [self.arcs[next].centre, own.centre].map(|centre| centre - cusp);
                arcs.push(CircularArc {
                    centre: cusp,
                    radius: gap,
                    from: angle(from),
                    sweep: from.perp(&to).atan2(from.dot(&to)),
                });
            }
        }
        Ok(ArcLine { arcs })
    }
}

enum Shaped {
    Good(Scallops),
    /// A scallop would leave the curve.
    Beyond,
    /// A scallop runs too steeply into a cusp.
    Steep,
}

/// How far an arc passes the curve outwards, at most, looked at in a few places.
fn passes(curve: &Round, arc: &CircularArc) -> f64 {
    const PLACES: i32 = 8;
    let by = (1..PLACES).map(|place| {
        let point = arc.at(f64::from(place) / f64::from(PLACES));
        let foot = curve.at(curve.nearest(point));
        (point - foot.point).dot(&foot.outwards)
    });
    by.fold(0.0, f64::max)
}

fn angle(way: Vector) -> f64 {
    way.y.atan2(way.x)
}

/// The centre of the circle through three points that turn clockwise; none where they are in line
/// or turn the other way.
fn centre_of([a, b, c]: [Point; 3]) -> Option<Point> {
    let (p, q) = (b - a, c - a);
    let twice = 2.0 * p.perp(&q);
    if twice <= 1e-12 * p.norm() * q.norm() {
        return None;
    }
    let (pp, qq) = (p.norm_squared(), q.norm_squared());
    let to = Vector::new(q.y * pp - p.y * qq, p.x * qq - q.x * pp) / twice;
    Some(a + to)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::ConvexPolygon;
    use proptest::prelude::*;

    fn rectangle(width: f64, height: f64, radius: f64) -> Round {
        let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
        let corners = corners.map(|(x, y)| Point::new(x, y)).to_vec();
        Round::rounded(&ConvexPolygon::new(corners).expect("a rectangle"), radius).expect("rounded")
    }

    /// How far a point lies from a line.
    fn off(point: Point, line: &ArcLine) -> f64 {
        let distances = line.arcs().iter().map(|arc| arc.distance(point));
        distances.fold(f64::INFINITY, f64::min)
    }

    #[test]
    fn on_a_straight_edge_a_scallop_is_the_arc_of_its_chord_and_sagitta() {
        // Radius of an arc with chord w and sagitta s: (w² / 4 + s²) / 2 s, elementary geometry.
        let scallops =
            Scallops::new(&rectangle(2000.0, 2000.0, 400.0), 40, 38.0).expect("scallops");
        let whole = rectangle(2000.0, 2000.0, 400.0).length() / 40.0;
        let radius = (whole * whole / 4.0 + 38.0 * 38.0) / (2.0 * 38.0);
        assert!((scallops.arcs()[1].radius - radius).abs() < 1e-9 * radius);
    }

    #[test]
    fn what_no_cloth_can_have_is_refused_with_what_can_be() {
        let cloth = Round::circle(Point::origin(), 500.0).expect("a circle");
        let said = |count, depth| {
            let refused = Scallops::new(&cloth, count, depth);
            refused.expect_err("refused").to_string()
        };
        assert!(said(2, 10.0).contains("3 to 1000"), "{}", said(2, 10.0));
        assert!(said(24, 90.0).contains("is the most"), "{}", said(24, 90.0));
        assert!(said(24, 0.0).contains("above 0"));
        let square = rectangle(1000.0, 1000.0, 20.0);
        let few = Scallops::new(&square, 3, 20.0).expect_err("refused");
        assert!(few.to_string().contains("more scallops"), "{few}");
        let edge = Scallops::new(&cloth, 24, 30.0).expect("scallops");
        assert!(edge.parallel(edge.arcs()[0].radius).is_err());
    }

    proptest! {
        #[test]
        fn cusps_and_crowns_are_met_and_parallels_keep_their_distance(
            size in (400.0..1500.0f64, 0.6..1.0f64), radius in 0.1..0.5f64, count in 12usize..60, depth in 0.02..0.35f64, gap in 0.0..0.9f64, oval: bool,
        ) {
            let (width, height) = (size.0, size.0 * size.1);
            let curve = match oval {
                true => Round::ellipse(Point::origin(), [width / 2.0, height / 2.0]).expect("an ellipse"),
                false => rectangle(width, height, radius * height),
            };
            let step = curve.length() / count as f64;
            let Ok(scallops) = Scallops::new(&curve, count, depth * step) else {
                return Err(TestCaseError::reject("too deep or too few"));
            };
            for (index, arc) in scallops.arcs().iter().enumerate() {
                let crown = curve.at((index as f64 + 0.5) * step).point;
                prop_assert!(((crown - arc.centre).norm() - arc.radius).abs() < 1e-6);
                prop_assert!((arc.at(0.0) - scallops.cusps()[index]).norm() < 1e-6);
                prop_assert!((arc.at(1.0) - scallops.cusps()[(index + 1) % count]).norm() < 1e-6);
                let foot = curve.at(index as f64 * step);
                prop_assert!(((foot.point - scallops.cusps()[index]).norm() - depth * step).abs() < 1e-6);
            }
            let least = scallops.arcs().iter().map(|arc| arc.radius).fold(f64::INFINITY, f64::min);
            let gap = gap * least;
            let edge = scallops.parallel(0.0).expect("the edge");
            let line = scallops.parallel(gap).expect("a parallel");
            for pair in line.arcs().windows(2) {
                prop_assert!((pair[0].at(1.0) - pair[1].at(0.0)).norm() < 1e-6);
            }
            for arc in line.arcs() {
                for share in [0.0, 0.2, 0.5, 0.9] {
                    let found = off(arc.at(share), &edge);
                    prop_assert!((found - gap).abs() < 1e-6 * size.0, "{found} for {gap}");
                }
            }
            // Chords keep to the line.
            for point in line.outline(0.1).windows(2).step_by(17) {
                prop_assert!(off(nalgebra::center(&point[0], &point[1]), &line) < 0.1001);
            }
        }
    }
}
