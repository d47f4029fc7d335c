//! The grid of sheets over a piece, and the parts of its lines on each sheet.
//!
//! Problem: lines have to be printed at true size on sheets that are smaller than they are, so
//! that the sheets can be laid together again. Method: equal tiles in rows and columns, each
//! sharing a strip of [`OVERLAP_MM`] with its neighbours, the piece in the middle of them; the
//! lines are cut to the columns and what falls into one to its rows, by [`crate::trim`], so
//! that a line of n points costs O(n (rows + columns)) and not O(n rows columns). Of the two ways
//! to turn the paper the one with fewer sheets is taken.
//!
//! Guarantee: every point of the lines lies on a sheet, and on all sheets whose tiles hold it;
//! parts keep the order and the direction of travel; a tile that no line enters has no sheet, and
//! the sheets that a line runs over hang together by their sides, because a line leaves a tile only
//! where another holds it too. Stretches of the cloth are cut like lines. Failure case: more tiles
//! than [`MAX_SHEETS`], which is an error.

use crate::error::{Error, PaperFault};
use crate::geom::region::Region;
use crate::geom::{Bounds, Point, Polyline, Vector};
use crate::io::paper::{Paper, Sheet};
use crate::trim::inside;
use crate::units::Unit;

/// The width of the strip that two sheets side by side both show, in millimetres: 1/2 in.
pub(super) const OVERLAP_MM: f64 = 12.7;

/// The most tiles that a template may have.
const MAX_SHEETS: usize = 400;

/// Room round the piece for the marks at its ends, in millimetres.
pub(super) const ROOM: f64 = 6.0;

/// The height of the words at the top of a sheet, in millimetres.
pub(super) const HEAD: f64 = 11.0;

/// Left free at the bottom, so that no rounding of a browser pushes a sheet to a second page.
const SPARE: f64 = 1.0;

/// One sheet: its tile and what is drawn on it.
#[derive(Debug)]
pub(super) struct Tile {
    pub(super) row: usize,
    pub(super) column: usize,
    /// The parts of the lines, each with the index of its line, in the order of travel.
    pub(super) parts: Vec<(usize, Polyline)>,
    /// The parts of the stretches of the cloth, each with its index.
    pub(super) cloth: Vec<(usize, Polyline)>,
}

/// Tiles over a piece whose top left corner is the origin, and the cloth beside it; all lengths in
/// millimetres.
#[derive(Debug, Clone, Copy)]
pub(super) struct Grid {
    pub(super) sheet: Sheet,
    pub(super) rows: usize,
    pub(super) columns: usize,
    /// The top left corner of the first tile.
    pub(super) origin: Point,
    /// The size of a tile.
    pub(super) tile: Vector,
}

/// How many rows and columns of tiles of this size cover a piece of this size.
fn count(piece: Vector, tile: Vector) -> Vector {
    let overlap = Vector::repeat(OVERLAP_MM);
    let room = piece + Vector::repeat(2.0 * ROOM) - overlap;
    // A piece that fills its sheets to the last rounding takes no sheet more.
    room.component_div(&(tile - overlap))
        .map(|count| (count - 1e-9).ceil().max(1.0))
}

fn tile_of(sheet: Sheet) -> Vector {
    let [width, height] = sheet.inside_mm();
    Vector::new(width, height - HEAD - SPARE)
}

impl Grid {
    fn over(shown: Bounds, sheet: Sheet) -> Option<Self> {
        let tile = tile_of(sheet);
        let count = count(shown.size(), tile);
        if count.x * count.y > MAX_SHEETS as f64 {
            return None;
        }
        let step = tile - Vector::repeat(OVERLAP_MM);
        let whole = step.component_mul(&count) + Vector::repeat(OVERLAP_MM);
        Some(Self {
            sheet,
            rows: count.y as usize,
            columns: count.x as usize,
            origin: shown.centre() - whole / 2.0,
            tile,
        })
    }

    /// The box of the tile in this row and column.
    pub(super) fn tile(&self, row: usize, column: usize) -> Bounds {
        let step = self.tile - Vector::repeat(OVERLAP_MM);
        let min = self.origin + step.component_mul(&Vector::new(column as f64, row as f64));
        Bounds {
            min,
            max: min + self.tile,
        }
    }

    /// What is left of a tile when sheets are cut and laid on their seams, which run in the middle
    /// of the strips that sheets share.
    pub(super) fn cell(&self, row: usize, column: usize) -> Bounds {
        let mut cell = self.tile(row, column);
        let half = OVERLAP_MM / 2.0;
        cell.min += Vector::new(
            if column > 0 { half } else { 0.0 },
            if row > 0 { half } else { 0.0 },
        );
        cell.max -= Vector::new(
            if column + 1 < self.columns { half } else { 0.0 },
            if row + 1 < self.rows { half } else { 0.0 },
        );
        cell
    }

    /// The box of all tiles.
    pub(super) fn whole(&self) -> Bounds {
        self.tile(0, 0)
            .union(&self.tile(self.rows - 1, self.columns - 1))
    }

    /// The sheets that a line enters, or a stretch of the cloth, row by row.
    pub(super) fn cut(&self, lines: &[Polyline], cloth: &[Polyline]) -> Result<Vec<Tile>, Error> {
        let whole = self.whole();
        let mut tiles = Vec::new();
        for column in 0..self.columns {
            let (first, last) = (self.tile(0, column), self.tile(self.rows - 1, column));
            let strip = Bounds {
                min: Point::new(first.min.x, whole.min.y),
                max: Point::new(last.max.x, whole.max.y),
            };
            let found = [lines, cloth].map(|all| parts(all.iter().enumerate(), strip));
            let [lines, cloth] = found;
            let (lines, cloth) = (lines?, cloth?);
            for row in 0..self.rows {
                let tile = self.tile(row, column);
                let here = |found: &[(usize, Polyline)]| {
                    parts(found.iter().map(|(index, line)| (*index, line)), tile)
                };
                let (parts, cloth) = (here(&lines)?, here(&cloth)?);
                if !(parts.is_empty() && cloth.is_empty()) {
                    tiles.push(Tile {
                        row,
                        column,
                        parts,
                        cloth,
                    });
                }
            }
        }
        tiles.sort_by_key(|tile| (tile.row, tile.column));
        Ok(tiles)
    }
}

fn parts<'a>(
    lines: impl Iterator<Item = (usize, &'a Polyline)>,
    bounds: Bounds,
) -> Result<Vec<(usize, Polyline)>, Error> {
    let region = Region::rectangle(bounds)?;
    let mut parts = Vec::new();
    for (index, line) in lines {
        let found = inside(line, &region, 0.0)?.pieces;
        parts.extend(found.into_iter().map(|piece| (index, piece.line)));
    }
    Ok(parts)
}

/// The grid with the fewest sheets, and its sheets; upright when both ways take as many.
///
/// `lines` and `cloth` are in millimetres with the piece's top left corner at the origin, `shown`
/// is the box that holds them, `unit` the one to answer in.
pub(super) fn lay(
    lines: &[Polyline],
    cloth: &[Polyline],
    shown: Bounds,
    paper: Paper,
    unit: Unit,
) -> Result<(Grid, Vec<Tile>), Error> {
    let mut best: Option<(Grid, Vec<Tile>)> = None;
    for sideways in [false, true] {
        if let Some(grid) = Grid::over(shown, Sheet { paper, sideways }) {
            let tiles = grid.cut(lines, cloth)?;
            if best.as_ref().is_none_or(|(_, b)| tiles.len() < b.len()) {
                best = Some((grid, tiles));
            }
        }
    }
    best.ok_or_else(|| too_large(shown.size(), paper, unit))
}

fn too_large(size: Vector, paper: Paper, unit: Unit) -> Error {
    let sheets = |share: f64| {
        [false, true]
            .map(|sideways| {
                let count = count(size * share, tile_of(Sheet { paper, sideways }));
                count.x * count.y
            })
            .into_iter()
            .fold(f64::INFINITY, f64::min)
    };
    // Fewer sheets never come of a larger piece, so halving finds the largest that is accepted.
    let (mut fits, mut fails) = (0.0, 1.0);
    for _ in 0..100 {
        let middle = (fits + fails) / 2.0;
        if sheets(middle) <= MAX_SHEETS as f64 {
            fits = middle;
        } else {
            fails = middle;
        }
    }
    // Rounded down to what people read, so that the size named is accepted.
    let step = match unit {
        Unit::In => 25.4 / 16.0,
        Unit::Mm | Unit::Cm => 0.5,
        Unit::Ft | Unit::Yd | Unit::M => unit.in_mm() / 1000.0,
    };
    let accepted = (size * fits).map(|mm| (mm / step).floor() * step);
    let fault = PaperFault::TooManySheets {
        size: size.into(),
        sheets: sheets(1.0),
        paper: paper.name(),
        limit: MAX_SHEETS,
        accepted: accepted.into(),
    };
    Error::from(fault).in_unit(unit)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn line(points: &[(f64, f64)]) -> Polyline {
        Polyline::new(points.iter().map(|&(x, y)| Point::new(x, y)).collect()).expect("a line")
    }

    fn laid(points: &[(f64, f64)]) -> (Polyline, Grid, Vec<Tile>) {
        let line = line(points);
        let bounds = line.bounds();
        let line = line.map(|p| p - bounds.min.coords).expect("moved");
        let (grid, tiles) = lay(
            std::slice::from_ref(&line),
            &[],
            line.bounds(),
            Paper::A4,
            Unit::Mm,
        )
        .expect("laid");
        (line, grid, tiles)
    }

    #[test]
    fn the_paper_is_turned_where_that_saves_sheets() {
        // Inside the margins A4 leaves 184.6 x 271.6 mm, of which 12 in height are words and room
        // to spare; 12 mm more go round the piece: 172.6 x 247.6 on one sheet, upright.
        let (_, grid, tiles) = laid(&[(0.0, 0.0), (172.6, 247.6)]);
        assert_eq!((grid.sheet.sideways, tiles.len()), (false, 1));
        // Sideways 271.6 x 172.6.
        let (_, grid, tiles) = laid(&[(0.0, 0.0), (259.6, 160.6)]);
        assert_eq!((grid.sheet.sideways, tiles.len()), (true, 1));
        // Two sheets sideways hold 2 x 271.6 - 12.7 - 12 = 518.5.
        let (_, grid, tiles) = laid(&[(0.0, 0.0), (518.5, 10.0)]);
        assert_eq!((grid.columns, grid.rows, tiles.len()), (2, 1, 2));
        let (_, grid, _) = laid(&[(0.0, 0.0), (518.6, 10.0)]);
        assert_eq!(grid.columns, 3);
    }

    #[test]
    fn tiles_without_a_line_have_no_sheet() {
        let (_, grid, tiles) = laid(&[(0.0, 900.0), (0.0, 0.0), (900.0, 0.0)]);
        let l = grid.rows + grid.columns - 1;
        assert_eq!(tiles.len(), l);
        assert!(tiles.iter().all(|tile| tile.row == 0 || tile.column == 0));
        assert!(tiles.is_sorted_by_key(|tile| (tile.row, tile.column)));
    }

    #[test]
    fn the_size_that_a_refusal_names_is_accepted_and_twice_that_is_not() {
        for (unit, size) in [
            (Unit::Mm, Vector::new(1e9, 3e8)),
            (Unit::In, Vector::new(254_000.0, 10.0)),
            (Unit::Ft, Vector::new(5e3, 5e4)),
        ] {
            let diagonal = line(&[(0.0, 0.0), (size.x, size.y)]);
            let shown = diagonal.bounds();
            let error = lay(&[diagonal], &[], shown, Paper::Letter, unit).expect_err("too large");
            assert!(error.is_paper());
            let error = error.to_string();
            assert!(error.contains("up to 400 are accepted"), "{error}");
            let (_, accepted) = error.split_once("piece of up to ").expect("a size");
            let (accepted, _) = accepted.split_once(':').expect("a size");
            let mm = |text: &str| {
                let typed: crate::units::Length = text.parse().expect("a length");
                typed.to_mm(None).expect("a unit")
            };
            let (w, h) = accepted.split_once(" x ").expect("two lengths");
            let accepted = Vector::new(mm(w), mm(h));
            let fits = |size: Vector| {
                [false, true].into_iter().any(|sideways| {
                    let paper = Paper::Letter;
                    let min = Point::origin();
                    let shown = Bounds {
                        min,
                        max: min + size,
                    };
                    Grid::over(shown, Sheet { paper, sideways }).is_some()
                })
            };
            assert!(fits(accepted) && !fits(accepted * 2.0), "{error}");
        }
    }

    proptest! {
        /// Sampled at steps of a fraction of the overlap, every place of the line is on exactly
        /// the sheets whose tiles hold it, and the parts of a sheet come in the order of travel.
        #[test]
        fn every_place_is_on_every_sheet_that_holds_it(
            points in prop::collection::vec((0.0..900.0f64, 0.0..700.0f64), 2..30),
        ) {
            let (line, grid, tiles) = laid(&points);
            for tile in &tiles {
                let bounds = grid.tile(tile.row, tile.column);
                for (_, part) in &tile.parts {
                    let ink = part.bounds();
                    prop_assert!((bounds.min - ink.min).max() < 1e-8);
                    prop_assert!((ink.max - bounds.max).max() < 1e-8);
                }
            }
            let held = |tile: &Tile, point: Point| tile.parts.iter().any(|(_, part)| {
                part.points().windows(2).any(|pair| {
                    crate::geom::measure::distance_to_segment(point, pair[0], pair[1]) < 1e-6
                })
            });
            for pair in line.points().windows(2) {
                for share in [0.0, 0.13, 0.5, 0.77, 1.0] {
                    let place = pair[0] + (pair[1] - pair[0]) * share;
                    let mut sheets = 0;
                    for row in 0..grid.rows {
                        for column in 0..grid.columns {
                            let bounds = grid.tile(row, column);
                            let deep = (place - bounds.min).inf(&(bounds.max - place)).min();
                            if deep > 1e-6 {
                                let tile = tiles.iter().find(|t| (t.row, t.column) == (row, column));
                                prop_assert!(tile.is_some_and(|tile| held(tile, place)));
                                sheets += 1;
                            }
                        }
                    }
                    prop_assert!(sheets >= 1);
                }
            }
        }

        /// A line over many sheets can be laid together: no sheet stands apart from the others.
        #[test]
        fn sheets_hang_together_by_their_sides(
            points in prop::collection::vec((0.0..1500.0f64, 0.0..1500.0f64), 2..6),
        ) {
            let (_, _, tiles) = laid(&points);
            let mut reached = vec![(tiles[0].row, tiles[0].column)];
            let mut at = 0;
            while let Some(&(row, column)) = reached.get(at) {
                for tile in &tiles {
                    let place = (tile.row, tile.column);
                    let steps = row.abs_diff(tile.row) + column.abs_diff(tile.column);
                    if steps == 1 && !reached.contains(&place) {
                        reached.push(place);
                    }
                }
                at += 1;
            }
            prop_assert_eq!(reached.len(), tiles.len());
        }

        /// Parts follow the line: each starts no earlier than the one before it ends.
        #[test]
        fn parts_come_in_the_order_of_travel(
            xs in prop::collection::vec(0.0..600.0f64, 2..40),
        ) {
            // y rises along the line.
            let points: Vec<_> = xs.iter().zip(0..).map(|(&x, y)| (x, 20.0 * f64::from(y))).collect();
            let (_, _, tiles) = laid(&points);
            for tile in &tiles {
                let mut before = f64::NEG_INFINITY;
                for (_, part) in &tile.parts {
                    prop_assert!(part.points().is_sorted_by(|a, b| a.y <= b.y));
                    prop_assert!(part.start().y >= before - 1e-9);
                    before = part.end().y;
                }
            }
        }
    }
}
