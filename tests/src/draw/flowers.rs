//! Flowers on stems: two round flowers on a long wavy stem, one above it and one below.

use super::pen::{Leaf, Pen, to, via};
use kurbo::BezPath;

/// Length of one repeat.
pub const WIDTH: f64 = 8.0;
/// Height of the ink.
pub const HEIGHT: f64 = 3.8;
/// Height at which the repeats join, in a trough of the stem.
pub const PORT: f64 = 2.35;
/// Height at which the flowers stand on the stem and hang from it.
const MIDDLE: f64 = 0.5 * HEIGHT;
/// Radius of the flowers' rims, true circles to a ten-thousandth of an inch.
pub const RADIUS: f64 = 0.95;

const PETAL: Leaf = Leaf {
    out: 0.3,
    back: 0.3,
    belly: 0.62,
    bend: 0.0,
};

/// Draws the repeat from left to right.
pub fn flowers() -> BezPath {
    let mut pen = Pen::new(0.0, PORT);
    let (low, high) = (PORT, HEIGHT - PORT);
    let stem = [
        via(1.0, MIDDLE, 0.0),
        via(2.0, low, 0.0),
        to(3.0, MIDDLE),
        via(4.0, high, 0.0),
        via(5.0, MIDDLE, 0.0),
        via(6.0, high, 0.0),
        to(7.0, MIDDLE),
        via(WIDTH, low, 0.0),
    ];
    pen.stem(Some(0.0), &stem, |pen, knot| match knot {
        0 => flower(pen, -1.0),
        4 => flower(pen, 1.0),
        _ => {}
    });
    pen.finish()
}

/// A rim that touches the stem, and five petals on a stalk inside it; down is 1 for a flower
/// below the stem.
fn flower(pen: &mut Pen, down: f64) {
    let (x, y) = pen.at();
    let centre = (x, y + down * RADIUS);
    let at = |turn: f64, radius: f64| {
        let (sin, cos) = turn.to_radians().sin_cos();
        (centre.0 + radius * sin, centre.1 - down * radius * cos)
    };
    // Round with the stem: on to the right first.
    let rim: Vec<_> = (1..=16)
        .map(|k| {
            let turn = 22.5 * f64::from(k);
            let (x, y) = at(turn, RADIUS);
            if k % 4 == 0 {
                via(x, y, down * turn)
            } else {
                to(x, y)
            }
        })
        .collect();
    pen.curve(Some(0.0), &rim);
    let stalk = down * 90.0;
    pen.curve(Some(stalk), &[via(centre.0, centre.1, stalk)]);
    for petal in 1..6 {
        pen.sprig(at(60.0 * f64::from(petal), 0.8 * RADIUS), PETAL);
    }
    pen.curve(Some(-stalk), &[via(x, y, -stalk)]);
}
