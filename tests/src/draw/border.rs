//! The border repeat: two feathered scrolls face each other across a bud.

use super::pen::{Knot, Leaf, Pen, to, via};
use super::scroll::{Curl, HOME, SPRIG, Scroll};
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

/// From the left port to the tip of the bud in the middle.
fn half(pen: &mut Pen) {
    let scroll = Scroll {
        heart: (2.1, 2.62),
        size: 1.0,
        hand: 1.0,
    };
    let curl = Curl {
        centre: (0.66, 4.55),
        size: 1.0,
        hand: 1.0,
    };
    let mut stem = vec![to(0.42, 3.1), to(0.8, 3.4)];
    let turns = [
        -32.0, -16.0, 0.0, 14.0, 29.0, 44.0, 62.0, 88.0, 114.0, 150.0, 185.0, 217.0, 248.0, HOME,
        304.0, 334.0, 368.0, 405.0, 447.0, 492.0, 540.0,
    ];
    stem.extend(turns.map(|turn| Knot::from(scroll.stem(turn))));
    stem.extend(scroll.bud());
    pen.stem(Some(0.0), &stem, |pen, knot| match knot {
        0 => curl.sew(pen, (0.14, 3.8), (0.33, 3.8)),
        3 => pen.sprig((1.8, 5.2), SPRIG),
        5 => pen.sprig((2.85, HEIGHT), SPRIG),
        7 => pen.sprig(
            (3.63, 4.85),
            Leaf {
                bend: 0.08,
                ..SPRIG
            },
        ),
        _ => {}
    });
    scroll.plumes(
        pen,
        &[
            ((0.12, 2.5), 248.0),
            ((0.12, 1.4), 217.0),
            ((0.35, 0.25), 185.0),
            ((1.5, 0.1), 150.0),
            ((2.7, 0.1), 114.0),
        ],
    );
    pen.curve(None, &[to(3.46, 1.1), via(0.5 * WIDTH, 0.0, -50.0)]);
}
