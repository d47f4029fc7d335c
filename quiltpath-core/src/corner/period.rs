//! One period of the chained repeat, from which corners are derived, and the limits of these.

use crate::chain::{Across, ChainOptions, Ends, Repeat, Terminal, chain_repeats};
use crate::error::{Error, positive};
use crate::geom::convex::ANGLE_TOLERANCE_DEGREES;
use crate::geom::{Point, Vector};
use crate::warp::Strip;

/// The smallest interior angle of a derived corner, in degrees.
const MIN_ANGLE: f64 = 45.0;

/// The largest interior angle of a derived corner, in degrees.
const MAX_ANGLE: f64 = 150.0;

/// The most whole repeats on a leg.
pub(super) const MAX_LEG_REPEATS: usize = 1000;

/// Half of the interior angle in radians, when the angle is in range.
pub(super) fn half_angle(degrees: f64) -> Result<f64, Error> {
    let range = MIN_ANGLE - ANGLE_TOLERANCE_DEGREES..=MAX_ANGLE + ANGLE_TOLERANCE_DEGREES;
    if range.contains(&degrees) {
        return Ok(degrees.to_radians() / 2.0);
    }
    Err(Error::bad_number(
        "the corner's angle",
        degrees,
        "45 to 150 degrees",
    ))
}

pub(super) fn check_legs(legs: usize) -> Result<(), Error> {
    if legs <= MAX_LEG_REPEATS {
        return Ok(());
    }
    Err(Error::bad_number(
        "the number of repeats on a leg",
        legs as f64,
        "0 to 1000",
    ))
}

/// One period of the chained repeat: x along from 0 to the pitch, y the height over the inner
/// line from 0 to the depth. It starts and ends at one height, so that copies chain on.
pub(super) struct Period {
    pub(super) points: Vec<Point>,
    pub(super) pitch: f64,
    /// The unit vectors of travel at the start and at the end.
    pub(super) directions: [Vector; 2],
    /// Whether its last segment is a link, straight across to the height of its start.
    pub(super) linked: bool,
}

impl Period {
    pub(super) fn new(
        repeat: &Repeat,
        depth: f64,
        ends: Ends,
        join_tolerance: f64,
    ) -> Result<Self, Error> {
        positive("the depth of the band", depth, "a length above 0")?;
        let pitch = repeat.pitch(depth);
        let [start, end] = repeat.offsets(None);
        let across = Across::Near(f64::midpoint(start, end));
        let strip = Strip::of_unit(
            Point::origin(),
            Vector::new(1.0, 0.0),
            Vector::new(0.0, depth),
        );
        let terminals = [0.0, pitch].map(|along| Terminal::new(along).with_across(across));
        let options = ChainOptions::new(1)
            .with_ends(ends)
            .with_join_tolerance(join_tolerance);
        let chain = chain_repeats(repeat, &strip, terminals, &options)?;
        let mut directions = [chain.motif.start().direction, chain.motif.end().direction];
        let mut points = chain.motif.line().clone().into_points();
        // What could not be levelled is linked: straight across, at the end of each copy.
        let linked = chain.across[0] != chain.across[1];
        if linked {
            let across = points[0].y - points[points.len() - 1].y;
            directions[1] = Vector::new(0.0, across.signum());
            points.push(Point::new(pitch, points[0].y));
        }
        Ok(Self {
            points,
            pitch,
            directions,
            linked,
        })
    }

    /// The number of segments of one copy.
    pub(super) fn segments(&self) -> usize {
        self.points.len() - 1
    }

    /// How many links there are from one segment to another, both counted from the first of copy 0.
    pub(super) fn links(&self, [from, to]: [i64; 2]) -> usize {
        let copies = |before: i64| before.div_euclid(self.segments() as i64);
        match self.linked {
            true => (copies(to + 1) - copies(from)) as usize,
            false => 0,
        }
    }

    /// A point of a copy, the copies counted from 0 to either side.
    pub(super) fn point(&self, copy: i64, index: usize) -> Point {
        let point = self.points[index];
        Point::new(point.x + copy as f64 * self.pitch, point.y)
    }
}
