//! How thick the ink is: the distance of each of its pixels from paper, and the width of the pen.
//!
//! Method: the two passes of the chamfer distance with steps of 3 and 4 (G. Borgefors, "Distance
//! transformations in digital images", 1986; from memory), which is within 8 % of the distance in a
//! straight line. The pen is as wide as the ink is thick on its ridges, in the middle case.
//! Guarantee: O(ink); distances above 85 pixels count as 85.
//! Failure: a drawing of filled shapes alone has no pen; its middle thickness is taken for one.

use super::ink::Mask;

/// Distances are in thirds of a pixel.
pub(super) const STEP: u8 = 3;
const SLANT: u8 = 4;

/// The distance of each pixel of ink from the nearest paper, in thirds of a pixel.
pub(super) fn distances(mask: &Mask, ink: &[u32]) -> Vec<u8> {
    let width = mask.width;
    let mut far = vec![0_u8; mask.cells.len()];
    let least = |far: &[u8], straight: [usize; 2], slant: [usize; 2]| {
        let straight = far[straight[0]].min(far[straight[1]]).saturating_add(STEP);
        let slant = far[slant[0]].min(far[slant[1]]).saturating_add(SLANT);
        straight.min(slant)
    };
    for &at in ink {
        let at = at as usize;
        far[at] = least(&far, [at - 1, at - width], [at - width - 1, at - width + 1]);
    }
    for &at in ink.iter().rev() {
        let at = at as usize;
        let found = least(&far, [at + 1, at + width], [at + width + 1, at + width - 1]);
        far[at] = far[at].min(found);
    }
    far
}

/// True for a pixel that no neighbour is further in than.
pub(super) fn is_ridge(far: &[u8], width: usize, at: usize) -> bool {
    let own = far[at];
    let about = [1, width - 1, width, width + 1];
    own > 0
        && about
            .iter()
            .all(|&by| far[at - by] <= own && far[at + by] <= own)
}

/// The thickness of ink in pixels where a pixel in its middle has this distance.
pub(super) fn thickness(far: u8) -> f64 {
    2.0 * f64::from(far) / f64::from(STEP) - 1.0
}

/// The middle thickness of these ridges, in pixels; each in its group of equal distance.
pub(super) fn middle_thickness(ridges: impl Iterator<Item = u8>) -> Option<f64> {
    let mut counts = [0_usize; 256];
    ridges.for_each(|far| counts[usize::from(far)] += 1);
    let all: usize = counts.iter().sum();
    let mut below = 0;
    let middle = counts.iter().position(|count| {
        below += count;
        2 * below >= all && all > 0
    });
    middle.map(|far| thickness(far as u8).max(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_and_squares_are_as_thick_as_they_are() {
        for (rows, wide) in [(1, 1.0), (3, 3.0), (5, 5.0), (7, 7.0)] {
            let bar = "#".repeat(40);
            let mask = Mask::of_rows(&vec![bar.as_str(); rows]);
            let ink: Vec<u32> = (0..mask.cells.len() as u32)
                .filter(|&at| mask.cells[at as usize] != 0)
                .collect();
            let far = distances(&mask, &ink);
            let ridges = ink.iter().map(|&at| at as usize);
            let ridges = ridges.filter(|&at| is_ridge(&far, mask.width, at));
            assert_eq!(middle_thickness(ridges.map(|at| far[at])), Some(wide));
        }
        assert_eq!(middle_thickness(std::iter::empty()), None);
    }

    #[test]
    fn distances_are_within_8_percent_of_straight_ones() {
        let side = 41;
        let mask = Mask::of_rows(&vec!["#".repeat(side).as_str(); side]);
        let ink: Vec<u32> = (0..mask.cells.len() as u32)
            .filter(|&at| mask.cells[at as usize] != 0)
            .collect();
        let mut hole = mask.clone();
        let middle = 21 * mask.width + 21;
        hole.cells[middle] = 0;
        let ink: Vec<u32> = ink
            .into_iter()
            .filter(|&at| at as usize != middle)
            .collect();
        let far = distances(&hole, &ink);
        for &at in &ink {
            let (x, y) = (at as usize % mask.width, at as usize / mask.width);
            let edge = x.min(y).min(42 - x).min(42 - y) as f64;
            let straight = (x as f64 - 21.0).hypot(y as f64 - 21.0).min(edge);
            let found = f64::from(far[at as usize]) / f64::from(STEP);
            assert!(
                (found - straight).abs() <= 0.08 * straight + 1e-9,
                "{x} {y}: {found} {straight}"
            );
        }
    }
}
