//! The corner: a border repeat down each leg, and a fan of plumes at the elbow.

use super::border::{PORT, WIDTH, border};
use super::pen::{Knot, Leaf, Pen, to};
use super::scroll::{HOME, SPRIG, Scroll};
use kurbo::{Affine, BezPath};

/// Side of the elbow, a little more than the border is deep.
const ELBOW: f64 = 5.5;
/// Side of the square the corner fills: the elbow and one repeat.
pub const SIDE: f64 = ELBOW + WIDTH;

/// A plume of the fan at the elbow, which leans the other way.
const FAN: Leaf = Leaf {
    out: 0.03,
    back: 0.06,
    belly: 0.5,
    bend: 0.06,
};

/// A leaf that fills the inside of the elbow.
const HANGING: Leaf = Leaf {
    out: 0.15,
    back: 0.15,
    bend: -0.06,
    ..SPRIG
};

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

/// From the start of the top leg to the middle of the elbow.
fn elbow(pen: &mut Pen) {
    let scroll = Scroll {
        heart: (4.05, 2.05),
        size: 0.85,
        hand: -1.0,
    };
    let mut stem = vec![to(5.1, 3.1)];
    let turns = [
        -12.0, 5.0, 18.0, 36.0, 60.0, 86.0, 112.0, 150.0, 185.0, 217.0, 248.0, HOME, 304.0, 334.0,
        368.0, 405.0, 447.0, 492.0, 540.0,
    ];
    stem.extend(turns.map(|turn| Knot::from(scroll.stem(turn))));
    stem.extend(scroll.bud());
    pen.stem(Some(180.0), &stem, |pen, knot| match knot {
        0 => pen.sprig((5.22, 5.0), HANGING),
        1 => pen.sprig(
            (4.5, 4.35),
            Leaf {
                out: 0.22,
                back: 0.22,
                ..HANGING
            },
        ),
        _ => {}
    });
    scroll.plumes(
        pen,
        &[
            ((5.3, 2.0), 248.0),
            ((5.35, 1.1), 217.0),
            ((5.1, 0.25), 185.0),
            ((4.2, 0.1), 150.0),
            ((3.2, 0.1), 112.0),
        ],
    );
    for (tip, home) in [((1.95, 0.1), (2.05, 1.75)), ((1.02, 0.1), (1.14, 0.94))] {
        pen.leaf(tip, home, FAN);
    }
    pen.curve(None, &[to(0.55, 0.33), to(0.1, 0.1)]);
}
