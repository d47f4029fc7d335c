//! How time runs along a line: where the machine is when, and when it is where.
//!
//! Method: the fastest motion along the line (see [`stitching_time`](super::stitching_time)), of
//! which each segment is at most three parts in closed form: faster, at one speed, slower.
//! Guarantee: the last moment is that of the whole line, and both ways agree to rounding.

use super::motion::{MachineLimits, Ride, fastest};
use crate::error::Error;
use crate::geom::Point;

/// The time along one line, from standstill at its start to standstill at its end.
#[derive(Debug, Clone)]
pub struct Clock {
    /// The length and the time at which each ride begins.
    begins: Vec<[f64; 2]>,
    rides: Vec<Ride>,
    end: [f64; 2],
}

impl Clock {
    /// The time along a line; its lengths are in the unit of the limits.
    ///
    /// ```
    /// use quiltpath_core::geom::Point;
    /// use quiltpath_core::stitch::estimate::{Clock, MachineLimits};
    ///
    /// // Half a second and 50 mm to speed up, as much to slow down, 900 mm at 200 mm/s.
    /// let limits = MachineLimits::default().with_top_speed(200.0).with_acceleration(400.0);
    /// let line = [Point::new(0.0, 0.0), Point::new(1000.0, 0.0)];
    /// let clock = Clock::of(&line, &limits)?;
    /// assert_eq!(clock.seconds(), 0.5 + 4.5 + 0.5);
    /// assert_eq!(clock.length_at(1.0), 150.0);
    /// assert_eq!(clock.seconds_at(150.0), 1.0);
    /// # Ok::<(), quiltpath_core::Error>(())
    /// ```
    ///
    /// # Errors
    ///
    /// A geometry error when a limit is out of its range or a coordinate is not finite.
    ///
    /// # Complexity
    ///
    /// O(points), 64 bytes a point.
    pub fn of(line: impl AsRef<[Point]>, limits: &MachineLimits) -> Result<Self, Error> {
        limits.check()?;
        let steps = fastest(line.as_ref(), limits)?;
        let next = steps.iter().skip(1).map(|step| step.square).chain([0.0]);
        let mut at = [0.0, 0.0];
        let (mut begins, mut rides) = (Vec::new(), Vec::new());
        for (step, end) in steps.iter().zip(next) {
            let ride = Ride::new(step.length, [step.square, end], limits);
            begins.push(at);
            at = [at[0] + ride.length, at[1] + ride.seconds()];
            rides.push(ride);
        }
        Ok(Self {
            begins,
            rides,
            end: at,
        })
    }

    /// The seconds for all of the line.
    #[must_use]
    pub fn seconds(&self) -> f64 {
        self.end[1]
    }

    /// How much of the line is done after so many seconds: 0 before its start, all after its end.
    #[must_use]
    pub fn length_at(&self, seconds: f64) -> f64 {
        self.found(seconds, 1, |ride, left| ride.length_at(left))
    }

    /// How many seconds it takes to come so far along the line: 0 before its start, all of them
    /// after its end.
    #[must_use]
    pub fn seconds_at(&self, length: f64) -> f64 {
        self.found(length, 0, |ride, left| ride.seconds_at(left))
    }

    /// Length (0) or time (1) given, the other found.
    fn found(&self, given: f64, which: usize, within: impl Fn(&Ride, f64) -> f64) -> f64 {
        let other = 1 - which;
        if given >= self.end[which] {
            return self.end[other];
        }
        let after = self.begins.partition_point(|begin| begin[which] <= given);
        match after.checked_sub(1) {
            Some(at) => {
                let begin = self.begins[at];
                begin[other] + within(&self.rides[at], given - begin[which])
            }
            None => 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::measure::length;
    use crate::stitch::estimate::stitching_time;
    use proptest::prelude::*;

    #[test]
    fn no_line_takes_no_time() {
        let clock = Clock::of([], &MachineLimits::default()).expect("a clock");
        assert_eq!(
            (clock.seconds(), clock.length_at(5.0), clock.seconds_at(5.0)),
            (0.0, 0.0, 0.0)
        );
    }

    proptest! {
        #[test]
        fn it_agrees_with_the_time_of_the_whole_and_with_itself(
            points in prop::collection::vec((-90.0..90.0f64, -90.0..90.0f64), 2..30),
            share in 0.0..1.0f64,
        ) {
            let line: Vec<Point> = points.into_iter().map(|(x, y)| Point::new(x, y)).collect();
            let limits = MachineLimits::default();
            let clock = Clock::of(&line, &limits).expect("a clock");
            let whole = stitching_time(&[&line], &limits).expect("a time").moving;
            prop_assert!((clock.seconds() - whole).abs() < 1e-9 * whole);
            prop_assert!((clock.length_at(whole) - length(&line)).abs() < 1e-9 * length(&line));
            let (at, then) = (share * length(&line), share * whole);
            prop_assert!((clock.length_at(clock.seconds_at(at)) - at).abs() < 1e-6);
            prop_assert!((clock.seconds_at(clock.length_at(then)) - then).abs() < 1e-6 * whole);
            // No step is faster than the top speed, and none goes back.
            let (one, other) = (clock.length_at(then), clock.length_at(then + 0.01));
            prop_assert!(other >= one && other - one <= 0.01 * limits.top_speed + 1e-9);
        }
    }
}
