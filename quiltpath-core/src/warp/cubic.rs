//! Cubic curves in the plane, and the sign of a polynomial of degree 5 over [0, 1].

use crate::geom::Vector;

/// The points and weights of Gauss–Legendre quadrature of order 5 on [−1, 1] (NIST DLMF 3.5).
const NODES: [(f64, f64); 5] = [
    (-0.906_179_845_938_664, 0.236_926_885_056_189_1),
    (-0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.0, 0.568_888_888_888_888_9),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_5),
    (0.906_179_845_938_664, 0.236_926_885_056_189_1),
];

/// The integral of a function; right up to rounding for polynomials up to degree 9.
pub(super) fn integral(from: f64, to: f64, value: impl Fn(f64) -> f64) -> f64 {
    let (middle, half) = (f64::midpoint(from, to), (to - from) / 2.0);
    let sum: f64 = NODES
        .iter()
        .map(|(node, weight)| weight * value(middle + half * node))
        .sum();
    sum * half
}

/// A cubic: its coefficients from degree 0 to 3.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Cubic([Vector; 4]);

impl Cubic {
    /// The cubic with these values and derivatives at 0 and 1.
    pub(super) fn hermite(values: [Vector; 2], slopes: [Vector; 2]) -> Self {
        let step = values[1] - values[0];
        Self([
            values[0],
            slopes[0],
            step * 3.0 - slopes[0] * 2.0 - slopes[1],
            slopes[0] + slopes[1] - step * 2.0,
        ])
    }

    pub(super) fn at(&self, x: f64) -> Vector {
        let [a, b, c, d] = self.0;
        a + (b + (c + d * x) * x) * x
    }

    pub(super) fn slope(&self, x: f64) -> Vector {
        let [_, b, c, d] = self.0;
        b + (c * 2.0 + d * (3.0 * x)) * x
    }

    pub(super) fn bend(&self, x: f64) -> Vector {
        let [.., c, d] = self.0;
        c * 2.0 + d * (6.0 * x)
    }

    /// The third derivative, the same everywhere.
    pub(super) fn third(&self) -> Vector {
        self.0[3] * 6.0
    }

    /// This cubic plus a multiple of another.
    pub(super) fn plus(&self, other: &Self, factor: f64) -> Self {
        Self([0, 1, 2, 3].map(|k| self.0[k] + other.0[k] * factor))
    }

    /// The coefficients of the product slope(x) × other(x), from degree 0 to 5.
    pub(super) fn slope_perp(&self, other: &Self) -> [f64; 6] {
        let mut product = [0.0; 6];
        for (i, factor) in [1.0, 2.0, 3.0].into_iter().enumerate() {
            for (j, value) in other.0.iter().enumerate() {
                product[i + j] += factor * self.0[i + 1].perp(value);
            }
        }
        product
    }
}

/// True when `sign` times the polynomial is above 0 everywhere on [0, 1].
///
/// Bernstein coefficients enclose the polynomial, so signs that all agree prove it; otherwise the
/// halves are looked at. What is not decided after 40 halvings touches 0 and counts as not above
/// it.
pub(super) fn keeps_sign(coefficients: &[f64; 6], sign: f64) -> bool {
    const CHOOSE: [[f64; 6]; 6] = [
        [1.0, 0.0, 0.0, 0.0, 0.0, 0.0],
        [1.0, 1.0, 0.0, 0.0, 0.0, 0.0],
        [1.0, 2.0, 1.0, 0.0, 0.0, 0.0],
        [1.0, 3.0, 3.0, 1.0, 0.0, 0.0],
        [1.0, 4.0, 6.0, 4.0, 1.0, 0.0],
        [1.0, 5.0, 10.0, 10.0, 5.0, 1.0],
    ];
    let mut bernstein = [0.0; 6];
    for (k, value) in bernstein.iter_mut().enumerate() {
        *value = (0..=k)
            .map(|i| sign * coefficients[i] * CHOOSE[k][i] / CHOOSE[5][i])
            .sum();
    }
    above(bernstein, 40)
}

fn above(mut row: [f64; 6], halvings: u8) -> bool {
    if row.iter().all(|value| *value > 0.0) {
        return true;
    }
    if !(row[0] > 0.0 && row[5] > 0.0) || halvings == 0 {
        return false;
    }
    // De Casteljau's triangle: its left edge is the first half, its last row the second.
    let mut first = [row[0]; 6];
    for (level, value) in first.iter_mut().enumerate().skip(1) {
        for k in 0..6 - level {
            row[k] = f64::midpoint(row[k], row[k + 1]);
        }
        *value = row[0];
    }
    above(first, halvings - 1) && above(row, halvings - 1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_touch_of_zero_is_not_above_it() {
        // (x − 1/2)² and a little more or less.
        assert!(!keeps_sign(&[0.25, -1.0, 1.0, 0.0, 0.0, 0.0], 1.0));
        assert!(keeps_sign(&[0.2501, -1.0, 1.0, 0.0, 0.0, 0.0], 1.0));
        assert!(!keeps_sign(&[0.2499, -1.0, 1.0, 0.0, 0.0, 0.0], 1.0));
        assert!(keeps_sign(&[-1.0, 0.0, 0.0, 0.0, 0.0, 0.5], -1.0));
    }

    proptest! {
        #[test]
        fn the_sign_agrees_with_samples(c in prop::array::uniform6(-1.0..1.0f64), lift in -1.0..2.0f64) {
            let mut c = c;
            c[0] += lift;
            let value = |x: f64| c.iter().rev().fold(0.0, |sum, k| sum * x + k);
            let least = (0..=2000).map(|k| value(f64::from(k) / 2000.0)).fold(f64::INFINITY, f64::min);
            prop_assume!(least.abs() > 1e-4);
            prop_assert_eq!(keeps_sign(&c, 1.0), least > 0.0);
        }

        #[test]
        fn derivatives_and_products_are_those_of_the_cubic(v in prop::array::uniform16(-3.0..3.0f64), x in 0.0..1.0f64) {
            let at = |k: usize| Vector::new(v[2 * k], v[2 * k + 1]);
            let a = Cubic::hermite([at(0), at(1)], [at(2), at(3)]);
            let b = Cubic::hermite([at(4), at(5)], [at(6), at(7)]);
            prop_assert!((a.at(1.0) - at(1)).norm() < 1e-12 && (a.slope(1.0) - at(3)).norm() < 1e-12);
            let h = 1e-5;
            prop_assert!(((a.at(x + h) - a.at(x - h)) / (2.0 * h) - a.slope(x)).norm() < 1e-6);
            prop_assert!(((a.slope(x + h) - a.slope(x - h)) / (2.0 * h) - a.bend(x)).norm() < 1e-6);
            let product = a.slope_perp(&b).iter().rev().fold(0.0, |sum, k| sum * x + k);
            prop_assert!((product - a.slope(x).perp(&b.at(x))).abs() < 1e-9);
            prop_assert!((integral(0.0, x, |y| a.slope(y).x) - (a.at(x) - a.at(0.0)).x).abs() < 1e-12);
        }
    }
}
