//! Filled shapes, hollowed so that their outline is thinned to a line.
//!
//! Problem: a filled leaf thins to its spine; what is wanted is its edge as a pen would draw it.
//! Method: ink that is more than 2.5 pens thick somewhere is a filled shape, since lines that cross
//! make no more than about two; what lies deeper than one pen in it is taken out, so that a ring as
//! wide as the pen is left.
//! Guarantee: lines of one pen are left as they are. O(ink).
//! Failure: many lines through one point are taken for a filled shape.

use super::blobs::Blobs;
use super::ink::Mask;
use super::thickness::{STEP, thickness};
use crate::error::Error;

/// Ink so many pens thick belongs to a filled shape.
const FILLED: f64 = 2.5;

/// Takes out the inside of filled shapes; gives the middle and the area of each inside, the largest
/// first.
///
/// # Errors
///
/// As [`Blobs::of`].
pub(super) fn hollow(
    mask: &mut Mask,
    far: &[u8],
    ink: &[u32],
    pen: f64,
) -> Result<Vec<([f64; 2], f64)>, Error> {
    let deep = |far: u8| f64::from(far) / f64::from(STEP) > pen;
    let filled = |far: u8| far == u8::MAX || thickness(far) > FILLED * pen;
    if !ink.iter().any(|&at| filled(far[at as usize])) {
        return Ok(Vec::new());
    }
    let mut inside = Mask {
        width: mask.width,
        cells: vec![0; mask.cells.len()],
    };
    for &at in ink {
        inside.cells[at as usize] = u8::from(deep(far[at as usize]));
    }
    let parts = Blobs::of(&inside)?;
    let mut is_filled = vec![false; parts.blobs.len()];
    parts.each_pixel(mask.width, |part, at| is_filled[part] |= filled(far[at]));
    parts.erase(mask, |part| is_filled[part]);
    let shapes = parts.blobs.iter().zip(is_filled);
    let mut shapes: Vec<([f64; 2], f64)> = shapes
        .filter(|(_, filled)| *filled)
        .map(|(blob, _)| (blob.centre, blob.area))
        .collect();
    shapes.sort_by(|one, other| other.1.total_cmp(&one.1));
    Ok(shapes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::raster::thickness::distances;

    #[test]
    fn a_filled_square_becomes_a_frame_and_a_line_stays() {
        let mut rows = vec![".".repeat(60); 40];
        for row in &mut rows[4..36] {
            row.replace_range(4..36, &"#".repeat(32));
        }
        for row in &mut rows[18..22] {
            row.replace_range(36..58, &"#".repeat(22));
        }
        let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
        let mut mask = Mask::of_rows(&rows);
        let before = mask.clone();
        let ink: Vec<u32> = (0..mask.cells.len() as u32)
            .filter(|&at| mask.cells[at as usize] != 0)
            .collect();
        let far = distances(&mask, &ink);
        let found = hollow(&mut mask, &far, &ink, 4.0).expect("few runs");
        assert_eq!(found.len(), 1);
        let left: usize = mask.cells.iter().map(|&cell| usize::from(cell)).sum();
        // Where the line comes in, the ink is a little deeper.
        assert!((576..590).contains(&(ink.len() - left)), "{left}");
        let ([x, y], area) = found[0];
        assert!(
            (x - 21.0).abs() < 0.2 && (y - 21.0).abs() < 0.2 && area >= 576.0,
            "{found:?}"
        );
        let mut thick = before.clone();
        assert!(
            hollow(&mut thick, &far, &ink, 16.0)
                .expect("few runs")
                .is_empty()
        );
        assert_eq!(thick, before);
    }
}
