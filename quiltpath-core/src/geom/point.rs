//! Points and vectors of the plane, and how far out they may lie.

/// A point of the plane, x to the right, y down.
pub type Point = nalgebra::Point2<f64>;

/// A displacement in the plane, x to the right, y down.
pub type Vector = nalgebra::Vector2<f64>;

/// The largest magnitude that a coordinate may have, in any unit: 1e9.
///
/// Sums of squares of such coordinates keep far from overflow, and 1e-6 of a unit stays exact.
pub const MAX_COORDINATE: f64 = 1e9;

/// The turn from one direction to another, in radians from 0 to pi.
pub(crate) fn turn_between(before: Vector, after: Vector) -> f64 {
    before.perp(&after).abs().atan2(before.dot(&after))
}

/// The vector at length 1. Squares of tiny lengths vanish, so these are brought to 1 before.
pub(crate) fn unit_vector(vector: Vector) -> Vector {
    const TINY: f64 = 1e-140;
    match vector.amax() {
        largest if largest < TINY && largest > 0.0 => vector.map(|part| part / largest).normalize(),
        _ => vector.normalize(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tiny_vectors_have_a_direction() {
        let tiny = unit_vector(Vector::new(-15e-324, 20e-324));
        assert_eq!(tiny, Vector::new(-0.6, 0.8));
    }
}
