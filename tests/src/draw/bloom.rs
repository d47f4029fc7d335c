//! What border and corner share: a flower on two stems that cross below it, and its leaves.

use super::pen::{Knot, Leaf, to, via};
use kurbo::{Point, Vec2};

/// The circles whose sum is the flower's edge: five petals with a loop in the valleys between them.
const CIRCLES: [(f64, f64); 2] = [(1.12, 1.0), (0.6, 6.0)];
/// From the middle of the flower to the tips of its petals.
pub const RADIUS: f64 = CIRCLES[0].0 + CIRCLES[1].0;
/// From the middle down to where the stems cross.
pub const THROAT: f64 = 2.0;
/// The turn at which the edge leaves the stem, near the tip of a lowest petal.
const FIRST: u32 = 144;
/// The turn from one knot of the edge to the next.
const STEP: u32 = 12;

/// The tall leaf beside the flower.
pub const TALL: Leaf = leaf(0.16, -0.09);
/// The leaf that hangs from the stem.
pub const HANGING: Leaf = leaf(0.19, 0.1);
/// The small leaf below the flower.
pub const SMALL: Leaf = leaf(0.15, 0.05);

const fn leaf(width: f64, bend: f64) -> Leaf {
    Leaf {
        out: width,
        back: width,
        belly: 0.42,
        bend,
    }
}

/// A flower, sewn in two halves that are mirror images.
#[derive(Clone, Copy, Debug)]
pub struct Bloom {
    /// Its middle.
    pub middle: (f64, f64),
    /// The heading, in degrees, from the middle to the tip of the top petal.
    pub up: f64,
    /// 1 if the stem comes from the left and crosses to the right, seen with the tip up; -1 if the
    /// other way.
    pub hand: f64,
}

impl Bloom {
    /// The half from where the stems cross to the tip of the top petal.
    ///
    /// `rising` is the angle, in degrees, between the stem and the line across the flower there.
    pub fn half(&self, rising: f64) -> Vec<Knot> {
        let level = self.up + self.hand * 90.0;
        let throat = self.place(Vec2::new(-THROAT, 0.0));
        let mut knots = vec![via(throat.x, throat.y, level - self.hand * rising)];
        knots.extend((1..=FIRST / STEP).rev().map(|k| {
            let turn = f64::from(k * STEP).to_radians();
            let edge = CIRCLES.iter().fold(Vec2::ZERO, |sum, (size, turns)| {
                sum + Vec2::from_angle(turns * turn) * *size
            });
            let at = self.place(edge);
            to(at.x, at.y)
        }));
        let tip = self.place(Vec2::new(RADIUS, 0.0));
        knots.push(via(tip.x, tip.y, level + 180.0));
        knots
    }

    /// The place of an offset up from the middle and to the stem's far side.
    fn place(&self, offset: Vec2) -> Point {
        let up = Vec2::from_angle(self.up.to_radians());
        let side = up.turn_90() * self.hand;
        Point::from(self.middle) + up * offset.x + side * offset.y
    }
}
