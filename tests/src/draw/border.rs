//! The border repeat: a flower between two tall leaves, on a vine that loops once on either side.

use super::bloom::{Bloom, HANGING, RADIUS, SMALL, TALL};
use super::pen::{Pen, to};
use kurbo::{Affine, BezPath};

/// Length of one repeat.
pub const WIDTH: f64 = 7.5;
/// Height of the ink.
pub const HEIGHT: f64 = 5.25;
/// Height at which the repeats join.
pub const PORT: f64 = 3.0;

/// Draws the repeat from left to right.
pub fn border() -> BezPath {
    let mut pen = Pen::new(0.0, PORT);
    half(&mut pen);
    // x becomes WIDTH - x
    pen.finish_mirrored(Affine::new([-1.0, 0.0, 0.0, 1.0, WIDTH, 0.0]))
}

/// From the left port to the top of the flower in the middle.
fn half(pen: &mut Pen) {
    let bloom = Bloom {
        middle: (0.5 * WIDTH, RADIUS),
        up: -90.0,
        hand: 1.0,
    };
    let mut stem = vec![
        to(0.5, 3.06),
        to(1.0, 3.4),
        to(1.45, 4.05),
        // The loop.
        to(2.1, 4.36),
        to(2.62, 4.08),
        to(2.6, 3.52),
        to(2.1, 3.34),
        to(1.74, 3.72),
        to(1.86, 4.3),
        to(2.4, 4.68),
    ];
    stem.extend(bloom.half(44.0));
    pen.stem(Some(0.0), &stem, |pen, knot| match knot {
        0 => pen.sprig((1.5, 0.2), TALL),
        1 => pen.sprig((0.62, HEIGHT), HANGING),
        9 => pen.sprig((3.1, 5.2), SMALL),
        _ => {}
    });
}
