//! The sheets of a template: the tile with its seams and marks under a line of words.

use super::Piece;
use super::ink::{Mm, ends, line, mark, name, put, row_name, way};
use super::tiling::{Grid, HEAD, OVERLAP_MM, Tile};
use crate::geom::measure::length;
use crate::geom::{Bounds, Point};
use crate::io::html::{safe, shortened};

/// The box at the top right that the small overview fits into, in millimetres.
const SMALL: [f64; 2] = [40.0, 9.0];

/// Writes all sheets, each a figure with one drawing at true size.
pub(super) fn write_all(out: &mut String, piece: &Piece<'_>, grid: &Grid, tiles: &[Tile]) {
    let small = Small::of(grid);
    small.define(out, tiles);
    for (at, tile) in tiles.iter().enumerate() {
        let sheet = Leaf {
            piece,
            grid,
            tiles,
            tile,
            at,
        };
        sheet.write(out, &small);
    }
}

struct Leaf<'a> {
    piece: &'a Piece<'a>,
    grid: &'a Grid,
    tiles: &'a [Tile],
    tile: &'a Tile,
    at: usize,
}

impl Leaf<'_> {
    fn write(&self, out: &mut String, small: &Small) {
        let (row, column) = (self.tile.row, self.tile.column);
        let own = name(row, column);
        let bounds = self.grid.tile(row, column);
        let (width, height) = (Mm(bounds.width()), Mm(bounds.height() + HEAD));
        let [row_name, column_name] = [row_name(row), (column + 1).to_string()];
        put(
            out,
            format_args!(
                "<figure>\n<figcaption class=\"leaf-name\">Sheet {own}: row {row_name}, column {column_name}</figcaption>\n\
                 <svg class=\"leaf\" role=\"img\" aria-label=\"Sheet {own} of the piece\" \
                 width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\">\n\
                 <text class=\"big\" y=\"7\">{own}</text>\n\
                 <text class=\"text\" x=\"26\" y=\"3.2\">{}</text>\n\
                 <text class=\"text\" x=\"26\" y=\"7.4\">sheet {} of {}: row {row_name}, column {column_name}; print at 100 %</text>\n",
                safe(&format!(
                    "{}, {}",
                    shortened(self.piece.name, 28),
                    self.piece.readable_size()
                )),
                self.at + 1,
                self.tiles.len(),
            ),
        );
        small.show(out, self.tile, bounds.width());
        put(
            out,
            format_args!(
                "<svg y=\"{HEAD}\" width=\"{width}\" height=\"{}\" viewBox=\"{} {} {width} {}\">\n",
                Mm(bounds.height()),
                Mm(bounds.min.x),
                Mm(bounds.min.y),
                Mm(bounds.height())
            ),
        );
        self.outline(out);
        self.seams(out, bounds);
        for (_, part) in &self.tile.parts {
            line(out, "line", part.points());
        }
        let parts = self.tile.parts.iter().map(|(_, part)| part.points());
        if let Some(longest) = parts.max_by(|a, b| length(a).total_cmp(&length(b))) {
            way(out, longest);
        }
        ends(out, self.piece, bounds);
        out.push_str("</svg>\n</svg>\n</figure>\n");
    }

    /// The piece's bounds, with the middle of each side.
    fn outline(&self, out: &mut String) {
        const TICK: f64 = 4.0;
        let size = self.piece.size;
        let (w, h) = (Mm(size.x), Mm(size.y));
        put(
            out,
            format_args!(
                "<path class=\"bounds\" d=\"M0,0H{w}V{h}H0Z\"/>\n<path class=\"fine\" d=\""
            ),
        );
        let middle = size / 2.0;
        let (x, y) = (Mm(middle.x), Mm(middle.y));
        for edge in [0.0, size.y] {
            put(out, format_args!("M{x},{}v{}", Mm(edge - TICK), 2.0 * TICK));
        }
        for edge in [0.0, size.x] {
            put(out, format_args!("M{},{y}h{}", Mm(edge - TICK), 2.0 * TICK));
        }
        out.push_str("\"/>\n");
    }

    /// The seams to the sheets around: cut on the right and below, laid on from the left and above.
    fn seams(&self, out: &mut String, bounds: Bounds) {
        let (row, column) = (self.tile.row, self.tile.column);
        let cell = self.grid.cell(row, column);
        let sides = [
            (column > 0).then(|| (row, column - 1, Seam::left(cell.min.x, bounds))),
            (row > 0).then(|| (row - 1, column, Seam::above(cell.min.y, bounds))),
            Some((row, column + 1, Seam::right(cell.max.x, bounds))),
            Some((row + 1, column, Seam::below(cell.max.y, bounds))),
        ];
        for (row, column, seam) in sides.into_iter().flatten() {
            let key = |tile: &Tile| (tile.row, tile.column);
            if self.tiles.binary_search_by_key(&(row, column), key).is_ok() {
                seam.write(out, &name(row, column));
            }
        }
    }
}

/// One seam of a sheet, in the piece's millimetres.
struct Seam {
    from: Point,
    to: Point,
    /// True when this sheet is cut here and lies on the other one.
    cut: bool,
    /// The base of the words, in the middle of the strip outside the seam, and their turn.
    words: Point,
    turn: i32,
}

/// From a seam to the base of words in the outer half of the strip.
const WORDS: f64 = OVERLAP_MM / 4.0 + 1.0;

impl Seam {
    fn left(x: f64, tile: Bounds) -> Self {
        Self::upright(x, tile, false, x - OVERLAP_MM / 2.0 + WORDS)
    }

    fn right(x: f64, tile: Bounds) -> Self {
        Self::upright(x, tile, true, x + WORDS)
    }

    fn upright(x: f64, tile: Bounds, cut: bool, base: f64) -> Self {
        Self {
            from: Point::new(x, tile.min.y),
            to: Point::new(x, tile.max.y),
            cut,
            words: Point::new(base, tile.centre().y),
            turn: -90,
        }
    }

    fn above(y: f64, tile: Bounds) -> Self {
        Self::level(y, tile, false, y - OVERLAP_MM / 2.0 + WORDS)
    }

    fn below(y: f64, tile: Bounds) -> Self {
        Self::level(y, tile, true, y + WORDS)
    }

    fn level(y: f64, tile: Bounds, cut: bool, base: f64) -> Self {
        Self {
            from: Point::new(tile.min.x, y),
            to: Point::new(tile.max.x, y),
            cut,
            words: Point::new(tile.centre().x, base),
            turn: 0,
        }
    }

    fn write(&self, out: &mut String, other: &str) {
        let (class, words) = if self.cut {
            ("fine cut", format!("cut here, lay on {other}"))
        } else {
            ("fine", format!("lay {other} up to this line"))
        };
        line(out, class, &[self.from, self.to]);
        for share in [0.25, 0.75] {
            mark(out, self.from + (self.to - self.from) * share);
        }
        let (x, y) = (Mm(self.words.x), Mm(self.words.y));
        put(
            out,
            format_args!(
                "<text class=\"word small middle\" transform=\"translate({x} {y}) rotate({})\">{words}</text>\n",
                self.turn
            ),
        );
    }
}

/// The small overview on each sheet: all sheets as boxes, this one filled.
struct Small {
    /// The size of a box.
    step: [f64; 2],
    width: f64,
    shown: bool,
}

impl Small {
    fn of(grid: &Grid) -> Self {
        let [columns, rows] = [grid.columns, grid.rows].map(|count| count as f64);
        let (w, h) = (grid.tile.x, grid.tile.y);
        let scale = (SMALL[0] / (columns * w)).min(SMALL[1] / (rows * h));
        Self {
            step: [w * scale, h * scale],
            width: columns * w * scale,
            shown: grid.rows * grid.columns > 1,
        }
    }

    /// The boxes of all sheets, once for all of them.
    fn define(&self, out: &mut String, tiles: &[Tile]) {
        if !self.shown {
            return;
        }
        let [w, h] = self.step;
        // Drawn nowhere by itself; what is not displayed could not be used.
        out.push_str(
            "<svg width=\"0\" height=\"0\" style=\"position:absolute\" aria-hidden=\"true\">\
             <defs><path id=\"all\" class=\"fine\" d=\"",
        );
        for tile in tiles {
            let (x, y) = (w * tile.column as f64, h * tile.row as f64);
            put(
                out,
                format_args!("M{},{}h{}v{}h-{}Z", Mm(x), Mm(y), Mm(w), Mm(h), Mm(w)),
            );
        }
        out.push_str("\"/></defs></svg>\n");
    }

    fn show(&self, out: &mut String, tile: &Tile, right: f64) {
        if !self.shown {
            return;
        }
        let [w, h] = self.step;
        let left = right - self.width - 0.2;
        put(
            out,
            format_args!(
                "<use href=\"#all\" x=\"{}\" y=\".2\"/><rect class=\"here\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n",
                Mm(left),
                Mm(left + w * tile.column as f64),
                Mm(0.2 + h * tile.row as f64),
                Mm(w),
                Mm(h)
            ),
        );
    }
}
