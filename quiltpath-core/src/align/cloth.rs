//! Cloths by chance for tests, over a pass of 60 x 16 in: turned by 0.4 degrees, pulled and sheared
//! by 0.6 % and bowed by 0.15 in, each as a standard deviation; a reading is good to 1/48 in.

use nalgebra::{Matrix2, Rotation2};

use crate::geom::{Point, Vector};

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

pub(crate) const INCH: f64 = 25.4;

/// Where the cloth of this throw lies.
pub(crate) fn cloth(dice: &mut Dice) -> impl Fn(Point) -> Point + use<> {
    let turn = Rotation2::new(dice.normal(0.4_f64.to_radians()));
    let pulled =
        Matrix2::from_fn(|row, column| dice.normal(0.006) + f64::from(u8::from(row == column)));
    let by = Vector::new(dice.normal(50.0), dice.normal(50.0));
    let bow = [dice.normal(0.15 * INCH), dice.normal(0.075 * INCH)];
    let waves = [0, 1].map(|_| 0.5 + dice.even());
    let starts = [0, 1].map(|_| std::f64::consts::TAU * dice.even());
    move |point| {
        let share = point.x / (60.0 * INCH) * std::f64::consts::PI;
        let bowed = Vector::new(
            bow[1] * (share * waves[1] + starts[1] + point.y / (16.0 * INCH)).sin(),
            bow[0] * (share * waves[0] + starts[0]).sin(),
        );
        turn * (pulled * point) + by + bowed
    }
}

/// Places of the border: along the top, and down both sides.
pub(crate) fn border() -> Vec<Point> {
    let top = (0..60).flat_map(|at| [0.5, 3.0, 5.75].map(|y| Point::new(f64::from(at) + 0.5, y)));
    let sides = (6..17)
        .flat_map(|y| [0.5, 3.0, 5.75, 54.25, 57.0, 59.5].map(|x| Point::new(x, f64::from(y))));
    top.chain(sides).map(|place| place * INCH).collect()
}
