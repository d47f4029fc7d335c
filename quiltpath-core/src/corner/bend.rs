//! A bent corner: whole repeats carried round the corner on an arc.
//!
//! Problem: map a straight strip of whole repeats onto a band that turns the corner, without a
//! fold, with little change of lengths, and without leaving the border.
//! Method: the outer line becomes leg, arc of radius c, leg, each tangent to the next; a point lies
//! at its share of the depth along the normal. A band of full depth B on that arc would cut across
//! the inner corner of the border, so the depth tapers along the legs to D = c − (c − B)/sin(α/2)
//! on the arc, where its inner line just touches the inner corner (α the interior angle). Distances
//! along are measured on the middle of the band, an arc of radius R = c − D/2: at the offset y from
//! the middle, lengths along change by the factor 1 + y/R.
//! Guarantee: no fold exactly when R > B/2 (the inner radius (c − B)/sin(α/2) is above 0); lengths
//! along the arc change within 1 ± D/(2R), so within 1 ± B/(2R); every point lies in the border's
//! band. Legs are level and of full depth at the ports, and as long as makes the whole a whole
//! number of repeats at their own proportions.
//! Failure: a radius of B/2 or less; the error gives the least that works.

use super::derived::DerivedCorner;
use super::period::{Period, check_legs, half_angle};
use crate::chain::{Ends, Repeat};
use crate::error::{Error, FitFault, GeometryFault};
use crate::fit::MAX_REPEATS;
use crate::geom::flatten::{DEFAULT_TOLERANCE_MM, check_tolerance};
use crate::geom::{Point, Vector};
use crate::motif::Motif;
use crate::strokes::DEFAULT_JOIN_MM;

/// The change of lengths along the arc that the radius is chosen for, unless one is given.
const DEFAULT_LENGTH_CHANGE: f64 = 1.0 / 3.0;

/// What decides the radius of the bend.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum BendRadius {
    /// This radius of the middle of the band on the arc; above half the band's depth.
    Given(f64),
    /// The least radius with which lengths along the arc change by no more than this share, above 0
    /// and below 1: 0.1 for a tenth, longer outside and shorter inside.
    LengthChange(f64),
}

impl Default for BendRadius {
    /// Lengths along the arc change by no more than a third: our own choice.
    fn default() -> Self {
        Self::LengthChange(DEFAULT_LENGTH_CHANGE)
    }
}

/// How a bent corner is to be made. Lengths are in the unit of the band's depth.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct BendOptions {
    /// What decides the radius; the change of lengths by default.
    pub radius: BendRadius,
    /// How long each leg is at least, in repeats, up to 1000; 0, the default, is half a repeat,
    /// which the band needs to narrow towards the arc.
    pub legs: usize,
    /// How ends of the repeat at different heights are brought together; level by default.
    pub ends: Ends,
    /// Ends closer than this are always brought together exactly; [`DEFAULT_JOIN_MM`] by default,
    /// for bands in millimetres.
    pub join_tolerance: f64,
    /// How far the bent line may lie from its chords; 0.01 by default, for bands in millimetres.
    pub flattening: f64,
}

impl Default for BendOptions {
    fn default() -> Self {
        Self {
            radius: BendRadius::default(),
            legs: 0,
            ends: Ends::Level,
            join_tolerance: DEFAULT_JOIN_MM,
            flattening: DEFAULT_TOLERANCE_MM,
        }
    }
}

impl BendOptions {
    /// The same options with this radius.
    #[must_use]
    pub fn with_radius(mut self, radius: BendRadius) -> Self {
        self.radius = radius;
        self
    }

    /// The same options with legs at least so many repeats long.
    #[must_use]
    pub fn with_legs(mut self, legs: usize) -> Self {
        self.legs = legs;
        self
    }

    /// The same options for ends of the repeat at different heights.
    #[must_use]
    pub fn with_ends(mut self, ends: Ends) -> Self {
        self.ends = ends;
        self
    }

    /// The same options with this join tolerance.
    #[must_use]
    pub fn with_join_tolerance(mut self, tolerance: f64) -> Self {
        self.join_tolerance = tolerance;
        self
    }

    /// The same options with this flattening tolerance.
    #[must_use]
    pub fn with_flattening(mut self, tolerance: f64) -> Self {
        self.flattening = tolerance;
        self
    }
}

/// A corner of whole repeats carried round on an arc.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct BentCorner {
    /// The corner in the standard position.
    pub corner: DerivedCorner,
    /// The number of repeats.
    pub repeats: usize,
    /// The radius of the middle of the band on the arc.
    pub radius: f64,
    /// The depth of the band on the arc.
    pub arc_depth: f64,
    /// The share by which lengths along the arc change at most, longer outside and shorter inside:
    /// half of `arc_depth` by `radius`.
    pub length_change: f64,
    /// How many links are stitched across the band: one at the end of each repeat, where that ends
    /// at another height than it starts at and isn't levelled; otherwise 0.
    pub links: usize,
}

/// The band that turns the corner, from strip coordinates to the cloth.
#[derive(Debug, Clone, Copy)]
struct Band {
    depth: f64,
    arc_depth: f64,
    outer_radius: f64,
    radius: f64,
    turn: f64,
    leg: f64,
    centre: Point,
    along_entering: Vector,
    /// From the entered leg's outer line towards the centre.
    inward: Vector,
}

/// Carries whole repeats round a corner on an arc.
///
/// `depth` is that of the band, which the repeat's ink fills from its inner to its outer line;
/// `angle_degrees` is the interior angle, from 45 to 150 degrees, a quarter of a degree more or
/// less being accepted. All lengths are in the unit of `depth`.
///
/// ```
/// use quiltpath_core::{chain::Repeat, corner::*, geom::Point, motif::Motif};
///
/// let hill = Motif::from_points("hill", vec![
///     Point::new(0.0, 1.0), Point::new(1.0, 0.0), Point::new(2.0, 1.0),
/// ])?;
/// let options = BendOptions::default().with_radius(BendRadius::Given(2.0));
/// let bent = bent_corner(&Repeat::new(&hill)?, 1.0, 90.0, &options)?;
/// assert!(bent.length_change < 1.0 / (2.0 * 2.0));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when the angle, the depth, the legs, the change of lengths or the flattening
/// tolerance is out of range, or the radius too small (it gives the least that works); a fit error
/// as in [`crate::chain::chain_repeats`], also for more than 100 000 repeats round the corner.
///
/// # Complexity
///
/// O(points written).
pub fn bent_corner(
    repeat: &Repeat,
    depth: f64,
    angle_degrees: f64,
    options: &BendOptions,
) -> Result<BentCorner, Error> {
    let half = half_angle(angle_degrees)?;
    check_legs(options.legs)?;
    check_tolerance(options.flattening)?;
    let period = Period::new(repeat, depth, options.ends, options.join_tolerance)?;
    let mut band = Band::new(depth, half, options.radius)?;
    let arc = band.radius * band.turn;
    // Half a repeat on either leg leaves room for the taper.
    let least_leg = (options.legs as f64).max(0.5) * period.pitch;
    let repeats = ((arc + 2.0 * least_leg) / period.pitch - 1e-9)
        .ceil()
        .max(1.0);
    band.leg = (repeats * period.pitch - arc) / 2.0;

    if repeats > MAX_REPEATS as f64 {
        return Err(FitFault::TooMany {
            count: repeats,
            limit: MAX_REPEATS,
        }
        .into());
    }
    let step = band.step(options.flattening);
    let parts = |pair: &[Point]| ((pair[1] - pair[0]).norm() / step).ceil() + 2.0;
    let steps = repeats * period.points.windows(2).map(parts).sum::<f64>();
    if steps > crate::chain::MAX_POINTS as f64 {
        return Err(FitFault::TooManyPoints {
            count: steps,
            limit: crate::chain::MAX_POINTS,
        }
        .into());
    }
    let mut points = vec![band.place(period.points[0])];
    for copy in 0..repeats as i64 {
        for segment in 0..period.segments() {
            let (from, to) = (period.point(copy, segment), period.point(copy, segment + 1));
            band.carry(from, to, step, &mut points);
        }
    }
    let [start, end] = period.directions;
    // On a leg, along is against the leg's direction and up is against the inward normal.
    let directions = [
        -band.along_entering * start.x - band.inward * start.y,
        Vector::new(end.x, -end.y),
    ];
    let motif = Motif::from_points(repeat.name(), points)?.with_directions(directions);
    Ok(BentCorner {
        corner: DerivedCorner::new(motif, angle_degrees, depth),
        repeats: repeats as usize,
        radius: band.radius,
        arc_depth: band.arc_depth,
        length_change: band.arc_depth / (2.0 * band.radius),
        links: period.links([0, repeats as i64 * period.segments() as i64 - 1]),
    })
}

impl Band {
    fn new(depth: f64, half: f64, radius: BendRadius) -> Result<Self, Error> {
        let spread = 1.0 / half.sin();
        let outer_radius = match radius {
            BendRadius::Given(radius) => {
                if !(radius > depth / 2.0 && radius.is_finite()) {
                    return Err(GeometryFault::RadiusTooSmall {
                        radius,
                        least: depth / 2.0,
                    }
                    .into());
                }
                (2.0 * radius + depth * spread) / (1.0 + spread)
            }
            BendRadius::LengthChange(change) => {
                if !(change > 0.0 && change < 1.0) {
                    return Err(Error::bad_number(
                        "the change of lengths",
                        change,
                        "a share above 0 and below 1, for example 0.33",
                    ));
                }
                depth * spread / (spread - 1.0 + 2.0 * change / (1.0 + change))
            }
        };
        let arc_depth = outer_radius - (outer_radius - depth) * spread;
        if arc_depth <= 0.0 {
            // Farther out, the arc's inner line could not touch the inner corner any more.
            let most = depth * spread / (spread - 1.0);
            return Err(GeometryFault::RadiusTooLarge {
                radius: outer_radius - arc_depth / 2.0,
                most,
            }
            .into());
        }
        let turn = std::f64::consts::PI - 2.0 * half;
        let along_entering = Vector::new((2.0 * half).cos(), (2.0 * half).sin());
        let tangent = outer_radius / half.tan();
        let centre = Point::new(tangent, outer_radius);
        Ok(Self {
            depth,
            arc_depth,
            outer_radius,
            radius: outer_radius - arc_depth / 2.0,
            turn,
            leg: 0.0,
            centre,
            along_entering,
            inward: (centre - (Point::origin() + along_entering * tangent)) / outer_radius,
        })
    }

    /// The depth of the band at a distance before or after the arc.
    fn depth_at(&self, from_arc: f64) -> f64 {
        let share = (from_arc / self.leg).clamp(0.0, 1.0);
        let smooth = share * share * (3.0 - 2.0 * share);
        self.arc_depth + (self.depth - self.arc_depth) * smooth
    }

    /// The point of the cloth for a distance along and a height over the inner line.
    fn place(&self, strip: Point) -> Point {
        let below_outer = 1.0 - strip.y / self.depth;
        let arc = self.radius * self.turn;
        let past = strip.x - self.leg;
        if past < 0.0 {
            let foot = self.centre - self.inward * self.outer_radius;
            foot - self.along_entering * past + self.inward * (below_outer * self.depth_at(-past))
        } else if past <= arc {
            let (sin, cos) = (past / self.radius).sin_cos();
            let out = -self.inward;
            let radial = Vector::new(out.x * cos - out.y * sin, out.x * sin + out.y * cos);
            self.centre + radial * (self.outer_radius - below_outer * self.arc_depth)
        } else {
            let past = past - arc;
            Point::new(self.centre.x + past, below_outer * self.depth_at(past))
        }
    }

    /// The longest step along whose image stays within the tolerance of its chord.
    fn step(&self, tolerance: f64) -> f64 {
        // A chord over the length h bends by h²/8 times the curvature of the map: c/R² on the arc,
        // the second derivative of the taper on the legs, and their mixed terms.
        let arc = self.outer_radius / (self.radius * self.radius);
        let taper = 6.0 * (self.depth - self.arc_depth) / (self.leg * self.leg);
        let mixed = 2.0 * (1.0 + self.depth / self.radius) / self.radius.min(self.leg);
        (8.0 * tolerance / (arc + taper + mixed)).sqrt()
    }

    /// Carries a segment over, cut where leg and arc meet and wherever a step would be too long.
    fn carry(&self, from: Point, to: Point, step: f64, points: &mut Vec<Point>) {
        let meets = [self.leg, self.leg + self.radius * self.turn];
        let mut shares = meets.map(|along| (along - from.x) / (to.x - from.x));
        shares.sort_by(f64::total_cmp);
        let mut done = 0.0;
        for share in shares
            .into_iter()
            .filter(|s| *s > 0.0 && *s < 1.0)
            .chain([1.0])
        {
            let part = |share: f64| from + (to - from) * share;
            let size = (part(share) - part(done)).norm();
            let parts = (size / step).ceil().clamp(1.0, 1e6) as u32;
            points.extend((1..=parts).map(|at| {
                let share = done + (share - done) * f64::from(at) / f64::from(parts);
                self.place(part(share))
            }));
            done = share;
        }
    }
}

#[cfg(test)]
mod tests;
