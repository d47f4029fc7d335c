//! The length of line in each tile of a quarter of a square's side, and the blocks that hold too
//! much.

use crate::error::{CheckFault, Error};
use crate::geom::Vector;
use crate::geom::lines::Lines;

/// How many tiles lie along the side of a square.
pub(super) const TILES: usize = 4;

/// How many tiles lie along the side of the block in which all squares lie that start in one tile.
pub(super) const BLOCK: usize = TILES + 1;

/// The part of a length that sums may be off by rounding.
pub(super) const ROUNDING: f64 = 1e-9;

/// The most tiles that lines may pass through, counted again on each return: 25 km in 1/4 in tiles.
const MAX_TILES: usize = 1 << 22;

/// How far tiles lie before whole multiples of their size, in tiles, so that lines on an edge
/// belong to the tiles after it whichever way they are rounded.
const BEFORE: f64 = 1e-9;

/// Column and row of a tile.
pub(super) type Tile = [i64; 2];

/// The length of line in tiles, in the order of their rows, one entry or more for each.
pub(super) struct Tiles {
    pub(super) size: f64,
    lengths: Vec<(i64, i64, f64)>,
}

impl Tiles {
    pub(super) fn of(lines: &Lines, size: f64) -> Result<Self, Error> {
        let mut tiles = Self {
            size,
            lengths: Vec::new(),
        };
        let mut steps = 0.0;
        for segment in lines.segments() {
            let ends = tiles.ends(lines, segment);
            let passed = (ends[1].map(f64::floor) - ends[0].map(f64::floor)).abs();
            steps += passed.x + passed.y;
            if steps > MAX_TILES as f64 {
                let (squares, limit) = (steps, MAX_TILES);
                return Err(CheckFault::TooFar { squares, limit }.into());
            }
            let span = lines.span(segment);
            walk(ends, |[column, row], [from, to]| {
                let length = (to - from) * span;
                match tiles.lengths.last_mut() {
                    Some(last) if (last.0, last.1) == (row, column) => last.2 += length,
                    _ => tiles.lengths.push((row, column, length)),
                }
            });
        }
        tiles.lengths.sort_by_key(|&(row, column, _)| (row, column));
        Ok(tiles)
    }

    /// The ends of a segment, in tiles.
    pub(super) fn ends(&self, lines: &Lines, segment: u32) -> [Vector; 2] {
        let before = Vector::repeat(BEFORE);
        lines
            .ends(segment)
            .map(|end| end.coords / self.size + before)
    }

    /// The upper left tiles of blocks that hold more than this length, in order.
    pub(super) fn blocks_over(&self, limit: f64) -> Vec<Tile> {
        let mut columns: Vec<(i64, i64, f64)> = sums(&self.lengths)
            .map(|(row, column, length)| (column, row, length))
            .collect();
        columns.sort_by_key(|&(column, row, _)| (column, row));
        sums(&columns)
            .filter(|(.., length)| *length > limit * (1.0 - ROUNDING))
            .map(|(column, row, _)| [column, row])
            .collect()
    }
}

/// The lengths, line by line, in each stretch of a block's size that holds any.
fn sums(sorted: &[(i64, i64, f64)]) -> impl Iterator<Item = (i64, i64, f64)> + '_ {
    let size = BLOCK as i64;
    sorted.chunk_by(|a, b| a.0 == b.0).flat_map(move |line| {
        let (mut first, mut at) = (0, i64::MIN);
        std::iter::from_fn(move || {
            while first < line.len() && line[first].1 < at {
                first += 1;
            }
            let next = line.get(first)?;
            at = at.max(next.1 - size + 1);
            let held = line[first..].iter().take_while(|entry| entry.1 < at + size);
            let sum = held.map(|entry| entry.2).sum();
            at += 1;
            Some((next.0, at - 1, sum))
        })
    })
}

/// Goes along a segment, in tiles, from tile to tile: each with the shares of the segment at which
/// it is entered and left.
#[inline]
pub(super) fn walk([from, to]: [Vector; 2], mut visit: impl FnMut(Tile, [f64; 2])) {
    let (start, end) = (from.map(f64::floor), to.map(f64::floor));
    let passed = (end - start).abs();
    let step = to - from;
    let mut left = [passed.x as u64, passed.y as u64];
    let mut tile = [start.x as i64, start.y as i64];
    let mut done = 0.0;
    while left != [0, 0] {
        // The part of the segment up to the next edge of each kind.
        let edge = [0, 1].map(|axis| {
            if left[axis] == 0 {
                return f64::INFINITY;
            }
            let level = tile[axis] + i64::from(step[axis] > 0.0);
            (level as f64 - from[axis]) / step[axis]
        });
        let axis = usize::from(edge[1] < edge[0]);
        let next = edge[axis].clamp(done, 1.0);
        visit(tile, [done, next]);
        done = next;
        tile[axis] += if step[axis] > 0.0 { 1 } else { -1 };
        left[axis] -= 1;
    }
    visit(tile, [done, 1.0]);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stretches_are_summed_wherever_they_hold_anything() {
        let entries = [(0, 0, 1.0), (0, 0, 0.5), (0, 7, 2.0), (3, 1, 4.0)];
        let found: Vec<_> = sums(&entries).collect();
        let plain = |line: i64, at: i64| -> f64 {
            let held = entries
                .iter()
                .filter(|entry| entry.0 == line && (at..at + BLOCK as i64).contains(&entry.1));
            held.map(|entry| entry.2).sum()
        };
        let all = [0, 3]
            .into_iter()
            .flat_map(|line| (-9..9).map(move |at| (line, at)));
        let expected: Vec<_> = all
            .map(|(line, at)| (line, at, plain(line, at)))
            .filter(|entry| entry.2 > 0.0)
            .collect();
        assert_eq!(found, expected);
    }
}
