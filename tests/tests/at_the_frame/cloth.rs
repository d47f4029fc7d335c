//! Cloths by chance: turned, pulled and bowed anew in each pass, as DESIGN's simulation has them.

use quiltpath_core::geom::{Point, Vector};
use quiltpath_core::nalgebra::{Matrix2, Rotation2};

pub(crate) const INCH: f64 = 25.4;

/// Numbers by chance, the same on each run.
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn even(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// By the way of G. Box and M. Muller (1958).
    pub(crate) fn normal(&mut self, spread: f64) -> f64 {
        let (one, two) = (1.0 - self.even(), self.even());
        spread * (-2.0 * one.ln()).sqrt() * (std::f64::consts::TAU * two).cos()
    }
}

/// How the cloth lies in one pass: from where the plan expects things on the machine to where they
/// are; as standard deviations 0.4 degrees, 0.6 %, 0.15 in of bow, and a zero set by eye.
pub(crate) struct Lie {
    turn: Rotation2<f64>,
    pulled: Matrix2<f64>,
    by: Vector,
    bow: [f64; 2],
    waves: [f64; 2],
    starts: [f64; 2],
    width: f64,
}

impl Lie {
    pub(crate) fn by_chance(dice: &mut Dice, width: f64) -> Self {
        Self {
            turn: Rotation2::new(dice.normal(0.4_f64.to_radians())),
            pulled: Matrix2::from_fn(|row, column| {
                dice.normal(0.006) + f64::from(u8::from(row == column))
            }),
            by: Vector::new(dice.normal(50.0), dice.normal(50.0)),
            bow: [dice.normal(0.15 * INCH), dice.normal(0.075 * INCH)],
            waves: [0, 1].map(|_| 0.5 + dice.even()),
            starts: [0, 1].map(|_| std::f64::consts::TAU * dice.even()),
            width,
        }
    }

    /// Where a place lies.
    pub(crate) fn lies(&self, place: Point) -> Point {
        let share = place.x / self.width * std::f64::consts::PI;
        let bowed = Vector::new(
            self.bow[1] * (share * self.waves[1] + self.starts[1] + place.y / (16.0 * INCH)).sin(),
            self.bow[0] * (share * self.waves[0] + self.starts[0]).sin(),
        );
        self.turn * (self.pulled * place) + self.by + bowed
    }

    /// The place that lies there: the cloth is nearly rigid, so steps by what is missing, turned
    /// back, soon come to it.
    pub(crate) fn under(&self, there: Point) -> Point {
        let mut place = self.turn.inverse() * (there - self.by);
        for _ in 0..60 {
            place -= self.turn.inverse() * (self.lies(place) - there);
        }
        assert!((self.lies(place) - there).norm() < 1e-9);
        place
    }
}
