//! How square a quilt with four given sides can be, and what its diagonals are then.
//!
//! Problem: four sides leave a quilt free to lean; where no diagonal was measured, take the quilt
//! that is nearest to square, and where one was, tell whether it can be true of a quilt near
//! square. Method: of all quilts with these sides the one whose corners are off 90 degrees by the
//! least, the worst corner counting. As the falling diagonal grows, the corners across from it (top
//! right, bottom left) open and the other two close, so the worst is the maximum of one growing and
//! one falling function of it, and bisection finds where they meet. Guarantee: no other quilt with
//! these sides has a better worst corner, up to 1e-12 of the sides. Failure: a side as long as the
//! other three together leaves no quilt.

use crate::error::{Error, GeometryFault};

const RIGHT: f64 = std::f64::consts::FRAC_PI_2;

/// The quilt nearest to square of all that have four given sides.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct NearSquare {
    sides: [f64; 4],
    /// The falling and the rising diagonal.
    pub diagonals: [f64; 2],
    /// How far its worst corner is off 90 degrees, in degrees.
    pub off_degrees: f64,
}

/// The quilt nearest to square with these sides: top, right, bottom and left.
///
/// ```
/// use quiltpath_core::geom::near_square::near_square;
///
/// let quilt = near_square([80.0, 60.0, 80.0, 60.0])?;
/// assert!((quilt.diagonals[0] - 100.0).abs() < 1e-9 && quilt.off_degrees < 1e-9);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when a side is not above 0, or is as long as the other three together.
///
/// # Complexity
///
/// O(1).
pub fn near_square(sides: [f64; 4]) -> Result<NearSquare, Error> {
    let [top, right, bottom, left] = sides;
    for (what, side) in [
        "the top side",
        "the right side",
        "the bottom side",
        "the left side",
    ]
    .into_iter()
    .zip(sides)
    {
        if !(side > 0.0 && side <= super::MAX_COORDINATE) {
            let accepted = "a length above 0 and up to 1e9";
            return Err(Error::bad_number(what, side, accepted));
        }
    }
    let longest = sides.into_iter().fold(0.0, f64::max);
    let others = sides.iter().sum::<f64>() - longest;
    let mut low = (top - right).abs().max((bottom - left).abs());
    let mut high = (top + right).min(bottom + left);
    if longest >= others || low >= high {
        return Err(GeometryFault::SidesDontClose { longest, others }.into());
    }
    for _ in 0..100 {
        let falling = f64::midpoint(low, high);
        let off = angles(sides, falling).map(|angle| angle - RIGHT);
        let open = off[1].max(off[3]).max(-off[0]).max(-off[2]);
        let closed = off[0].max(off[2]).max(-off[1]).max(-off[3]);
        match open > closed {
            true => high = falling,
            false => low = falling,
        }
    }
    let falling = f64::midpoint(low, high);
    let angles = angles(sides, falling);
    let off = angles.map(|angle| (angle - RIGHT).abs());
    Ok(NearSquare {
        sides,
        diagonals: [falling, across(left, top, angles[0])],
        off_degrees: off.into_iter().fold(0.0, f64::max).to_degrees(),
    })
}

impl NearSquare {
    /// From how long to how long each diagonal is, falling and rising, while the corners across
    /// from it differ from those of this quilt by so many degrees at the most.
    #[must_use]
    pub fn ranges(&self, degrees: f64) -> [[f64; 2]; 2] {
        let angles = angles(self.sides, self.diagonals[0]);
        [1, 0].map(|first| {
            let corners = [first, first + 2];
            let lengths = |by: f64| {
                corners.map(|corner| {
                    let angle = (angles[corner] + by).clamp(0.0, 2.0 * RIGHT);
                    across(self.sides[(corner + 3) % 4], self.sides[corner], angle)
                })
            };
            let (less, more) = (
                lengths(-degrees.to_radians()),
                lengths(degrees.to_radians()),
            );
            [less[0].max(less[1]), more[0].min(more[1])]
        })
    }
}

/// The measure, of four sides and two diagonals, without which the other five make a quilt much
/// nearer to square: its number, sides first, and the length that the others give it.
///
/// Any five of six measures agree, so that they agree shows nothing; but a quilt is meant to be
/// square, and a wrong measure makes those that stay with it lean. `None` where no measure stands
/// out: where leaving it out does not halve the worst corner that any other leaves.
///
/// # Complexity
///
/// O(1).
#[must_use]
pub fn odd_one_out(given: [f64; 6]) -> Option<(usize, f64)> {
    let without = |left_out: usize| {
        let corners = match left_out {
            0..=3 => without_side(given, left_out),
            _ => without_diagonal(given, left_out),
        }?;
        let off = (0..4).map(|at| {
            let [before, after] = [corners[(at + 3) % 4], corners[(at + 1) % 4]]
                .map(|other| [other[0] - corners[at][0], other[1] - corners[at][1]]);
            let dot = before[0] * after[0] + before[1] * after[1];
            let perp = before[0] * after[1] - before[1] * after[0];
            (perp.abs().atan2(dot) - RIGHT).abs()
        });
        let [from, to] = super::quad::ENDS[left_out].map(|at| corners[at]);
        let implied = (to[0] - from[0]).hypot(to[1] - from[1]);
        Some((off.fold(0.0, f64::max), left_out, implied))
    };
    let mut tried: Vec<(f64, usize, f64)> = (0..6).filter_map(without).collect();
    tried.sort_by(|a, b| a.0.total_cmp(&b.0));
    match tried.as_slice() {
        [only] => Some((only.1, only.2)),
        [best, next, ..] if 2.0 * best.0 < next.0 => Some((best.1, best.2)),
        _ => None,
    }
}

/// The corners without one side: both ends of it over the side across.
fn without_side(given: [f64; 6], side: usize) -> Option<[[f64; 2]; 4]> {
    let base = given[(side + 2) % 4];
    let diagonal = |corner: usize| given[4 + corner % 2];
    let ends = [
        apex(base, diagonal(side), given[(side + 3) % 4])?,
        apex(base, given[(side + 1) % 4], diagonal(side + 1))?,
    ];
    let mut corners = [[0.0; 2]; 4];
    corners[(side + 3) % 4] = [base, 0.0];
    corners[side] = ends[0];
    corners[(side + 1) % 4] = ends[1];
    Some(corners)
}

/// The corners without one diagonal: the two that it joins on either side of the other one.
fn without_diagonal(given: [f64; 6], left_out: usize) -> Option<[[f64; 2]; 4]> {
    // The other diagonal joins this corner and the one across.
    let first = 5 - left_out;
    let base = given[4 + first];
    let above = apex(base, given[first], given[first + 1])?;
    let below = apex(base, given[(first + 3) % 4], given[(first + 2) % 4])?;
    let mut corners = [[0.0; 2]; 4];
    corners[first + 2] = [base, 0.0];
    corners[first + 1] = above;
    corners[(first + 3) % 4] = [below[0], -below[1]];
    Some(corners)
}

/// The apex of a triangle over its base from (0, 0) along x, by the sides at the base's start and
/// end.
fn apex(base: f64, near: f64, far: f64) -> Option<[f64; 2]> {
    let along = (base * base + (near - far) * (near + far)) / (2.0 * base);
    let square = (near - along) * (near + along);
    (square > 0.0).then(|| [along, square.sqrt()])
}

/// The corners' angles, from the top left one, by the sides and the falling diagonal.
fn angles([top, right, bottom, left]: [f64; 4], falling: f64) -> [f64; 4] {
    let angle = |opposite: f64, one: f64, other: f64| {
        let cos = (one * one + other * other - opposite * opposite) / (2.0 * one * other);
        cos.clamp(-1.0, 1.0).acos()
    };
    [
        angle(right, top, falling) + angle(bottom, left, falling),
        angle(falling, top, right),
        angle(top, right, falling) + angle(left, bottom, falling),
        angle(falling, bottom, left),
    ]
}

/// The side of a triangle across from an angle, by the sides beside it.
fn across(one: f64, other: f64, angle: f64) -> f64 {
    (one * one + other * other - 2.0 * one * other * angle.cos()).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use crate::geom::quad::{Diagonals, QuadMeasures, measure_quad, solve_quad};
    use proptest::prelude::*;

    fn worst(sides: [f64; 4], falling: f64) -> Option<f64> {
        let diagonals = Diagonals::Falling(falling);
        let corners = solve_quad(&QuadMeasures { sides, diagonals }).ok()?.corners;
        let off = (0..4).map(|at| {
            let (before, after) = (
                corners[(at + 3) % 4] - corners[at],
                corners[(at + 1) % 4] - corners[at],
            );
            (before.angle(&after) - RIGHT).abs().to_degrees()
        });
        Some(off.fold(0.0, f64::max))
    }

    #[test]
    fn an_isosceles_trapezoid_is_as_near_to_square_as_its_sides_allow() {
        // 2 in over either end of the shorter side: asin(2 / 60) off at every corner, and Ptolemy's
        // theorem for the cyclic trapezoid: the square of its diagonals is 60² + 80 · 76.
        let quilt = near_square([80.0, 60.0, 76.0, 60.0]).expect("a quilt");
        assert!((quilt.off_degrees - (2.0_f64 / 60.0).asin().to_degrees()).abs() < 1e-9);
        for diagonal in quilt.diagonals {
            assert!((diagonal - (3600.0_f64 + 80.0 * 76.0).sqrt()).abs() < 1e-9);
        }
        let error = near_square([200.0, 60.0, 80.0, 60.0]).expect_err("open");
        assert!(error.to_string().contains("200 long"), "{error}");
    }

    /// The law of cosines: 60 and 80 with 85 degrees between them.
    #[test]
    fn the_range_of_a_diagonal_is_that_of_its_corners() {
        let quilt = near_square([80.0, 60.0, 80.0, 60.0]).expect("a quilt");
        let cos = 5.0_f64.to_radians().sin();
        for [least, most] in quilt.ranges(5.0) {
            assert!((least - (10_000.0 - 9600.0 * cos).sqrt()).abs() < 1e-9);
            assert!((most - (10_000.0 + 9600.0 * cos).sqrt()).abs() < 1e-9);
        }
    }

    #[test]
    fn the_measure_that_makes_the_others_lean_is_named() {
        for wrong in 0..6 {
            for by in [10.0, -4.0, 3.0] {
                let corners = [(0.0, 0.0), (80.0, 0.3), (80.4, 60.0), (0.2, 60.1)];
                let true_ones = measure_quad(&corners.map(|(x, y)| Point::new(x, y)));
                let mut given = true_ones;
                given[wrong] += by;
                let (named, implied) = odd_one_out(given).expect("one stands out");
                assert_eq!(named, wrong);
                assert!((implied - true_ones[wrong]).abs() < 1e-9);
            }
        }
        // A quilt meant to lean: its measures agree, and none stands out.
        let lean = [(0.0, 0.0), (80.0, 0.0), (100.0, 60.0), (20.0, 60.0)];
        assert_eq!(
            odd_one_out(measure_quad(&lean.map(|(x, y)| Point::new(x, y)))),
            None
        );
    }

    proptest! {
        #[test]
        fn no_diagonal_makes_the_worst_corner_better(sides in prop::array::uniform4(40.0..90.0f64)) {
            let quilt = near_square(sides).expect("a quilt");
            let [falling, rising] = quilt.diagonals;
            if let Some(found) = worst(sides, falling) {
                prop_assert!((found - quilt.off_degrees).abs() < 1e-6);
                let diagonals = Diagonals::Falling(falling);
                let corners = solve_quad(&QuadMeasures { sides, diagonals }).expect("found").corners;
                prop_assert!((measure_quad(&corners)[5] - rising).abs() < 1e-6);
            }
            for step in 1..400 {
                if let Some(other) = worst(sides, f64::from(step) / 2.0) {
                    prop_assert!(quilt.off_degrees <= other + 1e-9);
                }
            }
        }
    }
}
