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

use crate::error::{Error, GeometryFault};
use crate::geom::Point;

/// What a machine can do, in the unit of the lines and in seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MachineLimits {
    /// The greatest speed along the line, in units per second.
    pub top_speed: f64,
    /// The greatest change of speed, in units per second and second.
    pub acceleration: f64,
    /// How far an arc through a corner may pass from it; it sets the speed there.
    pub corner_deviation: f64,
    /// Seconds for each start of a line: moving there, lowering the needle, drawing up the thread.
    pub seconds_per_start: f64,
    /// Seconds for each tie-off.
    pub seconds_per_tie_off: f64,
    /// Seconds for each cut of the thread.
    pub seconds_per_cut: f64,
}

impl MachineLimits {
    /// What we take a modest machine to do, in millimetres, where nothing better is known.
    ///
    /// Our own guess (from memory, no published source): measure the own machine, and give its
    /// numbers.
    pub const ASSUMED_MM: Self = Self {
        top_speed: 75.0,
        acceleration: 250.0,
        corner_deviation: 0.1,
        seconds_per_start: 20.0,
        seconds_per_tie_off: 3.0,
        seconds_per_cut: 10.0,
    };

    pub(in crate::stitch) fn check(&self) -> Result<(), Error> {
        let above = "a number above 0";
        let least = "0 or more";
        let numbers = [
            ("the top speed", self.top_speed, above),
            ("the acceleration", self.acceleration, above),
            ("the corner deviation", self.corner_deviation, above),
            ("the seconds for a start", self.seconds_per_start, least),
            ("the seconds for a tie-off", self.seconds_per_tie_off, least),
            ("the seconds for a cut", self.seconds_per_cut, least),
        ];
        for (what, value, accepted) in numbers {
            let fits = value > 0.0 || (value == 0.0 && accepted == least);
            if !(fits && value.is_finite()) {
                return Err(Error::bad_number(what, value, accepted));
            }
        }
        Ok(())
    }
}

/// The time that stitching takes, in seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Time {
    /// Moving along the lines.
    pub moving: f64,
    /// Starts, tie-offs and cuts.
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
}

/// The time for these lines, each with a start, a tie-off at either end and a cut.
///
/// ```
/// use quiltpath_core::geom::Point;
/// use quiltpath_core::stitch::estimate::{MachineLimits, stitching_time};
///
/// let limits = MachineLimits {
///     top_speed: 200.0,
///     acceleration: 400.0,
///     corner_deviation: 0.1,
///     seconds_per_start: 20.0,
///     seconds_per_tie_off: 3.0,
///     seconds_per_cut: 10.0,
/// };
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
/// As [`motion_seconds`], with the number of the line, from 0.
///
/// # Complexity
///
/// O(points).
pub fn stitching_time(lines: &[&[Point]], limits: &MachineLimits) -> Result<Time, Error> {
    limits.check()?;
    let mut moving = 0.0;
    for (number, line) in lines.iter().enumerate() {
        let seconds = motion_seconds(line, limits);
        moving += seconds.map_err(|error| error.in_element(format!("line {number}")))?;
    }
    let each = limits.seconds_per_start + 2.0 * limits.seconds_per_tie_off + limits.seconds_per_cut;
    let standing = lines.len() as f64 * each;
    Ok(Time { moving, standing })
}

/// The seconds to move along a line from standstill to standstill; 0 for fewer than two points.
///
/// # Errors
///
/// A geometry error when a limit is out of its range or a coordinate is not finite.
///
/// # Complexity
///
/// O(points), one number a point.
pub fn motion_seconds(points: &[Point], limits: &MachineLimits) -> Result<f64, Error> {
    limits.check()?;
    for (index, point) in points.iter().enumerate() {
        for value in [point.x, point.y] {
            if !value.is_finite() {
                return Err(GeometryFault::NotFinite { index, value }.into());
            }
        }
    }
    let squares = reachable(points, limits);
    let speeds = squares.windows(2);
    let length = |pair: &[Point]| (pair[1] - pair[0]).norm();
    let times = points
        .windows(2)
        .zip(speeds)
        .map(|(pair, speeds)| segment_seconds(length(pair), [speeds[0], speeds[1]], limits));
    Ok(times.sum())
}

/// The greatest speed at each point, squared.
fn reachable(points: &[Point], limits: &MachineLimits) -> Vec<f64> {
    let top = limits.top_speed * limits.top_speed;
    let double = 2.0 * limits.acceleration;
    let mut squares = vec![0.0; points.len()];
    for at in 1..points.len().saturating_sub(1) {
        let reached = squares[at - 1] + double * (points[at] - points[at - 1]).norm();
        let corner = corner_square(&points[at - 1..=at + 1], limits);
        squares[at] = corner.min(reached).min(top);
    }
    for at in (0..points.len().saturating_sub(1)).rev() {
        let slowed = squares[at + 1] + double * (points[at + 1] - points[at]).norm();
        squares[at] = squares[at].min(slowed);
    }
    squares
}

/// The greatest speed at the middle of three points, squared; infinite where the line goes straight.
fn corner_square(three: &[Point], limits: &MachineLimits) -> f64 {
    let (before, after) = (three[1] - three[0], three[2] - three[1]);
    let (length, next) = (before.norm(), after.norm());
    if length == 0.0 || next == 0.0 {
        // Twice the same point turns nowhere.
        return f64::INFINITY;
    }
    // Unit vectors u, w at the turn φ: |u + w| = 2 cos(φ/2), |u − w| = 2 sin(φ/2).
    let (u, w) = (before / length, after / next);
    let (cos, sin) = ((u + w).norm() / 2.0, (u - w).norm() / 2.0);
    // 1 − cos(φ/2) as sin²/(1 + cos), which keeps its digits on small turns.
    let by_corner = limits.corner_deviation * cos * (1.0 + cos) / (sin * sin);
    let by_length = length.min(next) / 2.0 * cos / sin;
    let radius = by_corner.min(by_length);
    if radius.is_nan() {
        return f64::INFINITY;
    }
    limits.acceleration * radius
}

/// The least time over a length between two speeds, given squared.
fn segment_seconds(length: f64, [from, to]: [f64; 2], limits: &MachineLimits) -> f64 {
    if length == 0.0 {
        return 0.0;
    }
    let a = limits.acceleration;
    let top = limits.top_speed * limits.top_speed;
    let peak = (a * length + f64::midpoint(from, to)).min(top);
    let (up, down) = ((peak - from).max(0.0), (peak - to).max(0.0));
    let cruise = (length - (up + down) / (2.0 * a)).max(0.0);
    let root = peak.sqrt();
    // Change of speed over acceleration, in the form that does not cancel.
    let ramp = |change: f64, end: f64| change / (a * (root + end.sqrt()));
    ramp(up, from) + cruise / root + ramp(down, to)
}

#[cfg(test)]
mod tests;
