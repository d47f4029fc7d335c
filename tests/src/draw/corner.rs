//! The corner: a border repeat down each leg, and the border's flower at the elbow.

use super::bloom::{Bloom, HANGING, TALL};
use super::border::{PORT, WIDTH, border};
use super::pen::{Leaf, Pen, to};
use kurbo::{Affine, BezPath};

/// Side of the elbow, a little more than the border is deep.
const ELBOW: f64 = 5.5;
/// Side of the square the corner fills: the elbow and one repeat.
pub const SIDE: f64 = ELBOW + WIDTH;
/// The flower's middle, as far from the left as from the top.
const MIDDLE: f64 = 1.93;

/// Draws the corner from the foot of the left leg to the end of the top leg.
pub fn corner() -> BezPath {
    let mut pen = Pen::new(SIDE, PORT);
    let leg = Affine::translate((ELBOW, 0.0)) * border();
    pen.follow(&leg.reverse_subpaths());
    elbow(&mut pen);
    // x and y swap
    pen.finish_mirrored(Affine::new([0.0, 1.0, 1.0, 0.0, 0.0, 0.0]))
        .reverse_subpaths()
}

/// From the start of the top leg to the top of the flower.
fn elbow(pen: &mut Pen) {
    let bloom = Bloom {
        middle: (MIDDLE, MIDDLE),
        up: -135.0,
        hand: -1.0,
    };
    let mirrored = |leaf: Leaf| Leaf {
        bend: -leaf.bend,
        ..leaf
    };
    let mut stem = vec![to(5.0, 3.06), to(4.5, 3.28)];
    stem.extend(bloom.half(48.0));
    pen.stem(Some(180.0), &stem, |pen, knot| match knot {
        // The tall leaf's mirror image in the start of the leg.
        0 => pen.sprig((4.0, 0.2), mirrored(TALL)),
        1 => pen.sprig((5.12, 4.7), mirrored(HANGING)),
        _ => {}
    });
}
