//! Minutes for a stitched line: how fast a machine can follow it.
//!
//! Problem: the least time to move along a line, from standstill to standstill, at most at the top
//! speed, speeding up and slowing down along it at most at the acceleration, and slow enough at
//! every turn.
//! Method: the speed at each point is limited by its turn; then a pass forward keeps it to what
//! the acceleration reaches from the point before, a pass backward to what can still be slowed down
//! to the next one. Between two points the machine speeds up, perhaps runs at top speed, and slows
//! down again; the time of that is in closed form.
//! The limit at a turn of φ (two rules of motion control, from memory): the machine takes the turn
//! as an arc that meets both segments smoothly, at the speed at which the acceleration holds it on
//! an arc of radius R, v² = a·R. R is the smaller of two: the arc that passes the corner at the
//! corner deviation, d·cos(φ/2)/(1 − cos(φ/2)), and the one that starts in the middle of the
//! shorter segment, s/2 / tan(φ/2). The second makes the speed on a curve, of many tiny turns, that
//! of its radius however densely it is drawn.
//! Guarantee: under these limits no motion is faster (each pass lowers speeds only where it has
//! to; checked by brute force on small cases). The time is never below length/top speed.
//! Failure: a machine that limits jerk, or each axis by itself, is slower; jitter in the points
//! reads as turns.

use crate::error::{Error, GeometryFault, not_negative, positive};
use crate::geom::{Point, Vector};

/// Points that are so near to each other, as a share of the corner deviation, are one: where they
/// differ by rounding alone, the way between them leads anywhere, and no machine stops for it.
const DUST: f64 = 1e-6;

/// What a machine can do, in the unit of the lines and in seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct MachineLimits {
    /// The greatest speed along the line, in units per second; above 0.
    pub top_speed: f64,
    /// The greatest change of speed, in units per second in each second; above 0.
    pub acceleration: f64,
    /// How far an arc that rounds a corner may pass from it; above 0. The greater, the faster the
    /// machine may go there.
    pub corner_deviation: f64,
    /// Seconds for each start of a line: moving there, lowering the needle, drawing up the thread;
    /// 0 or more.
    pub seconds_per_start: f64,
    /// Seconds for each tie-off; 0 or more.
    pub seconds_per_tie_off: f64,
    /// Seconds for each cut of the thread; 0 or more.
    pub seconds_per_cut: f64,
}

impl MachineLimits {
    /// The same machine with another top speed, in units per second.
    #[must_use]
    pub fn with_top_speed(mut self, top_speed: f64) -> Self {
        self.top_speed = top_speed;
        self
    }

    /// The same machine with another acceleration, in units per second in each second.
    #[must_use]
    pub fn with_acceleration(mut self, acceleration: f64) -> Self {
        self.acceleration = acceleration;
        self
    }

    /// The same machine with another corner deviation.
    #[must_use]
    pub fn with_corner_deviation(mut self, corner_deviation: f64) -> Self {
        self.corner_deviation = corner_deviation;
        self
    }

    /// The same machine with other seconds for each start of a line.
    #[must_use]
    pub fn with_seconds_per_start(mut self, seconds_per_start: f64) -> Self {
        self.seconds_per_start = seconds_per_start;
        self
    }

    /// The same machine with other seconds for each tie-off.
    #[must_use]
    pub fn with_seconds_per_tie_off(mut self, seconds_per_tie_off: f64) -> Self {
        self.seconds_per_tie_off = seconds_per_tie_off;
        self
    }

    /// The same machine with other seconds for each cut of the thread.
    #[must_use]
    pub fn with_seconds_per_cut(mut self, seconds_per_cut: f64) -> Self {
        self.seconds_per_cut = seconds_per_cut;
        self
    }

    pub(in crate::stitch) fn check(&self) -> Result<(), Error> {
        for (what, value) in [
            ("the top speed", self.top_speed),
            ("the acceleration", self.acceleration),
            ("the corner deviation", self.corner_deviation),
        ] {
            positive(what, value, "a number above 0")?;
        }
        for (what, value) in [
            ("the number of seconds for a start", self.seconds_per_start),
            (
                "the number of seconds for a tie-off",
                self.seconds_per_tie_off,
            ),
            ("the number of seconds for a cut", self.seconds_per_cut),
        ] {
            not_negative(what, value, "0 or more")?;
        }
        Ok(())
    }
}

impl Default for MachineLimits {
    /// A slow machine, in millimetres, for where nothing better is known.
    ///
    /// Our own guess (from memory, no published source): measure your own machine, and give its
    /// numbers.
    fn default() -> Self {
        Self {
            top_speed: 75.0,
            acceleration: 250.0,
            corner_deviation: 0.1,
            seconds_per_start: 20.0,
            seconds_per_tie_off: 3.0,
            seconds_per_cut: 10.0,
        }
    }
}

/// The time that stitching takes, in seconds.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[non_exhaustive]
pub struct Time {
    /// The seconds of moving along the lines.
    pub moving: f64,
    /// The seconds of starts, tie-offs and cuts.
    pub standing: f64,
}

impl Time {
    /// All of it, in seconds.
    #[must_use]
    pub fn seconds(&self) -> f64 {
        self.moving + self.standing
    }

    /// All of it, in minutes.
    #[must_use]
    pub fn minutes(&self) -> f64 {
        self.seconds() / 60.0
    }

    /// The time for both, one after the other.
    #[must_use]
    pub fn and(&self, other: &Self) -> Self {
        Self {
            moving: self.moving + other.moving,
            standing: self.standing + other.standing,
        }
    }
}

/// The time for these lines, each with a start, a tie-off at either end and a cut.
///
/// ```
/// use quiltpath_core::geom::Point;
/// use quiltpath_core::stitch::estimate::{MachineLimits, stitching_time};
///
/// let limits = MachineLimits::default().with_top_speed(200.0).with_acceleration(400.0);
/// // 1000 mm: half a second and 50 mm to speed up, as much to slow down, 900 mm at 200 mm/s.
/// let line = [Point::new(0.0, 0.0), Point::new(1000.0, 0.0)];
/// let time = stitching_time(&[&line], &limits)?;
/// assert_eq!(time.moving, 0.5 + 4.5 + 0.5);
/// assert_eq!(time.standing, 20.0 + 2.0 * 3.0 + 10.0);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when a limit is out of its range, or a coordinate of a line, named by its
/// number from 0, is not finite.
///
/// # Complexity
///
/// O(points), one number a point.
pub fn stitching_time(
    lines: &[impl AsRef<[Point]>],
    limits: &MachineLimits,
) -> Result<Time, Error> {
    limits.check()?;
    let mut moving = 0.0;
    for (number, line) in lines.iter().map(AsRef::as_ref).enumerate() {
        let seconds = motion_seconds(line, limits);
        moving += seconds.map_err(|error| error.in_element(format!("line {number}")))?;
    }
    let each = limits.seconds_per_start + 2.0 * limits.seconds_per_tie_off + limits.seconds_per_cut;
    let standing = lines.len() as f64 * each;
    Ok(Time { moving, standing })
}

/// The seconds to move along a line from standstill to standstill; 0 for fewer than two points.
fn motion_seconds(points: &[Point], limits: &MachineLimits) -> Result<f64, Error> {
    let steps = fastest(points, limits)?;
    let next = steps.iter().skip(1).map(|step| step.square).chain([0.0]);
    let times = (steps.iter().zip(next))
        .map(|(step, end)| Ride::new(step.length, [step.square, end], limits).seconds());
    Ok(times.sum())
}

/// The segments of a line with the greatest speeds that the limits allow, without those that are no
/// way.
pub(super) fn fastest(points: &[Point], limits: &MachineLimits) -> Result<Vec<Step>, Error> {
    for (index, point) in points.iter().enumerate() {
        for value in [point.x, point.y] {
            if !value.is_finite() {
                return Err(GeometryFault::NotFinite { index, value }.into());
            }
        }
    }
    let mut steps = reached(points, limits);
    slow_down(&mut steps, limits);
    Ok(steps)
}

/// A segment with the greatest speed at its start.
pub(super) struct Step {
    pub(super) length: f64,
    /// The speed, squared.
    pub(super) square: f64,
}

/// The segments of a line as the pass forward leaves them; points that are no way from the one
/// before are passed over.
fn reached(points: &[Point], limits: &MachineLimits) -> Vec<Step> {
    let top = limits.top_speed * limits.top_speed;
    let dust = DUST * limits.corner_deviation;
    let mut before: Option<(Vector, f64)> = None;
    let mut square = 0.0;
    let mut steps = Vec::with_capacity(points.len().saturating_sub(1));
    let Some((mut from, rest)) = points.split_first() else {
        return steps;
    };
    for point in rest {
        let way = point - from;
        let length = way.norm();
        if length <= dust {
            continue;
        }
        from = point;
        let after = (way / length, length);
        if let Some(before) = before {
            let fastest = square + 2.0 * limits.acceleration * before.1;
            square = corner_square([before, after], limits).min(fastest).min(top);
        }
        before = Some(after);
        steps.push(Step { length, square });
    }
    steps
}

/// The pass backward, from standstill at the end.
fn slow_down(steps: &mut [Step], limits: &MachineLimits) {
    let mut end = 0.0;
    for step in steps.iter_mut().rev() {
        end = step
            .square
            .min(end + 2.0 * limits.acceleration * step.length);
        step.square = end;
    }
}

/// The greatest speed between two segments, squared, each given by its unit vector and its length;
/// infinite where the line goes straight on.
fn corner_square([(u, length), (w, next)]: [(Vector, f64); 2], limits: &MachineLimits) -> f64 {
    // At the turn φ: |u + w| = 2 cos(φ/2), |u − w| = 2 sin(φ/2).
    let sin_square = (u - w).norm_squared() / 4.0;
    if sin_square == 0.0 {
        return f64::INFINITY;
    }
    let (cos, sin) = ((u + w).norm() / 2.0, sin_square.sqrt());
    // 1 − cos(φ/2) as sin²/(1 + cos), which keeps its digits on small turns; both radii have
    // the factor cos/sin².
    let by_corner = limits.corner_deviation * (1.0 + cos);
    let by_length = length.min(next) / 2.0 * sin;
    limits.acceleration * (cos / sin_square * by_corner.min(by_length))
}

/// The fastest ride over a length: faster, on at one speed, slower, each perhaps for no time.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ride {
    pub(super) length: f64,
    /// The lengths of getting faster and of getting slower.
    ramps: [f64; 2],
    /// The speeds at the start, at most and at the end.
    speeds: [f64; 3],
    acceleration: f64,
}

impl Ride {
    /// The ride between two speeds, given squared.
    pub(super) fn new(length: f64, [from, to]: [f64; 2], limits: &MachineLimits) -> Self {
        let a = limits.acceleration;
        let top = limits.top_speed * limits.top_speed;
        let peak = (a * length + f64::midpoint(from, to)).min(top);
        Self {
            length,
            ramps: [from, to].map(|end| (peak - end).max(0.0) / (2.0 * a)),
            speeds: [from, peak, to].map(f64::sqrt),
            acceleration: a,
        }
    }

    /// The seconds of getting faster, of one speed and of getting slower.
    pub(super) fn parts(&self) -> [f64; 3] {
        let ([up, down], [from, peak, to]) = (self.ramps, self.speeds);
        // Length over mean speed, which does not cancel.
        let ramp = |length: f64, end: f64| 2.0 * length / (peak + end);
        [ramp(up, from), self.even() / peak, ramp(down, to)]
    }

    pub(super) fn seconds(&self) -> f64 {
        self.parts().iter().sum()
    }

    /// The length at one speed.
    fn even(&self) -> f64 {
        (self.length - self.ramps[0] - self.ramps[1]).max(0.0)
    }

    /// How far it has come after so many seconds.
    pub(super) fn length_at(&self, seconds: f64) -> f64 {
        let ([up, even, down], [from, peak, to]) = (self.parts(), self.speeds);
        let ramp = |speed: f64, time: f64| time * (speed + self.acceleration * time / 2.0);
        let left = up + even + down - seconds;
        let length = if seconds <= up {
            ramp(from, seconds)
        } else if left >= down {
            self.ramps[0] + peak * (seconds - up)
        } else {
            self.length - ramp(to, left)
        };
        length.clamp(0.0, self.length)
    }

    /// How many seconds it takes over the first part of its length.
    pub(super) fn seconds_at(&self, length: f64) -> f64 {
        let ([up, even, down], [from, peak, to]) = (self.parts(), self.speeds);
        let ramp = |speed: f64, length: f64| {
            let reached = (speed * speed + 2.0 * self.acceleration * length).sqrt();
            // Standing still takes no time.
            if length > 0.0 {
                2.0 * length / (speed + reached)
            } else {
                0.0
            }
        };
        let left = self.length - length;
        if length <= self.ramps[0] {
            ramp(from, length)
        } else if left >= self.ramps[1] {
            up + (length - self.ramps[0]) / peak
        } else {
            up + even + down - ramp(to, left)
        }
    }
}

#[cfg(test)]
mod tests;
