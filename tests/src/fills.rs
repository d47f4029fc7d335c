//! A quilt of blocks filled with rows of waves and of curls, to check and to time: made up, and
//! without a fault that the checks of stitched lines would tell.

use std::f64::consts::TAU;

/// Blocks across and down, and the side of each, in millimetres: about 60 by 77 in.
const BLOCKS: (usize, usize) = (10, 13);
const SIDE: f64 = 150.0;

/// Rows in each block, this far apart.
const ROWS: usize = 12;
const APART: f64 = 12.0;

/// One line for each block, in millimetres, about this many points in all, evenly over each row.
#[must_use]
pub fn filled_blocks(points: usize) -> Vec<Vec<(f64, f64)>> {
    let (across, down) = BLOCKS;
    let steps = (points / (across * down * ROWS)).max(2) - 1;
    let place = |index: usize| (index % across, index / across);
    let corner = |(column, row): (usize, usize)| (column as f64 * SIDE, row as f64 * SIDE);
    (0..across * down)
        .map(|index| {
            let (column, row) = place(index);
            let curls = (column + row) % 2 == 1;
            block(corner((column, row)), curls, steps)
        })
        .collect()
}

/// Rows there and back, of waves or of curls.
fn block((left, top): (f64, f64), curls: bool, steps: usize) -> Vec<(f64, f64)> {
    let (margin, width) = (8.0, SIDE - 16.0);
    let rows = (0..ROWS).flat_map(|row| {
        (0..=steps).map(move |step| {
            let part = step as f64 / steps as f64;
            let along = if row % 2 == 0 { part } else { 1.0 - part };
            let angle = TAU * 11.0 * along;
            // A curl is a point on a wheel that slips; a wave goes half as often up and down.
            let (dx, dy) = if curls {
                (-4.0 * angle.sin(), 4.0 * angle.cos())
            } else {
                (0.0, 3.0 * (angle / 2.0).sin())
            };
            let across = APART * (row as f64 + 0.5);
            (margin + width * along + dx, 3.0 + across + dy)
        })
    });
    rows.map(|(x, y)| (left + x, top + y)).collect()
}
