//! Tiles cut finer, and the fullest of all squares that start in one of them.

use super::tiles::{BLOCK, ROUNDING, TILES, Tile, Tiles, walk};
use crate::geom::lines::Lines;
use crate::geom::{Point, Vector};

/// How many fine tiles lie along the side of a tile.
const PARTS: usize = 8;

/// How many lie along the side of a square.
const SIDE: usize = TILES * PARTS;

/// How many lie along the side of a block, with the 0 before them.
const SUMS: usize = BLOCK * PARTS + 1;

/// A square and the length of line in it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Full {
    /// The tile that it starts in.
    block: Tile,
    /// The fine tile of that, across and down.
    part: [usize; 2],
    pub(super) corner: Point,
    pub(super) length: f64,
}

/// The tiles of blocks that may hold a square over the limit, cut finer.
pub(super) struct Fine<'a> {
    lines: &'a Lines,
    tiles: &'a Tiles,
    /// In order.
    places: Vec<Tile>,
    /// The lengths in the fine tiles of each, row after row.
    lengths: Vec<[f64; PARTS * PARTS]>,
    /// The segments in each, in order.
    segments: Vec<(u32, u32)>,
}

impl<'a> Fine<'a> {
    /// All tiles of these blocks.
    pub(super) fn of(lines: &'a Lines, tiles: &'a Tiles, blocks: &[Tile]) -> Self {
        let mut places: Vec<Tile> = blocks.iter().flat_map(|block| block_of(*block)).collect();
        places.sort_unstable();
        places.dedup();
        let mut fine = Self {
            lines,
            tiles,
            lengths: vec![[0.0; PARTS * PARTS]; places.len()],
            segments: Vec::new(),
            places,
        };
        if !fine.places.is_empty() {
            // Most segments lie in the tile of the one before.
            let mut last = ([i64::MAX; 2], None);
            for segment in lines.segments() {
                fine.add(segment, &mut last);
            }
            fine.segments.sort_unstable();
        }
        fine
    }

    /// Adds a segment; `last` is the tile of the one before, with its index.
    fn add(&mut self, segment: u32, last: &mut (Tile, Option<usize>)) {
        let ends = self.tiles.ends(self.lines, segment);
        let span = self.lines.span(segment);
        walk(ends, |tile, [from, to]| {
            if last.0 != tile {
                *last = (tile, self.at(tile));
            }
            let Some(at) = last.1 else {
                return;
            };
            self.segments.push((at as u32, segment));
            let lengths = &mut self.lengths[at];
            // From the tile's own corner, so that it is as exact far from the origin.
            let origin = Vector::new(tile[0] as f64, tile[1] as f64);
            let part = |share: f64| {
                let point = ends[0] + (ends[1] - ends[0]) * share - origin;
                point.map(|value| (value * PARTS as f64).clamp(0.0, PARTS as f64))
            };
            walk([part(from), part(to)], |[column, row], [first, last]| {
                let [column, row] = [column, row].map(|index| (index as usize).min(PARTS - 1));
                lengths[row * PARTS + column] += (last - first) * (to - from) * span;
            });
        });
    }

    fn at(&self, tile: Tile) -> Option<usize> {
        self.places.binary_search(&tile).ok()
    }

    /// The side of a square.
    pub(super) fn side(&self) -> f64 {
        self.tiles.size * TILES as f64
    }

    /// The fullest square that starts in a tile; of several that are equally full the first, by
    /// rows.
    pub(super) fn fullest(&self, block: Tile) -> Full {
        // sums[row][column] is the length above and to the left of there.
        let mut sums = [[0.0; SUMS]; SUMS];
        for tile in block_of(block) {
            let Some(at) = self.at(tile) else {
                continue;
            };
            let [x, y] = [0, 1].map(|axis| (tile[axis] - block[axis]) as usize * PARTS + 1);
            for (row, lengths) in self.lengths[at].chunks(PARTS).enumerate() {
                sums[y + row][x..x + PARTS].copy_from_slice(lengths);
            }
        }
        for row in 1..SUMS {
            for column in 1..SUMS {
                sums[row][column] +=
                    sums[row - 1][column] + sums[row][column - 1] - sums[row - 1][column - 1];
            }
        }
        let length = |[column, row]: [usize; 2]| {
            sums[row + SIDE][column + SIDE] - sums[row][column + SIDE] - sums[row + SIDE][column]
                + sums[row][column]
        };
        let mut best = ([0, 0], length([0, 0]));
        for part in (0..PARTS).flat_map(|row| (0..PARTS).map(move |column| [column, row])) {
            let length = length(part);
            if length > best.1 * (1.0 + ROUNDING) {
                best = (part, length);
            }
        }
        let [x, y] = [0, 1].map(|axis| block[axis] as f64 + best.0[axis] as f64 / PARTS as f64);
        Full {
            block,
            part: best.0,
            corner: Point::new(x, y) * self.tiles.size,
            length: best.1,
        }
    }

    /// The lines in a square by index, with the length of each, the longest first.
    pub(super) fn lines(&self, full: &Full) -> Vec<(usize, f64)> {
        let origin = Vector::new(full.block[0] as f64, full.block[1] as f64);
        let low = Vector::new(full.part[0] as f64, full.part[1] as f64) / PARTS as f64;
        let high = low + Vector::repeat(TILES as f64);
        let mut segments: Vec<u32> = block_of(full.block)
            .filter_map(|tile| self.at(tile))
            .flat_map(|at| {
                let from = self.segments.partition_point(|entry| entry.0 < at as u32);
                let these = self.segments[from..].iter();
                these
                    .take_while(move |entry| entry.0 == at as u32)
                    .map(|entry| entry.1)
            })
            .collect();
        segments.sort_unstable();
        segments.dedup();
        let mut shares: Vec<(usize, f64)> = Vec::new();
        for segment in segments {
            let ends = self.tiles.ends(self.lines, segment).map(|end| end - origin);
            let length = share_within(ends, low, high) * self.lines.span(segment);
            let line = self.lines.line(segment) as usize;
            match shares.last_mut() {
                _ if length <= 0.0 => {}
                Some(last) if last.0 == line => last.1 += length,
                _ => shares.push((line, length)),
            }
        }
        shares.sort_by(|a, b| b.1.total_cmp(&a.1));
        shares
    }
}

/// The tiles of a block.
fn block_of([column, row]: Tile) -> impl Iterator<Item = Tile> {
    let size = BLOCK as i64;
    (0..size).flat_map(move |y| (0..size).map(move |x| [column + x, row + y]))
}

/// The share of a segment that lies in a box, which holds its left and upper edge.
fn share_within([from, to]: [Vector; 2], low: Vector, high: Vector) -> f64 {
    let step = to - from;
    let (mut first, mut last) = (0.0f64, 1.0f64);
    for axis in [0, 1] {
        if step[axis] == 0.0 {
            if !(low[axis]..high[axis]).contains(&from[axis]) {
                return 0.0;
            }
            continue;
        }
        let [one, other] = [low[axis], high[axis]].map(|level| (level - from[axis]) / step[axis]);
        first = first.max(one.min(other));
        last = last.min(one.max(other));
    }
    (last - first).max(0.0)
}
