//! The block: a rosette of eight petals, drawn as one closed line.

use super::pen::round;
use kurbo::{BezPath, Point, Vec2};
use std::f64::consts::TAU;

/// Width and height of the ink.
pub const SIDE: f64 = 12.0;

/// Size and turns of the circles whose sum is the line; each turn is 1 more or less than a
/// multiple of 8, which makes eight like petals.
const CIRCLES: [(f64, f64); 2] = [(3.4, 1.0), (2.6, -7.0)];

const CURVES: u32 = 144;

/// Draws the rosette, from its point on the right and back to it.
pub fn block() -> BezPath {
    let centre = Point::new(SIDE / 2.0, SIDE / 2.0);
    let angle = |step: u32| TAU * f64::from(step % CURVES) / f64::from(CURVES);
    let sum =
        |f: &dyn Fn(f64, f64) -> Vec2| CIRCLES.iter().fold(Vec2::ZERO, |z, c| z + f(c.0, c.1));
    let place = |step: u32| {
        let t = angle(step);
        centre + sum(&|size, turns| Vec2::from_angle(turns * t) * size)
    };
    // A third of the way that the line would take to the next point at this speed.
    let reach = |step: u32| {
        let t = angle(step);
        let speed = sum(&|size, turns| Vec2::from_angle(turns * t).turn_90() * (size * turns));
        speed * (TAU / f64::from(CURVES) / 3.0)
    };
    let mut line = BezPath::new();
    line.move_to(round(place(0)));
    for step in 0..CURVES {
        let (from, to) = (place(step), place(step + 1));
        line.curve_to(
            round(from + reach(step)),
            round(to - reach(step + 1)),
            round(to),
        );
    }
    line
}
