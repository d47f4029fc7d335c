//! A number by which a plan, as solved and put in order, is known again.
//!
//! Method: FNV-1a with 64 bits over the names of the pieces, their points in steps of a
//! thousandth of a millimetre, and the runs as they lie in passes. Two plans of one
//! number are the same for all that the frame is told by passes, runs and lengths. It is no
//! safeguard against intent: two plans could be made to have one number.

use super::solved::Solved;
use super::stitch::Stitching;
use crate::geom::Point;

/// Steps of a coordinate for each millimetre.
const STEPS_PER_MM: f64 = 1e3;

/// Where steps begin. Sixteenths of an inch and thousandths of a millimetre fall on wholes and
/// halves of a step; no length that people use falls on this, so that the last bit of a sine, which
/// differs from platform to platform, decides no step.
const OFFSET: f64 = 0.327_193_548;

/// The number of the step that a number of steps falls into.
pub(crate) fn step_of(steps: f64) -> i64 {
    (steps + OFFSET).floor() as i64
}

/// The number of a solved and stitched plan, as 16 hexadecimal digits.
///
/// It changes when a drawing, a measure, or the order of passes and runs does.
///
/// # Complexity
///
/// O(points).
#[must_use]
pub fn plan_hash(solved: &Solved, stitching: &Stitching) -> String {
    let mut hash = Fnv::new();
    for piece in &solved.pieces {
        hash.text(&piece.name);
        for line in piece.lines() {
            hash.points(line.motif.points());
        }
    }
    hash.number(stitching.passes.len() as i64);
    for run in &stitching.runs {
        hash.number(run.pass as i64);
        for part in &run.parts {
            hash.number(part.piece as i64);
            hash.number(i64::from(part.reversed));
            for share in part.between {
                hash.number(step_of(share * 1e6));
            }
        }
    }
    format!("{:016x}", hash.0)
}

/// Fowler, Noll and Vo's hash, variant 1a, with the constants that its authors publish for 64 bits.
pub(crate) struct Fnv(pub(crate) u64);

impl Fnv {
    pub(crate) fn new() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }

    pub(crate) fn bytes(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 = (self.0 ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }

    fn number(&mut self, number: i64) {
        self.bytes(&number.to_le_bytes());
    }

    fn text(&mut self, text: &str) {
        self.number(text.len() as i64);
        self.bytes(text.as_bytes());
    }

    fn points(&mut self, points: &[Point]) {
        self.number(points.len() as i64);
        for coordinate in points.iter().flat_map(|point| [point.x, point.y]) {
            self.number(step_of(coordinate * STEPS_PER_MM));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_hash_is_the_published_one() {
        // Landon Curt Noll's published test vectors of FNV-1a, 64 bits (from memory: "", "a",
        // "foobar").
        for (text, number) in [
            ("", 0xcbf2_9ce4_8422_2325),
            ("a", 0xaf63_dc4c_8601_ec8c),
            ("foobar", 0x8594_4171_f739_67e8),
        ] {
            let mut hash = Fnv::new();
            hash.bytes(text.as_bytes());
            assert_eq!(hash.0, number, "{text:?}");
        }
    }
}
