//! Squares with too much line in them.
//!
//! Problem: where does more than a given length of line lie in a square of a given side (an inch)?
//! Definition: the squares looked at have corners at whole multiples of half a side, counted from
//! the origin, so that neighbours overlap by half; a square holds its left and upper edge. Their
//! line is what a cut of every segment at the edges leaves in them. Squares over the limit that
//! overlap are one place, reported by the fullest.
//! Method: the length in each tile of half a side, by walking along each segment from edge to edge;
//! a square is four tiles. Only squares with a tile of over a quarter of the limit can be over it.
//! Guarantee: the lengths are exact up to rounding, and those of all tiles sum up to that of the
//! lines. Any square along the axes of three quarters of the side lies within one that is looked
//! at, so that no fault of that size is missed between squares. Failure: lines through more than
//! `MAX_TILES` tiles are refused.

use super::found::Found;
use super::lines::{Lines, positive};
use crate::error::{CheckFault, Error};
use crate::geom::{Bounds, Point, Vector};

/// The most tiles that lines may pass through, counted again on each return: 50 km in 1/2 in tiles.
const MAX_TILES: usize = 1 << 22;

/// How much line a square may hold.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct DensityLimit {
    /// The side of the square.
    pub side: f64,
    /// Up to this length of line in a square is no fault.
    pub length: f64,
}

impl DensityLimit {
    /// Up to this length of line in a square of this side, both in the unit of the lines.
    ///
    /// The numbers are checked where the limit is used.
    #[must_use]
    pub fn new(side: f64, length: f64) -> Self {
        Self { side, length }
    }
}

impl Default for DensityLimit {
    /// 16 in of line in a square inch, for lines in millimetres.
    ///
    /// Our own choice: it is what rows 1/16 in apart come to, the distance below which lines count
    /// as too close; a grid of lines 1/8 in apart both ways just meets it.
    fn default() -> Self {
        Self::new(25.4, 16.0 * 25.4)
    }
}

/// A place with too much line.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Dense {
    /// The middle of the fullest square.
    pub at: Point,
    /// The length of line in it.
    pub length: f64,
    /// The lines in it by index, with the length of each, the longest first.
    pub lines: Vec<(usize, f64)>,
    /// The number of squares over the limit that overlap here.
    pub squares: usize,
    /// The box of all of them.
    pub area: Bounds,
}

/// Finds places where squares hold more than a length of line, the fullest first.
///
/// In the unit of the lines. Stitches come to length times stitches per unit.
///
/// ```
/// use quiltpath_core::{check::{DensityLimit, Lines, density}, geom::Point};
///
/// // Rows 1 mm apart, 30 mm long: 25 rows of 25.4 mm lie in a square of 25.4 mm.
/// let rows: Vec<Point> = (0..120u32)
///     .map(|k| Point::new(30.0 * f64::from(k.div_ceil(2) % 2), f64::from(k / 2)))
///     .collect();
/// let lines = Lines::new(&[&rows], Lines::TOLERANCE_MM)?;
/// let found = density(&lines, &DensityLimit::default())?;
/// assert_eq!(found.places.len(), 1);
/// assert!(found.places[0].length > 25.0 * 25.4);
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A geometry error when the side or the length is below 1e-6 or not finite; a check error when the
/// lines pass through more than 4 million squares of half the side, counted again on each return.
///
/// # Complexity
///
/// O(points + tiles log tiles), 24 bytes for each tile that a line enters.
pub fn density(lines: &Lines, limit: &DensityLimit) -> Result<Found<Dense>, Error> {
    positive("the side of a square", limit.side)?;
    positive("the length of line in a square", limit.length)?;
    let tiles = Tiles::of(lines, limit.side / 2.0)?;
    let squares = tiles.squares_over(limit.length);
    let places = overlapping(&squares)
        .into_iter()
        .map(|group| tiles.place(&group));
    let fullest = |a: &Dense, b: &Dense| b.length.total_cmp(&a.length);
    Ok(Found::worst_first(places.collect(), fullest, Vec::new()))
}

/// Column and row of a tile, or of the upper left tile of a square.
type Place = [i64; 2];

/// The length of one line in one tile.
struct Share {
    row: i64,
    column: i64,
    line: u32,
    length: f64,
}

/// The lengths of all lines in all tiles, row after row, one entry for each line.
struct Tiles {
    size: f64,
    shares: Vec<Share>,
}

impl Tiles {
    fn of(lines: &Lines, size: f64) -> Result<Self, Error> {
        let mut walk = Walk {
            shares: Vec::new(),
            steps: 0.0,
        };
        for segment in lines.segments() {
            let (ends, span) = (lines.ends(segment), lines.span(segment));
            walk.segment(lines.line(segment), ends.map(|end| end.coords / size), span)?;
        }
        let mut shares = walk.shares;
        shares.sort_by_key(|share| (share.row, share.column, share.line));
        shares.dedup_by(|next, share| {
            let same = (next.row, next.column, next.line) == (share.row, share.column, share.line);
            if same {
                share.length += next.length;
            }
            same
        });
        Ok(Self { size, shares })
    }

    /// The entries of one tile.
    fn tile(&self, [column, row]: Place) -> &[Share] {
        let place = (row, column);
        let from = self
            .shares
            .partition_point(|share| (share.row, share.column) < place);
        let count = self.shares[from..].partition_point(|share| (share.row, share.column) == place);
        &self.shares[from..from + count]
    }

    fn square(&self, [column, row]: Place) -> impl Iterator<Item = &Share> {
        let tiles = [[0, 0], [1, 0], [0, 1], [1, 1]];
        tiles
            .into_iter()
            .flat_map(move |[x, y]| self.tile([column + x, row + y]))
    }

    /// The squares that hold more than this length, with what they hold, in order.
    fn squares_over(&self, limit: f64) -> Vec<(Place, f64)> {
        let mut places = Vec::new();
        for tile in self
            .shares
            .chunk_by(|a, b| (a.row, a.column) == (b.row, b.column))
        {
            let length: f64 = tile.iter().map(|share| share.length).sum();
            // A quarter less rounding.
            if length > 0.249 * limit {
                let [column, row] = [tile[0].column, tile[0].row];
                places.extend(
                    [[-1, -1], [0, -1], [-1, 0], [0, 0]].map(|[x, y]| [column + x, row + y]),
                );
            }
        }
        places.sort_unstable();
        places.dedup();
        let filled = |place| {
            (
                place,
                self.square(place).map(|share| share.length).sum::<f64>(),
            )
        };
        places
            .into_iter()
            .map(filled)
            .filter(|(_, length)| *length > limit * (1.0 + 1e-9))
            .collect()
    }

    fn place(&self, group: &[(Place, f64)]) -> Dense {
        let mut fullest = group[0];
        let (mut low, mut high) = (group[0].0, group[0].0);
        for &(place, length) in group {
            if length > fullest.1 {
                fullest = (place, length);
            }
            low = [0, 1].map(|axis| low[axis].min(place[axis]));
            high = [0, 1].map(|axis| high[axis].max(place[axis]));
        }
        let corner = |[column, row]: Place| Point::new(column as f64, row as f64) * self.size;
        let side = Vector::repeat(2.0 * self.size);
        let mut shares: Vec<(usize, f64)> = self
            .square(fullest.0)
            .map(|share| (share.line as usize, share.length))
            .collect();
        shares.sort_by_key(|(line, _)| *line);
        shares.dedup_by(|next, share| {
            let same = next.0 == share.0;
            if same {
                share.1 += next.1;
            }
            same
        });
        shares.sort_by(|a, b| b.1.total_cmp(&a.1));
        Dense {
            at: corner(fullest.0) + side / 2.0,
            length: fullest.1,
            lines: shares,
            squares: group.len(),
            area: Bounds {
                min: corner(low),
                max: corner(high) + side,
            },
        }
    }
}

/// Goes along lines from tile to tile.
struct Walk {
    shares: Vec<Share>,
    /// The number of edges passed.
    steps: f64,
}

impl Walk {
    /// Adds a segment, in tiles, whose length along the line is `span`.
    fn segment(&mut self, line: u32, [from, to]: [Vector; 2], span: f64) -> Result<(), Error> {
        let (start, end) = (from.map(f64::floor), to.map(f64::floor));
        let passed = (end - start).abs();
        self.steps += passed.x + passed.y;
        if self.steps > MAX_TILES as f64 {
            let (squares, limit) = (self.steps, MAX_TILES);
            return Err(CheckFault::TooFar { squares, limit }.into());
        }
        let (step, way) = (to - from, to - from);
        let mut left = [passed.x as u64, passed.y as u64];
        let mut tile = [start.x as i64, start.y as i64];
        let mut done = 0.0;
        while left != [0, 0] {
            // The part of the segment up to the next edge of each kind.
            let edge = [0, 1].map(|axis| {
                if left[axis] == 0 {
                    return f64::INFINITY;
                }
                let level = tile[axis] + i64::from(way[axis] > 0.0);
                (level as f64 - from[axis]) / step[axis]
            });
            let axis = usize::from(edge[1] < edge[0]);
            let next = edge[axis].clamp(done, 1.0);
            self.add(line, tile, (next - done) * span);
            done = next;
            tile[axis] += if way[axis] > 0.0 { 1 } else { -1 };
            left[axis] -= 1;
        }
        self.add(line, tile, (1.0 - done) * span);
        Ok(())
    }

    fn add(&mut self, line: u32, [column, row]: Place, length: f64) {
        match self.shares.last_mut() {
            Some(last) if (last.line, last.column, last.row) == (line, column, row) => {
                last.length += length
            }
            _ => self.shares.push(Share {
                row,
                column,
                line,
                length,
            }),
        }
    }
}

/// Squares in groups of those that overlap, each with a neighbour in its group.
fn overlapping(squares: &[(Place, f64)]) -> Vec<Vec<(Place, f64)>> {
    let mut grouped = vec![false; squares.len()];
    let mut groups = Vec::new();
    for index in 0..squares.len() {
        if std::mem::replace(&mut grouped[index], true) {
            continue;
        }
        let mut group = vec![squares[index]];
        let mut next = 0;
        while let Some(&([column, row], _)) = group.get(next) {
            next += 1;
            let around = (-1..=1).flat_map(|x| (-1..=1).map(move |y| [column + x, row + y]));
            for place in around {
                let Ok(found) = squares.binary_search_by_key(&place, |square| square.0) else {
                    continue;
                };
                if !std::mem::replace(&mut grouped[found], true) {
                    group.push(squares[found]);
                }
            }
        }
        groups.push(group);
    }
    groups
}

#[cfg(test)]
mod tests;
