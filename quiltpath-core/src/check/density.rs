//! Squares with too much line in them.
//!
//! Problem: where does more than a given length of line lie in a square of a given side (an inch),
//! its sides along the axes? Definition: the squares looked at have corners at whole multiples of
//! 1/32 of the side, counted from the origin; a square holds its left and upper edge. Their line is
//! what a cut of every segment at the edges leaves in them.
//! Method: the length in each tile of a quarter of the side (`tiles`), by walking along each
//! segment from edge to edge. All squares whose upper left corner lies in one tile lie in the block
//! of 5 by 5 tiles from there: where that holds no more than the limit, none of them does. The
//! other blocks are cut finer (`fine`), and sums up to each place give all their squares at once.
//! Guarantee: lengths are exact up to rounding, so what is reported is so. Nothing is missed that
//! matters: any square along the axes whose side is 31/32 of the one asked for, wherever it lies,
//! lies in one that is looked at, so that it holds no more than the limit where nothing is
//! reported. A square of the whole side can hold more only by line in a strip of 1/32 of its side
//! along two of its edges. Failure: lines through more than `MAX_TILES` tiles are refused.
//!
//! Squares over the limit that overlap are one place, reported by the fullest.

mod fine;
mod tiles;

use self::fine::{Fine, Full};
use self::tiles::{ROUNDING, TILES, Tile, Tiles};
use super::found::Found;
use crate::error::Error;
use crate::geom::lines::{Lines, positive};
use crate::geom::{Bounds, Point, Vector};

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
    /// How many squares over the limit overlap here, those that start in one quarter of a side,
    /// across and down, counted once.
    pub squares: usize,
    /// The box of them, the fullest of each such quarter.
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
/// lines pass through more than 4 million squares of a quarter of the side, counted again on each
/// return.
///
/// # Complexity
///
/// O(points + tiles log tiles), 24 bytes for each tile that a line enters; where much is over the
/// limit, 512 bytes for each such tile.
pub fn density(lines: &Lines, limit: &DensityLimit) -> Result<Found<Dense>, Error> {
    positive("the side of a square", limit.side)?;
    positive("the length of line in a square", limit.length)?;
    let tiles = Tiles::of(lines, limit.side / TILES as f64)?;
    let blocks = tiles.blocks_over(limit.length);
    let fine = Fine::of(lines, &tiles, &blocks);
    let over = blocks.iter().filter_map(|block| {
        let full = fine.fullest(*block);
        (full.length > limit.length * (1.0 + ROUNDING)).then_some((*block, full))
    });
    let places = overlapping(&over.collect::<Vec<_>>())
        .into_iter()
        .map(|group| place(&fine, &group));
    let full = |place: &Dense| place.length;
    Ok(Found::worst_first(places.collect(), full, Vec::new()))
}

/// A place of squares that overlap.
fn place(fine: &Fine<'_>, group: &[(Tile, Full)]) -> Dense {
    let corners = || group.iter().map(|(_, full)| full.corner);
    let min = corners().fold(group[0].1.corner, |low, corner| low.inf(&corner));
    let max = corners().fold(group[0].1.corner, |high, corner| high.sup(&corner));
    let fullest = central(group);
    let side = Vector::repeat(fine.side());
    Dense {
        at: fullest.corner + side / 2.0,
        length: fullest.length,
        lines: fine.lines(&fullest),
        squares: group.len(),
        area: Bounds {
            min,
            max: max + side,
        },
    }
}

/// The fullest square: of several that are equally full the one that lies nearest to their middle.
fn central(group: &[(Tile, Full)]) -> Full {
    let most = group
        .iter()
        .map(|square| square.1.length)
        .fold(0.0, f64::max);
    let full = || {
        let squares = group.iter().map(|square| square.1);
        squares.filter(|full| full.length >= most * (1.0 - ROUNDING))
    };
    let sum: Vector = full().map(|full| full.corner.coords).sum();
    let middle = Point::from(sum / full().count() as f64);
    let off = |full: &Full| (full.corner - middle).norm_squared();
    full()
        .min_by(|a, b| off(a).total_cmp(&off(b)))
        .unwrap_or(group[0].1)
}

/// Squares in groups of those that overlap, each with a neighbour in its group.
fn overlapping(squares: &[(Tile, Full)]) -> Vec<Vec<(Tile, Full)>> {
    // Those that start farther apart may not overlap, since each starts anywhere in its tile.
    const FAR: i64 = TILES as i64 - 1;
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
            let around =
                (-FAR..=FAR).flat_map(|x| (-FAR..=FAR).map(move |y| [column + x, row + y]));
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
