//! The vine: a small repeat that runs one way, and the lopsided corner that goes with it.

use super::curl::{CURL_DEPTH, Curl};
use super::pen::{Leaf, Pen, to, via};

use kurbo::{Affine, BezPath};

/// Length of one repeat.
pub const WIDTH: f64 = 4.0;
/// Height of the ink, and depth of the corner's legs.
pub const HEIGHT: f64 = 3.0;
/// Height at which the repeats join.
pub const PORT: f64 = 0.75;
/// Width and height of the corner.
pub const HOOK: (f64, f64) = (8.0, 6.5);

/// The vine's broad leaf.
const LEAF: Leaf = Leaf {
    out: 0.19,
    back: 0.19,
    belly: 0.36,
    bend: 0.08,
};

/// The same leaf where the stem runs close by on both sides.
const SLIM: Leaf = Leaf {
    out: 0.16,
    back: 0.16,
    ..LEAF
};

/// Draws the repeat from left to right.
pub fn vine() -> BezPath {
    let mut pen = Pen::new(0.0, PORT);
    let curl = Curl {
        centre: (3.38, HEIGHT - CURL_DEPTH),
        size: 1.0,
        hand: 1.0,
    };
    let stem = [
        to(0.65, 1.2),
        to(1.0, 1.95),
        to(1.45, 2.36),
        to(2.0, 2.42),
        to(2.7, 1.75),
        to(3.3, 1.02),
        via(WIDTH, PORT, 0.0),
    ];
    pen.stem(Some(0.0), &stem, |pen, knot| match knot {
        2 => pen.sprig((2.1, 0.0), SLIM),
        4 => curl.sew(pen, (2.73, 2.1), (2.92, 2.1)),
        _ => {}
    });
    pen.finish()
}

/// Draws the corner from the foot of the left leg to the end of the top leg.
pub fn hook() -> BezPath {
    let (width, height) = HOOK;
    let mut pen = Pen::new(PORT, height);
    // a quarter turn: the repeat runs up the left leg
    pen.follow(&(Affine::new([0.0, -1.0, 1.0, 0.0, 0.0, height]) * vine()));
    let stem = [
        to(1.1, 1.85),
        to(1.95, 1.6),
        to(2.25, 1.95),
        to(1.9, 2.25),
        to(1.6, 1.95),
        to(1.95, 1.55),
        to(2.6, 1.3),
        to(3.3, 0.9),
        via(width - WIDTH, PORT, 0.0),
    ];
    pen.stem(Some(-90.0), &stem, |pen, knot| match knot {
        0 => pen.sprig((0.15, 0.15), LEAF),
        5 => pen.sprig((2.0, 0.1), LEAF),
        _ => {}
    });
    pen.follow(&(Affine::translate((width - WIDTH, 0.0)) * vine()));
    pen.finish()
}
