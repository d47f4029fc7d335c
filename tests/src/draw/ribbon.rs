//! The ribbon and its knot: a repeat for narrow strips, and a square that it runs on through.

use super::pen::{Pen, via};
use kurbo::BezPath;

/// Width and height of the ribbon's ink.
pub const RIBBON: (f64, f64) = (4.0, 2.0);

/// Width and height of the knot's ink.
pub const KNOT: (f64, f64) = (2.0, 2.0);

/// Which way both start and end: up to the right.
const RISE: f64 = -60.0;

/// Draws one wave of the ribbon.
pub fn ribbon() -> BezPath {
    let mut pen = Pen::new(0.0, 1.0);
    pen.curve(
        Some(RISE),
        &[via(1.0, 0.0, 0.0), via(3.0, 2.0, 0.0), via(4.0, 1.0, RISE)],
    );
    pen.finish()
}

/// Draws the knot: over the middle, back through it and on.
pub fn knot() -> BezPath {
    let mut pen = Pen::new(0.0, 1.0);
    let knots = [
        via(1.0, 0.0, 0.0),
        via(1.5, 0.55, 90.0),
        via(1.0, 1.0, 180.0),
        via(0.5, 1.45, 90.0),
        via(1.0, 2.0, 0.0),
        via(2.0, 1.0, RISE),
    ];
    pen.curve(Some(RISE), &knots);
    pen.finish()
}
